//! A mesh in a document.

use base64::prelude::{BASE64_STANDARD, Engine};
use serde::{Deserialize, Serialize};

use super::super::jump::Place;
use super::error::TerrainError;
use super::mesh::{MeshFile, Placing, TerrainMesh, Up};
use crate::quantity::{Angle, Invalid, Length, Quantity, Text};

/// One of the three kinds of file, and how it lies.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Form {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    obj: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stl: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stl_binary: Option<String>,
    scale: Text<Length>,
    up: Up,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    origin: Option<Place>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    turn: Option<Text<Angle>>,
}

impl TryFrom<Form> for TerrainMesh {
    type Error = TerrainError;

    fn try_from(form: Form) -> Result<Self, TerrainError> {
        let file = match (form.obj, form.stl, form.stl_binary) {
            (Some(text), None, None) => MeshFile::Obj(text),
            (None, Some(text), None) => MeshFile::StlText(text),
            (None, None, Some(text)) => {
                let bytes = BASE64_STANDARD.decode(text.as_bytes());
                let problem = |error: base64::DecodeError| TerrainError::NotOf {
                    format: "bytes in base64",
                    problem: error.to_string(),
                };
                MeshFile::StlBinary(bytes.map_err(problem)?)
            }
            (obj, stl, binary) => {
                let given = [obj.is_some(), stl.is_some(), binary.is_some()];
                let count = given.into_iter().filter(|given| *given).count().to_string();
                let allowed = "one of obj, stl and stl_binary";
                return Err(Invalid::new("number of files", count, allowed).into());
            }
        };
        let aligned = Placing::aligned(form.scale.0, form.up);
        let placing = Placing {
            origin: form.origin.unwrap_or(aligned.origin),
            turn: form.turn.map_or(aligned.turn, |turn| turn.0),
            ..aligned
        };
        Self::new(file, placing)
    }
}

impl From<TerrainMesh> for Form {
    fn from(mesh: TerrainMesh) -> Self {
        let (file, placing) = mesh.given();
        let (mut obj, mut stl, mut stl_binary) = (None, None, None);
        match file {
            MeshFile::Obj(text) => obj = Some(text.clone()),
            MeshFile::StlText(text) => stl = Some(text.clone()),
            MeshFile::StlBinary(bytes) => stl_binary = Some(BASE64_STANDARD.encode(bytes)),
        }
        let turned = placing.turn.si() != 0.0;
        Self {
            obj,
            stl,
            stl_binary,
            scale: Text(placing.scale),
            up: placing.up,
            origin: (placing.origin.m() != [0.0; 3]).then_some(placing.origin),
            turn: turned.then_some(Text(placing.turn)),
        }
    }
}
