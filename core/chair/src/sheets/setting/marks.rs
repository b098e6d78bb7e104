//! What is marked on a part's blank: openings, pegs, shoulders, tenons and cuts, each where the chair has it.

use super::blank::Blank;
use crate::chair::{Chair, PartBody};
use crate::housing::Cut;
use crate::joint::{Joint, Kind, Peg};
use crate::part::Part;
use crate::sheets::look::{Lines, Look};
use crate::sheets::marks::clipped;
use crate::sheets::pens;
use crate::solids::not_closed;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::outline::{hull, tidy};
use crestrail_geometry::{Body, Plane, Solid, Vec3, carve};
use kurbo::Point;

/// What is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The mouth of a mortise.
    Mortise,
    /// The mouth of a haunch's socket.
    Haunch,
    /// Where a through mortise comes out.
    Exit,
    /// A round hole for a dowel.
    Hole,
    /// A groove or slot.
    Recess,
    /// A hole for a peg.
    Peg,
    /// A tenon or haunch, as it is seen from this face.
    Tenon,
}

/// Something on a face. Points as [`Blank::on`] tells them.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What it is.
    pub what: What,
    /// Which face of the blank.
    pub face: usize,
    /// The letter of the part that enters, or that is entered.
    pub letter: String,
    /// Its corners.
    pub corners: Vec<Point>,
    /// Depth from the face, mm; zero of what goes through and of tenons.
    pub depth: f64,
    /// Width of the cutter; diameter or side of a hole; thickness of a tenon where it is seen, else zero; mm.
    pub size: f64,
    /// Of a tenon how far from the datum end its root lies, mm.
    pub root: f64,
}

/// A face as it is drawn: the timber between shoulders, and what is marked on it.
#[derive(Clone, Debug, Default)]
pub struct Drawn {
    /// Outline of the timber, closed.
    pub outline: Vec<Vec<Point>>,
    /// Sharp edges within it.
    pub edges: Vec<[Point; 2]>,
}

/// A shoulder line on a face, from its upper to its lower edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Shoulder {
    /// Which face of the blank.
    pub face: usize,
    /// Its two ends.
    pub ends: [Point; 2],
}

/// All that is marked on a part.
#[derive(Clone, Debug)]
pub struct Marked {
    /// The blank.
    pub blank: Blank,
    /// One for each face of the blank.
    pub drawn: [Drawn; 4],
    /// Openings, pegs and tenons.
    pub marks: Vec<Mark>,
    /// Shoulders.
    pub shoulders: Vec<Shoulder>,
}

/// Sine of the turn from which a corner of an outline is one, and no facet of a curve: 9°.
pub(super) const SHARP: f64 = 0.15;
/// An outline of more facets is curved.
const CURVED: usize = 6;
/// More than the play of any tenon, mm.
const PLAY: f64 = 0.5;
/// Cosine of the angle to the line of sight within which a tenon's width is seen end on.
const EDGE_ON: f64 = 0.7;
/// Points nearer to a plane than this lie in it, mm.
const ON: f64 = 1e-4;

/// Collects the marks of one part.
struct Marking<'a> {
    chair: &'a Chair,
    part: &'a Part,
    blank: &'a Blank,
    drawn: &'a [Drawn; 4],
    marks: Vec<Mark>,
    shoulders: Vec<Shoulder>,
}

impl Marked {
    /// What is marked on a part.
    pub fn of(chair: &Chair, part: &Part, body: &PartBody) -> Result<Self, Unbuildable> {
        let blank = Blank::of(chair, part, body);
        let stock = crate::sheets::template::timber(chair, part)?.posed(&part.place);
        let drawn = [0, 1, 2, 3].map(|face| drawn(&blank, &stock, face));
        let mut marking =
            Marking { chair, part, blank: &blank, drawn: &drawn, marks: Vec::new(), shoulders: Vec::new() };
        for joint in &chair.joints {
            if joint.host == part.id {
                marking.mortise(joint)?;
            }
            if joint.guest == part.id {
                marking.tenon(joint)?;
            }
        }
        marking.recesses()?;
        let Marking { marks, shoulders, .. } = marking;
        Ok(Self { blank, drawn, marks, shoulders })
    }
}

impl Marked {
    /// Whether an edge of the face is sawn to a curve, for which the offset table stands.
    pub fn is_curved(&self, face: usize) -> bool {
        let facets = |outline: &Vec<Point>| (0..outline.len()).filter(|&i| turn(outline, i) < SHARP).count();
        self.drawn[face].outline.iter().map(facets).sum::<usize>() > CURVED
    }
}

