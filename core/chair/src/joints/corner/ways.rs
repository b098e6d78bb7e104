//! The ways in which a tenon and those that cross it may share their host.

use super::mitre::mitre;
use super::{Taken, Tried};
use crate::joint::Way;
use crate::joints::draft::Draft;
use crate::joints::rules;
use crestrail_geometry::Vec3;
use crestrail_phrases::say;

/// A tenon and those that cross it; the latter lie along one line.
pub(super) struct Meet {
    pub(super) crossing: usize,
    pub(super) against: Vec<usize>,
}

impl Meet {
    /// The first meeting among the joints.
    pub(super) fn first(drafts: &[Draft<'_>]) -> Option<Self> {
        let taken: Vec<Taken> = drafts.iter().map(Taken::by).collect();
        let with = |i: usize| {
            let taken = &taken;
            (0..taken.len()).filter(move |j| *j != i && taken[i].meets(&taken[*j]))
        };
        let i = (0..taken.len()).find(|i| taken[i + 1..].iter().any(|other| taken[*i].meets(other)))?;
        let j = with(i).next()?;
        // Of a rail that meets two from opposite sides, the rail itself is the crossing one.
        let is_one_of_two = |k: usize| drafts[k].has_twin();
        let turned = is_one_of_two(i) || (!is_one_of_two(j) && with(j).count() > with(i).count());
        let (crossing, other) = if turned { (j, i) } else { (i, j) };
        let way = drafts[other].mouth.x;
        let against = with(crossing).filter(|k| drafts[*k].mouth.x.dot(way).abs() > 0.9).collect();
        Some(Self { crossing, against })
    }

    /// The crossing one, then the others.
    pub(super) fn all(&self) -> impl Iterator<Item = usize> {
        core::iter::once(self.crossing).chain(self.against.iter().copied())
    }
}

/// Every way, with the joints as they would be.
pub(super) fn all<'a>(drafts: &[Draft<'a>], meet: &Meet) -> Vec<Tried<'a>> {
    let start: Vec<Draft<'a>> = meet.all().map(|i| drafts[i].clone()).collect();
    let tried = |way: Way, change: &dyn Fn(&mut Vec<Draft<'a>>) -> Result<(), String>| {
        let mut parted = start.clone();
        let done = change(&mut parted).and_then(|()| sound(&parted));
        (way, done.map(|area| (parted, area)))
    };
    let best = |a: Tried<'a>, b: Tried<'a>| {
        let area = |t: &Tried<'a>| t.1.as_ref().map_or(-1.0, |(_, area)| *area);
        if area(&b) > area(&a) { b } else { a }
    };
    let passing = |way: Way| {
        let pass = |above: bool| tried(way, &move |set| pass(set, above, way));
        best(pass(false), pass(true))
    };
    vec![
        tried(Way::Mitred, &|set| mitre(set)),
        passing(Way::Halved),
        passing(Way::Staggered),
        best(tried(Way::Stopped, &|set| butt(set, true)), tried(Way::Stopped, &|set| butt(set, false))),
    ]
}

