//! The rod: the whole chair at full size from the front, from the side and from above, with the joints inside.

use super::heights::{Level, levels, written};
use super::look::Look;
use super::pens::{self, Pen};
use super::{FullSize, dimension};
use crate::chair::{Chair, PartBody};
use crate::joint::Joint;
use crate::length::Lengths;
use crate::part::Part;
use crate::solids::not_closed;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::math::PI;
use crestrail_geometry::outline::hull;
use crestrail_geometry::view::{Camera, Picture, Subject};
use crestrail_geometry::{Ring, Vec3, carve};
use crestrail_sheet::{Align, Circle, Fill, Item, Sheet, Trace, Unit, Weight};
use crestrail_sorting::Order as _;
use kurbo::{Point, Rect, Vec2};

/// Room around the drawing, mm: for heights on the left, beside their words, and the widths below.
const LEFT: f64 = 34.0;
const RIGHT: f64 = 12.0;
const ABOVE: f64 = 16.0;
const BELOW: f64 = 22.0;
/// From the drawing to the rod of heights, and to the dimension over all, mm.
const HEIGHTS: f64 = 12.0;
const OVERALL: f64 = 12.0;
/// Radius of the ring round a letter, mm.
const RING: f64 = 4.8;
/// A joint is drawn where it is seen from the side: its tenon then lies across the line of sight (cosine of 72°).
const ACROSS: f64 = 0.3;

/// A way of looking at the chair.
struct Elevation {
    name: &'static str,
    title: &'static str,
    look: Look,
    /// Turn and tilt of the camera, radians.
    camera: (f64, f64),
    /// Whether heights stand upright in it.
    stands: bool,
}

fn elevations() -> [Elevation; 3] {
    let right = Look::new(Vec3::Y, Vec3::Z);
    [
        Elevation {
            name: "rod-front",
            title: "Front",
            look: Look::new(Vec3::X, Vec3::Z),
            camera: (0.0, 0.0),
            stands: true,
        },
        Elevation {
            name: "rod-side",
            title: "Right side",
            look: right,
            camera: (PI / 2.0, 0.0),
            stands: true,
        },
        Elevation {
            name: "rod-plan",
            title: "Plan",
            look: Look::new(Vec3::X, Vec3::Y),
            camera: (0.0, PI / 2.0),
            stands: false,
        },
    ]
}

/// The three drawings of the rod.
pub fn rod(chair: &Chair, lengths: Lengths) -> Result<Vec<FullSize>, Unbuildable> {
    elevations().iter().map(|elevation| drawn(chair, elevation, lengths)).collect()
}

fn drawn(chair: &Chair, elevation: &Elevation, lengths: Lengths) -> Result<FullSize, Unbuildable> {
    let look = &elevation.look;
    let corners: Vec<Point> = (chair.pieces())
        .flat_map(|(part, body)| body.solid.vertices.iter().map(|&v| look.flat(part.place.point(v))))
        .collect();
    let whole = pens::around(&corners).unwrap_or_default();
    let picture = taken(chair, elevation);
    let mut items = vec![edges(chair, &picture)];
    items.push(pens::group("layer", "joints", joints(chair, look)?));
    items.extend(axis(elevation, &whole));
    items.push(pens::group("layer", "letters", letters(chair, look, &picture)));
    let levels = if elevation.stands { levels(chair, &whole) } else { Vec::new() };
    items.extend(measures(&levels, &whole, lengths));
    let words = levels.iter().map(|level| pens::length(&level.words(lengths), pens::LETTERS));
    let left = LEFT + words.fold(0.0, f64::max);
    let shift = Vec2::new(left - whole.x0, ABOVE - whole.y0);
    let mut moved: Vec<Item> = items.iter().map(|item| item.moved(shift)).collect();
    let title = format!("Rod: {}", elevation.title.to_lowercase());
    let at = Point::new(left, 8.0);
    moved.push(pens::words(&title, at, Align::Start, pens::TITLE, Weight::Medium));
    let foot = Point::new(left, ABOVE + whole.height() + BELOW - 3.0);
    let note = lengths.note();
    moved.extend(note.map(|note| pens::words(&note, foot, Align::Start, pens::LETTERS, Weight::Regular)));
    let sheet = Sheet {
        width: whole.width() + left + RIGHT,
        height: whole.height() + ABOVE + BELOW,
        unit: Unit::Millimetre,
        decimals: 2,
        title: title.clone(),
        description: format!(
            "The chair at full size, {}, with its joints dashed.",
            elevation.title.to_lowercase()
        ),
        items: moved,
    };
    Ok(FullSize { name: elevation.name.to_owned(), title, is_full_size: true, sheet })
}