/// Sine of the turn of an outline at one of its corners.
pub(super) fn turn(outline: &[Point], i: usize) -> f64 {
    let n = outline.len();
    let (before, at, after) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
    let (a, b) = (at - before, after - at);
    a.cross(b).abs() / (a.hypot2() * b.hypot2()).sqrt()
}

fn drawn(blank: &Blank, stock: &Solid, face: usize) -> Drawn {
    let side = &blank.faces[face];
    let lines = Lines::of(stock, &Look::new(blank.along, side.up));
    // `Look` has its own origin; the face's is the datum end and its upper edge.
    let shift = blank.on(face, Vec3::ZERO).to_vec2();
    let outline = lines.outline.iter().map(|t| tidy(t.points.iter().map(|&p| p + shift).collect())).collect();
    let edges = lines.edges.iter().map(|t| [t.points[0] + shift, t.points[1] + shift]).collect();
    Drawn { outline, edges }
}

impl Marking<'_> {
    fn mortise(&mut self, joint: &Joint) -> Result<(), Unbuildable> {
        let face = self.blank.facing(joint.face.normal);
        let letter = self.chair.letter(joint.guest).to_owned();
        let tongues = joint.tenon.tongues.len();
        let own: Vec<Vec<Point>> = joint
            .mortise
            .bodies
            .iter()
            .map(|body| self.opening(body, &joint.face, face))
            .collect::<Result<_, _>>()?;
        if joint.kind == Kind::Dowels {
            for corners in own {
                let mark = Mark { size: joint.mortise.thickness, ..mark(What::Hole, face, &letter, corners) };
                self.put(Mark { depth: joint.mortise.depth, ..mark });
            }
        } else {
            // Of a tenon that passes another the pieces have one mouth; twin tenons have two.
            let (bodies, haunch) = own.split_at(tongues.min(own.len()));
            let mouths = joined(bodies);
            let haunch: Vec<Vec<Point>> = haunch.iter().map(|socket| beside(socket, &mouths)).collect();
            for corners in mouths {
                let depth = if joint.kind == Kind::Through { 0.0 } else { joint.mortise.depth };
                self.put(Mark {
                    depth,
                    size: joint.mortise.thickness,
                    ..mark(What::Mortise, face, &letter, corners)
                });
            }
            let depth = joint.tenon.haunch.map_or(0.0, |h| h.length + joint.mortise.glue_gap);
            for corners in haunch {
                self.put(Mark { depth, ..mark(What::Haunch, face, &letter, corners) });
            }
        }
        if joint.kind == Kind::Through {
            self.exit(joint, &letter)?;
        }
        for peg in &joint.pegs {
            self.peg(peg, peg.place.origin);
        }
        Ok(())
    }

    /// Where a through mortise comes out of the far face.
    fn exit(&mut self, joint: &Joint, letter: &str) -> Result<(), Unbuildable> {
        let way = joint.mouth.x;
        let inside = self.part.place.local_point(joint.mouth.origin + way);
        let Some(exit) = self.part.stock.exit(inside, self.part.place.local_direction(way)) else {
            return Ok(());
        };
        let plane = self.part.place.plane(&exit.face);
        let face = self.blank.facing(plane.normal);
        for body in &joint.mortise.bodies {
            let corners = self.opening(body, &plane, face)?;
            self.put(Mark { size: joint.mortise.thickness, ..mark(What::Exit, face, letter, corners) });
        }
        Ok(())
    }

    fn tenon(&mut self, joint: &Joint) -> Result<(), Unbuildable> {
        let letter = self.chair.letter(joint.host).to_owned();
        for face in 0..4 {
            let ends = self.shoulder(&joint.face, face);
            self.shoulders.extend(ends.map(|ends| Shoulder { face, ends }));
            for body in &joint.tenon.bodies {
                let solid = carve(std::slice::from_ref(body), &[])
                    .map_err(|e| not_closed(self.part, &e.to_string()))?;
                let corners = hull(solid.vertices.iter().map(|&v| self.blank.on(face, v)).collect());
                let root = self.blank.distance(joint.mouth.origin);
                // Where one looks along its width, its thickness is seen.
                let edge_on = self.blank.faces[face].normal.dot(joint.mouth.y).abs() > EDGE_ON;
                let size = if edge_on { joint.tenon.thickness } else { 0.0 };
                self.put(Mark { root, size, ..mark(What::Tenon, face, &letter, corners) });
            }
        }
        for peg in &joint.pegs {
            // Where it meets the cheek that it enters; the hole in a drawn tenon is bored nearer to the shoulder.
            let side = -joint.mouth.z.dot(peg.place.x).signum();
            let cheek =
                joint.mouth.plane(&Plane { normal: Vec3::Z * side, offset: joint.tenon.thickness / 2.0 });
            let at = cheek.meet(peg.place.origin, peg.place.x).unwrap_or(peg.place.origin);
            self.peg(peg, at - joint.mouth.x * peg.draw);
        }
        Ok(())
    }

    /// Where the plane of a shoulder crosses a face of the blank.
    fn shoulder(&self, plane: &Plane, face: usize) -> Option<[Point; 2]> {
        let rect = pens::around(self.drawn[face].outline.iter().flatten())?;
        let side = &self.blank.faces[face];
        // Both arrises of the face run along the blank, where the timber ends across.
        let arris = |y: f64| {
            let here = self.blank.point(face, Point::new(0.0, y));
            plane.meet(here, self.blank.along).map(|p| self.blank.on(face, p))
        };
        let ends = [arris(0.0)?, arris(side.height)?];
        let near = |p: &Point| p.x > rect.x0 - 1.0 && p.x < rect.x1 + 1.0;
        ends.iter().all(near).then_some(ends)
    }

    fn peg(&mut self, peg: &Peg, at: Vec3) {
        let face = self.blank.facing(-peg.place.x);
        let centre = self.blank.on(face, at);
        let mark = Mark { depth: peg.length, size: peg.size, ..mark(What::Peg, face, "peg", vec![centre]) };
        self.marks.push(mark);
    }

    fn recesses(&mut self) -> Result<(), Unbuildable> {
        let own = self.chair.housings.iter().filter(|h| h.host == self.part.id && h.cut != Cut::Notch);
        for housing in own {
            let letter = self.chair.letter(housing.guest).to_owned();
            for face in 0..4 {
                let plane = self.surface(face);
                let corners = self.opening(&housing.body, &plane, face)?;
                let deep = Mark { depth: housing.depth, ..mark(What::Recess, face, &letter, corners) };
                self.put(deep);
            }
        }
        Ok(())
    }

    /// The plane of a face of the blank.
    fn surface(&self, face: usize) -> Plane {
        Plane::through(self.blank.point(face, Point::ZERO), self.blank.faces[face].normal)
    }

    /// Where a body opens in a plane of the part's surface, within the timber.
    fn opening(&self, body: &Body, plane: &Plane, face: usize) -> Result<Vec<Point>, Unbuildable> {
        let Ok(solid) = carve(&[body.clipped(*plane)], &[]) else { return Ok(Vec::new()) };
        let on = solid.vertices.iter().filter(|v| plane.distance(**v).abs() < ON);
        let flat = hull(on.map(|&v| self.blank.on(face, v)).collect());
        if flat.len() < 3 {
            return Ok(Vec::new());
        }
        let Some(outline) = self.drawn[face].outline.first() else { return Ok(Vec::new()) };
        Ok(tidy(clipped(outline, &flat)))
    }

    fn put(&mut self, mark: Mark) {
        if mark.corners.len() > 2 {
            self.marks.push(mark);
        }
    }
}

