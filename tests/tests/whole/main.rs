//! Whole-path tests: from the values of knobs, files, links and lines to reports and refusals.

mod bad_files;
mod diff;
mod frames;
mod goldens;
mod module_order;
mod page;
mod probe;
mod properties;
mod random;
