//! Loads, named after published tests, for the user the chair is meant for.
//!
//! Static forces: EN 12520:2015 with EN 1728 (extracts; those marked below from memory). Forces grow with the user's
//! mass from the 110 kg for which they are written (derived).

use super::frame::Model;
use crate::checks::sitting::Sitting;
use crate::part::{Role, Side};
use crate::service::Service as Use;
use crestrail_frame::{NodeLoad, Support};
use crestrail_geometry::Vec3;
use crestrail_phrases::phrase;
use crestrail_sorting::Order as _;

/// How far behind the front edge the load of that test acts, mm (80 to 100, from memory).
pub(super) const FRONT_EDGE: f64 = 80.0;
/// How far behind its front end an arm is loaded, mm: a choice of this program.
pub(super) const FRONT_OF_ARM: f64 = 50.0;

/// How often a load comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Service {
    /// Ten times: a proof.
    Proof,
    /// Twenty-five thousand times.
    Lasting,
}

/// One load on the whole chair.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Case {
    pub(super) name: &'static str,
    pub(super) service: Service,
    pub(super) loads: Vec<NodeLoad>,
    pub(super) supports: Vec<Support>,
}

/// Acceleration of free fall, m/s².
const GRAVITY: f64 = 9.806_65;

/// Which feet are kept from sliding.
#[derive(Clone, Copy, PartialEq)]
enum Stops {
    Rear,
    Front,
    Right,
}

/// Every case that the chair has parts for; those with the same stops follow each other.
pub(super) fn all(model: &Model<'_>, sitting: &Sitting, service: &Use) -> Vec<Case> {
    let cases = Cases { model, sitting, share: service.share() };
    let mut all = Vec::new();
    all.extend(cases.seat_and_back(
        phrase("sitting down hard and leaning back"),
        1300.0,
        450.0,
        Service::Proof,
    ));
    all.extend(cases.seat_and_back(
        phrase("sitting and leaning back, 25 000 times"),
        1000.0,
        300.0,
        Service::Lasting,
    ));
    all.push(cases.case(
        phrase("sitting on the front edge"),
        Stops::Rear,
        Service::Proof,
        cases.on_seat(1300.0, cases.front()),
    ));
    all.extend(cases.on_arms(phrase("leaning on the arms"), 700.0, 0.0));
    all.extend(cases.on_arms(phrase("pushing the arms apart"), 0.0, 300.0));
    all.extend(cases.on_footrest());
    all.push(cases.pushed(phrase("pushed from behind"), Stops::Front, 400.0, -Vec3::Y));
    all.push(cases.pushed(phrase("pushed from the side"), Stops::Right, 300.0, Vec3::X));
    all
}

struct Cases<'a> {
    model: &'a Model<'a>,
    sitting: &'a Sitting,
    share: f64,
}