impl Mark {
    /// Whether the cut goes in from the face it is marked on.
    pub fn is_opening(&self) -> bool {
        !matches!(self.what, What::Tenon | What::Peg)
    }
}

fn mark(what: What, face: usize, letter: &str, corners: Vec<Point>) -> Mark {
    Mark { what, face, letter: letter.to_owned(), corners, depth: 0.0, size: 0.0, root: 0.0 }
}

/// The mouth of a haunch's socket, which begins where the mortise ends: the two bodies lie over each other by the play.
fn beside(socket: &[Point], mouths: &[Vec<Point>]) -> Vec<Point> {
    let near = |p: Point| mouths.iter().flatten().copied().find(|q| (*q - p).hypot2() < PLAY * PLAY);
    tidy(socket.iter().map(|&p| near(p).unwrap_or(p)).collect())
}

/// Mouths that touch become one.
fn joined(mouths: &[Vec<Point>]) -> Vec<Vec<Point>> {
    let mut found: Vec<Vec<Point>> = Vec::new();
    for mouth in mouths.iter().filter(|mouth| mouth.len() > 2) {
        let rect = pens::around(mouth).unwrap_or_default().inflate(ON, ON);
        let touches = |other: &&mut Vec<Point>| pens::around(&**other).is_some_and(|r| r.overlaps(rect));
        match found.iter_mut().find(touches) {
            Some(other) => *other = hull(other.iter().chain(mouth).copied().collect()),
            None => found.push(mouth.clone()),
        }
    }
    found
}
