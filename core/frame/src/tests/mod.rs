//! Whole frames: formulae of books, laws that every answer obeys, springs, and what is refused.

mod bad_input;
mod closed_form;
mod laws;
mod random;
mod sketch;
mod springs;
