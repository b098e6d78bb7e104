//! Templates: the true outline of a part at full size, to lay on the plank, with all that is marked on it.

use super::look::{Lines, Look};
use super::marks::{Label, Marks, Subject};
use super::pens::{self, Pen};
use super::spread::{Wish, spread};
use super::{FullSize, dimension, notes};
use crate::chair::Chair;
use crate::housing::Cut;
use crate::length::Lengths;
use crate::material::Material;
use crate::part::{Part, Side};
use crate::solids::not_closed;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Solid, Vec3, carve};
use crestrail_sheet::{Align, Item, Sheet, Unit, Weight};
use crestrail_sorting::Order as _;
use kurbo::{Point, Rect, Vec2};

/// A part whose corners all lie nearer than this to those of a rectangle needs no template, mm: half a saw's kerf.
const PLAIN: f64 = 0.5;

/// Room around the drawing, mm: on the left for the dimension of the width.
const LEFT: f64 = 16.0;
const ROUND: f64 = 8.0;
/// From one line of words to the next, mm.
const LINE: f64 = 5.0;
/// Above a view for the labels and the lines from them; below it for grain and length, mm.
const ABOVE: f64 = 18.0;
const BELOW: f64 = 22.0;
/// From the view down to the grain, and to the dimension, mm.
const GRAIN: f64 = 7.0;
const LENGTH: f64 = 15.0;
/// Between labels, mm.
const APART: f64 = 4.0;

/// One template for each letter whose parts have an outline that is no plain rectangle. Left parts are drawn as
/// their right twins.
pub fn templates(chair: &Chair, lengths: Lengths) -> Result<Vec<FullSize>, Unbuildable> {
    let mut made: Vec<FullSize> = Vec::new();
    let mut letters: Vec<&str> = Vec::new();
    for part in chair.parts.iter().filter(|part| part.id.side != Side::Left && may_have_one(part)) {
        if letters.contains(&part.letter.as_str()) {
            continue;
        }
        letters.push(&part.letter);
        made.extend(template(chair, part, lengths)?);
    }
    Ok(made)
}

/// Pegs, dowels and what is sewn or woven have no outline to saw to.
pub(super) fn may_have_one(part: &Part) -> bool {
    let sawn = matches!(part.material, Material::Timber(_) | Material::Plywood);
    !part.id.role.is_small() && sawn
}

/// One way of looking at a part, with its marks.
struct View {
    /// From where it is seen.
    name: &'static str,
    lines: Lines,
    marks: Marks,
    /// Around the timber, and around the tenons too.
    timber: Rect,
    whole: Rect,
    lengths: Lengths,
}

fn template(chair: &Chair, part: &Part, lengths: Lengths) -> Result<Option<FullSize>, Unbuildable> {
    let solid = timber(chair, part)?;
    let mut views = Vec::new();
    for up in [Vec3::Y, -Vec3::Z] {
        let look = towards_mortises(chair, part, Look::new(Vec3::X, up));
        let lines = Lines::of(&solid, &look);
        if !is_plain(&lines) {
            views.extend(view(chair, part, look, lines, lengths)?);
        }
    }
    let title = notes::heading(chair, part);
    Ok((!views.is_empty()).then(|| FullSize {
        name: format!("template-{}", part.letter),
        is_full_size: true,
        sheet: sheet(&title, &notes::lines(chair, part, lengths), &views),
        title,
    }))
}

/// The part shoulder to shoulder, with what is sawn out of its edges.
pub(super) fn timber(chair: &Chair, part: &Part) -> Result<Solid, Unbuildable> {
    let notches = chair.housings.iter().filter(|h| h.host == part.id && h.cut == Cut::Notch);
    let cut: Vec<_> = notches.map(|h| h.body.local_to(&part.place)).collect();
    carve(std::slice::from_ref(&part.stock), &cut).map_err(|error| not_closed(part, &error.to_string()))
}

/// The same view, or the one from behind if more mortises are cut from there.
fn towards_mortises(chair: &Chair, part: &Part, look: Look) -> Look {
    let side = |normal: Vec3| part.place.local_direction(normal).dot(look.toward).round() as i32;
    let hosted = chair.joints.iter().filter(|joint| joint.host == part.id);
    let balance: i32 = hosted.map(|joint| side(joint.face.normal)).sum();
    if balance < 0 { Look::new(look.right, -look.up) } else { look }
}

/// Corners on a straight run, where something only touches, do not count.
fn is_plain(lines: &Lines) -> bool {
    let traces = lines.outline.iter();
    let corners_of = |trace: &crestrail_sheet::Trace| crestrail_geometry::outline::tidy(trace.points.clone());
    let points: Vec<Point> = traces.flat_map(corners_of).collect();
    let Some(rect) = pens::around(&points) else { return true };
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
    let near = |p: &Point| corners.iter().any(|&c| (*p - Point::from(c)).hypot2() < PLAIN * PLAIN);
    points.iter().all(near)
}

