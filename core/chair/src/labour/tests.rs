use super::*;
use crate::chair::Chair;
use crate::design::Design;
use crate::lists::sample::{ALLOWANCES, chair};
use crate::lists::{CuttingRow, cutting_list};
use crate::shop::{Method, Operation, Shop, Stage};
use serde_json::{Value, json};

fn sample() -> (Chair, Vec<CuttingRow>) {
    let chair = chair();
    let rows = cutting_list(&chair, &ALLOWANCES, Shop::demo().thicknesses);
    (chair, rows)
}

fn built(design: Value, shop: &Shop) -> (Chair, Vec<CuttingRow>) {
    let design = Design::from_value(&design).expect("a design");
    let chair = Chair::resolve(&design, &shop.bench()).expect("it can be built");
    let rows = cutting_list(&chair, &ALLOWANCES, shop.thicknesses);
    (chair, rows)
}

fn quantity(tasks: &[Task], operation: Operation) -> f64 {
    tasks.iter().find(|task| task.operation == operation).map_or(0.0, |task| task.quantity)
}

/// By hand: two legs of 470 and two of 910 mm, a rail of 470, three slats of 450: 8 parts, 4.58 m of rough length;
/// two joints, four pegs, three slats of the seat.
#[test]
fn tasks_of_the_sample_by_hand() {
    let (chair, rows) = sample();
    let tasks = tasks(&chair, &rows, 3);
    for (operation, wanted) in [
        (Operation::ChooseAndMark, 8.0),
        (Operation::Crosscut, 8.0),
        (Operation::Rip, 4.58),
        (Operation::Plane, 18.32),
        (Operation::DryFit, 2.0),
        (Operation::Peg, 4.0),
        (Operation::SeatSlat, 3.0),
        (Operation::Weave, 0.0),
    ] {
        let found = quantity(&tasks, operation);
        assert!((found - wanted).abs() < 1e-9, "{operation:?}: {found}");
    }
    let area = crate::lists::exposed_area(&chair) * 1e-6;
    assert!((quantity(&tasks, Operation::Finish) - 3.0 * area).abs() < 1e-12);
    assert!(tasks.windows(2).all(|pair| pair[0].operation.stage() <= pair[1].operation.stage()));
}

/// By hand with the invented rates: 4 pegs at 2.5 min are 10 min, and 4 min of set-up: 0.2333 h alone; of eight chairs
/// each has half a minute of the set-up: 0.175 h.
#[test]
fn set_up_is_spread_over_a_batch() {
    let (chair, rows) = sample();
    let shop = Shop::demo();
    let pegs = |batch: u32| {
        let labour = Labour::of(&chair, &rows, &shop, batch).expect("the demo has times");
        labour.rows.iter().find(|row| row.id == "peg").map(|row| row.hours)
    };
    assert_eq!((pegs(1), pegs(8)), (Some(0.2333), Some(0.175)));
}

#[test]
fn stages_and_rows_add_up() {
    let (chair, rows) = sample();
    let labour = Labour::of(&chair, &rows, &Shop::demo(), 3).expect("the demo has times");
    let sum = |hours: &mut dyn Iterator<Item = f64>| (hours.sum::<f64>() * 1e4).round() / 1e4;
    assert_eq!(sum(&mut labour.rows.iter().map(|row| row.hours)), labour.hours);
    assert_eq!(sum(&mut labour.stages.iter().map(|stage| stage.hours)), labour.hours);
    assert!(labour.hours > 0.5);
}

