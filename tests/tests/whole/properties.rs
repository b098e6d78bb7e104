//! What holds for every design of the knob box: tried on thousands of random ones.

use crate::overlap;
use crate::random::Random;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::joint::End;

use crestrail_chair::nearest;
use crestrail_chair::part::{Part, Role, Side, Size};
use crestrail_chair::report::{Report, report};
use crestrail_chair::shop::Shop;
use crestrail_chair::unbuildable::Unbuildable;
use crestrail_geometry::Vec3;
use serde_json::Value;
use std::collections::BTreeMap;

const SEED: u64 = 2;
const DESIGNS: usize = 2000;

/// The knobs are made so that nearly every design in their box can be built; what is refused are corners
/// where timber runs out: the thickest rails in the thinnest legs, the widest cut in the smallest cutter.
const MOST_REFUSED: f64 = 0.02;

/// mm.
const ROUNDING: f64 = 1e-9;

#[test]
fn every_design_gives_a_report_or_a_named_refusal() {
    let shop = Shop::demo();
    let mut random = Random::new(SEED);
    let mut tally = Tally::default();
    for _ in 0..DESIGNS {
        let design = random.design();
        match Chair::resolve(&design, &shop.bench()) {
            Ok(chair) => check_chair(&design, &chair, &report(&design, &chair, &shop)),
            Err(clash) => tally.take(&design, &clash, &shop),
        }
    }
    println!("seed {SEED}: {}", tally.told());
    assert!(tally.refused as f64 <= MOST_REFUSED * DESIGNS as f64, "{}", tally.told());
}

/// How many designs were refused, and why.
#[derive(Default)]
struct Tally {
    refused: usize,
    mended: usize,
    reasons: BTreeMap<String, usize>,
}

impl Tally {
    /// A refusal names knobs that exist, and its mend, where it has one, works.
    fn take(&mut self, design: &Design, clash: &Unbuildable, shop: &Shop) {
        self.refused += 1;
        let words: Vec<&str> =
            clash.why.split_whitespace().filter(|w| !w.contains(|c: char| c.is_ascii_digit())).collect();
        *self.reasons.entry(format!("{:?}: {}", clash.stage, words.join(" "))).or_default() += 1;
        assert!(!clash.knobs.is_empty() && clash.why.ends_with('.'), "{clash}");
        for name in &clash.knobs {
            assert!(
                crestrail_chair::knobs::KNOBS.iter().any(|knob| knob.name == *name),
                "no knob {name}: {clash}"
            );
        }
        if let Some(mend) = nearest::mend(design, clash, &shop.bench()) {
            self.mended += 1;
            assert!(
                clash.knobs.contains(&mend.knob.as_str()),
                "{} is not among the clashing knobs",
                mend.knob
            );
            let mended = design.with(&mend.knob, &mend.value).expect("a mend within the knob's limits");
            if let Err(still) = Chair::resolve(&mended, &shop.bench()) {
                panic!("{} does not mend \"{clash}\": {still}\n{}", mend.say, written(design));
            }
        }
    }

    fn told(&self) -> String {
        let share = 100.0 * self.refused as f64 / DESIGNS as f64;
        let reasons: Vec<String> = self.reasons.iter().map(|(why, n)| format!("\n{n:6} {why}")).collect();
        format!(
            "{} of {DESIGNS} refused ({share:.1} %), {} of them with a mend by one knob{}",
            self.refused,
            self.mended,
            reasons.concat()
        )
    }
}

/// Each part is put in, and nothing is blocked.
fn goes_together(chair: &Chair, told: &dyn Fn() -> String) {
    let order = &chair.assembly;
    assert!(order.blocked.is_none(), "{:?}: {}", order.blocked, told());
    let last = order.steps.last().and_then(|step| step.moves.last());
    let placed = last.map_or(0, |m| m.goes_in.len() + m.into.len());
    assert_eq!(placed, chair.parts.len(), "parts in the last step: {}", told());
}

fn written(design: &Design) -> String {
    Value::Object(design.to_map()).to_string()
}

fn check_chair(design: &Design, chair: &Chair, report: &Report) {
    let told = || written(design);
    check_numbers("report", &serde_json::to_value(report).expect("a report is plain data"), design);
    left_mirrors_right(chair, &told);
    letters_name_one_kind(chair, &told);
    both_ends_are_joined(chair, &told);
    rows_hold_their_parts(chair, report, &told);
    sums_agree(chair, report, &told);
    goes_together(chair, &told);
    assert_eq!(overlap::first(chair), None, "{}", told());
    if let Some((joint, at)) = overlap::outside_its_host(chair) {
        panic!("{} stands out of {} at {at:?}: {}", joint.guest, joint.host, told());
    }
}

