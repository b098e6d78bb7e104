//! The resolved chair: parts, joints and solids, all placed and final.

use crate::assembly::Assembly;
use crate::housing::Housing;
use crate::joint::Joint;
use crate::part::{Part, PartId};
use crate::settle::Settled;
use crestrail_geometry::{Solid, Vec3};
use std::sync::Arc;

/// A chair after which nobody looks at a knob.
#[derive(Clone, Debug)]
pub struct Chair {
    /// All parts, pegs included, in the order of their ids.
    pub parts: Vec<Part>,
    /// All joints.
    pub joints: Vec<Joint>,
    /// Grooves and slots.
    pub housings: Vec<Housing>,
    /// For each part, in the same order, its body with joints cut.
    pub bodies: Vec<PartBody>,
    /// How they go together.
    pub assembly: Assembly,
    /// Sizes that gave way because they had no room.
    pub settled: Vec<Settled>,
}

/// A part's finished body.
#[derive(Clone, Debug)]
pub struct PartBody {
    /// The solid in the part's own frame; a left part shares it with the right one.
    pub solid: Arc<Solid>,
    /// Volume, mm³.
    pub volume: f64,
    /// Area of its surface, mm².
    pub surface: f64,
    /// Centre of mass in chair space, mm.
    pub centre: Vec3,
}

/// Where a part stands among parts that are sorted by their ids.
pub(crate) fn place_in(parts: &[Part], id: PartId) -> Option<usize> {
    parts.binary_search_by(|part| part.id.cmp(&id)).ok()
}

impl Chair {
    /// The part with this id.
    pub fn part(&self, id: PartId) -> Option<&Part> {
        self.place_of(id).map(|i| &self.parts[i])
    }

    /// The letter of the part with this id; empty where there is none.
    pub fn letter(&self, id: PartId) -> &str {
        self.part(id).map_or("", |part| part.letter.as_str())
    }

    /// Where it stands among the parts.
    pub fn place_of(&self, id: PartId) -> Option<usize> {
        place_in(&self.parts, id)
    }

    /// Parts with their bodies.
    pub fn pieces(&self) -> impl Iterator<Item = (&Part, &PartBody)> {
        self.parts.iter().zip(&self.bodies)
    }
}
