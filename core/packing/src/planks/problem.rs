//! What is asked of the planks, checked.

use super::polygon::{self, Point};
use super::variant::{Variant, variants};
use crate::refused::Refused;
use crate::units::{self, MOST};

/// One kind of plank on offer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plank {
    /// Length along the grain, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// Price of one, minor units; zero for what is already there.
    pub price: i64,
    /// How many there are; nothing for as many as wanted.
    pub count: Option<u32>,
}

/// Pieces of one outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Corners in order, mm; x runs along the grain. The last one is joined to the first.
    pub outline: Vec<[f64; 2]>,
    /// How many.
    pub count: u32,
    /// Turns allowed, degrees; usually 0 and 180, for the grain runs along.
    pub turns: Vec<f64>,
    /// How far a piece may be tilted from those turns, degrees: the limit of grain run-out.
    pub tilt: f64,
}

/// What is taken off all planks: ends and edges, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Trim {
    /// Off each end.
    pub end: f64,
    /// Off each edge.
    pub edge: f64,
}

/// Pieces to saw from planks by their outlines, with a kerf clear between neighbours.
#[derive(Clone, Debug)]
pub struct Problem {
    pub(super) planks: Vec<Plank>,
    pub(super) shapes: Vec<Shape>,
    pub(super) trim: Trim,
    /// Length and width of each plank without its trims.
    pub(super) beds: Vec<[f64; 2]>,
    /// Clear distance between outlines.
    pub(super) clear: f64,
    /// Clear distance to the trimmed edge: what the outlines may be off.
    pub(super) margin: f64,
    /// Every shape at every turn.
    pub(super) variants: Vec<Variant>,
}

/// Most corners of one outline: a fine curve has fewer.
const CORNERS: usize = 400;
/// Largest tilt that can still be called along the grain, degrees.
const TILT: f64 = 15.0;

impl Problem {
    /// Checks outlines and sizes. `tolerance` is how far a curve may lie outside the outline that was made
    /// from it, mm; it is kept clear as well.
    pub fn new(
        planks: &[Plank],
        shapes: &[Shape],
        kerf: f64,
        trim: Trim,
        tolerance: f64,
    ) -> Result<Self, Refused> {
        let (kerf, margin) = (units::allowance("kerf", kerf)?, units::allowance("tolerance", tolerance)?);
        units::allowance("trim.end", trim.end)?;
        units::allowance("trim.edge", trim.edge)?;
        for (i, plank) in planks.iter().enumerate() {
            units::size(&format!("planks[{i}].length"), plank.length)?;
            units::size(&format!("planks[{i}].width"), plank.width)?;
            units::price(&format!("planks[{i}].price"), plank.price)?;
        }
        units::total(shapes.iter().map(|s| s.count))?;
        let mut all = Vec::new();
        for (i, shape) in shapes.iter().enumerate() {
            all.extend(variants(i, shape, &checked(i, shape)?)?);
        }
        let beds = planks
            .iter()
            .map(|p| [p.length - 2.0 * trim.end - 2.0 * margin, p.width - 2.0 * trim.edge - 2.0 * margin]);
        let problem = Self {
            beds: beds.collect(),
            planks: planks.to_vec(),
            shapes: shapes.to_vec(),
            trim,
            clear: kerf + 2.0 * margin,
            margin,
            variants: all,
        };
        (0..shapes.len()).try_for_each(|s| problem.fits_somewhere(s)).map(|()| problem)
    }

    /// The planks on offer.
    pub fn planks(&self) -> &[Plank] {
        &self.planks
    }

    /// The pieces asked for.
    pub fn shapes(&self) -> &[Shape] {
        &self.shapes
    }

    /// How many of each plank could be used at most.
    pub(super) fn limits(&self) -> Vec<u32> {
        let pieces: u32 = self.shapes.iter().map(|s| s.count).sum();
        self.planks.iter().map(|p| p.count.unwrap_or(MOST).min(pieces)).collect()
    }

    fn fits_somewhere(&self, shape: usize) -> Result<(), Refused> {
        let place = format!("shapes[{shape}].outline");
        let own = || self.variants.iter().filter(|v| v.shape == shape);
        let over = own().flat_map(|v| self.beds.iter().map(move |bed| v.over(*bed)));
        let Some(least) = over.min_by(|a, b| (a[0].max(a[1])).total_cmp(&b[0].max(b[1]))) else {
            return Err(Refused::new(place, "There is no plank to saw it from."));
        };
        if least[0].max(least[1]) <= 1e-6 {
            return Ok(());
        }
        let side = |v: f64, what: &str| (v > 1e-6).then(|| format!("{v:.2} mm too {what}"));
        let why: Vec<String> =
            [side(least[0], "long"), side(least[1], "wide")].into_iter().flatten().collect();
        Err(Refused::new(
            place,
            format!("The piece is {} for the plank that suits it best.", why.join(" and ")),
        ))
    }
}

/// The outline cleaned; refused if it is not a simple polygon.
fn checked(i: usize, shape: &Shape) -> Result<Vec<Point>, Refused> {
    let refused = |why: String| Err(Refused::new(format!("shapes[{i}].outline"), why));
    let wild = |v: &f64| !v.is_finite() || v.abs() > units::LONGEST;
    if shape.outline.len() > CORNERS {
        return refused(format!(
            "The outline has {} corners; at most {CORNERS} are taken.",
            shape.outline.len()
        ));
    }
    if shape.outline.iter().flatten().any(wild) {
        return refused("A corner is not a place on a plank.".to_owned());
    }
    if shape.turns.is_empty() || shape.turns.len() > 8 || !shape.turns.iter().all(|t| t.abs() <= 360.0) {
        return Err(Refused::new(
            format!("shapes[{i}].turns"),
            "There must be one to eight turns within 360 degrees.",
        ));
    }
    if !(0.0..=TILT).contains(&shape.tilt) {
        return Err(Refused::new(
            format!("shapes[{i}].tilt"),
            format!("The tilt must be from 0 to {TILT} degrees."),
        ));
    }
    let points = polygon::cleaned(&shape.outline);
    if points.len() < 3 || polygon::area(&points) <= 1e-6 {
        return refused("The outline has no area.".to_owned());
    }
    if polygon::crosses_itself(&points) {
        return refused("The outline crosses itself.".to_owned());
    }
    Ok(points)
}
