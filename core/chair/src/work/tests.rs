use super::*;
use crate::design::Design;
use crate::length::Lengths;
use crate::lists::cutting_list;
use crate::report::allowances;
use serde_json::json;

fn steps_of(design: &Design) -> (Chair, Vec<WorkStep>) {
    let shop = Shop::demo();
    let chair = Chair::resolve(design, &shop.bench()).expect("a chair");
    let rows = cutting_list(&chair, &allowances(design), shop.thicknesses);
    let labour = Labour::of(&chair, &rows, &shop, 1);
    let steps = order_of_work(&chair, &shop, labour.as_ref(), Lengths::Millimetres);
    (chair, steps)
}

fn families() -> Vec<Design> {
    use crate::choices::{Choice, Family};
    let of = |pick: crate::knob::Pick| Design::default().with("family", &json!(pick.name)).expect("a kind");
    Family::picks().into_iter().map(of).collect()
}

#[test]
fn every_step_of_the_assembly_is_done_once_in_its_order() {
    for design in families() {
        let (chair, steps) = steps_of(&design);
        let done: Vec<usize> = steps.iter().filter_map(|s| s.assembly).collect();
        let all: Vec<usize> = chair.assembly.steps.iter().map(|s| s.number).collect();
        assert_eq!(done, all);
        assert!(
            steps
                .iter()
                .enumerate()
                .all(|(i, s)| s.number == i + 1 && !s.say.is_empty() && !s.checks.is_empty())
        );
    }
}

/// The minutes of all steps are the hours of the labour, but for rounding to minutes.
#[test]
fn the_minutes_add_up() {
    for design in families() {
        let shop = Shop::demo();
        let (chair, steps) = steps_of(&design);
        let rows = cutting_list(&chair, &allowances(&design), shop.thicknesses);
        let labour = Labour::of(&chair, &rows, &shop, 1).expect("times");
        let told: f64 = steps.iter().filter_map(|s| s.minutes).sum();
        assert!((told - labour.hours * 60.0).abs() < steps.len() as f64, "{told} of {}", labour.hours * 60.0);
    }
}

/// A diagonal and its mirror image are equal; the feet of the default chair by Pythagoras from its own corners.
#[test]
fn diagonals_are_equal_both_ways() {
    for design in families() {
        let (_, steps) = steps_of(&design);
        let tapes: Vec<&Tape> = steps.iter().flat_map(|s| &s.tapes).collect();
        assert!(!tapes.is_empty());
        for tape in tapes {
            let length = |[a, b]: &[Corner; 2]| {
                (0..3).map(|i| (a.at[i] - b.at[i]) * (a.at[i] - b.at[i])).sum::<f64>().sqrt()
            };
            assert!((length(&tape.ends) - tape.length).abs() < 1e-9);
            assert!(tape.equal.as_ref().is_none_or(|other| (length(other) - tape.length).abs() < 1e-6));
            assert!(tape.say.contains(&format!("{:.0} mm", tape.length)), "{}", tape.say);
        }
    }
}

/// Clamps over the front rail of the default chair: seat width over the legs, at most.
#[test]
fn clamps_open_over_the_legs() {
    let (chair, steps) = steps_of(&Design::default());
    let clamps: Vec<&Clamp> = steps.iter().flat_map(|s| &s.clamps).collect();
    let front = clamps.iter().find(|c| c.along == "front rail").expect("one along the front rail");
    let legs = chair.pieces().filter(|(p, _)| p.id.role == crate::part::Role::FrontLeg);
    let reach = legs
        .map(|(p, b)| b.solid.posed(&p.place).bounds())
        .fold(crestrail_geometry::Bounds::NOTHING, crestrail_geometry::Bounds::union);
    let wide = reach.high.x - reach.low.x;
    assert!(front.opening <= wide + 1e-6 && front.opening > wide - 30.0, "{} of {wide}", front.opening);
}

/// The gaps of the default seat, read off its sentence, and its slats fill the depth that the first and the last one span.
#[test]
fn slats_and_gaps_fill_the_seat() {
    let (chair, steps) = steps_of(&Design::default());
    let said =
        steps.iter().flat_map(|s| &s.say).find(|say| say.starts_with("The slats lie")).expect("a sentence");
    let gap: f64 = said.split(' ').nth(3).expect("a figure").parse().expect("one gap");
    let slats = chair.pieces().filter(|(part, _)| part.id.role == crate::part::Role::SeatSlat);
    let boxes: Vec<_> = slats.map(|(part, body)| body.solid.posed(&part.place).bounds()).collect();
    let whole =
        boxes.iter().copied().fold(crestrail_geometry::Bounds::NOTHING, crestrail_geometry::Bounds::union);
    let wood: f64 = boxes.iter().map(|b| b.high.y - b.low.y).sum();
    let gaps = (boxes.len() - 1) as f64 * gap;
    assert!((wood + gaps - (whole.high.y - whole.low.y)).abs() < 0.05 * boxes.len() as f64, "{said}");
}

/// No slat lies on another, on any kind of chair.
#[test]
fn gaps_of_slats_are_gaps() {
    for design in families() {
        let (_, steps) = steps_of(&design);
        for say in steps.iter().flat_map(|s| &s.say).filter(|say| say.starts_with("The slats lie")) {
            assert!(!say.contains('-') && !say.contains(" 0 mm"), "{say}");
        }
    }
}

/// Every step has a picture; what is laid on last takes the time of the seat between them, by the parts that come in each.
#[test]
fn steps_have_pictures_and_seats_have_minutes() {
    for design in families() {
        let (chair, steps) = steps_of(&design);
        let service = crate::report::service(&design);
        let view = crate::drawing::View { width: 215.0, height: 215.0, ..Default::default() };
        for step in &steps {
            let drawn = crate::drawing::work_step(&chair, step, &view, &service);
            assert!(drawn.is_some_and(|sheet| sheet.items.len() > 2), "{}", step.title);
        }
        let seats: Vec<&WorkStep> = steps.iter().filter(|s| s.stage == Stage::Seat).collect();
        assert!(seats.iter().all(|s| s.minutes.is_some_and(|minutes| minutes > 0.0)), "{seats:?}");
    }
}