fn view(
    chair: &Chair,
    part: &Part,
    look: Look,
    lines: Lines,
    lengths: Lengths,
) -> Result<Option<View>, Unbuildable> {
    let Some(timber) = pens::around(lines.points()) else { return Ok(None) };
    let name = notes::seen_from(part.place.direction(look.toward));
    let outline = &lines.outline[0].points;
    let mut marks = Subject { chair, part, look, outline, lengths }.marks()?;
    marks.labels.order_by(|a, b| a.at.x.total_cmp(&b.at.x).then(a.at.y.total_cmp(&b.at.y)));
    let whole = pens::around(&marks.reach).map_or(timber, |reach| timber.union(reach));
    Ok(Some(View { name, lines, marks, timber, whole, lengths }))
}

fn sheet(title: &str, notes: &[String], views: &[View]) -> Sheet {
    let mut items = Vec::new();
    let mut y = ROUND + pens::TITLE;
    items.push(pens::words(title, Point::new(LEFT, y), Align::Start, pens::TITLE, Weight::Medium));
    for note in notes {
        y += LINE;
        items.push(pens::words(note, Point::new(LEFT, y), Align::Start, pens::LETTERS, Weight::Regular));
    }
    let texts = notes.iter().map(|note| pens::length(note, pens::LETTERS));
    let mut right = texts.fold(LEFT + pens::length(title, pens::TITLE), |most, text| most.max(LEFT + text));
    for view in views {
        y += ABOVE;
        let shift = Vec2::new(LEFT - view.whole.x0, y - view.whole.y0);
        let (drawn, end) = view.drawn();
        items.extend(drawn.iter().map(|item| item.moved(shift)));
        right = right.max(end + shift.x);
        y += view.whole.height() + BELOW;
    }
    Sheet {
        width: right + ROUND,
        height: y,
        unit: Unit::Millimetre,
        decimals: 2,
        title: title.to_owned(),
        description: format!("Template at full size. {}", notes.join(" ")),
        items,
    }
}

impl View {
    /// All of it, and how far it reaches to the right.
    fn drawn(&self) -> (Vec<Item>, f64) {
        let View { lines, marks, timber, whole, lengths, .. } = self;
        let mut items = vec![
            pens::lines(lines.edges.clone(), Pen::Thin),
            pens::group("outline", self.name, vec![pens::lines(lines.outline.clone(), Pen::Outline)]),
        ];
        items.push(pens::group("marks", self.name, marks.items.clone()));
        let (labels, end) = self.labels();
        items.push(pens::group("labels", self.name, labels));
        let across = lengths.write(timber.height());
        items.push(dimension::upright(timber.origin(), lower_left(timber), whole.x0 - 7.0, &across));
        let (left, right) = (lower_left(timber), Point::new(timber.x1, timber.y1));
        items.push(dimension::level(left, right, whole.y1 + LENGTH, &lengths.write(timber.width())));
        let (middle, low) = (timber.center().x, whole.y1 + GRAIN);
        let half = (timber.width() / 2.0 - 40.0).clamp(8.0, 40.0);
        let middle = middle.max(timber.x0 + 42.0 + half);
        items.push(dimension::grain(Point::new(middle - half, low), Point::new(middle + half, low)));
        let at = Point::new(timber.x0 + 2.0, whole.y1 + GRAIN);
        items.push(pens::words(self.name, at, Align::Start, pens::LETTERS, Weight::Regular));
        (items, end.max(whole.x1).max(middle + half))
    }

    /// The labels in a row above the view, each with a line to its place; and where they end.
    fn labels(&self) -> (Vec<Item>, f64) {
        let labels = &self.marks.labels;
        let room = |label: &Label| pens::length(&label.words, pens::LETTERS) + APART;
        let wishes: Vec<Wish> =
            labels.iter().map(|label| Wish { at: label.at.x, room: room(label) }).collect();
        let places = spread(&wishes, self.whole.x0);
        let base = self.whole.y0 - ABOVE / 2.0;
        let mut items = Vec::new();
        for (label, &x) in labels.iter().zip(&places) {
            let at = Point::new(x, base);
            items.push(pens::words(&label.words, at, Align::Middle, pens::LETTERS, Weight::Regular));
            items.push(pens::line(at + Vec2::new(0.0, 1.2), label.at, Pen::Thin));
            items.push(pens::dot(label.at));
        }
        let ends = places.iter().zip(&wishes).map(|(x, wish)| x + wish.room / 2.0);
        (items, ends.fold(self.whole.x1, f64::max))
    }
}

fn lower_left(rect: &Rect) -> Point {
    Point::new(rect.x0, rect.y1)
}