impl Cases<'_> {
    fn case(&self, name: &'static str, stops: Stops, service: Service, loads: Vec<NodeLoad>) -> Case {
        Case { name, service, loads, supports: self.supports(stops) }
    }

    /// Every foot stands on the floor; those at the stops cannot slide against the push, one other not aside.
    fn supports(&self, stops: Stops) -> Vec<Support> {
        let feet = self.model.standing();
        let stopped = |part: &crate::part::Part| match stops {
            Stops::Rear => part.id.role == Role::BackLeg,
            Stops::Front => part.id.role == Role::FrontLeg,
            Stops::Right => part.id.side == Side::Right && part.id.number <= 1,
        };
        let support = |(part, node): &(&crate::part::Part, usize)| {
            let held = stopped(part);
            let [x, y] = match stops {
                Stops::Rear | Stops::Front => [held && part.id.side != Side::Left, held],
                Stops::Right => [held, held && part.id.role == Role::FrontLeg],
            };
            Support { node: *node, fixed: [x, y, true, false, false, false] }
        };
        feet.iter().map(support).collect()
    }

    fn back(&self) -> f64 {
        self.sitting.seat_point()
    }

    fn front(&self) -> f64 {
        self.sitting.front + FRONT_EDGE
    }

    /// A weight on every place to sit at a depth, shared by the side rails beside it.
    fn on_seat(&self, force: f64, depth: f64) -> Vec<NodeLoad> {
        let rails = self.model.nearest(Role::SideRail, |at| (at.y - depth).abs());
        let mut loads = Vec::new();
        for place in &self.sitting.places {
            let beside = |right: bool| {
                let x = |node: usize| self.model.at(node).x;
                let on_side = rails.iter().filter(move |(_, node)| (x(*node) > *place) == right);
                on_side.min_by(|a, b| (x(a.1) - place).abs().total_cmp(&(x(b.1) - place).abs()))
            };
            for (_, node) in [beside(true), beside(false)].into_iter().flatten() {
                loads.push(load(*node, -Vec3::Z * (force * self.share / 2.0)));
            }
        }
        loads
    }

    /// Sitting with a push on the back at each place, no more than tips the chair.
    fn seat_and_back(&self, name: &'static str, seat: f64, back: f64, service: Service) -> Option<Case> {
        let mut loads = self.on_seat(seat, self.back());
        if let Some(height) = self.sitting.back_point() {
            let push = (back * self.share).min(self.tips_at(seat * self.share, height));
            loads.extend(self.on_back(push.max(0.0), height));
        }
        Some(self.case(name, Stops::Rear, service, loads))
    }

    /// The push on the back of one place that lifts the front feet, N: [V (x_V − x_r) + W (x_c − x_r)] / h.
    fn tips_at(&self, seat: f64, height: f64) -> f64 {
        let rear = self.sitting.feet.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
        let own = self.sitting.mass * GRAVITY / self.sitting.places.len() as f64;
        (seat * (rear - self.back()) + own * (rear - self.sitting.centre.y)) / height
    }

    /// A push backwards at a height, shared by the two pieces across the back nearest to it, by their distance.
    fn on_back(&self, push: f64, height: f64) -> Vec<NodeLoad> {
        let roles = [Role::BackSlat, Role::CrestRail, Role::LowerBackRail];
        let mut loads = Vec::new();
        for place in &self.sitting.places {
            let pieces = roles.iter().flat_map(|role| self.model.nearest(*role, |at| (at.x - place).abs()));
            let mut here: Vec<(f64, usize)> = pieces
                .map(|(_, node)| (self.model.at(node), node))
                .filter(|(at, _)| (at.x - place).abs() < 1.0)
                .map(|(at, node)| (at.z, node))
                .collect();
            here.order_by(|a, b| (a.0 - height).abs().total_cmp(&(b.0 - height).abs()));
            let share = match here[..] {
                [] => continue,
                [_] => 1.0,
                [a, b, ..] => ((b.0 - height) / (b.0 - a.0)).clamp(0.5, 1.0),
            };
            for ((_, node), part) in here.iter().zip([share, 1.0 - share]) {
                loads.push(load(*node, Vec3::Y * (push * part)));
            }
        }
        loads
    }

    /// Both arms near their front ends, with nobody on the seat (forces of the arms from memory, sideways read).
    fn on_arms(&self, name: &'static str, down: f64, out: f64) -> Option<Case> {
        let arms = self.model.nearest(Role::Arm, |at| at.y);
        let push = |(part, node): &(&crate::part::Part, usize)| {
            let way = if part.id.side == Side::Right { Vec3::X } else { -Vec3::X };
            load(*node, (way * out - Vec3::Z * down) * self.share)
        };
        let loads: Vec<NodeLoad> = arms.iter().map(push).collect();
        (!loads.is_empty()).then(|| self.case(name, Stops::Rear, Service::Proof, loads))
    }

    /// Standing on the stretcher in front (EN 16139, foot rail, from memory).
    fn on_footrest(&self) -> Option<Case> {
        let middle =
            |at: Vec3| self.sitting.places.iter().map(|p| (at.x - p).abs()).fold(f64::INFINITY, f64::min);
        let rests = self.model.nearest(Role::FrontStretcher, middle);
        let loads: Vec<NodeLoad> =
            rests.iter().map(|(_, node)| load(*node, -Vec3::Z * (1300.0 * self.share))).collect();
        (!loads.is_empty())
            .then(|| self.case(phrase("standing on the footrest"), Stops::Rear, Service::Proof, loads))
    }

    /// A push at the height of the seat against stops, with somebody on it (from memory).
    fn pushed(&self, name: &'static str, stops: Stops, force: f64, way: Vec3) -> Case {
        let mut loads = self.on_seat(1000.0, self.back());
        let pushed = if way.y.abs() > 0.5 {
            self.model.nearest(Role::BackRail, |at| at.x.abs())
        } else {
            // From the left, so that the feet on the right stay.
            let mut rails = self.model.nearest(Role::SideRail, |at| (at.y - self.back()).abs());
            rails.order_by(|a, b| self.model.at(a.1).x.total_cmp(&self.model.at(b.1).x));
            rails.truncate(1);
            rails
        };
        let each = force * self.share / if way.y.abs() > 0.5 { 1.0 } else { pushed.len().max(1) as f64 };
        loads.extend(pushed.iter().map(|(_, node)| load(*node, way * each)));
        self.case(name, stops, Service::Proof, loads)
    }
}

fn load(node: usize, force: Vec3) -> NodeLoad {
    NodeLoad { node, force: [force.x, force.y, force.z], moment: [0.0; 3] }
}