/// What is in front of what, from the camera that looks as the elevation does.
fn taken(chair: &Chair, elevation: &Elevation) -> Picture {
    let subject =
        |(owner, (part, body)): (usize, (&Part, &PartBody))| (owner, part.place, body.solid.clone());
    let solids: Vec<_> = chair.pieces().enumerate().map(subject).collect();
    let subjects: Vec<Subject<'_>> =
        solids.iter().map(|(owner, place, solid)| Subject { owner: *owner, solid, place: *place }).collect();
    Picture::take(&subjects, &Camera::new(elevation.camera.0, elevation.camera.1))
}

/// The sharp edges of all parts, as far as nothing stands in front of them.
fn edges(chair: &Chair, picture: &Picture) -> Item {
    let mut traces: Vec<Trace> = Vec::new();
    for (part, body) in chair.pieces() {
        let corner = |v: u32| part.place.point(body.solid.vertices[v as usize]);
        let rings = body.solid.faces.iter().flat_map(|face| &face.rings);
        for (a, b) in rings.flat_map(sharp) {
            let seen = picture.visible(corner(a), corner(b)).into_iter();
            let long = seen.filter(|line| (line.p1 - line.p0).hypot2() > SPECK * SPECK);
            traces.extend(long.map(|line| pens::open(&[flat(line.p0), flat(line.p1)])));
        }
    }
    pens::group("layer", "edges", vec![pens::lines(traces, Pen::Outline)])
}

/// Each sharp edge once: both its faces have it, the other way round.
fn sharp(ring: &Ring) -> impl Iterator<Item = (u32, u32)> + '_ {
    let next = ring.corners.iter().cycle().skip(1);
    let edges = ring.corners.iter().zip(next).zip(&ring.sharp);
    edges.filter(|((a, b), sharp)| **sharp && a < b).map(|((&a, &b), _)| (a, b))
}

/// Shorter stretches of an edge are none, mm.
const SPECK: f64 = 0.05;

fn flat(p: Point) -> Point {
    Point::new(p.x, -p.y)
}

/// The tenons that lie across the line of sight, dashed; of several behind each other the nearest.
fn joints(chair: &Chair, look: &Look) -> Result<Vec<Item>, Unbuildable> {
    let near = |joint: &Joint| joint.mouth.origin.dot(look.toward);
    let mut across: Vec<&Joint> =
        chair.joints.iter().filter(|j| j.mouth.x.dot(look.toward).abs() < ACROSS).collect();
    across.order_by(|a, b| near(b).total_cmp(&near(a)));
    let (mut items, mut taken): (Vec<Item>, Vec<Rect>) = (Vec::new(), Vec::new());
    for joint in across {
        let shapes = tenon(chair, joint, look)?;
        let Some(rect) = pens::around(shapes.iter().flatten()) else { continue };
        if taken.iter().any(|other| other.overlaps(rect)) {
            continue;
        }
        taken.push(rect);
        items.extend(shapes.iter().map(|shape| pens::lines(vec![pens::closed(shape)], Pen::Hidden)));
    }
    Ok(items)
}

/// The outlines of a tenon, or of what stands for it.
fn tenon(chair: &Chair, joint: &Joint, look: &Look) -> Result<Vec<Vec<Point>>, Unbuildable> {
    let separate = joint.kind.is_separate();
    let own = joint.tenon.bodies.iter();
    let bodies = own.chain(joint.inserts.iter().filter(|_| separate).map(|insert| &insert.body));
    let outline = |body| {
        let solid = carve(std::slice::from_ref(body), &[]).map_err(|error| {
            let guest = chair.part(joint.guest).unwrap_or(&chair.parts[0]);
            not_closed(guest, &error.to_string())
        })?;
        Ok(hull(solid.vertices.iter().map(|&v| look.flat(v)).collect()))
    };
    bodies.map(outline).collect()
}

