//! Whole-path tests: from the values of knobs, files, links and lines to reports and refusals.

mod bad_files;
mod common_practice;
mod diff;
mod drawing;
mod earlier;
mod frames;
mod goldens;
mod module_order;
mod overlap;
mod page;
mod phrases;
mod probe;
mod properties;
mod random;
mod supply;