/// Kinds of seat and back that bring every operation there is, but for joints that a rule picks seldom.
#[test]
fn every_operation_is_measured_somewhere() {
    let shop = Shop::demo();
    let mut seen: Vec<Operation> = Vec::new();
    for design in [
        json!({}),
        json!({"seat": "board"}),
        json!({"seat": "pad", "back": "panel"}),
        json!({"seat": "cord"}),
        json!({"rail_joint": "dowels", "back_joint": "loose"}),
    ] {
        let (chair, rows) = built(design, &shop);
        let letters: Vec<&String> = rows.iter().map(|row| &row.letter).collect();
        for task in tasks(&chair, &rows, shop.finish.coats) {
            assert!(task.quantity > 0.0 && task.why.ends_with('.'), "{task:?}");
            assert!(!task.parts.is_empty() && task.parts.iter().all(|l| letters.contains(&l)), "{task:?}");
            seen.push(task.operation);
        }
    }
    for operation in [
        Operation::SawCurve,
        Operation::ShapeCurve,
        Operation::Groove,
        Operation::Notch,
        Operation::GlueUp,
        Operation::SeatBoard,
        Operation::Button,
        Operation::Ledge,
        Operation::Pad,
        Operation::Weave,
        Operation::Joint(crate::joint::Kind::Dowels),
        Operation::Joint(crate::joint::Kind::Loose),
    ] {
        assert!(seen.contains(&operation), "{operation:?}");
    }
}

/// A shop that works by hand takes longer, and joints are the only difference.
#[test]
fn the_method_is_that_of_the_joints() {
    let (chair, rows) = built(json!({}), &Shop::demo());
    let with = |method: &str| {
        let text =
            crate::shop::DEMO_SHOP.replace("\"method\": \"machine\"", &format!("\"method\": \"{method}\""));
        let shop = Shop::from_json(&text).expect("good");
        Labour::of(&chair, &rows, &shop, 1).expect("times")
    };
    let hours = |labour: &Labour, joints: bool| {
        let wanted = labour.rows.iter().filter(|row| row.id.starts_with("joint.") == joints);
        wanted.map(|row| row.hours).sum::<f64>()
    };
    let by = Method::NAMES.iter().map(|(name, _)| with(name)).collect::<Vec<_>>();
    assert!(by.windows(2).all(|pair| hours(&pair[0], false) == hours(&pair[1], false)));
    assert!(hours(&by[0], true) > hours(&by[1], true) && hours(&by[1], true) > hours(&by[2], true));
}

#[test]
fn a_shop_without_times_has_no_labour() {
    let (chair, rows) = sample();
    assert!(Labour::of(&chair, &rows, &Shop { labour: None, ..Shop::demo() }, 1).is_none());
}

/// By hand: 6.4 h a day (32 in five days), every stage empty but gluing: 10 h in two stages, 5 h of drying each, and
/// three coats of 1 h each, 16 h of drying each. Glue: 5 h of work and dry at 10 h of the clock, the second day; 5 h,
/// dry at 10 h, the third day. Coats: 1 h and dry at 17 h: the fourth, fifth, sixth morning. Five full days have passed.
#[test]
fn lead_time_by_hand() {
    let rates = Shop::demo().labour.expect("the demo has times");
    let row = |operation: Operation, quantity: f64, hours: f64| LabourRow {
        id: operation.id(),
        what: operation.label(),
        stage: operation.stage(),
        quantity,
        unit: operation.unit(),
        minutes: 0.0,
        set_up: 0.0,
        hours,
        parts: Vec::new(),
        why: String::new(),
        operation,
    };
    let rows = vec![row(Operation::GlueUp, 2.0, 10.0), row(Operation::Finish, 9.0, 3.0)];
    let labour =
        Labour { batch: 1, method: "hand", rows, stages: Vec::new(), hours: 13.0, lead: Lead::default() };
    let ready = lead(&[(&labour, 1)], &rates, 3);
    assert_eq!((ready.working_days, ready.waiting_hours, ready.bench_hours), (5, 58.0, 13.0));
    assert_eq!(ready.weeks, 1.0);
    let mut queue = rates.clone();
    queue.queue_days = 7.0;
    assert_eq!(lead(&[(&labour, 1)], &queue, 3).working_days, 12);
    // Two chairs: 20 h of glue work take 10 h before each drying, 6 h of coats 2 h each. 10 h are one day and 3.6 h,
    // dry at 8.6 h: the third day; again: the fifth. Coats end on three evenings: seven days.
    assert_eq!(lead(&[(&labour, 2)], &queue, 3).working_days, 7 + 7);
}

#[test]
fn stages_follow_each_other() {
    assert!(Stage::ALL.windows(2).all(|pair| pair[0] < pair[1]));
}
