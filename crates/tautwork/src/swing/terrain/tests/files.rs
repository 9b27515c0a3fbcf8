//! Files: the same mesh from each format, and what is wrong with a broken one.

use super::*;

const TENT: &str = "# a tent
o tent
v 0 0 0
v 4 0 0
v 4 3 0
v 0 3 0
v 2 1.5 2.5
vn 0 0 1
vt 0.5 0.5
l 1 2 3
f 1/1/1 2 5
f 2 3 5 # east
usemtl grass
f 3 4 -1
g west
f 4 1 5
";

fn stl(mesh: &TerrainMesh) -> (String, Vec<u8>) {
    let mut text = "solid\n".to_owned();
    let mut triangles = Vec::new();
    for corners in mesh.surface().corners() {
        text += "facet normal 0 0 0\nouter loop\n";
        text.extend(corners.map(|[x, y, z]| format!("vertex {x} {y} {z}\n")));
        text += "endloop\nendfacet\n";
        #[expect(clippy::cast_possible_truncation, reason = "the format has single precision")]
        let vertices = corners.map(|c| stl_io::Vertex::new(c.map(|v| v as f32)));
        triangles.push(stl_io::Triangle { normal: stl_io::Normal::new([0.0; 3]), vertices });
    }
    text += "endsolid\n";
    let mut bytes = Vec::new();
    stl_io::write_stl(&mut bytes, triangles.iter()).unwrap();
    (text, bytes)
}

fn read(file: MeshFile) -> Result<TerrainMesh, TerrainError> {
    TerrainMesh::new(file, Placing::aligned(1.0.meters(), Up::Z))
}

#[test]
fn three_formats_give_one_mesh() {
    let tent = mesh(TENT);
    assert_eq!(tent.triangles(), 4);
    let (text, mut bytes) = stl(&tent);
    let all: Vec<_> = tent.surface().corners().collect();
    let from_text = read(MeshFile::StlText(text)).unwrap();
    assert_eq!(from_text.surface().corners().collect::<Vec<_>>(), all);
    // A header that reads like the text format, which writers do put there.
    bytes[..9].copy_from_slice(b"solid abc");
    let from_bytes = read(MeshFile::StlBinary(bytes)).unwrap();
    assert_eq!(from_bytes.surface().corners().collect::<Vec<_>>(), all);
    // Single precision: half a unit in the last place of 4.
    let rounding = terrain_facts(&from_bytes).rounding.si();
    assert!((rounding - 4.0 * 2.0_f64.powi(-24)).abs() < 1e-20);
}

