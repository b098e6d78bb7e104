//! The trade: from knob values to the report of a chair.
//!
//! The modules in the order in which a design passes through them: [`knobs`] → [`design`] →
//! [`skeleton`] → [`parts`] → [`joints`] → [`solids`] → [`assembly`] → [`chair`], and from there to lists and
//! drawings.

pub mod assembly;
pub mod bill;
pub mod chair;
pub mod checkin;
pub mod checks;
pub mod choices;
pub mod climate;
pub mod date;
pub mod design;
pub mod dimensions;
pub mod drawing;
pub mod export;
pub mod family;
mod fastening;
pub mod finding;
pub mod fitting;
pub mod housing;
pub mod joint;
pub mod joints;
pub mod knob;
pub mod knobs;
pub mod labour;
pub mod length;
mod lettering;
pub mod link;
pub mod lists;
pub mod material;
pub mod meeting;
pub mod money;
pub mod nearest;
pub mod order;
pub mod part;
pub mod parts;
pub mod plan;
pub mod profile;
pub mod ranges;
pub mod rates;
pub mod reading;
pub mod refusal;
pub mod report;
pub mod resolve;
pub mod seating;
pub mod service;
pub mod settle;
pub mod sheets;
pub mod shop;
pub mod showroom;
pub mod skeleton;
pub mod sketch;
pub mod solids;
pub mod swing;
pub mod told;
pub mod turning;
pub mod unbuildable;
pub mod work;
