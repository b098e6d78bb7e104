//! The tables below the faces: tenons, mortises, pegs, and ordinates of curves.

use super::gauges::gauged;
use super::limits::SHARE_OF_PLAY;
use super::marks::{Mark, SHARP, What, turn};
use super::subject::Subject;
use super::table::{Block, long, table};
use crate::chair::Chair;
use crate::joint::{End, Joint, Kind, PegShape};
use crate::length::Lengths;
use crate::sheets::pens;
use crestrail_geometry::math::{acos, degrees, tan};
use kurbo::Point;

/// An angle of less than this counts as square, radians: 0.05°, half of the finest that is told.
const SQUARE: f64 = 0.000_873;

/// What the tables need.
pub(super) struct Tables<'a> {
    pub(super) chair: &'a Chair,
    pub(super) subject: &'a Subject<'a>,
    pub(super) lengths: Lengths,
    pub(super) width: f64,
}

impl Tables<'_> {
    pub(super) fn all(&self) -> Vec<Block> {
        let mut blocks = self.tenons();
        blocks.extend(self.mortises());
        blocks.extend(self.recesses());
        blocks.extend(super::limits::blocks(self));
        blocks.extend(self.offsets());
        blocks
    }

    fn mm(&self, length: f64) -> String {
        self.lengths.write(length)
    }

    /// `square`, or what a bevel is set to, as an angle and as rise over run.
    fn bevel(&self, lean: f64) -> String {
        if lean < SQUARE {
            return "square".to_owned();
        }
        format!("{:.1}°, {}", 90.0 - degrees(lean), self.lengths.slope(tan(lean)))
    }

    fn tenons(&self) -> Vec<Block> {
        let own = self.chair.joints.iter().filter(|joint| joint.guest == self.subject.part.id);
        let rows: Vec<Vec<String>> = own.map(|joint| self.tenon(joint)).collect();
        if rows.is_empty() {
            return Vec::new();
        }
        let head = [
            "End",
            "Into",
            "Thick",
            "Wide",
            "Long",
            "Over face side",
            "Over face edge",
            "To the grain",
            "Also",
        ];
        table(
            "Tenons: thickness with what the play allows, shoulders as a bevel is set",
            &head,
            &rows,
            self.width,
        )
    }

    fn tenon(&self, joint: &Joint) -> Vec<String> {
        let tenon = &joint.tenon;
        let blank = &self.subject.marked.blank;
        let along = blank.along.dot(joint.face.normal).abs();
        let lean = |face: usize| {
            // On a face the shoulder runs across; it leans by what of its normal lies along the face's up.
            let across = blank.faces[face].up.dot(joint.face.normal).abs();
            crestrail_geometry::math::atan2(across, along)
        };
        let end = if joint.end == End::Near { "datum" } else { "far" };
        let (thick, wide) = match joint.kind {
            Kind::Dowels => (format!("Ø {}", self.mm(tenon.thickness)), "2 dowels".to_owned()),
            _ => (self.thickness(joint), self.mm(tenon.width)),
        };
        vec![
            end.to_owned(),
            self.chair.letter(joint.host).to_owned(),
            thick,
            wide,
            self.mm(tenon.length),
            self.bevel(lean(0)),
            self.bevel(lean(1)),
            if tenon.to_grain < SQUARE { "along".to_owned() } else { self.grain(tenon.to_grain) },
            self.also(joint),
        ]
    }

    fn grain(&self, angle: f64) -> String {
        format!("{:.1}°, {}", degrees(angle), self.lengths.slope(tan(angle)))
    }

    /// With the tolerance that the play leaves.
    fn thickness(&self, joint: &Joint) -> String {
        let play = joint.mortise.thickness - joint.tenon.thickness;
        let tolerance = self.lengths.fine(play * SHARE_OF_PLAY);
        format!("{} ±{tolerance}", self.lengths.fine(joint.tenon.thickness))
    }

    fn also(&self, joint: &Joint) -> String {
        let mut also = vec![joint.kind.name().to_owned()];
        let tenon = &joint.tenon;
        if let Some(haunch) = tenon.haunch {
            also.push(format!(
                "haunch {} long, {} wide, sloping out",
                self.mm(haunch.length),
                self.mm(haunch.width)
            ));
        }
        if let Some(mitre) = tenon.mitre {
            let with = self.chair.letter(mitre.with);
            also.push(format!(
                "end mitred to {} on the short side, towards {with}",
                self.mm(mitre.short_length)
            ));
        }
        if tenon.tongues.len() > 1 && joint.kind != Kind::Dowels {
            let low = -tenon.width / 2.0;
            let piece = |t: &crate::joint::Tongue| {
                format!(
                    "{} to {} from its lower edge: {} long",
                    self.mm(t.y[0] - low),
                    self.mm(t.y[1] - low),
                    self.mm(t.to)
                )
            };
            also.extend(tenon.tongues.iter().map(piece));
        }
        if let Some(wedging) = &joint.wedging {
            let place = wedging
                .from_edge
                .map_or("in the middle".to_owned(), |edge| format!("{} from the edges", self.mm(edge)));
            also.push(format!("{} saw kerfs {} deep, {place}", wedging.count, self.mm(wedging.length)));
        }
        if let Some(draw) = joint.pegs.first().map(|peg| peg.draw).filter(|draw| *draw > 0.0) {
            also.push(format!(
                "peg holes {} nearer to the shoulder than in {}",
                self.mm(draw),
                self.chair.letter(joint.host)
            ));
        }
        also.join("; ")
    }

    fn mortises(&self) -> Vec<Block> {
        let own = self.chair.joints.iter().filter(|joint| joint.host == self.subject.part.id);
        let rows: Vec<Vec<String>> = own.map(|joint| self.mortise(joint)).collect();
        if rows.is_empty() {
            return Vec::new();
        }
        let head = ["For", "Opens in", "Cutter", "Wide", "Deep", "Walls to the face", "Also"];
        table("Mortises", &head, &rows, self.width)
    }

    fn mortise(&self, joint: &Joint) -> Vec<String> {
        let blank = &self.subject.marked.blank;
        let mortise = &joint.mortise;
        let face = blank.facing(joint.face.normal);
        let lean = acos(joint.face.normal.dot(joint.mouth.x).abs().min(1.0));
        let wide = if joint.kind == Kind::Dowels { "2 holes".to_owned() } else { self.mm(mortise.width) };
        let deep = if joint.kind == Kind::Through { "through".to_owned() } else { self.mm(mortise.depth) };
        vec![
            self.chair.letter(joint.guest).to_owned(),
            blank.faces[face].name.to_owned(),
            self.lengths.bought(mortise.thickness),
            wide,
            deep,
            self.bevel(lean),
            self.beside(joint),
        ]
    }

    /// What stands beside a mortise; of one in a face with a sawn edge how it is gauged from that edge.
    fn beside(&self, joint: &Joint) -> String {
        let mut also: Vec<String> = self.sawn(joint).into_iter().collect();
        if let Some(haunch) = joint.tenon.haunch {
            let deep = haunch.length + joint.mortise.glue_gap;
            also.push(format!("socket of the haunch {} deep, sloping out", self.mm(deep)));
        }
        if joint.tenon.tongues.len() > 1 && !matches!(joint.kind, Kind::Dowels | Kind::Twin) {
            also.push("in steps: see the tenon".to_owned());
        }
        if let Some(wedging) = &joint.wedging {
            also.push(format!("on the far face {} longer at each end", self.mm(wedging.flare)));
        }
        if let Some(peg) = joint.pegs.first() {
            let shape = if peg.shape == PegShape::Round { "round" } else { "square" };
            let count = joint.pegs.len();
            let pegs = if count == 1 { "peg".to_owned() } else { format!("{count} pegs") };
            also.push(format!(
                "{pegs}: {shape} {}, {} from the mouth, {} deep",
                self.lengths.bought(peg.size),
                self.mm(peg.from_face),
                self.mm(peg.length)
            ));
        }
        also.join("; ")
    }

    fn sawn(&self, joint: &Joint) -> Option<String> {
        let marked = &self.subject.marked;
        let face = marked.blank.facing(joint.face.normal);
        if !marked.is_curved(face) {
            return None;
        }
        let at = joint.mouth.origin;
        let middle = marked.blank.on(face, at);
        let own = |mark: &&Mark| {
            let around = pens::around(&mark.corners).is_some_and(|rect| rect.contains(middle));
            mark.face == face && mark.is_opening() && around
        };
        let mark = marked.marks.iter().find(own)?;
        let lines = gauged(self.subject, mark);
        let from = marked.blank.faces[face].from;
        let figures: Vec<String> = lines.iter().map(|v| self.mm(*v)).collect();
        Some(format!("gauged {} from the {from} as sawn", figures.join(" and ")))
    }

    fn recesses(&self) -> Vec<Block> {
        let marks = self.subject.marked.marks.iter().filter(|mark| mark.what == What::Recess);
        let row = |mark: &Mark| {
            let rect = pens::around(&mark.corners).unwrap_or_default();
            let face = self.subject.marked.blank.faces[mark.face].name;
            let [long, wide, deep] = [rect.width(), rect.height(), mark.depth].map(|v| self.mm(v));
            vec![mark.letter.clone(), face.to_owned(), long, wide, deep]
        };
        let rows: Vec<Vec<String>> = marks.map(row).collect();
        if rows.is_empty() {
            return Vec::new();
        }
        table("Grooves and slots", &["For", "Opens in", "Along", "Across", "Deep"], &rows, self.width)
    }

    /// Of a curved outline, at stations along the datum: how far its two lines lie from the face edge of the blank.
    fn offsets(&self) -> Vec<Block> {
        let marked = &self.subject.marked;
        let Some(face) = (0..2).find(|&face| marked.is_curved(face)) else {
            return Vec::new();
        };
        let from = marked.blank.faces[face].from;
        let rows = offsets(self.subject, face, self.lengths.station());
        // As many stations beside each other as the sheet holds.
        let cell = |v: f64| self.mm(v);
        let widest = rows.iter().flatten().map(|&v| long(&cell(v))).fold(0.0, f64::max) + 4.0;
        let first = long("Farther line") + 4.0;
        let each = (((self.width - first) / widest).floor() as usize).max(1);
        let mut blocks = Vec::new();
        for (i, chunk) in rows.chunks(each).enumerate() {
            let title = format!(
                "Outline on the {}, in {} from the plank's straight edge on the side of the {from}",
                marked.blank.faces[face].name,
                self.lengths.unit()
            );
            let title = if i == 0 { title } else { "Outline, further along".to_owned() };
            let stations: Vec<String> = chunk.iter().map(|row| cell(row[0])).collect();
            let mut head = vec!["From the end"];
            head.extend(stations.iter().map(String::as_str));
            let line = |name: &str, k: usize| {
                let mut cells = vec![name.to_owned()];
                cells.extend(chunk.iter().map(|row| cell(row[k])));
                cells
            };
            blocks.extend(table(
                &title,
                &head,
                &[line("Nearer line", 1), line("Farther line", 2)],
                self.width + 20.0,
            ));
        }
        blocks
    }
}

