//! Whole-path tests: from the values of knobs, files, links and lines to reports and refusals.

mod bad_files;
mod common_practice;
mod doors;
mod drawing;
mod earlier;
mod frames;
mod goldens;
mod module_order;
mod no_unsafe;
mod overlap;
mod phrases;
mod probe;
mod properties;
mod supply;

use crestrail_tests::random;
