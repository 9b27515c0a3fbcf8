//! WebAssembly binding.
