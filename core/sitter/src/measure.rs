//! The measures of a body that a seat has to do with.

use core::fmt;

/// Whose figures are asked for. The surveys know these two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sex {
    /// Women and girls.
    Female,
    /// Men and boys.
    Male,
}

impl Sex {
    /// Both, women first.
    pub const ALL: [Self; 2] = [Self::Female, Self::Male];

    /// For a sentence: `women`.
    pub fn plural(self) -> &'static str {
        match self {
            Self::Female => "women",
            Self::Male => "men",
        }
    }
}

/// A measure of a body, barefoot and lightly clothed; sitting upright where it is one of somebody who sits, with the soles
/// flat and the knees at a right angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Floor to the top of the head, standing.
    Stature,
    /// Body weight, kg.
    Weight,
    /// Seat to the top of the head.
    SittingHeight,
    /// Floor to the hollow of the knee.
    PoplitealHeight,
    /// Floor to the top of the knee.
    KneeHeight,
    /// Back of the buttocks to the hollow of the knee.
    ButtockPoplitealLength,
    /// Back of the buttocks to the front of the knee.
    ButtockKneeLength,
    /// Across the hips where they are widest, sitting.
    HipBreadth,
    /// Seat to the underside of the bent elbow.
    ElbowRestHeight,
    /// Seat to the top of the thigh.
    ThighClearance,
    /// Seat to the point of the shoulder (acromion). Not measured in the survey: sitting height less what stature is above the
    /// shoulder.
    ShoulderHeight,
    /// Across the upper arms at the shoulders (bideltoid).
    ShoulderBreadth,
    /// Across both elbows held to the body.
    ElbowBreadth,
    /// Back to the front of the belly.
    AbdominalDepth,
}

impl Measure {
    /// All measures, in the order of the tables.
    pub const ALL: [Self; 14] = [
        Self::Stature,
        Self::Weight,
        Self::SittingHeight,
        Self::PoplitealHeight,
        Self::KneeHeight,
        Self::ButtockPoplitealLength,
        Self::ButtockKneeLength,
        Self::HipBreadth,
        Self::ElbowRestHeight,
        Self::ThighClearance,
        Self::ShoulderHeight,
        Self::ShoulderBreadth,
        Self::ElbowBreadth,
        Self::AbdominalDepth,
    ];

    /// Its name in plain words.
    pub fn name(self) -> &'static str {
        match self {
            Self::Stature => "height of the body",
            Self::Weight => "weight of the body",
            Self::SittingHeight => "seat to the top of the head",
            Self::PoplitealHeight => "floor to the hollow of the knee",
            Self::KneeHeight => "floor to the top of the knee",
            Self::ButtockPoplitealLength => "back to the hollow of the knee",
            Self::ButtockKneeLength => "back to the front of the knee",
            Self::HipBreadth => "width of the hips",
            Self::ElbowRestHeight => "seat to the elbow",
            Self::ThighClearance => "seat to the top of the thigh",
            Self::ShoulderHeight => "seat to the shoulder",
            Self::ShoulderBreadth => "width of the shoulders",
            Self::ElbowBreadth => "width across the elbows",
            Self::AbdominalDepth => "back to the front of the belly",
        }
    }

    /// Unit of its figures.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Weight => "kg",
            _ => "mm",
        }
    }
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