/// A number that is none is written as nothing, so nothing may stand only where the contract says so.
fn check_numbers(path: &str, value: &Value, design: &Design) {
    match value {
        Value::Null => {
            let name = path.rsplit('.').next().unwrap_or_default();
            let none_is_said = ["trade", "thickness", "knob"].contains(&name);
            assert!(none_is_said, "{path} is nothing: {}", written(design));
        }
        Value::Array(items) => items.iter().for_each(|item| check_numbers(path, item, design)),
        Value::Object(map) => {
            for (name, item) in map {
                check_numbers(&format!("{path}.{name}"), item, design);
            }
        }
        Value::Number(number) => assert!(number.as_f64().is_some_and(f64::is_finite), "{path}: {number}"),
        Value::Bool(_) | Value::String(_) => {}
    }
}

fn mirrored(p: Vec3) -> Vec3 {
    Vec3 { x: -p.x, ..p }
}

fn near(a: Vec3, b: Vec3) -> bool {
    (a - b).length() <= ROUNDING
}

fn left_mirrors_right(chair: &Chair, told: &dyn Fn() -> String) {
    for (part, body) in chair.pieces() {
        let twin = chair.pieces().find(|(other, _)| other.id == part.id.mirrored());
        let (twin, twin_body) = twin.unwrap_or_else(|| panic!("{} has no twin: {}", part.id, told()));
        let place = &part.place;
        if part.id.side == Side::Middle && part.id.role == Role::Peg {
            // It is driven from one side.
            continue;
        }
        if part.id.side == Side::Middle {
            assert!(
                body.centre.x.abs() <= 1e-6 + off_by_pegs(part, chair) / body.volume,
                "{} is off the middle by {}: {}",
                part.id,
                body.centre.x,
                told()
            );
            continue;
        }
        let alike = near(mirrored(place.origin), twin.place.origin)
            && near(mirrored(place.x), twin.place.x)
            && near(mirrored(place.y), twin.place.y)
            && near(mirrored(place.z), twin.place.z);
        assert!(alike && near(mirrored(body.centre), twin_body.centre), "{}: {}", part.id, told());
        assert_eq!(body.volume, twin_body.volume);
        assert_eq!(part.letter, twin.letter);
    }
}

/// A joint in the middle is pegged from one side, which takes timber from there and fills it again with the peg:
/// at most the pegs' timber times half the part's width, mm⁴.
fn off_by_pegs(part: &Part, chair: &Chair) -> f64 {
    let touches = chair.joints.iter().filter(|j| j.host == part.id || j.guest == part.id);
    let pegs = touches.filter(|j| j.host.side == Side::Middle && j.guest.side == Side::Middle);
    let timber: f64 = pegs.flat_map(|j| &j.pegs).map(|peg| peg.size * peg.size * peg.length).sum();
    timber * part.size.width.max(part.size.thickness) / 2.0
}

/// What tells parts of one letter from others: their role and their finished size.
fn kind(part: &Part, chair: &Chair) -> (Role, [i64; 4]) {
    let body = chair.pieces().find(|(p, _)| p.id == part.id).map(|(_, b)| b).expect("a part of the chair");
    // Fasteners of one letter are alike to a tenth of a millimetre; pegs, dowels and wedges are trimmed when driven.
    let Size { length, width, thickness } = part.size;
    let tenths = |sizes: [f64; 3]| sizes.map(|mm| (mm * 10.0).round() as i64);
    let size = body.solid.bounds().size();
    let [x, y, z, volume] = match part.id.role {
        Role::Peg | Role::Dowel | Role::Wedge => with(tenths([length, width, thickness]), 0),
        Role::LooseTenon => with(tenths([size.x, size.y, size.z]), 0),
        _ => with([size.x, size.y, size.z].map(|mm| (mm * 1e3).round() as i64), body.volume.round() as i64),
    };
    (part.id.role, [x, y, z, volume])
}

fn with([x, y, z]: [i64; 3], volume: i64) -> [i64; 4] {
    [x, y, z, volume]
}