/// Stations with the nearer and the farther line of a face's outline from the edge that is measured from, mm.
pub fn offsets(subject: &Subject<'_>, face: usize, apart: f64) -> Vec<[f64; 3]> {
    let marked = &subject.marked;
    let outline: Vec<Point> = marked.drawn[face].outline.iter().flatten().copied().collect();
    let Some(rect) = pens::around(&outline) else { return Vec::new() };
    let count = (rect.x1 / apart).floor() as usize;
    let mut stations: Vec<f64> =
        (0..=count).map(|i| i as f64 * apart).filter(|x| *x > rect.x0 + 1.0 && *x < rect.x1 - 1.0).collect();
    // An end, and any corner of the outline, is a station too.
    let n = outline.len();
    stations.extend(
        (0..n)
            .filter(|&i| turn(&outline, i) > SHARP)
            .map(|i| outline[i].x)
            .filter(|x| *x > rect.x0 + 1.0 && *x < rect.x1 - 1.0),
    );
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|a, b| (*a - *b).abs() < 1.0);
    // The ends themselves may be cut at a slant: a hair within them both lines still have a point.
    stations.insert(0, rect.x0 + END);
    stations.push(rect.x1 - END);
    let row = |x: f64| {
        let crossings: Vec<f64> = (0..n)
            .filter_map(|i| {
                let (a, b) = (outline[i], outline[(i + 1) % n]);
                ((a.x > x) != (b.x > x)).then(|| a.lerp(b, (x - a.x) / (b.x - a.x)).y)
            })
            .map(|y| marked.blank.across(face, Point::new(x, y)))
            .collect();
        let low = crossings.iter().copied().reduce(f64::min)?;
        let high = crossings.iter().copied().reduce(f64::max)?;
        Some([x, low, high])
    };
    stations.into_iter().filter_map(row).collect()
}

/// How far within an end its ordinates are taken, mm.
const END: f64 = 1e-3;
