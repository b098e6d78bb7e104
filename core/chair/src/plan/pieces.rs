//! From rows of the cutting list to pieces by species and thickness.

use super::Wanted;
use crate::chair::Chair;
use crate::lists::{CuttingRow, is_sawn_from_board, sawn_thickness};
use crate::part::Role;
use crestrail_geometry::{coarser, grown, silhouette};
use crestrail_sorting::Order as _;
use crestrail_timber::{Species, TradeThickness};
use kurbo::Point;

/// Pieces of one species and thickness.
#[derive(Clone, Debug)]
pub(super) struct Class {
    pub(super) species: &'static Species,
    /// The thickness that the pieces want; nothing where the trade has nothing so thick.
    pub(super) trade: Option<TradeThickness>,
    /// Sawn thickness, mm.
    pub(super) thickness: f64,
    pub(super) pieces: Vec<Piece>,
}

/// Pieces that are made alike, for one of the wanted designs.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    /// Which design, by its place among those wanted.
    pub(super) design: usize,
    /// The part's letter; where several designs are wanted, the design's number from 1 before it.
    pub(super) letter: String,
    pub(super) part: &'static str,
    pub(super) role: Role,
    /// How many for all chairs of the design.
    pub(super) count: u32,
    /// Whether left and right differ, so that two make a pair.
    pub(super) paired: bool,
    /// Rough size, tenths of a millimetre rounded up.
    pub(super) length: f64,
    pub(super) width: f64,
    /// The rough outline in its own box, where it is sawn to one.
    pub(super) outline: Option<Vec<Point>>,
    /// From how many strips it is glued up; one for a piece that is whole.
    pub(super) strips: u32,
}

impl Piece {
    /// Rough area of one, glued joints not counted, mm².
    pub(super) fn area(&self) -> f64 {
        match &self.outline {
            Some(outline) => crestrail_geometry::outline::signed_area(outline),
            None => self.length * self.width,
        }
    }
}

/// A curve may be sawn this far outside its outline, mm: a tenth of what is planed off its edges.
pub(super) const TOLERANCE: f64 = 0.25;

/// What is sawn from boards for one chair, rough; the same for every number of chairs.
#[derive(Clone, Debug)]
pub struct RoughPieces(Vec<Class>);

impl RoughPieces {
    /// Of a chair and its cutting list.
    pub fn of(chair: &Chair, rows: &[CuttingRow]) -> Self {
        let mut classes = Vec::new();
        let sawn = rows.iter().filter(|r| is_sawn_from_board(r.role));
        for (row, species) in sawn.filter_map(|r| Some((r, r.material.species()?))) {
            let (trade, thickness) = (row.trade_thickness, sawn_thickness(row));
            let pieces = vec![piece(chair, row)];
            join(&mut classes, Class { species, trade, thickness, pieces });
        }
        Self(classes)
    }
}

/// The classes of all chairs, in the order of species and thickness.
pub(super) fn by_class(wanted: &[Wanted<'_>]) -> Vec<Class> {
    let mut classes: Vec<Class> = Vec::new();
    for (design, want) in wanted.iter().enumerate() {
        for class in &want.pieces.0 {
            let mut class = class.clone();
            for piece in &mut class.pieces {
                piece.design = design;
                piece.count *= want.count;
                // Every design has its own A.
                if wanted.len() > 1 {
                    piece.letter = format!("{}{}", design + 1, piece.letter);
                }
            }
            join(&mut classes, class);
        }
    }
    classes.order_by(|a, b| a.species.id.cmp(b.species.id).then(a.thickness.total_cmp(&b.thickness)));
    classes
}

/// Adds the pieces to those of their species and thickness.
fn join(classes: &mut Vec<Class>, class: Class) {
    let same = |c: &&mut Class| c.species == class.species && c.thickness == class.thickness;
    match classes.iter_mut().find(same) {
        Some(known) => known.pieces.extend(class.pieces),
        None => classes.push(class),
    }
}

fn piece(chair: &Chair, row: &CuttingRow) -> Piece {
    Piece {
        design: 0,
        letter: row.letter.clone(),
        part: row.part,
        role: row.role,
        count: row.quantity,
        paired: row.handed,
        length: tenths_up(row.rough.length),
        width: tenths_up(row.rough.width),
        outline: outline(chair, row),
        strips: 1,
    }
}

/// Sizes are sawn to the tenth of a millimetre above; what is less than a hundredth is rounding.
fn tenths_up(size: f64) -> f64 {
    (size * 10.0 - 0.1).ceil() / 10.0
}

/// The outline to saw: what the finished part covers, joints and all, and the sawing allowances once: half of the
/// width's at each edge, half of the length's at each end.
fn outline(chair: &Chair, row: &CuttingRow) -> Option<Vec<Point>> {
    let (_, body) = chair.pieces().find(|(part, _)| part.letter == row.letter && part.sawn_to_outline)?;
    let covered = coarser(&silhouette(&body.solid), TOLERANCE);
    let [ends, around] =
        [row.rough.length - row.finished.length, row.rough.width - row.finished.width].map(|a| a / 2.0);
    let rough = grown(&covered, around, ends);
    let low = rough.iter().fold([f64::INFINITY; 2], |l, p| [l[0].min(p.x), l[1].min(p.y)]);
    Some(rough.iter().map(|p| Point::new(p.x - low[0], p.y - low[1])).collect())
}
