//! Where the letters stand: in a column on either side, so that neither they nor their lines meet.

use super::anchors::Anchor;
use super::{Label, RADIUS, Side, line};
use crate::drawing::Scene;
use crate::part::Role;
use crestrail_geometry::leads::{Lead, Leads, spread};
use crestrail_geometry::math::{max, min};
use crestrail_sorting::Order as _;
use kurbo::Point;

/// From the chair's outline to the middle of the circles, pixels at weight 1.
const ASIDE: f64 = 34.0;
/// Room for the count on the outer side of a circle.
const COUNT_ROOM: f64 = 29.0;
/// Between circles.
const GAP: f64 = 9.0;

/// How many letters more than half of them one side may take.
const UNEVEN: usize = 2;

/// Puts each letter into a column, in such an order that lines do not cross. The slats of the
/// seat, many and side by side, stay together on the side that makes for shorter lines.
pub(super) fn place<'a>(scene: &Scene<'_>, anchors: Vec<Anchor<'a>>) -> Vec<Label<'a>> {
    let spans = edges(scene);
    let (slats, mut others): (Vec<Anchor<'_>>, Vec<Anchor<'_>>) =
        anchors.into_iter().partition(|a| scene.chair.parts[a.part].id.role == Role::SeatSlat);
    let cost = |a: &Anchor<'_>| (a.at(Side::Left).x - spans.0) - (spans.1 - a.at(Side::Right).x);
    others.order_by(|a, b| cost(a).total_cmp(&cost(b)).then(a.letter.cmp(b.letter)));
    let near = others.iter().filter(|a| cost(a) < 0.0).count();
    let arrange = |side: Side, split: usize| {
        let labels = arranged(scene, sides(&slats, side, &others, split, spans));
        (leads(scene, &labels).meetings(), length(&labels), labels)
    };
    type Arranged<'a> = (usize, f64, Vec<Label<'a>>);
    let better = |a: &Arranged<'_>, b: &Arranged<'_>| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1));
    let both = [Side::Left, Side::Right];
    let usual = both.into_iter().map(|side| arrange(side, fair_split(near, slats.len(), others.len(), side)));
    let best = usual.min_by(better).filter(|found| found.0 == 0);
    let splits = || {
        both.into_iter().flat_map(|side| [near.saturating_sub(1), near, near + 1].map(|split| (side, split)))
    };
    let best = best.or_else(|| splits().map(|(side, split)| arrange(side, split)).min_by(better));
    thinned(scene, best.map(|(_, _, labels)| labels).unwrap_or_default())
}

/// Leaves out letters that clash with most others until none do: where very many slats leave no
/// room for all letters, those between two others can be told by counting.
fn thinned<'a>(scene: &Scene<'_>, mut labels: Vec<Label<'a>>) -> Vec<Label<'a>> {
    loop {
        let leads = leads(scene, &labels);
        let met = |i: usize| (0..labels.len()).filter(|&j| j != i && leads.meet(i, j)).count();
        match (0..labels.len()).map(|i| (met(i), i)).max() {
            Some((met, worst)) if met > 0 => labels.remove(worst),
            _ => return labels,
        };
    }
}

/// How many of the other letters go to the left: those nearer to it, as long as both sides stay
/// about even.
fn fair_split(near: usize, slats: usize, others: usize, side: Side) -> usize {
    let taken = if side == Side::Left { slats } else { 0 };
    let even = ((slats + others) / 2).saturating_sub(taken);
    near.clamp(even.saturating_sub(UNEVEN), even + UNEVEN)
}

