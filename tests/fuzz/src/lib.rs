//! What all fuzz targets have in common.

pub use libfuzzer_sys;

/// A target for the door of this name. Half of the mutations are libFuzzer's own, half those of `tests/src/mutate.rs`, which
/// know figures and words.
#[macro_export]
macro_rules! door {
    ($name:literal) => {
        $crate::libfuzzer_sys::fuzz_target!(|data: &[u8]| {
            crestrail_fuzz::enter($name, data);
        });
        $crate::libfuzzer_sys::fuzz_mutator!(|data: &mut [u8], size: usize, most: usize, seed: u32| {
            crestrail_fuzz::mutate(data, size, most, seed)
        });
    };
}

use crestrail_tests::doors::{Door, door};
use crestrail_tests::mutate::mutated;
use crestrail_tests::random::Random;
use std::sync::OnceLock;

/// Enters the door of this name; there is one in each target.
pub fn enter(name: &'static str, data: &[u8]) {
    static DOOR: OnceLock<Door> = OnceLock::new();
    (DOOR.get_or_init(|| door(name)).enter)(data);
}

/// Changes the first `size` bytes of `data`, which has room for `most`: the new size.
pub fn mutate(data: &mut [u8], size: usize, most: usize, seed: u32) -> usize {
    if seed.is_multiple_of(2) {
        return libfuzzer_sys::fuzzer_mutate(data, size, most);
    }
    let mut random = Random::new(seed.into());
    let new = mutated(&data[..size], &data[..size], &mut random);
    let size = new.len().min(most).max(1).min(data.len());
    data[..size.min(new.len())].copy_from_slice(&new[..size.min(new.len())]);
    size
}
