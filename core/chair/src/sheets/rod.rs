//! The rod: the whole chair at full size from the front, from the side and from above, with the joints inside.

use super::look::{Look, hull};
use super::pens::{self, Pen};
use super::spread::{Wish, spread};
use super::{FullSize, dimension};
use crate::chair::Chair;
use crate::joint::Joint;
use crate::part::{Part, Role};
use crate::solids::not_closed;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::math::PI;
use crestrail_geometry::view::{Camera, Edge, Outline, Picture, Shown, Subject};
use crestrail_geometry::{Vec3, carve};
use crestrail_sheet::{Align, Circle, Fill, Item, Path, Sheet, Trace, Unit, Weight};
use kurbo::{Point, Rect, Vec2};

/// Room around the drawing, mm: for heights on the left and the widths below.
const LEFT: f64 = 50.0;
const RIGHT: f64 = 12.0;
const ABOVE: f64 = 16.0;
const BELOW: f64 = 22.0;
/// From the drawing to the rod of heights, and to the dimension over all, mm.
const HEIGHTS: f64 = 12.0;
const OVERALL: f64 = 12.0;
/// Radius of the ring round a letter, mm.
const RING: f64 = 3.4;
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
pub fn rod(chair: &Chair) -> Result<Vec<FullSize>, Unbuildable> {
    elevations().iter().map(|elevation| drawn(chair, elevation)).collect()
}

