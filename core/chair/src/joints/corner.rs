//! Tenons that meet inside one part: how they pass each other.
//!
//! Every way that has room is weighed by the area of the cheeks of both tenons, where long grain is
//! glued to long grain; the largest is taken unless the maker asks for another.

use super::draft::Draft;
use super::refusals::no_passing;
use super::rules;
use crate::choices;
use crate::design::Design;
use crate::joint::{Corner, Kind, Mitre, Step, Way};
use crate::part::Side;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Plane, Vec3};

/// Parts every pair of tenons that would run into each other.
pub(super) fn part_where_they_meet(design: &Design, drafts: &mut [Draft<'_>]) -> Result<(), Unbuildable> {
    drafts.iter_mut().for_each(stop_in_the_middle);
    let crossing = |drafts: &[Draft<'_>], i: usize, j: usize| in_the_way(&drafts[i], &drafts[j]);
    // Tenons from opposite sides first: what then comes across finds them as short as they will be.
    for opposite in [true, false] {
        for i in 0..drafts.len() {
            for j in i + 1..drafts.len() {
                if crossing(drafts, i, j) && are_opposite(&drafts[i], &drafts[j]) == opposite {
                    let lone = !opposite && !(is_one_of_two(drafts, i) || is_one_of_two(drafts, j));
                    let (a, b) = pass(design, &drafts[i], &drafts[j], lone)?;
                    (drafts[i], drafts[j]) = (a, b);
                }
            }
        }
    }
    clear_haunches(drafts);
    Ok(())
}

/// Draws haunches back where they would run into a tenon or haunch of another joint.
fn clear_haunches(drafts: &mut [Draft<'_>]) {
    for i in 0..drafts.len() {
        let host = drafts[i].site.host.id;
        let others = drafts.iter().enumerate().filter(|(j, d)| *j != i && d.site.host.id == host);
        let blocks: Vec<_> = others.flat_map(|(_, d)| d.all_blocks()).collect();
        drafts[i].clear_haunch_of(&blocks);
    }
}

fn in_the_way(a: &Draft<'_>, b: &Draft<'_>) -> bool {
    let near = |x: &super::block::Block| b.blocks().iter().any(|y| x.grown(rules::MITRE_GAP).overlaps(y));
    a.site.host.id == b.site.host.id && a.blocks().iter().any(near)
}

fn are_opposite(a: &Draft<'_>, b: &Draft<'_>) -> bool {
    a.mouth.x.dot(b.mouth.x) < -0.7
}

/// Whether another tenon comes at the same height from the opposite side of the same part.
fn is_one_of_two(drafts: &[Draft<'_>], i: usize) -> bool {
    let own = &drafts[i];
    let twin = |d: &Draft<'_>| {
        d.site.host.id == own.site.host.id && are_opposite(d, own) && {
            let apart = (d.mouth.origin - own.mouth.origin).dot(own.mouth.y).abs();
            apart < (d.width + own.width) / 2.0
        }
    };
    meets_its_own_image(own) || drafts.iter().any(twin)
}

/// Whether the joint's own mirror image enters the same part, which stands in the middle.
fn meets_its_own_image(draft: &Draft<'_>) -> bool {
    draft.site.host.id.side == Side::Middle && draft.site.guest.id.side != Side::Middle
}

/// Ends a tenon before the middle of the chair where its mirror image comes from the other side.
fn stop_in_the_middle(draft: &mut Draft<'_>) {
    if !meets_its_own_image(draft) {
        return;
    }
    if draft.kind == Kind::Through {
        demote(draft, "The rail on the other side needs the other half of the leg.");
    }
    let room = draft.mouth.origin.x.abs() - draft.lead() - rules::MITRE_GAP / 2.0;
    if draft.length > room {
        draft.length = room.floor();
        draft.longest = draft.longest.min(room);
        let why = "The tenon on the other side takes the other half.".to_owned();
        let with = draft.site.guest.id.mirrored();
        draft.corners.push(Corner { with, way: Way::EndToEnd, why, weighed: Vec::new() });
    }
}

/// A through tenon that has no way through becomes a blind one.
fn demote(draft: &mut Draft<'_>, why: &str) {
    draft.given_way = Some(format!("A {} was asked for. {why}", Kind::Through.name()));
    draft.kind = Kind::Blind;
    draft.why = super::kinds::reason(Kind::Blind).to_owned();
    draft.length = (draft.length * 0.7).floor();
    draft.longest -= rules::LEAST_WALL + 1.5;
}

type Pair<'a> = (Draft<'a>, Draft<'a>);

fn pass<'a>(design: &Design, a: &Draft<'a>, b: &Draft<'a>, lone: bool) -> Result<Pair<'a>, Unbuildable> {
    let (mut a, mut b) = (a.clone(), b.clone());
    for draft in [&mut a, &mut b] {
        if draft.kind == Kind::Through {
            demote(draft, "Another tenon crosses it inside the leg.");
        }
    }
    let ways: &[Way] = match (are_opposite(&a, &b), lone) {
        (true, _) => &[Way::EndToEnd],
        (false, true) => &[Way::Mitred, Way::Halved, Way::Staggered, Way::Stopped],
        (false, false) => &[Way::Stopped, Way::Staggered],
    };
    let tried: Vec<(Way, Result<Pair<'a>, String>)> =
        ways.iter().map(|&way| (way, take(way, &a, &b))).collect();
    let weighed: Vec<(Way, Result<f64, String>)> = tried
        .iter()
        .map(|(way, pair)| (*way, pair.as_ref().map(|(a, b)| a.cheeks() + b.cheeks()).map_err(Clone::clone)))
        .collect();
    let asked = asked(design).filter(|_| lone);
    let (way, why) = choose(&weighed, asked).ok_or_else(|| no_passing(&a.site, &b.site))?;
    let found = tried.into_iter().find(|(tried, _)| *tried == way).and_then(|(_, pair)| pair.ok());
    let (mut one, mut two) = found.ok_or_else(|| no_passing(&a.site, &b.site))?;
    let (first, second) = (one.site.guest.id, two.site.guest.id);
    one.corners.push(Corner { with: second, way, why: why.clone(), weighed: weighed.clone() });
    two.corners.push(Corner { with: first, way, why, weighed });
    Ok((one, two))
}

fn asked(design: &Design) -> Option<Way> {
    match design.corner() {
        choices::Corner::Rule => None,
        choices::Corner::Mitred => Some(Way::Mitred),
        choices::Corner::Halved => Some(Way::Halved),
        choices::Corner::Staggered => Some(Way::Staggered),
    }
}

/// The way asked for if it has room, else the one with the largest area; and why.
fn choose(weighed: &[(Way, Result<f64, String>)], asked: Option<Way>) -> Option<(Way, String)> {
    let mut lost = None;
    if let Some(asked) = asked {
        match weighed.iter().find(|(way, _)| *way == asked) {
            Some((_, Ok(_))) => return Some((asked, super::kinds::ASKED.to_owned())),
            Some((_, Err(why))) => lost = Some(format!("{} was asked for, but {why}", asked.name())),
            None => {}
        }
    }
    let room = weighed.iter().filter_map(|(way, area)| area.as_ref().ok().map(|area| (*way, *area)));
    let (way, area) = room.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let why = match (lost, weighed.len()) {
        (Some(lost), _) => lost,
        (None, 1) => "They come from opposite sides.".to_owned(),
        (None, _) => format!("It leaves the most area for glue, {:.0} cm² of cheeks in all.", area / 100.0),
    };
    Some((way, why))
}

fn take<'a>(way: Way, a: &Draft<'a>, b: &Draft<'a>) -> Result<Pair<'a>, String> {
    let parted = match way {
        Way::Mitred => mitred(a, b),
        Way::Halved => halved(a, b),
        Way::Staggered => staggered(a, b),
        Way::EndToEnd => end_to_end(a, b),
        Way::Stopped => stopped(a, b),
    }?;
    if in_the_way_but_for_mitres(&parted.0, &parted.1) {
        return Err("the tenons still meet.".to_owned());
    }
    Ok(parted)
}

/// Mitred ends are parted by their planes, which blocks do not know.
fn in_the_way_but_for_mitres(a: &Draft<'_>, b: &Draft<'_>) -> bool {
    a.mitre.is_none() && b.mitre.is_none() && {
        let near = |x: &super::block::Block| b.blocks().iter().any(|y| x.overlaps(y));
        a.blocks().iter().any(near)
    }
}

/// The two cuts: half-way between the directions, through the line where the middles of the two
/// tenons meet, each drawn back by half the gap.
fn mitred<'a>(a: &Draft<'a>, b: &Draft<'a>) -> Result<Pair<'a>, String> {
    if [a, b].iter().any(|d| d.kind == Kind::Dowels || d.mitre.is_some() || d.step.is_some()) {
        return Err("only whole tenons can be mitred.".to_owned());
    }
    let normal = (a.mouth.x - b.mouth.x).unit();
    let middle = |d: &Draft<'_>| Plane::through(d.mouth.origin, d.mouth.z);
    // Any plane across both middles finds a point of their common line.
    let level = Plane::through(a.mouth.origin, a.mouth.z.cross(b.mouth.z));
    let meet = Plane::corner(&middle(a), &middle(b), &level).ok_or("their middles never meet.")?;
    let cut = Plane::through(meet, normal).moved(-rules::MITRE_GAP / 2.0);
    let other = Plane::through(meet, -normal).moved(-rules::MITRE_GAP / 2.0);
    Ok((with_mitre(a, b, cut)?, with_mitre(b, a, other)?))
}

/// Gives the tenon its mitred end, and its lengths on both sides.
fn with_mitre<'a>(draft: &Draft<'a>, with: &Draft<'_>, plane: Plane) -> Result<Draft<'a>, String> {
    let block = draft.block();
    let length = |z: f64| {
        let start = draft.mouth.point(Vec3::Z * z);
        plane.meet(start, draft.mouth.x).map(|p| draft.mouth.local_point(p).x)
    };
    let parallel = || "the mitre would run along the tenon.".to_owned();
    let one = length(block.low.z).ok_or_else(parallel)?;
    let two = length(block.high.z).ok_or_else(parallel)?;
    let short = one.min(two).min(draft.longest);
    enough(draft, short)?;
    let (length, gap) = (one.max(two).min(draft.longest), rules::MITRE_GAP);
    let mitre = Mitre { with: with.site.guest.id, plane, short_length: short, gap };
    Ok(Draft { length, mitre: Some(mitre), ..draft.clone() })
}

fn enough(draft: &Draft<'_>, length: f64) -> Result<(), String> {
    if length >= rules::LEAST_TENON {
        return Ok(());
    }
    let guest = draft.site.guest.id.role.name();
    Err(format!("the tenon of the {guest} would end {:.0} mm deep.", length.max(0.0)))
}

/// How far a tenon may go before it comes to the blocks of another, mm.
fn before(draft: &Draft<'_>, other: &Draft<'_>) -> f64 {
    let corners = other.blocks().into_iter().flat_map(|b| b.corners());
    let near = corners.map(|p| draft.mouth.local_point(p).x).fold(f64::INFINITY, f64::min);
    near - rules::MITRE_GAP
}

/// One ends before the cheek of the other; the better of the two cases.
fn stopped<'a>(a: &Draft<'a>, b: &Draft<'a>) -> Result<Pair<'a>, String> {
    let stop = |draft: &Draft<'a>, other: &Draft<'_>| {
        let length = before(draft, other).min(draft.length);
        enough(draft, length).map(|()| Draft { length, ..draft.clone() })
    };
    let one = stop(a, b).map(|short| (short, b.clone()));
    let two = stop(b, a).map(|short| (a.clone(), short));
    let area = |pair: &Pair<'_>| pair.0.cheeks() + pair.1.cheeks();
    match (one, two) {
        (Ok(one), Ok(two)) => Ok(if area(&two) > area(&one) { two } else { one }),
        (Ok(pair), Err(_)) | (Err(_), Ok(pair)) => Ok(pair),
        (Err(why), Err(_)) => Err(why),
    }
}

/// Both end before the plane half-way between their hosts' faces.
fn end_to_end<'a>(a: &Draft<'a>, b: &Draft<'a>) -> Result<Pair<'a>, String> {
    let apart = (b.mouth.origin - a.mouth.origin).dot(a.mouth.x);
    let half = |draft: &Draft<'a>| {
        let length = (apart / 2.0 - draft.lead() + 0.5 - rules::MITRE_GAP / 2.0).min(draft.length);
        enough(draft, length).map(|()| Draft { length, ..draft.clone() })
    };
    Ok((half(a)?, half(b)?))
}

/// The heights that two tenons share, along the first one's y axis through its origin: the lower and
/// upper bound of the common part, and whether the first tenon lies higher.
fn shared(a: &Draft<'_>, b: &Draft<'_>) -> Result<(f64, f64, bool), String> {
    if a.mouth.y.dot(b.mouth.y).abs() < 0.9 {
        return Err("the tenons do not stand in one direction.".to_owned());
    }
    let middle = (b.mouth.origin - a.mouth.origin).dot(a.mouth.y);
    let (own, other) = (a.width / 2.0, b.width / 2.0);
    Ok((f64::max(-own, middle - other), f64::min(own, middle + other), middle <= 0.0))
}

/// Each keeps its own height zone over its whole length.
fn staggered<'a>(a: &Draft<'a>, b: &Draft<'a>) -> Result<Pair<'a>, String> {
    let (low, high, a_above) = shared(a, b)?;
    let half = (high - low + rules::MITRE_GAP) / 2.0;
    let same = a.mouth.y.dot(b.mouth.y) > 0.0;
    Ok((narrowed(a, half, a_above)?, narrowed(b, half, a_above != same)?))
}

/// The tenon with its height reduced by `by`, from below if it keeps its upper part.
fn narrowed<'a>(draft: &Draft<'a>, by: f64, upper: bool) -> Result<Draft<'a>, String> {
    let width = draft.width - by;
    if width < draft.cutter.max(rules::LEAST_PASS) || draft.step.is_some() || draft.mitre.is_some() {
        let guest = draft.site.guest.id.role.name();
        return Err(format!("the tenon of the {guest} would be {:.0} mm high.", width.max(0.0)));
    }
    let mut draft = draft.clone();
    let moved = draft.mouth.moved(draft.mouth.y * (if upper { by / 2.0 } else { -by / 2.0 }));
    let origin = draft.site.face.meet(moved.origin, draft.site.inward).unwrap_or(moved.origin);
    draft.mouth = crestrail_geometry::Place { origin, ..moved };
    draft.width = width;
    draft.gap = None;
    let edge = if upper { &mut draft.shoulders.bottom } else { &mut draft.shoulders.top };
    *edge += by;
    if !upper {
        draft.haunch = None;
    }
    if draft.kind == Kind::Twin || (draft.kind == Kind::Haunched && draft.haunch.is_none()) {
        draft.kind = Kind::Blind;
    }
    Ok(draft)
}

/// Each keeps its whole height up to the other tenon, and half of it beyond.
fn halved<'a>(a: &Draft<'a>, b: &Draft<'a>) -> Result<Pair<'a>, String> {
    let (low, high, a_above) = shared(a, b)?;
    let lost = (high - low + rules::MITRE_GAP) / 2.0;
    let same = a.mouth.y.dot(b.mouth.y) > 0.0;
    Ok((stepped(a, b, lost, a_above)?, stepped(b, a, lost, a_above != same)?))
}

fn stepped<'a>(draft: &Draft<'a>, other: &Draft<'_>, lost: f64, upper: bool) -> Result<Draft<'a>, String> {
    let guest = draft.site.guest.id.role.name();
    if !matches!(draft.kind, Kind::Blind | Kind::Haunched) || draft.step.is_some() || draft.mitre.is_some() {
        return Err("only whole tenons can be halved.".to_owned());
    }
    let (root, width) = (before(draft, other), draft.width - lost);
    if root < rules::LEAST_PASS / 2.0 || width < rules::LEAST_PASS || root >= draft.length {
        return Err(format!("the tenon of the {guest} would have no root or no half to go on with."));
    }
    Ok(Draft { step: Some(Step { root, width, upper }), ..draft.clone() })
}
