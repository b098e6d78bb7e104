//! What suits whom, against shares and sizes counted in the records of the surveys.

use crestrail_sitter::{
    Measure, Rule, Sex, Share, Sitter, Suits, Unmeasured, nhanes, predicted, share_below, suits, value_at,
};

fn shares(rule: Rule, value: f64) -> (Share, Share) {
    match suits(rule, value, Sitter::Adults).expect("an answer").suits {
        Suits::Shares { women, men } => (women, men),
        other => panic!("{rule}: {other:?}"),
    }
}

fn size(rule: Rule, value: f64, sitter: Sitter) -> (Option<f64>, Option<f64>, bool) {
    match suits(rule, value, sitter).expect("an answer").suits {
        Suits::Size { range, holds } => (range.at_least, range.at_most, holds),
        other => panic!("{rule}: {other:?}"),
    }
}

fn person(mm: f64, sex: Option<Sex>, weight_kg: Option<f64>) -> Sitter {
    Sitter::Stature { mm, sex, weight_kg }
}

/// Shares counted person by person in ANSUR II. The records are whole millimetres, of which one is up to 1.7 % of people near
/// the middle, and the counts take in those at the limit: the percentiles may differ from them by 1.5.
#[test]
fn shares_as_counted() {
    let counted = [
        (Rule::SeatHeight, 420.0, Some(37.0), Some(93.0)),
        (Rule::SeatHeight, 440.0, Some(13.5), Some(72.5)),
        (Rule::SeatHeight, 450.0, Some(6.3), Some(57.9)),
        (Rule::SeatDepth, 400.0, Some(90.0), Some(98.0)),
        (Rule::SeatDepth, 420.0, Some(70.0), Some(88.0)),
        (Rule::SeatDepth, 440.0, Some(42.0), Some(68.0)),
        (Rule::BetweenArms, 480.0, Some(84.0), Some(95.0)),
        (Rule::BetweenArms, 500.0, Some(94.0), Some(98.0)),
        (Rule::ThighRoom, 210.0, Some(97.0), Some(84.0)),
        (Rule::ThighRoom, 230.0, None, Some(98.0)),
    ];
    for (rule, value, women, men) in counted {
        let (w, m) = shares(rule, value);
        for (got, counted) in [(w, women), (m, men)] {
            let Some(counted) = counted else { continue };
            let got = got.percent().expect("not in a tail");
            println!("{rule} {value}: {got:.2} % (counted {counted})");
            assert!((got - counted).abs() <= 1.5, "{rule} {value}: {got:.2} for {counted}");
        }
    }
}

#[test]
fn tails_are_told_as_tails() {
    assert_eq!(shares(Rule::SeatHeight, 300.0), (Share::OVER_NINETY_NINE, Share::OVER_NINETY_NINE));
    assert_eq!(shares(Rule::SeatHeight, 600.0), (Share::UNDER_ONE, Share::UNDER_ONE));
    assert_eq!(shares(Rule::SeatWidth, 300.0), (Share::UNDER_ONE, Share::UNDER_ONE));
}

/// A higher or deeper seat and higher arms suit fewer, a wider seat and more room suit more.
#[test]
fn shares_go_one_way() {
    for rule in Rule::ALL.into_iter().filter(|rule| rule.measure().is_some()) {
        let falls = matches!(rule, Rule::SeatHeight | Rule::SeatDepth | Rule::ArmHeight);
        let mut last = shares(rule, 0.0);
        for mm in 1..900 {
            let next = shares(rule, f64::from(mm));
            let (less, more) = if falls { (next, last) } else { (last, next) };
            assert!(less.0 <= more.0 && less.1 <= more.1, "{rule} at {mm}");
            last = next;
        }
    }
}

#[test]
fn percentiles_as_printed() {
    assert_eq!(value_at(Sex::Female, Measure::PoplitealHeight, 5.0), Ok(350.0));
    assert_eq!(value_at(Sex::Male, Measure::HipBreadth, 95.0), Ok(431.0));
    assert_eq!(share_below(Sex::Male, Measure::Stature, 1755.0).expect("finite").percent(), Some(50.0));
    let group = nhanes::Group::Adult(Sex::Male);
    assert_eq!(nhanes::weight(group).expect("a group").value_at(99.0), Ok(153.6));
    let tens = nhanes::Group::Age(10);
    assert_eq!(nhanes::weight(tens).expect("a group").value_at(95.0), Ok(62.4));
    assert_eq!(nhanes::stature(tens).expect("a group").value_at(50.0), Ok(1438.0));
}

/// Worked by hand from the regressions: at 1700 mm, women and men together.
#[test]
fn measures_at_1700() {
    let at = |measure| predicted(measure, 1700.0, None).expect("in range").mean;
    for (measure, by_hand) in [
        (Measure::PoplitealHeight, 411.4),
        (Measure::ButtockPoplitealLength, 495.8),
        (Measure::ElbowRestHeight, 239.3),
        (Measure::ShoulderHeight, 585.3),
    ] {
        assert!((at(measure) - by_hand).abs() <= 0.05, "{measure}: {}", at(measure));
    }
}

