//! Builds and verifies the workspace.
fn main() {}
