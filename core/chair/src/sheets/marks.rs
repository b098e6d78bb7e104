//! What a part's joints put on its template: tenons, mortises, holes of pegs, grooves.

use super::look::Look;
use super::pens::{self, Pen};
use crate::chair::Chair;
use crate::housing::{Cut, Housing};
use crate::joint::{Joint, Kind, Peg, PegShape};
use crate::length::Lengths;
use crate::part::Part;
use crate::solids::not_closed;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::outline::hull;
use crestrail_geometry::{Body, Vec3, carve};
use crestrail_sheet::Item;
use kurbo::{Point, Vec2};

/// A sentence about a place on the template.
#[derive(Clone, Debug)]
pub(super) struct Label {
    pub(super) at: Point,
    pub(super) words: String,
}

/// Lines, and what is said about them.
#[derive(Clone, Debug, Default)]
pub(super) struct Marks {
    pub(super) items: Vec<Item>,
    pub(super) labels: Vec<Label>,
    /// Corners of what reaches beyond the timber: tenons.
    pub(super) reach: Vec<Point>,
}

/// What is looked at, and what of the sheet its timber covers.
pub(super) struct Subject<'a> {
    pub(super) chair: &'a Chair,
    pub(super) part: &'a Part,
    /// In the part's own frame.
    pub(super) look: Look,
    pub(super) outline: &'a [Point],
    pub(super) lengths: Lengths,
}

/// Faces turned to the eye by more than this (the cosine of 45°) are looked at.
const FACING: f64 = core::f64::consts::FRAC_1_SQRT_2;

impl Subject<'_> {
    pub(super) fn marks(&self) -> Result<Marks, Unbuildable> {
        let mut marks = Marks::default();
        for joint in &self.chair.joints {
            if joint.host == self.part.id {
                self.mortise(joint, &mut marks)?;
            }
            if joint.guest == self.part.id {
                self.tenon(joint, &mut marks)?;
            }
        }
        let own = self.chair.housings.iter().filter(|h| h.host == self.part.id && h.cut != Cut::Notch);
        for housing in own {
            self.housing(housing, &mut marks)?;
        }
        Ok(marks)
    }

    fn mortise(&self, joint: &Joint, marks: &mut Marks) -> Result<(), Unbuildable> {
        let open = self.faces_eye(joint.face.normal);
        let pen = if open { Pen::Thin } else { Pen::Hidden };
        let mut middle = None;
        for body in &joint.mortise.bodies {
            let shape = clipped(self.outline, &self.shadow(&body.clipped(joint.face))?);
            if let Some(rect) = pens::around(&shape) {
                middle = middle.or(Some(rect.center()));
                marks.items.push(pens::lines(vec![pens::closed(&shape)], pen));
            }
        }
        if let Some(at) = middle {
            marks.labels.push(Label { at, words: self.mortise_words(joint) });
        }
        let pegs = joint.pegs.iter().flat_map(|peg| self.peg(peg, Vec3::ZERO));
        marks.items.extend(pegs);
        Ok(())
    }

    fn mortise_words(&self, joint: &Joint) -> String {
        let (letter, mortise) = (self.chair.letter(joint.guest), &joint.mortise);
        let [width, cutter, depth] =
            [mortise.width, mortise.thickness, mortise.depth].map(|v| self.lengths.write(v));
        match joint.kind {
            Kind::Dowels => format!("{letter}: 2 holes Ø {cutter}, {depth} deep"),
            Kind::Through => format!("{letter}: {width} × {cutter}, through"),
            _ => format!("{letter}: {width} × {cutter}, {depth} deep"),
        }
    }

    fn tenon(&self, joint: &Joint, marks: &mut Marks) -> Result<(), Unbuildable> {
        let letter = self.chair.letter(joint.host);
        let [width, thickness, length] =
            [joint.tenon.width, joint.tenon.thickness, joint.tenon.length].map(|v| self.lengths.write(v));
        let (mut middle, mut within) = (None, self.outline.to_vec());
        for body in &joint.tenon.bodies {
            let shape = self.shadow(body)?;
            middle = middle.or(pens::around(&shape).map(|rect| rect.center()));
            marks.reach.extend(&shape);
            marks.items.push(pens::lines(vec![pens::closed(&shape)], Pen::Outline));
            within = shape;
        }
        // Slots for wedges run out of the tenon's end, holes of dowels out of the guest's.
        for body in &joint.guest_cuts {
            let shape = clipped(&within, &self.shadow(body)?);
            middle = middle.or(pens::around(&shape).map(|rect| rect.center()));
            marks.items.push(pens::lines(vec![pens::closed(&shape)], Pen::Hidden));
        }
        let words = match joint.kind {
            Kind::Dowels => format!("2 dowels Ø {thickness} into {letter}"),
            Kind::Loose => format!("loose tenon {width} × {thickness} into {letter}"),
            _ => format!("tenon {width} × {thickness}, {length} long, into {letter}"),
        };
        if let Some(at) = middle {
            marks.labels.push(Label { at, words });
        }
        // The hole in the tenon is bored nearer to the shoulder than the one in the host.
        let pegs = joint.pegs.iter().flat_map(|peg| self.peg(peg, -joint.mouth.x * peg.draw));
        marks.items.extend(pegs);
        Ok(())
    }

    /// A hole seen end on is drawn with its middle; of one seen from the side only the axis is.
    fn peg(&self, peg: &Peg, shift: Vec3) -> Vec<Item> {
        let own = |p: Vec3| self.look.flat(self.part.place.local_point(p));
        let axis = self.part.place.local_direction(peg.place.x).dot(self.look.toward);
        let at = own(peg.place.origin + shift);
        if axis.abs() < FACING {
            let end = own(peg.place.origin + shift + peg.place.x * peg.length);
            return vec![pens::line(at, end, Pen::Axis)];
        }
        let pen = if axis < 0.0 { Pen::Thin } else { Pen::Hidden };
        let half = peg.size / 2.0;
        let hole = match peg.shape {
            PegShape::Round => pens::ring(at, half, pen),
            PegShape::Square => {
                let corner =
                    |y: f64, z: f64| own(peg.place.point(Vec3::new(0.0, y * half, z * half)) + shift);
                let corners = [corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)];
                pens::lines(vec![pens::closed(&corners)], pen)
            }
        };
        vec![hole, pens::cross(at, half + 1.5)]
    }

    fn housing(&self, housing: &Housing, marks: &mut Marks) -> Result<(), Unbuildable> {
        let shape = clipped(self.outline, &self.shadow(&housing.body)?);
        let Some(rect) = pens::around(&shape) else { return Ok(()) };
        marks.items.push(pens::lines(vec![pens::closed(&shape)], Pen::Hidden));
        let kind = if housing.cut == Cut::Groove { "groove" } else { "slot" };
        let [width, depth] = [housing.width, housing.depth].map(|v| self.lengths.write(v));
        let letter = self.chair.letter(housing.guest);
        marks
            .labels
            .push(Label { at: rect.center(), words: format!("{letter}: {kind} {width}, {depth} deep") });
        Ok(())
    }

    fn faces_eye(&self, normal: Vec3) -> bool {
        self.part.place.local_direction(normal).dot(self.look.toward) > FACING
    }

    /// The outline of a convex body in chair space.
    fn shadow(&self, body: &Body) -> Result<Vec<Point>, Unbuildable> {
        let own = body.local_to(&self.part.place);
        let solid = carve(&[own], &[]).map_err(|error| not_closed(self.part, &error.to_string()))?;
        Ok(hull(solid.vertices.iter().map(|&v| self.look.flat(v)).collect()))
    }
}