fn letters_name_one_kind(chair: &Chair, told: &dyn Fn() -> String) {
    let mut kinds: BTreeMap<&str, (Role, [i64; 4])> = BTreeMap::new();
    for part in &chair.parts {
        let own = kind(part, chair);
        let first = kinds.entry(&part.letter).or_insert(own);
        let close = first.1.iter().zip(&own.1).all(|(a, b)| (a - b).abs() <= 1);
        assert!(first.0 == own.0 && close, "{} names two kinds: {first:?}, {own:?}: {}", part.letter, told());
    }
}

fn both_ends_are_joined(chair: &Chair, told: &dyn Fn() -> String) {
    let joined = [
        Role::FrontRail,
        Role::SideRail,
        Role::BackRail,
        Role::SideStretcher,
        Role::CrossStretcher,
        Role::BackSlat,
    ];
    for part in chair.parts.iter().filter(|p| joined.contains(&p.id.role)) {
        let mut ends: Vec<End> = chair.joints.iter().filter(|j| j.guest == part.id).map(|j| j.end).collect();
        ends.sort_unstable();
        assert_eq!(ends, [End::Near, End::Far], "{}: {}", part.id, told());
    }
}

fn rows_hold_their_parts(chair: &Chair, report: &Report, told: &dyn Fn() -> String) {
    let counted: u32 = report.cutting_list.iter().map(|row| row.quantity).sum();
    assert_eq!(counted as usize, chair.parts.len(), "{}", told());
    for row in &report.cutting_list {
        let (f, r) = (row.finished, row.rough);
        let finished = f.length * f.width * f.thickness;
        assert!(
            row.volume_mm3 > 0.0 && row.volume_mm3 <= finished * (1.0 + 1e-9),
            "{}: {}",
            row.letter,
            told()
        );
        let contains = r.length >= f.length && r.width >= f.width && r.thickness >= f.thickness;
        assert!(contains, "{} is sawn too small: {}", row.letter, told());
    }
    let joints: u32 = report.joints.iter().map(|row| row.quantity).sum();
    assert_eq!(joints as usize, chair.joints.len(), "{}", told());
}

fn sums_agree(chair: &Chair, report: &Report, told: &dyn Fn() -> String) {
    let listed: f64 = report.cutting_list.iter().map(|row| f64::from(row.quantity) * row.mass_kg).sum();
    // Pegs of one letter may differ by a tenth of a millimetre in length.
    assert!(
        (listed - report.overall.mass_kg).abs() < 1e-3,
        "{listed} {}: {}",
        report.overall.mass_kg,
        told()
    );
    assert_eq!(report.overall.parts + report.overall.pegs, chair.parts.len());
    let bill = report.bill.as_ref().unwrap_or_else(|| panic!("no bill: {:?} {}", report.no_bill, told()));
    let sum: i64 = bill.lines.iter().map(|line| line.amount_minor.0).sum();
    assert_eq!(sum, bill.total_minor.0);
    work_is_traced(report, told);
    for line in &report.timber.lines {
        assert!(line.volume_m3 <= line.rough_m3, "{}", told());
        let planned = report.boards.iter().any(|b| line.parts.iter().all(|letter| b.parts.contains(letter)));
        assert!(planned, "no boards for {:?}: {}", line.parts, told());
    }
}

/// Every part of the frame is worked on, every line of the bill is about parts of the list, and hours add up.
fn work_is_traced(report: &Report, told: &dyn Fn() -> String) {
    let letters: Vec<&str> = report.cutting_list.iter().map(|row| row.letter.as_str()).collect();
    let bill = report.bill.as_ref().expect("the caller looked");
    for line in &bill.lines {
        let known = line.parts.iter().all(|letter| letters.contains(&letter.as_str()));
        assert!(known && !line.parts.is_empty(), "{line:?} {}", told());
    }
    let labour = report.labour.as_ref().expect("the invented workshop has times");
    let hours: f64 = labour.rows.iter().map(|row| row.hours).sum();
    assert!((hours - labour.hours).abs() < 1e-6 && labour.lead.working_days > 0, "{}", told());
    for letter in letters {
        let worked = labour.rows.iter().any(|row| row.parts.iter().any(|part| part == letter));
        let with_its_joint = report.cutting_list.iter().any(|r| r.letter == letter && r.role.is_small());
        let bought = report.cutting_list.iter().any(|r| r.letter == letter && r.material.species().is_none());
        assert!(worked || with_its_joint || bought, "{letter} {}", told());
    }
}
