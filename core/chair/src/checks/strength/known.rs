//! What was found of the frame last.
//!
//! Many knobs leave the frame and its loads as they are, and a picture coloured by strength asks after the report has: the same
//! frame under the same loads is not worked out again. Nothing but time depends on it.

use super::Found;
use super::capacity::Capacity;
use super::cases::Case;
use super::frame::Model;
use super::members::Limits;
use core::cell::RefCell;
use crestrail_frame::{End, Frame};
use crestrail_geometry::Vec3;

/// All that is read to find the worst of every joint and beam, but for the stiffnesses that are tried.
#[derive(PartialEq)]
pub(super) struct Question {
    frame: Frame,
    seats: Vec<Seat>,
    capacities: Vec<Capacity>,
    limits: Vec<Limits>,
    cases: Vec<Case>,
}

/// Where a joint sits, and the axes of its beam and of its tenon.
#[derive(PartialEq)]
struct Seat {
    member: usize,
    end: End,
    shoulder: f64,
    axes: [Vec3; 3],
    mouth: [Vec3; 3],
}

impl Question {
    pub(super) fn of(model: &Model<'_>, capacities: &[Capacity], limits: &[Limits], cases: &[Case]) -> Self {
        let seat = |seat: &super::frame::Seat<'_>| {
            let mouth = seat.joint.mouth;
            Seat {
                member: seat.member,
                end: seat.end,
                shoulder: seat.shoulder,
                axes: seat.axes,
                mouth: [mouth.x, mouth.y, mouth.z],
            }
        };
        Self {
            frame: model.frame.clone(),
            seats: model.seats.iter().map(seat).collect(),
            capacities: capacities.to_vec(),
            limits: limits.to_vec(),
            cases: cases.to_vec(),
        }
    }
}

thread_local! {
    static LAST: RefCell<Option<(Question, Found)>> = const { RefCell::new(None) };
}

/// What was found, if this is what was asked last.
pub(super) fn recall(question: &Question) -> Option<Found> {
    let last = |last: &Option<(Question, Found)>| {
        last.as_ref().filter(|(asked, _)| asked == question).map(|(_, found)| found.clone())
    };
    LAST.with_borrow(last)
}

/// Keeps what was found until something else is.
pub(super) fn keep(question: Question, found: &Found) {
    LAST.set(Some((question, found.clone())));
}
