//! Python binding.