#[test]
fn documents_hold_each_format() {
    let (text, bytes) = stl(&mesh(TENT));
    let placing =
        Placing { scale: 1.0.feet(), up: Up::Y, origin: at(3.0, -2.0), turn: 30.0.degrees() };
    for file in [MeshFile::Obj(TENT.into()), MeshFile::StlText(text), MeshFile::StlBinary(bytes)] {
        let mesh = TerrainMesh::new(file, placing).unwrap();
        let wall = Wall::mesh("tent", mesh);
        let json = serde_json::to_string(&wall).unwrap();
        let back: Wall = serde_json::from_str(&json).unwrap();
        assert_eq!(back, wall);
        let corners =
            |wall: &Wall| wall.mesh.as_ref().unwrap().surface().corners().collect::<Vec<_>>();
        assert_eq!(corners(&back), corners(&wall));
    }
    // The form of a profile is what it was.
    let old = r#"{"name":"w","points":[{"x":"0 m","z":"0 m"},{"x":"1 m","z":"0 m"}]}"#;
    let wall: Wall = serde_json::from_str(old).unwrap();
    assert_eq!((wall.points.len(), wall.mesh.is_none()), (2, true));
    for (wrong, part) in [
        (
            r#"{"obj":"v 0 0 0","stl":"solid","scale":"1 m","up":"z"}"#,
            "is 2; it must be one of obj,",
        ),
        (r#"{"scale":"1 m","up":"z"}"#, "is 0; it must be one of obj,"),
        (r#"{"obj":"v 0 0 0","up":"z"}"#, "missing field `scale`"),
        (r#"{"obj":"v 0 0 0","scale":"1 m"}"#, "missing field `up`"),
        (r#"{"obj":"v 0 0 0","scale":"1 m","up":"x"}"#, "unknown variant `x`"),
        (r#"{"obj":"v 0 0 0","scale":"1 m","up":"z"}"#, "holds no triangle"),
        (r#"{"stl_binary":"&","scale":"1 m","up":"z"}"#, "the file is not bytes in base64"),
    ] {
        let error = serde_json::from_str::<TerrainMesh>(wrong).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    }
}

#[test]
fn faces_of_more_corners_are_cut_or_refused() {
    let pentagon = "v 0 0 0\nv 4 0 0\nv 5 2 0\nv 2 4 0\nv -1 2 0\n";
    let cut = mesh(&format!("{pentagon}f 1 2 3 4 5"));
    // Shoelace: (0 + 8 + 16 + 8 + 0) / 2.
    assert_eq!((cut.triangles(), terrain_facts(&cut).area.si()), (3, 16.0));
    let dart = "v 0 0 0\nv 4 0 0\nv 1 1 0\nv 0 4 0\n";
    // From the corner opposite the dent it can be cut, from its neighbours it cannot.
    assert_eq!(terrain_facts(&mesh(&format!("{dart}f 1 2 3 4"))).area.si(), 4.0);
    let error = read(MeshFile::Obj(format!("{dart}f 2 3 4 1"))).unwrap_err();
    assert_eq!(error.to_string(), "line 5: the face is bent inwards: give it as triangles");
}

#[test]
fn broken_files_name_the_line_or_the_triangle() {
    let v = "v 0 0 0\nv 4 0 0\nv 4 3 0\n";
    let objs = [
        (String::new(), "the file holds no triangle"),
        ("# nothing\nv 1 2 3\n".into(), "the file holds no triangle"),
        (format!("{v}f 1 2 4\n"), "line 4: face vertex index out of bounds"),
        (format!("{v}f 1 2 0\n"), "line 4: face vertex index out of bounds"),
        (format!("{v}f 1 2 -4\n"), "line 4: face vertex index out of bounds"),
        (format!("{v}\n# c\nf 1 2 x\nf 1 2 3\n"), "line 6: face parse error"),
        (format!("{v}f 1 2\n"), "line 4: a face needs at least three corners"),
        (format!("{v}f\n"), "line 4: a face needs at least three corners"),
        (format!("{v}f 1 2 3\nf 1 2 2\n"), "line 5: the corners of the triangle lie on one line"),
        ("v 0 0\nf 1 1 1".into(), "line 1: position parse error"),
        ("v 0 0 0\nv 1,0 0 0\n".into(), "line 2: position parse error"),
        (format!("{v}v nan 0 0\nf 2 3 4"), "line 5: a corner is not finite"),
        (format!("{v}v 1e999 0 0\nf 2 3 4"), "line 5: a corner is not finite"),
        (format!("{v}v 2e6 0 0\nf 2 3 4"), "line 5: a corner is more than 1000 km from the origin"),
    ];
    for (text, want) in objs {
        assert_eq!(read(MeshFile::Obj(text.clone())).unwrap_err().to_string(), want, "{text}");
    }
    let facet = |z: &str| {
        format!(
            "facet normal 0 0 1\nouter loop\nvertex 0 0 {z}\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\n"
        )
    };
    let good = facet("0");
    let stls = [
        (String::new(), "the file is not STL text: it does not begin with the word solid"),
        ("solid x\nendsolid x\n".into(), "the file holds no triangle"),
        (format!("solid x\n{good}{}endsolid", facet("nan")), "triangle 2: expected finite"),
        (format!("solid x\n{good}{good}"), "triangle 3: EOF while expecting facet"),
        (
            format!("solid x\n{good}endsolid\nsolid y\n{good}endsolid"),
            "more follows after endsolid",
        ),
        (
            format!("solid\n{}endsolid", good.replace("vertex 1 0 0", "vertex 0 0 0")),
            "triangle 1: the corners",
        ),
    ];
    for (text, want) in stls {
        let error = read(MeshFile::StlText(text.clone())).unwrap_err().to_string();
        assert!(error.contains(want), "{want} not in {error}");
    }
    let (_, mut bytes) = stl(&mesh(TENT));
    bytes.pop();
    let cut = read(MeshFile::StlBinary(bytes.clone())).unwrap_err().to_string();
    assert!(cut.ends_with("4 triangles need 284 bytes, it has 283"), "{cut}");
    bytes.push(0);
    bytes[84 + 50 + 12..][..4].copy_from_slice(&f32::NAN.to_le_bytes());
    let error = read(MeshFile::StlBinary(bytes)).unwrap_err().to_string();
    assert_eq!(error, "triangle 2: a corner is not finite");
    let short = read(MeshFile::StlBinary(vec![0; 10])).unwrap_err().to_string();
    assert!(short.ends_with("10 bytes are less than its header"), "{short}");
}

#[test]
fn placings_are_checked() {
    let tent = || MeshFile::Obj(TENT.to_owned());
    let aligned = Placing::aligned(1.0.meters(), Up::Z);
    for (placing, part) in [
        (Placing { scale: 0.0.meters(), ..aligned }, "scale is 0 m; it must be above zero"),
        (Placing { scale: f64::NAN.meters(), ..aligned }, "scale is NaN m"),
        (Placing { scale: 1e300.meters(), ..aligned }, "more than 1000 km"),
        (Placing { scale: 1e-300.meters(), ..aligned }, "lie on one line"),
        (Placing { turn: f64::INFINITY.radians(), ..aligned }, "turn is inf"),
        (Placing { origin: at(f64::NAN, 0.0), ..aligned }, "origin.x is NaN m"),
        (Placing { origin: at(1e7, 0.0), ..aligned }, "more than 1000 km"),
    ] {
        let error = TerrainMesh::new(tent(), placing).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    }
}

#[test]
fn files_above_the_bound_are_refused() {
    let text = "#".repeat(100_000_001);
    let error = read(MeshFile::Obj(text)).unwrap_err();
    assert!(matches!(error, TerrainError::TooLarge { .. }), "{error:?}");
    // One face more than a million in 12 bytes each.
    let many = format!("v 0 0 0\nv 4 0 0\nv 4 3 0\n{}", "f 1 2 3\n".repeat(1_000_001));
    let error = read(MeshFile::Obj(many)).unwrap_err().to_string();
    assert_eq!(error, "the file has more than 1000000 triangles; at most 1000000 are read");
}

proptest::proptest! {
    #[test]
    fn any_text_gives_a_mesh_or_an_error(text in "(?s)((v|f|vn|l|solid|facet normal|vertex|endsolid|endloop|outer loop|-?[0-9]{1,3}(\\.[0-9])?|1e3[0-9]{0,2}|nan|/|#)[ \n]){0,60}") {
        let _ = read(MeshFile::Obj(text.clone()));
        let _ = read(MeshFile::StlText(format!("solid {text}")));
        let _ = read(MeshFile::StlBinary(text.into_bytes()));
    }
}
