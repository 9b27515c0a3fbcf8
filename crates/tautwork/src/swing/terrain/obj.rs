//! Wavefront OBJ text, read by `tobj`.

use tobj::{LoadError, LoadOptions};

use super::super::space::{cross, dot, from};
use super::error::TerrainError;
use super::soup::{Corners, Soup};

/// Triangles of a text. Vertices and faces count, all other lines are left out.
pub(super) fn read(text: &str) -> Result<Soup, TerrainError> {
    // tobj takes a polyline `l` of three corners for a face, and colours must be all or none.
    let lines: Vec<&str> = text.lines().map(vertex_or_face).collect();
    let mesh = parse(&lines).map_err(|error| {
        // It names no line: the last line of the shortest beginning that fails.
        let fails = |n: usize| parse(&lines[..n]).is_err();
        let (mut good, mut bad) = (0, lines.len());
        while bad - good > 1 {
            let middle = good.midpoint(bad);
            if fails(middle) { bad = middle } else { good = middle }
        }
        TerrainError::Line { line: bad, problem: error.to_string() }
    })?;
    let corner = |i: u32| {
        let k = 3 * i as usize;
        [mesh.positions[k], mesh.positions[k + 1], mesh.positions[k + 2]]
    };
    let faces = (1..).zip(&lines).filter(|(_, line)| !line.is_empty() && !is_vertex(line));
    let arities = (0..mesh.indices.len() / 3).map(|_| 3);
    let arities: Vec<usize> = if mesh.face_arities.is_empty() {
        arities.collect()
    } else {
        mesh.face_arities.iter().map(|n| *n as usize).collect()
    };
    let mut soup = Soup::default();
    let mut first = 0;
    for (count, (line, _)) in arities.into_iter().zip(faces) {
        let wrong = |problem: &str| TerrainError::Line { line, problem: problem.to_owned() };
        let face: Vec<[f64; 3]> =
            mesh.indices[first..first + count].iter().map(|i| corner(*i)).collect();
        first += count;
        if count < 3 {
            return Err(wrong("a face needs at least three corners"));
        }
        let fan =
            fan(&face).ok_or_else(|| wrong("the face is bent inwards: give it as triangles"))?;
        soup.lines.extend(fan.iter().map(|_| line));
        soup.triangles.extend(fan);
    }
    Ok(soup)
}

fn is_vertex(line: &str) -> bool {
    line.split_whitespace().next() == Some("v")
}

/// The line without its comment if it is a vertex or a face, else nothing.
fn vertex_or_face(line: &str) -> &str {
    let line = line.split('#').next().unwrap_or_default();
    match line.split_whitespace().next() {
        Some("v" | "f") => line,
        _ => "",
    }
}

fn parse(lines: &[&str]) -> Result<tobj::Mesh, LoadError> {
    let text = lines.join("\n");
    // No line names an object or a material, so there is one model and nothing else to load.
    let (models, _) = tobj::load_obj_buf(&mut text.as_bytes(), &LoadOptions::default(), |_| {
        Err(LoadError::OpenFileFailed)
    })?;
    Ok(models.into_iter().next().map(|model| model.mesh).unwrap_or_default())
}

/// A face cut from its first corner; none if a piece would lie the other way round.
fn fan(face: &[[f64; 3]]) -> Option<Vec<Corners>> {
    let pieces: Vec<Corners> = face[1..].windows(2).map(|w| [face[0], w[0], w[1]]).collect();
    let normals = pieces.iter().map(|[a, b, c]| cross(from(*a, *b), from(*a, *c)));
    let sum = normals.clone().fold([0.0; 3], |s, n| [0, 1, 2].map(|i| s[i] + n[i]));
    let one_way = pieces.len() == 1 || !normals.clone().any(|n| dot(n, sum) < 0.0);
    one_way.then_some(pieces)
}