fn drawn(chair: &Chair, elevation: &Elevation) -> Result<FullSize, Unbuildable> {
    let look = &elevation.look;
    let corners: Vec<Point> = (chair.pieces())
        .flat_map(|(part, body)| body.solid.vertices.iter().map(|&v| look.flat(part.place.point(v))))
        .collect();
    let whole = pens::around(&corners).unwrap_or_default();
    let picture = taken(chair, elevation);
    let mut items = faces(&picture);
    items.push(pens::group("layer", "joints", joints(chair, look)?));
    items.extend(axis(elevation, &whole));
    items.push(pens::group("layer", "letters", letters(chair, look, &picture)));
    items.extend(measures(chair, elevation, &whole));
    let shift = Vec2::new(LEFT - whole.x0, ABOVE - whole.y0);
    let mut moved: Vec<Item> = items.iter().map(|item| item.moved(shift)).collect();
    let title = format!("Rod: {}", elevation.title.to_lowercase());
    let at = Point::new(LEFT, 8.0);
    moved.push(pens::words(&title, at, Align::Start, pens::TITLE, Weight::Medium));
    let sheet = Sheet {
        width: whole.width() + LEFT + RIGHT,
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
    Ok(FullSize { name: elevation.name.to_owned(), title, sheet })
}

/// What is in front of what, from the camera that looks as the elevation does.
fn taken(chair: &Chair, elevation: &Elevation) -> Picture {
    let subject = |(owner, (part, body)): (usize, (&Part, &'_ crate::chair::PartBody))| {
        (owner, part.place, body.solid.clone())
    };
    let solids: Vec<_> = chair.pieces().enumerate().map(subject).collect();
    let subjects: Vec<Subject<'_>> =
        solids.iter().map(|(owner, place, solid)| Subject { owner: *owner, solid, place: *place }).collect();
    Picture::take(&subjects, &Camera::new(elevation.camera.0, elevation.camera.1))
}

/// Faces in white one over the other, with their edges: what is left to see are the lines in front.
fn faces(picture: &Picture) -> Vec<Item> {
    picture.faces.iter().flat_map(face).collect()
}

fn flat(p: Point) -> Point {
    Point::new(p.x, -p.y)
}

fn face(face: &Shown) -> Vec<Item> {
    let ring = |ring: &Outline| pens::closed(&ring.points.iter().map(|&p| flat(p)).collect::<Vec<_>>());
    let mut items = vec![Item::Path(Path {
        traces: face.rings.iter().map(ring).collect(),
        fill: Some(Fill::solid(pens::PAPER)),
        stroke: None,
    })];
    for (edge, pen) in [(Edge::Sharp, Pen::Thin), (Edge::Silhouette, Pen::Outline)] {
        let traces: Vec<Trace> = face.rings.iter().flat_map(|ring| edges(ring, edge)).collect();
        if !traces.is_empty() {
            items.push(pens::lines(traces, pen));
        }
    }
    items
}

fn edges(ring: &Outline, kind: Edge) -> Vec<Trace> {
    let n = ring.points.len();
    let wanted = (0..n).filter(|&i| ring.edges[i] == kind);
    wanted.map(|i| pens::open(&[flat(ring.points[i]), flat(ring.points[(i + 1) % n])])).collect()
}

/// The tenons that lie across the line of sight, dashed; of several behind each other the nearest.
fn joints(chair: &Chair, look: &Look) -> Result<Vec<Item>, Unbuildable> {
    let near = |joint: &Joint| joint.mouth.origin.dot(look.toward);
    let mut across: Vec<&Joint> =
        chair.joints.iter().filter(|j| j.mouth.x.dot(look.toward).abs() < ACROSS).collect();
    across.sort_by(|a, b| near(b).total_cmp(&near(a)));
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

/// A letter on each part where it is seen.
fn letters(chair: &Chair, look: &Look, picture: &Picture) -> Vec<Item> {
    let mut taken: Vec<Point> = Vec::new();
    let mut items = Vec::new();
    for (owner, part) in chair.parts.iter().enumerate().filter(|(_, part)| !part.id.role.is_small()) {
        let clear = |p: &Point| taken.iter().all(|q| (*q - *p).hypot2() > (2.5 * RING) * (2.5 * RING));
        let seen = |p: &Point| top(picture, *p) == Some(owner);
        let Some(at) = anchors(part, look).into_iter().find(|p| seen(p) && clear(p)) else { continue };
        taken.push(at);
        items.push(Item::Circle(Circle {
            centre: at,
            radius: RING,
            fill: Some(Fill::solid(pens::PAPER)),
            stroke: Some(Pen::Thin.stroke()),
        }));
        let size = if part.letter.len() > 1 { pens::SMALL } else { pens::LETTERS };
        let base = at + Vec2::new(0.0, 0.35 * size);
        items.push(pens::words(&part.letter, base, Align::Middle, size, Weight::Medium));
    }
    items
}

/// Points along the middle of a part, the middle first.
fn anchors(part: &Part, look: &Look) -> Vec<Point> {
    let middle = match &part.stock {
        crestrail_geometry::Body::Prism(_) => Vec3::new(part.size.length / 2.0, 0.0, 0.0),
        crestrail_geometry::Body::Convex(_) => Vec3::ZERO,
    };
    let shares = [0.0, 0.15, -0.15, 0.3, -0.3, 0.4, -0.4];
    let at = |share: f64| look.flat(part.place.point(middle + Vec3::X * (part.size.length * share)));
    shares.into_iter().map(at).collect()
}

/// The part that is seen at a point of the drawing.
fn top(picture: &Picture, p: Point) -> Option<usize> {
    let covers = |face: &&Shown| {
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

/// The sizes over all, and the heights of what is level.
fn measures(chair: &Chair, elevation: &Elevation, whole: &Rect) -> Vec<Item> {
    let low = [Point::new(whole.x0, whole.y1), Point::new(whole.x1, whole.y1)];
    let mut items = vec![dimension::level(low[0], low[1], whole.y1 + OVERALL, &pens::mm(whole.width()))];
    if elevation.stands {
        items.push(pens::group("layer", "heights", heights(chair, whole)));
    } else {
        let left = [Point::new(whole.x0, whole.y0), Point::new(whole.x0, whole.y1)];
        items.push(dimension::upright(left[0], left[1], whole.x0 - OVERALL, &pens::mm(whole.height())));
    }
    items
}

/// A rod of heights above the floor: where each rail, stretcher, slat and arm begins and ends.
fn heights(chair: &Chair, whole: &Rect) -> Vec<Item> {
    let mut levels: Vec<(f64, String)> = vec![(0.0, "floor".to_owned()), (-whole.y0, "top".to_owned())];
    for (part, body) in chair.pieces().filter(|(part, _)| is_level(part.id.role)) {
        let corners = body.solid.vertices.iter().map(|&v| part.place.point(v).z);
        let (bottom, top) =
            corners.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| (f64::min(l, z), f64::max(h, z)));
        for height in [bottom, top] {
            let known = |(at, words): &(f64, String)| (at - height).abs() < 0.05 && *words == part.letter;
            if !levels.iter().any(known) {
                levels.push((height, part.letter.clone()));
            }
        }
    }
    levels.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    written(&merged(levels), whole.x0 - HEIGHTS)
}

fn is_level(role: Role) -> bool {
    use Role::*;
    matches!(
        role,
        FrontRail
            | SideRail
            | BackRail
            | SideStretcher
            | CrossStretcher
            | FrontStretcher
            | BackStretcher
            | BackSlat
            | CrestRail
            | LowerBackRail
            | Arm
    )
}

/// Heights that are the same to a tenth told once, with all the letters.
fn merged(levels: Vec<(f64, String)>) -> Vec<(f64, String)> {
    let mut merged: Vec<(f64, String)> = Vec::new();
    for (height, words) in levels {
        match merged.last_mut() {
            Some((at, known)) if (height - *at).abs() < 0.05 => {
                known.push_str(", ");
                known.push_str(&words);
            }
            _ => merged.push((height, words)),
        }
    }
    merged
}

/// Ticks on an upright line with heights to the left of it.
fn written(levels: &[(f64, String)], x: f64) -> Vec<Item> {
    let wishes: Vec<Wish> = levels.iter().map(|&(at, _)| Wish { at, room: 4.2 }).collect();
    let places = spread(&wishes, 0.0);
    let top = levels.last().map_or(0.0, |level| level.0);
    let mut items = vec![pens::line(Point::new(x, 0.0), Point::new(x, -top), Pen::Thin)];
    for ((height, words), place) in levels.iter().zip(places) {
        let (tick, knee) = (Point::new(x, -height), Point::new(x - 7.0, -place));
        let traces = vec![pens::open(&[tick + Vec2::new(4.0, 0.0), tick, knee])];
        items.push(pens::lines(traces, Pen::Thin));
        let text = format!("{words}  {}", pens::mm(*height));
        items.push(pens::words(&text, knee + Vec2::new(-1.0, 0.9), Align::End, pens::SMALL, Weight::Regular));
    }
    items
}