/// The part of an outline within a convex one (Sutherland and Hodgman, 1974); both run the same way round or not.
pub(super) fn clipped(outline: &[Point], window: &[Point]) -> Vec<Point> {
    let sign = crestrail_geometry::outline::signed_area(window).signum();
    let mut left = outline.to_vec();
    for (i, &a) in window.iter().enumerate() {
        let side: Vec2 = (window[(i + 1) % window.len()] - a) * sign;
        let inside = |p: Point| side.cross(p - a);
        let before = std::mem::take(&mut left);
        for (k, &p) in before.iter().enumerate() {
            let q = before[(k + 1) % before.len()];
            let (s, t) = (inside(p), inside(q));
            if s >= 0.0 {
                left.push(p);
            }
            if s * t < 0.0 {
                left.push(p.lerp(q, s / (s - t)));
            }
        }
    }
    left
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&p| p.into()).collect()
    }

    #[test]
    fn what_reaches_out_of_the_timber_is_cut_off() {
        let leg = points(&[(0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (50.0, 30.0), (0.0, 20.0)]);
        let mortise = points(&[(10.0, -5.0), (30.0, -5.0), (30.0, 12.0), (10.0, 12.0)]);
        for window in [mortise.clone(), mortise.into_iter().rev().collect()] {
            let rect = pens::around(&clipped(&leg, &window)).unwrap();
            assert_eq!((rect.x0, rect.y0, rect.x1, rect.y1), (10.0, 0.0, 30.0, 12.0));
        }
        assert!(clipped(&leg, &points(&[(200.0, 0.0), (210.0, 0.0), (210.0, 9.0)])).is_empty());
    }
}