/// The floor, and the chair's middle plane where it is seen edge on.
fn axis(elevation: &Elevation, whole: &Rect) -> Vec<Item> {
    let mut items = Vec::new();
    if elevation.stands {
        items.push(pens::line(Point::new(whole.x0 - 6.0, 0.0), Point::new(whole.x1 + 6.0, 0.0), Pen::Thin));
    }
    if elevation.look.right == Vec3::X {
        let ends = [Point::new(0.0, whole.y0 - 4.0), Point::new(0.0, whole.y1 + 4.0)];
        items.push(pens::line(ends[0], ends[1], Pen::Axis));
    }
    items
}

/// A letter on each part where a ring lies wholly on it; then on one part of each letter that has found no such place,
/// where its middle is seen.
fn letters(chair: &Chair, look: &Look, picture: &Picture) -> Vec<Item> {
    let sides = [(RING, 0.0), (-RING, 0.0), (0.0, RING), (0.0, -RING)].map(Vec2::from);
    let mut taken: Vec<(Point, &str)> = Vec::new();
    for wholly in [true, false] {
        let pieces = chair.pieces().enumerate().filter(|(_, (part, _))| !part.id.role.is_small());
        for (owner, (part, body)) in pieces {
            if !wholly && taken.iter().any(|(_, letter)| *letter == part.letter) {
                continue;
            }
            let own = |p: Point| top(picture, p) == Some(owner);
            let clear = |p: Point| taken.iter().all(|(q, _)| (*q - p).hypot2() > (2.5 * RING) * (2.5 * RING));
            let fits =
                |p: &Point| clear(*p) && own(*p) && (!wholly || sides.iter().all(|&side| own(*p + side)));
            if let Some(at) = anchors(part, body, look).into_iter().find(fits) {
                taken.push((at, &part.letter));
            }
        }
    }
    taken.into_iter().flat_map(|(at, letter)| lettered(at, letter)).collect()
}

fn lettered(at: Point, letter: &str) -> [Item; 2] {
    let (fill, stroke) = (Some(Fill::solid(pens::PAPER)), Some(Pen::Thin.stroke()));
    let ring = Item::Circle(Circle { centre: at, radius: RING, fill, stroke });
    let size = if letter.len() > 1 { pens::LETTERS } else { pens::TITLE };
    let base = at + Vec2::new(0.0, 0.35 * size);
    [ring, pens::words(letter, base, Align::Middle, size, Weight::Medium)]
}

/// Points along the middle of a part, the middle first.
fn anchors(part: &Part, body: &PartBody, look: &Look) -> Vec<Point> {
    let bounds = body.solid.bounds();
    let (middle, size) = (bounds.middle(), bounds.size());
    let along = [0.0, 0.15, -0.15, 0.3, -0.3, 0.4, -0.4];
    let across = [0.0, 0.2, -0.2, 0.35, -0.35];
    let at = |x: f64, y: f64| {
        look.flat(part.place.point(middle + Vec3::X * (size.x * x) + Vec3::Y * (size.y * y)))
    };
    along.into_iter().flat_map(|x| across.into_iter().map(move |y| at(x, y))).collect()
}

/// The part that is seen at a point of the drawing.
fn top(picture: &Picture, p: Point) -> Option<usize> {
    let covers = |face: &&crestrail_geometry::view::Shown| {
        let crossings = face.rings.iter().flat_map(|ring| {
            let n = ring.points.len();
            (0..n).map(move |i| (flat(ring.points[i]), flat(ring.points[(i + 1) % n])))
        });
        let right_of = |(a, b): &(Point, Point)| {
            (a.y > p.y) != (b.y > p.y) && a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) > p.x
        };
        crossings.filter(right_of).count() % 2 == 1
    };
    picture.faces.iter().rev().find(covers).map(|face| face.owner)
}

/// The sizes over all; at the left the heights of what is level, where there are any.
fn measures(levels: &[Level], whole: &Rect, lengths: Lengths) -> Vec<Item> {
    let low = [Point::new(whole.x0, whole.y1), Point::new(whole.x1, whole.y1)];
    let across = dimension::level(low[0], low[1], whole.y1 + OVERALL, &lengths.write(whole.width()));
    let left = [Point::new(whole.x0, whole.y0), Point::new(whole.x0, whole.y1)];
    let upright = match levels {
        [] => dimension::upright(left[0], left[1], whole.x0 - OVERALL, &lengths.write(whole.height())),
        levels => pens::group("layer", "heights", written(levels, whole.x0 - HEIGHTS, lengths)),
    };
    vec![across, upright]
}
