//! Areas to glue and to finish, mm².

use crate::chair::Chair;
use crate::joint::{Insert, Joint, Kind, Peg, PegShape, Tenon};
use crate::part::Role;
use crestrail_geometry::math::PI;

/// Area that holds glue: both cheeks of each tenon and haunch, and the backs of ledges, where long grain meets long grain.
/// End grain and edges hold little and are not counted (common practice). A mitred tenon counts its mean length; what is
/// glued on its own, loose tenons and dowels, counts in both parts.
pub fn glued_area(chair: &Chair) -> f64 {
    let sides = |j: &Joint| if j.kind.is_separate() { 2.0 } else { 1.0 };
    let cheeks: f64 = chair.joints.iter().map(|j| sides(j) * cheeks(&j.tenon)).sum();
    cheeks + ledges(chair)
}

/// The faces with which the strips under a pad are glued to the rails: long grain on long grain.
pub(crate) fn ledges(chair: &Chair) -> f64 {
    let strips = chair.parts.iter().filter(|p| p.id.role == Role::Ledge);
    strips.map(|p| p.size.length * p.size.width).sum()
}

/// Area that takes the finish: the surface of all finished bodies of timber without what lies inside joints, that is tenons,
/// haunches, mortises, shoulders with the timber they cover, pegs and their holes.
///
/// An approximation: joints count as upright boxes, haunches as halves of boxes, and parts that only
/// touch, such as seat slats on their rails, as if they did not. On the default chair it is 0.2 % below
/// the area sampled point by point on the solids.
pub fn exposed_area(chair: &Chair) -> f64 {
    let timber = chair.pieces().filter(|(part, _)| part.material.species().is_some());
    let bodies: f64 = timber.map(|(_, body)| body.surface).sum();
    let hidden: f64 = chair.joints.iter().map(hidden_by).sum();
    (bodies - hidden).max(0.0)
}

fn cheeks(tenon: &Tenon) -> f64 {
    let haunch = tenon.haunch.map_or(0.0, |h| h.length * h.width / 2.0);
    tenon.cheeks() + 2.0 * haunch
}

/// What one joint takes out of sight, of host, guest and what holds them together.
fn hidden_by(joint: &Joint) -> f64 {
    let pegs: f64 = joint.pegs.iter().map(hidden_by_peg).sum();
    let within = match joint.kind {
        Kind::Dowels | Kind::Loose => hidden_apart(joint),
        Kind::Through => hidden_through(joint),
        Kind::Blind | Kind::Haunched | Kind::BareFaced | Kind::Twin => hidden_blind(joint),
    };
    within + pegs
}

/// Where mitred tenons meet, so do their mortises: each has no bottom but the other's open side. The cheeks of a
/// haunch are counted twice, for the guest and for the host; it covers the edge of tenon and mortise, and its root is
/// no shoulder.
fn hidden_blind(joint: &Joint) -> f64 {
    let (t, m) = (&joint.tenon, &joint.mortise);
    let tenon = cheeks(t) + 2.0 * t.middle_length() * t.thickness + t.width * t.thickness;
    let bottom = if t.mitre.is_some() { -m.width * m.thickness } else { m.width * m.thickness };
    let mortise = 2.0 * m.depth * (m.width + m.thickness) + bottom;
    let haunch = t.haunch.map_or(0.0, |h| h.length * (h.width - 2.0 * t.thickness));
    tenon + mortise + haunch + shoulders(t, t.width * t.thickness)
}

/// The end of a through tenon stays in sight with the ends of its wedges; their faces and those of their slots do not.
fn hidden_through(joint: &Joint) -> f64 {
    let (t, m) = (&joint.tenon, &joint.mortise);
    let tenon = cheeks(t) + 2.0 * t.length * t.thickness;
    let mortise = 2.0 * m.depth * (m.width + m.thickness);
    let wedges: f64 = joint.inserts.iter().map(|wedge| 4.0 * wedge.size[0] * wedge.size[1]).sum();
    tenon + mortise + wedges + shoulders(t, t.width * t.thickness)
}

/// Dowels and loose tenons are hidden wholly, and so are their holes in both parts.
fn hidden_apart(joint: &Joint) -> f64 {
    let room = 2.0 * joint.mortise.glue_gap;
    let each = |insert: &Insert| {
        let [length, width, thickness] = insert.size;
        let (around, section) = match insert.id.role {
            Role::Dowel => (PI * width, PI * width * width / 4.0),
            _ => (2.0 * (width + thickness), width * thickness),
        };
        (around * (2.0 * length + room) + 4.0 * section, section)
    };
    let (within, section) =
        joint.inserts.iter().map(each).fold((0.0, 0.0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
    within + shoulders(&joint.tenon, section)
}

/// The guest's shoulders and the equal area of the host's face under them, without the `section` of what enters.
fn shoulders(tenon: &Tenon, section: f64) -> f64 {
    let s = &tenon.shoulders;
    let across = (tenon.width + s.top + s.bottom) * (tenon.thickness + s.front + s.back);
    2.0 * (across - section)
}

/// Side and inner end of the peg, and the hole around them; its outer end stays in sight. What the hole takes out of
/// both cheeks and both walls beside them was never there to hide.
fn hidden_by_peg(peg: &Peg) -> f64 {
    let (around, end) = match peg.shape {
        PegShape::Round => (PI * peg.size, PI * peg.size * peg.size / 4.0),
        PegShape::Square => (4.0 * peg.size, peg.size * peg.size),
    };
    2.0 * (around * peg.length + end) - 4.0 * end
}
