//! STL, as text and in binary, read by `stl_io`.

use std::io::Cursor;

use super::error::TerrainError;
use super::soup::{MOST_TRIANGLES, Soup};

/// Header, then the number of triangles, then 50 bytes for each.
const HEADER: usize = 80;
const BEFORE_TRIANGLES: u64 = 84;
const TRIANGLE: u64 = 50;

/// Triangles of a text.
pub(super) fn read_text(text: &str) -> Result<Soup, TerrainError> {
    let first = text.lines().next().unwrap_or_default();
    if first.split_whitespace().next() != Some("solid") {
        return Err(not_of("STL text", "it does not begin with the word solid"));
    }
    let ends = |line: &&str| line.split_whitespace().next() == Some("endsolid");
    let after = text.lines().skip_while(|line| !ends(line)).skip(1);
    if after.clone().any(|line| !line.trim().is_empty()) {
        return Err(not_of("STL text of one solid", "more follows after endsolid"));
    }
    // Some writers leave out the name, and `stl_io` would take that for binary.
    collect(format!("solid x\n{}", &text[first.len()..]).into_bytes())
}

/// Triangles of a binary file.
pub(super) fn read_binary(bytes: &[u8]) -> Result<Soup, TerrainError> {
    let count = bytes.get(HEADER..).and_then(|rest| rest.first_chunk::<4>());
    let count = count.map(|count| u64::from(u32::from_le_bytes(*count)));
    let needed = count.map(|count| BEFORE_TRIANGLES + TRIANGLE * count);
    if needed != Some(bytes.len() as u64) {
        let problem = match (count, needed) {
            (Some(count), Some(needed)) => {
                format!("{count} triangles need {needed} bytes, it has {}", bytes.len())
            }
            _ => format!("{} bytes are less than its header", bytes.len()),
        };
        return Err(not_of("binary STL", &problem));
    }
    // The header is free text: if it began with "solid", `stl_io` would take the file for text.
    let mut file = vec![0; HEADER];
    file.extend_from_slice(&bytes[HEADER..]);
    collect(file)
}

fn collect(file: Vec<u8>) -> Result<Soup, TerrainError> {
    let wrong = |triangle: usize, error: &std::io::Error| TerrainError::Triangle {
        triangle,
        problem: error.to_string(),
    };
    let mut file = Cursor::new(file);
    let reader = stl_io::create_stl_reader(&mut file).map_err(|error| wrong(1, &error))?;
    let mut soup = Soup::default();
    for (k, triangle) in reader.enumerate().take(MOST_TRIANGLES + 1) {
        let triangle = triangle.map_err(|error| wrong(k + 1, &error))?;
        soup.triangles.push(triangle.vertices.map(|v| v.0.map(f64::from)));
    }
    Ok(soup)
}

fn not_of(format: &'static str, problem: &str) -> TerrainError {
    TerrainError::NotOf { format, problem: problem.to_owned() }
}