fn length(labels: &[Label<'_>]) -> f64 {
    labels.iter().map(|l| (l.centre - l.anchor.at(l.side)).hypot2().sqrt()).sum()
}

/// Sets heights, lets letters change places until their lines are clear of each other, and sets
/// the heights again if that keeps them so.
fn arranged<'a>(scene: &Scene<'_>, mut labels: Vec<Label<'a>>) -> Vec<Label<'a>> {
    labels.order_by(|a, b| a.anchor.at(a.side).y.total_cmp(&b.anchor.at(b.side).y));
    settle(scene, &mut labels);
    let mut unsettled = leads(scene, &labels);
    let mut met = unsettled.first_meeting();
    // Those heights follow every exchange, while the lines that are exchanged keep theirs.
    let (mut settled, mut in_the_way) = (labels.clone(), None);
    // Where lines cross within a column, each exchange shortens them on the whole, so that this
    // ends; this many are far more than ever needed.
    for _ in 0..2 * labels.len() {
        let Some((i, j)) = met else { break };
        exchange(&mut labels, i, j);
        met = unsettled.replace((i, j), [i, j].map(|k| lead(scene, &labels[k])));
        exchange(&mut settled, i, j);
        settle_around(scene, &mut settled, [i, j]);
        if in_the_way.is_some_and(|pair| meet(scene, &settled, pair)) {
            continue;
        }
        in_the_way = leads(scene, &settled).first_meeting();
        if in_the_way.is_none() {
            return settled;
        }
    }
    labels
}

/// Sets the heights in the columns of two labels.
fn settle_around(scene: &Scene<'_>, labels: &mut [Label<'_>], two: [usize; 2]) {
    let [first, second] = two.map(|k| labels[k].side);
    settle_side(scene, labels, first);
    if second != first {
        settle_side(scene, labels, second);
    }
}

/// Whether the lines of two labels get in each other's way.
fn meet(scene: &Scene<'_>, labels: &[Label<'_>], (i, j): (usize, usize)) -> bool {
    let both = [i, j].map(|k| lead(scene, &labels[k]));
    Leads::new(both.into_iter(), clearance(scene)).meet(0, 1)
}

/// The lines of all labels, which keep a little farther off other circles than these are large.
fn leads(scene: &Scene<'_>, labels: &[Label<'_>]) -> Leads {
    Leads::new(labels.iter().map(|label| lead(scene, label)), clearance(scene))
}

fn clearance(scene: &Scene<'_>) -> f64 {
    (RADIUS + 3.0) * scene.frame.weight
}

fn lead(scene: &Scene<'_>, label: &Label<'_>) -> Lead {
    Lead { line: line(scene, label), centre: label.centre }
}

/// Middles of the circles in both columns.
fn edges(scene: &Scene<'_>) -> (f64, f64) {
    let corners = scene.picture.faces.iter().flat_map(|f| &f.rings[0].points);
    let span = corners.fold((f64::INFINITY, f64::NEG_INFINITY), |s, p| (min(s.0, p.x), max(s.1, p.x)));
    let x = |x: f64| scene.frame.pixel(Point::new(x, 0.0)).x;
    let (weight, room) = (scene.frame.weight, (RADIUS + COUNT_ROOM) * scene.frame.weight);
    ((x(span.0) - ASIDE * weight).max(room), (x(span.1) + ASIDE * weight).min(scene.view.width - room))
}

/// The slats go to their side, the first `split` of the others to the left.
fn sides<'a>(
    slats: &[Anchor<'a>],
    side: Side,
    others: &[Anchor<'a>],
    split: usize,
    spans: (f64, f64),
) -> Vec<Label<'a>> {
    let label = |anchor: &Anchor<'a>, side: Side| {
        let x = if side == Side::Left { spans.0 } else { spans.1 };
        Label { anchor: *anchor, side, centre: Point::new(x, 0.0) }
    };
    let of = |i: usize| if i < split { Side::Left } else { Side::Right };
    let others = others.iter().enumerate().map(|(i, anchor)| label(anchor, of(i)));
    others.chain(slats.iter().map(|anchor| label(anchor, side))).collect()
}

/// Sets the heights in both columns, keeping the order.
fn settle(scene: &Scene<'_>, labels: &mut [Label<'_>]) {
    [Side::Left, Side::Right].into_iter().for_each(|side| settle_side(scene, labels, side));
}

/// Sets the heights in one column.
fn settle_side(scene: &Scene<'_>, labels: &mut [Label<'_>], side: Side) {
    let weight = scene.frame.weight;
    let margin = (RADIUS + 2.0) * weight;
    let pitch = (2.0 * RADIUS + GAP) * weight;
    let mut wanted: Vec<f64> = Vec::with_capacity(labels.len());
    wanted.extend(labels.iter().filter(|l| l.side == side).map(|l| l.anchor.at(side).y));
    let heights = spread(&wanted, pitch, (margin, scene.view.height - margin));
    let column = labels.iter_mut().filter(|l| l.side == side);
    column.zip(heights).for_each(|(label, y)| label.centre.y = y);
}

/// The two change places.
fn exchange(labels: &mut [Label<'_>], i: usize, j: usize) {
    let (a, b) = (labels[i], labels[j]);
    labels[i].anchor = b.anchor;
    labels[j].anchor = a.anchor;
}
