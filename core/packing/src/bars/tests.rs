use super::*;
use std::ops::ControlFlow;

fn bar(length: f64, price: i64, count: Option<u32>) -> Bar {
    Bar { length, price, count }
}

fn pieces(list: &[(f64, u32)]) -> Vec<Piece> {
    list.iter().map(|&(length, count)| Piece { length, count }).collect()
}

fn solved(bars: &[Bar], list: &[(f64, u32)], kerf: f64, trim: f64) -> Plan {
    let problem = Problem::new(bars, &pieces(list), kerf, trim).unwrap();
    let plan = solve(&problem, Budget::of(300_000_000), &mut |_| ControlFlow::Continue(()));
    check(&problem, &plan, kerf, trim);
    plan
}

/// Lengths, limits and counts, worked out anew from the plan.
fn check(problem: &Problem, plan: &Plan, kerf: f64, trim: f64) {
    let mut made = vec![0; problem.pieces.len()];
    let mut used = vec![0; problem.bars.len()];
    for cut in &plan.cuts {
        let sum: f64 = cut.pieces.iter().map(|&p| problem.pieces[p].length).sum();
        let room = problem.bars[cut.bar].length - 2.0 * trim;
        assert!(sum + (cut.pieces.len() - 1) as f64 * kerf <= room + 1e-9, "{cut:?}");
        cut.pieces.iter().for_each(|&p| made[p] += cut.times);
        used[cut.bar] += cut.times;
    }
    for (p, piece) in problem.pieces.iter().enumerate() {
        assert_eq!(made[p] + plan.missing[p], piece.count);
    }
    for (b, bar) in problem.bars.iter().enumerate() {
        assert!(bar.count.is_none_or(|c| used[b] <= c));
    }
    let cost: i64 = used.iter().zip(&problem.bars).map(|(&n, b)| i64::from(n) * b.price).sum();
    assert_eq!(cost, plan.cost);
    assert!(plan.bound <= plan.cost);
}

#[test]
fn kerf_and_trim_count() {
    // Three of 330 and two kerfs of 3 are 996; with trims of 2 they just fit, with 2.1 they do not.
    assert_eq!(solved(&[bar(1000.0, 5, None)], &[(330.0, 3)], 3.0, 2.0).cost, 5);
    assert_eq!(solved(&[bar(1000.0, 5, None)], &[(330.0, 3)], 3.0, 2.1).cost, 10);
}

#[test]
fn the_cheaper_mix_of_bars_is_proven() {
    let bars = [bar(2000.0, 900, None), bar(3000.0, 1200, None), bar(4000.0, 1750, Some(2))];
    let plan = solved(&bars, &[(950.0, 7), (700.0, 9), (420.0, 13)], 3.0, 5.0);
    assert_eq!(plan.cost, plan.bound);
}

#[test]
fn what_the_stock_does_not_give_is_missing() {
    let plan = solved(&[bar(1000.0, 300, Some(2))], &[(600.0, 3), (300.0, 2)], 3.0, 0.0);
    assert_eq!(plan.missing, [1, 0]);
    assert_eq!((plan.cost, plan.bound), (600, 600));
}

#[test]
fn free_bars_of_the_rack_come_first() {
    let plan = solved(&[bar(2000.0, 800, None), bar(1300.0, 0, Some(1))], &[(600.0, 5)], 3.0, 0.0);
    assert_eq!(plan.cost, 800);
}

#[test]
fn bad_input_is_refused_by_name() {
    let bars = [bar(2000.0, 1, None)];
    let refused = |bars: &[Bar], list: &[(f64, u32)], kerf: f64| {
        Problem::new(bars, &pieces(list), kerf, 5.0).unwrap_err()
    };
    let long = refused(&bars, &[(500.0, 1), (2100.0, 1)], 3.0);
    assert_eq!(long.place, "pieces[1].length");
    assert!(long.why.contains("110 mm longer"), "{long}");
    assert_eq!(refused(&bars, &[(0.0, 1)], 3.0).place, "pieces[0].length");
    assert_eq!(refused(&bars, &[(f64::NAN, 1)], 3.0).place, "pieces[0].length");
    assert_eq!(refused(&bars, &[(10.0, 1)], -1.0).place, "kerf");
    assert_eq!(refused(&[bar(-5.0, 1, None)], &[(10.0, 1)], 0.0).place, "bars[0].length");
    assert_eq!(refused(&[bar(5.0, -1, None)], &[(10.0, 1)], 0.0).place, "bars[0].price");
    assert_eq!(refused(&[], &[(10.0, 1)], 0.0).place, "pieces[0].length");
    assert_eq!(refused(&bars, &[(10.0, MOST_PLUS)], 0.0).place, "pieces");
}

const MOST_PLUS: u32 = crate::MOST + 1;

#[test]
fn nothing_asked_nothing_bought() {
    let plan = solved(&[bar(1000.0, 5, None)], &[(10.0, 0)], 3.0, 0.0);
    assert!(plan.cuts.is_empty() && plan.cost == 0 && plan.bound == 0);
}