/// The glue area of joints that are long enough and clear of each other.
fn sound(set: &[Draft<'_>]) -> Result<f64, String> {
    let short = set.iter().find(|d| d.middle_length() < rules::SHORTEST || d.tongues.is_empty());
    if let Some(short) = short {
        let length = short.middle_length();
        return Err(say!(
            "the tenon of the {} would be only {length:.0} mm long",
            short.site.guest.id.role.name()
        ));
    }
    if set.iter().any(|d| d.least_cheek() < rules::SHORTEST_CHEEK) {
        return Err(say!("the mitre would leave one cheek nothing to glue"));
    }
    if set.iter().any(|d| d.far.is_some() && d.length() < d.longest - 1e-6) {
        return Err(say!("the through tenon would not come out"));
    }
    let (crossing, against) = (Taken::by(&set[0]), &set[1..]);
    if against.iter().any(|d| crossing.meets(&Taken::by(d))) {
        return Err(say!("they would still run into each other"));
    }
    Ok(set.iter().map(Draft::cheeks).sum())
}

/// Halved or staggered: the crossing tenon goes `above` or below the others. Halved ones keep their whole width up
/// to where they meet.
fn pass(set: &mut [Draft<'_>], above: bool, way: Way) -> Result<(), String> {
    if set.iter().any(|d| d.kind == crate::joint::Kind::Dowels) {
        return Err(say!("dowels cannot pass each other so"));
    }
    let halved = way == Way::Halved;
    let gap = if halved { rules::MITRE_GAP } else { rules::BRIDGE };
    let up = set[0].mouth.y;
    let range = |d: &Draft<'_>| {
        let base = d.mouth.origin.dot(up);
        let turned = d.mouth.y.dot(up).signum();
        let ends = d.across().map(|y| base + y * turned);
        [ends[0].min(ends[1]), ends[0].max(ends[1])]
    };
    let own = range(&set[0]);
    let others = set[1..]
        .iter()
        .map(range)
        .fold([f64::INFINITY, f64::NEG_INFINITY], |all, r| [all[0].min(r[0]), all[1].max(r[1])]);
    let both = [own[0].max(others[0]), own[1].min(others[1])];
    if halved && both[0] >= both[1] {
        return Err(say!("one passes above the other already"));
    }
    let level = (both[0] + both[1]) / 2.0;
    let stubs: Vec<f64> = (0..set.len()).map(|i| if halved { stub(set, i) } else { 0.0 }).collect();
    for (i, draft) in set.iter_mut().enumerate() {
        let over = (i == 0) == above;
        keep_part(draft, up, level, if over { gap / 2.0 } else { -gap / 2.0 }, stubs[i]);
    }
    Ok(())
}

/// How far a tenon may keep its whole width: up to the cheeks of those it crosses.
fn stub(set: &[Draft<'_>], i: usize) -> f64 {
    let own = set[i].mouth;
    let others: Vec<&Draft<'_>> = if i == 0 { set[1..].iter().collect() } else { vec![&set[0]] };
    let nearest = others.iter().flat_map(|d| d.tenon_spaces()).filter_map(|s| s.span(own.origin, own.x));
    nearest.map(|[low, _]| low).fold(f64::INFINITY, f64::min) - rules::MITRE_GAP
}

/// Beyond `stub` the tenon keeps only what lies above `level` (for a positive `by`) or below it, `by` away from it.
fn keep_part(draft: &mut Draft<'_>, up: Vec3, level: f64, by: f64, stub: f64) {
    let turned = draft.mouth.y.dot(up).signum();
    let at = (level + by - draft.mouth.origin.dot(up)) * turned;
    let keeps_high = (by > 0.0) == (turned > 0.0);
    let mut kept = Vec::new();
    for t in &draft.tongues {
        let y = if keeps_high { [t.y[0].max(at), t.y[1]] } else { [t.y[0], t.y[1].min(at)] };
        if y == t.y {
            kept.push(*t);
            continue;
        }
        let whole = t.to.min(stub);
        let stub_stays = whole - t.from >= rules::LEAST_TONGUE;
        kept.extend(stub_stays.then_some(crate::joint::Tongue { to: whole, ..*t }));
        let from = if stub_stays { whole } else { t.from };
        let part = crate::joint::Tongue { y, from, to: t.to };
        kept.extend((part.width() >= rules::LEAST_TONGUE && t.to > from).then_some(part));
    }
    let lost_top = kept.iter().all(|t| t.from > 0.0 || t.y[1] < draft.across()[1]);
    let longest_stub = kept.iter().filter(|t| t.from == 0.0).fold(0.0_f64, |most, t| t.to.max(most));
    draft.haunch = draft.haunch.filter(|h| !lost_top && h.length <= longest_stub);
    draft.tongues = kept;
}

/// The crossing tenon ends before the others, or they before it.
fn butt(set: &mut [Draft<'_>], crossing_ends: bool) -> Result<(), String> {
    let ends: Vec<usize> = if crossing_ends { vec![0] } else { (1..set.len()).collect() };
    if ends.iter().any(|i| set[*i].far.is_some()) {
        return Err(say!("a through tenon cannot end before another"));
    }
    for i in ends {
        let length = stub(set, i);
        let draft = &mut set[i];
        draft.tongues.retain(|t| t.from < length);
        draft.tongues.iter_mut().for_each(|t| t.to = t.to.min(length));
        draft.longest = draft.longest.min(length);
        draft.haunch = draft.haunch.filter(|h| h.length < length);
    }
    Ok(())
}