/// A person of 1700 mm: seat between 411.4 + 25 − 20 and 411.4 + 25; half of such people at the upper end.
#[test]
fn one_person() {
    let upper = -120.654 + 0.312_972 * 1700.0 + 25.0;
    let answer = suits(Rule::SeatHeight, upper, person(1700.0, None, None)).expect("an answer");
    let Suits::Person { aim, chance, body } = answer.suits else { panic!("{answer:?}") };
    assert!((aim.at_most.expect("an end") - upper).abs() < 1e-9);
    assert!((aim.at_least.expect("an end") - (upper - 20.0)).abs() < 1e-9);
    assert!((chance.percent().expect("no tail") - 50.0).abs() < 1e-6);
    assert!(!body.stretched && (body.sd - 13.687).abs() < 1e-12);
}

/// One residual standard deviation lower, 84.1 % of such people have their feet flat.
#[test]
fn a_lower_seat_is_surer() {
    let value = -120.654 + 0.312_972 * 1700.0 + 25.0 - 13.687;
    let answer = suits(Rule::SeatHeight, value, person(1700.0, None, None)).expect("an answer");
    let Suits::Person { chance, .. } = answer.suits else { panic!("{answer:?}") };
    assert!((chance.percent().expect("no tail") - 84.134).abs() < 0.001);
}

/// Hips of a woman of 1630 mm and 90 kg: 305.58 − 85.41 + 237.38 = 457.54, 95 % of such are below 487.3, so 512.3 to aim at.
#[test]
fn weight_widens_the_seat() {
    let aim = |weight| {
        let sitter = person(1630.0, Some(Sex::Female), weight);
        match suits(Rule::SeatWidth, 450.0, sitter).expect("an answer").suits {
            Suits::Person { aim, .. } => aim.at_least.expect("an end"),
            other => panic!("{other:?}"),
        }
    };
    assert!((aim(Some(90.0)) - 512.3).abs() < 0.1, "{}", aim(Some(90.0)));
    assert!(aim(Some(60.0)) < aim(Some(90.0)));
}

#[test]
fn school_chairs() {
    let four = Sitter::School { mark: 4 };
    assert_eq!(size(Rule::SeatHeight, 385.0, four), (Some(370.0), Some(390.0), true));
    assert_eq!(size(Rule::SeatHeight, 391.0, four), (Some(370.0), Some(390.0), false));
    assert_eq!(size(Rule::SeatDepth, 350.0, four), (None, Some(340.0), false));
    assert_eq!(size(Rule::SeatWidth, 350.0, four), (Some(340.0), None, true));
    assert_eq!(size(Rule::SeatToTable, 260.0, four), (Some(250.0), Some(270.0), true));
}

/// A child of 1350 mm: seat 340 (ISO 5970); size marks 3 and 4 are meant for it, so the seat is no deeper than that of 3 and no
/// narrower than that of 4, and the small of the back is where either has it.
#[test]
fn a_child() {
    let child = Sitter::Child { stature_mm: 1350.0 };
    assert_eq!(size(Rule::SeatHeight, 340.0, child), (Some(330.0), Some(350.0), true));
    assert_eq!(size(Rule::SeatDepth, 320.0, child), (None, Some(300.0), false));
    assert_eq!(size(Rule::SeatWidth, 340.0, child), (Some(340.0), None, true));
    assert_eq!(size(Rule::LumbarHeight, 185.0, child), (Some(170.0), Some(200.0), true));
    assert_eq!(size(Rule::SeatToTable, 240.0, child), (Some(230.0), Some(250.0), true));
}

#[test]
fn every_child_has_a_range() {
    for mm in 1050..=1800 {
        let sitter = Sitter::Child { stature_mm: f64::from(mm) };
        for rule in [Rule::SeatHeight, Rule::SeatDepth, Rule::SeatWidth, Rule::LumbarHeight] {
            let (least, most, _) = size(rule, 300.0, sitter);
            assert!(least.is_some() || most.is_some(), "{rule} at {mm}");
            assert!(least.zip(most).is_none_or(|(least, most)| least <= most), "{rule} at {mm}");
        }
    }
}

#[test]
fn what_is_not_known_is_said() {
    let child = Sitter::Child { stature_mm: 1200.0 };
    for rule in [Rule::ArmHeight, Rule::BetweenArms, Rule::ThighRoom, Rule::KneeRoom] {
        assert_eq!(suits(rule, 200.0, child), Err(Unmeasured::NotForChildren(rule)));
        assert_eq!(suits(rule, 200.0, Sitter::School { mark: 3 }), Err(Unmeasured::NotForChildren(rule)));
    }
    assert_eq!(suits(Rule::SeatHeight, f64::NAN, Sitter::Adults), Err(Unmeasured::NotANumber));
    let bad = suits(Rule::SeatHeight, 400.0, Sitter::School { mark: 9 });
    assert_eq!(bad, Err(Unmeasured::SchoolMark(9)));
    let tall = suits(Rule::LumbarHeight, 200.0, person(2400.0, None, None));
    assert_eq!(tall.expect_err("refused").to_string(), "a stature of 2400 mm is outside 1400 to 2050 mm");
    assert_eq!(nhanes::weight(nhanes::Group::Age(2)), Err(Unmeasured::Age(2)));
}

/// Every rule says who says so, in words.
#[test]
fn every_rule_has_its_source() {
    for rule in Rule::ALL {
        let answer = suits(rule, 250.0, Sitter::Adults).expect("an answer");
        assert_eq!(answer.rule, rule.source());
        assert_eq!(answer.figures.is_some(), rule.measure().is_some());
        assert!(answer.rule.text.len() > 20 && rule.says().ends_with('.'));
    }
}