#[test]
fn the_same_budget_gives_the_same_plan_and_a_stop_ends_it() {
    let bars = [bar(2440.0, 1210, None), bar(3050.0, 1490, None), bar(1830.0, 930, Some(4))];
    let list = [(455.0, 24), (420.0, 24), (890.0, 12), (1010.0, 12), (310.0, 36), (377.0, 12)];
    let problem = Problem::new(&bars, &pieces(&list), 3.2, 10.0).unwrap();
    let budget = Budget::of(2_000_000);
    let run = || solve(&problem, budget, &mut |_| ControlFlow::Continue(()));
    assert_eq!(run(), run());
    let stopped = solve(&problem, Budget::of(u64::MAX), &mut |_| ControlFlow::Break(()));
    check(&problem, &stopped, 3.2, 10.0);
    assert_eq!(stopped.missing.iter().sum::<u32>(), 0);
}

/// Of plans that cost the same, few patterns: six bars can all be cut alike.
#[test]
fn alike_where_it_costs_nothing() {
    let plan = solved(&[bar(1000.0, 10, None)], &[(500.0, 6), (300.0, 6), (150.0, 6)], 0.0, 0.0);
    assert_eq!((plan.cost, plan.cuts.len()), (60, 1));
}

/// A stock that is used up while a dive still has pieces left.
#[test]
fn an_empty_rack_is_no_trouble() {
    let bars = [bar(900.0, 10, Some(1)), bar(1000.0, 12, Some(2))];
    let plan = solved(&bars, &[(450.0, 7), (310.0, 5), (205.0, 9)], 3.0, 0.0);
    assert!(plan.missing.iter().sum::<u32>() > 0 && plan.cost == 34);
}

/// Thousands of pieces, and sizes that share no unit.
#[test]
fn a_large_order_ends() {
    let list: Vec<(f64, u32)> = (0..30).map(|i| (101.37 + 37.11 * f64::from(i), 500)).collect();
    let problem =
        Problem::new(&[bar(4000.0, 2500, None), bar(2750.5, 1700, None)], &pieces(&list), 3.17, 5.0).unwrap();
    let plan = solve(&problem, Budget::of(300_000_000), &mut |_| ControlFlow::Continue(()));
    check(&problem, &plan, 3.17, 5.0);
    assert!(plan.cost as f64 <= 1.01 * plan.bound as f64, "{} above {}", plan.cost, plan.bound);
}

/// The longest piece left on the first open bar that holds it, else on a new bar of the kind that costs
/// least for its length: what a workshop does without a program.
fn by_hand(bars: &[Bar], pieces: &[Piece], kerf: f64) -> i64 {
    let mut lengths: Vec<f64> =
        pieces.iter().flat_map(|p| std::iter::repeat_n(p.length, p.count as usize)).collect();
    lengths.sort_by(|a, b| b.total_cmp(a));
    let (mut open, mut cost): (Vec<f64>, i64) = (Vec::new(), 0);
    for length in lengths {
        if let Some(left) = open.iter_mut().find(|left| **left >= length) {
            *left -= length + kerf;
            continue;
        }
        let rate = |b: &&Bar| b.price as f64 / b.length;
        let bar =
            bars.iter().filter(|b| b.length >= length).min_by(|a, b| rate(a).total_cmp(&rate(b))).unwrap();
        open.push(bar.length - length - kerf);
        cost += bar.price;
    }
    cost
}

#[test]
fn a_quick_plan_is_sound_and_has_a_bound() {
    let mut state = 17_u64;
    let mut below = |n: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % n
    };
    for round in 0..60 {
        let chairs = 1 + below(40) as u32;
        let pieces: Vec<Piece> = (0..2 + below(14))
            .map(|_| Piece { length: 180.0 + below(900) as f64, count: chairs * (1 + below(3) as u32) })
            .collect();
        let bars: Vec<Bar> = (0..1 + below(5))
            .map(|_| {
                let length = 1800.0 + 100.0 * below(30) as f64;
                Bar { length, price: (length * (0.45 + 0.001 * below(100) as f64)) as i64, count: None }
            })
            .collect();
        let problem = Problem::new(&bars, &pieces, 3.0, 0.0).unwrap();
        let need: f64 = pieces.iter().map(|p| f64::from(p.count) * p.length).sum();
        let rate = bars.iter().map(|b| b.price as f64 / b.length).fold(f64::INFINITY, f64::min);
        let long = solve(&problem, Budget::of(100_000_000), &mut |_| ControlFlow::Continue(()));
        for work in [0, 2_000_000] {
            let plan = solve(&problem, Budget::of(work), &mut |_| ControlFlow::Continue(()));
            for cut in &plan.cuts {
                let used: f64 = cut.pieces.iter().map(|&p| pieces[p].length + 3.0).sum();
                assert!(used <= bars[cut.bar].length + 3.0 + 1e-6, "round {round}: {cut:?}");
            }
            assert!(plan.missing.iter().all(|&n| n == 0));
            assert!(plan.cost <= by_hand(&bars, &pieces, 3.0), "round {round}, work {work}");
            assert!(
                plan.bound as f64 >= need * rate - 1.0 && plan.bound <= long.cost,
                "round {round}: {plan:?}"
            );
        }
    }
}
