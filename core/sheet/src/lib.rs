//! A drawing as data.
