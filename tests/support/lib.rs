//! Support for the workspace-level tests, benches and examples.
