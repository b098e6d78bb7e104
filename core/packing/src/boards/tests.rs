use super::*;
use std::ops::ControlFlow;

fn board(length: f64, width: f64, price: i64) -> Board {
    Board { length, width, price, count: None }
}

fn piece(length: f64, width: f64, count: u32) -> Piece {
    Piece { length, width, count, grain: true }
}

fn solved(boards: &[Board], pieces: &[Piece], kerf: f64, trim: Trim) -> Plan {
    let problem = Problem::new(boards, pieces, kerf, trim).unwrap();
    let plan = solve(&problem, Budget::of(200_000_000), &mut |_| ControlFlow::Continue(()));
    check(&problem, &plan, kerf, trim);
    assert!(plan.cost <= best_fit(&problem));
    plan
}

/// Sizes, places, kerfs, counts and cuts, worked out anew.
fn check(problem: &Problem, plan: &Plan, kerf: f64, trim: Trim) {
    let mut made = vec![0; problem.pieces.len()];
    for sawn in &plan.boards {
        let board = problem.boards[sawn.board];
        for (i, p) in sawn.pieces.iter().enumerate() {
            made[p.piece] += sawn.times;
            let own = problem.pieces[p.piece];
            let turned = (p.length, p.width) == (own.width, own.length) && !own.grain;
            assert!((p.length, p.width) == (own.length, own.width) || turned, "{p:?}");
            assert!(p.x >= trim.end - 1e-9 && p.x + p.length <= board.length - trim.end + 1e-9, "{p:?}");
            assert!(p.y >= trim.edge - 1e-9 && p.y + p.width <= board.width - trim.edge + 1e-9, "{p:?}");
            for q in &sawn.pieces[i + 1..] {
                let apart = |a: f64, s: f64, b: f64| a + s + kerf <= b + 1e-6;
                let beside = apart(p.x, p.length, q.x) || apart(q.x, q.length, p.x);
                assert!(beside || apart(p.y, p.width, q.y) || apart(q.y, q.width, p.y), "{p:?} {q:?}");
            }
        }
        assert!(!sawn.cuts.is_empty() || sawn.pieces.len() < 2);
        for cut in &sawn.cuts {
            for p in &sawn.pieces {
                let (at, size, other, span) = match cut.axis {
                    Axis::Across => (p.x, p.length, p.y, p.width),
                    Axis::Along => (p.y, p.width, p.x, p.length),
                };
                let meets = other < cut.to - 1e-6 && other + span > cut.from + 1e-6;
                assert!(
                    !meets || at + size <= cut.at + 1e-6 || at >= cut.at + kerf - 1e-6,
                    "{cut:?} through {p:?}"
                );
            }
        }
    }
    for (p, piece) in problem.pieces.iter().enumerate() {
        assert_eq!(made[p] + plan.missing[p], piece.count);
    }
    assert!(plan.bound <= plan.cost);
}

#[test]
fn kerfs_and_trims_count_both_ways() {
    let trim = Trim { end: 25.0, edge: 8.0 };
    // Two by two of 400 × 90 with kerfs of 3 are 803 × 183; with the trims 853 × 199.
    assert_eq!(solved(&[board(853.0, 199.0, 7)], &[piece(400.0, 90.0, 4)], 3.0, trim).cost, 7);
    assert_eq!(solved(&[board(852.9, 199.0, 7)], &[piece(400.0, 90.0, 4)], 3.0, trim).cost, 14);
}

#[test]
fn grain_forbids_the_turn() {
    let boards = [board(500.0, 200.0, 3), board(200.0, 500.0, 5)];
    assert_eq!(solved(&boards, &[piece(180.0, 450.0, 1)], 3.0, Trim::default()).cost, 5);
    let free = Piece { grain: false, ..piece(180.0, 450.0, 1) };
    assert_eq!(solved(&boards, &[free], 3.0, Trim::default()).cost, 3);
}

#[test]
fn a_workshop_order_is_near_its_bound() {
    let boards = [board(2400.0, 200.0, 2900), board(3000.0, 250.0, 4700), board(1800.0, 150.0, 1500)];
    let pieces =
        [piece(460.0, 95.0, 24), piece(420.0, 70.0, 24), piece(380.0, 45.0, 48), piece(900.0, 60.0, 12)];
    let plan = solved(&boards, &pieces, 3.0, Trim { end: 25.0, edge: 8.0 });
    assert!((plan.cost as f64) < 1.06 * plan.bound as f64, "{} above {}", plan.cost, plan.bound);
}

#[test]
fn bad_input_is_refused_by_name() {
    let refused =
        |boards: &[Board], pieces: &[Piece]| Problem::new(boards, pieces, 3.0, Trim::default()).unwrap_err();
    let boards = [board(1000.0, 100.0, 1)];
    assert!(refused(&boards, &[piece(1020.0, 50.0, 1)]).why.contains("20 mm too long"));
    assert!(refused(&boards, &[piece(500.0, 130.5, 1)]).why.contains("30.5 mm too wide"));
    assert_eq!(refused(&boards, &[piece(500.0, 0.0, 1)]).place, "pieces[0].width");
    assert_eq!(refused(&[board(-1.0, 5.0, 1)], &[]).place, "boards[0].length");
    assert_eq!(refused(&[], &[piece(500.0, 10.0, 1)]).why, "There is no board to saw it from.");
}

#[test]
fn a_limited_stock_leaves_pieces_out() {
    let few = Board { count: Some(1), ..board(1000.0, 100.0, 9) };
    let plan = solved(&[few], &[piece(450.0, 90.0, 3)], 3.0, Trim::default());
    assert_eq!((plan.cost, plan.missing), (9, vec![1]));
}

/// A random order, the same for one seed.
fn order(seed: u64) -> (Vec<Board>, Vec<Piece>) {
    let mut state = seed * 977 + 13;
    let mut below = |n: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % n
    };
    let boards = (0..1 + below(4))
        .map(|_| {
            let (length, width) = (1800.0 + 300.0 * below(5) as f64, 150.0 + 25.0 * below(6) as f64);
            Board { price: (length * width * 0.008) as i64 + below(900) as i64, ..board(length, width, 0) }
        })
        .collect();
    let chairs = 1 + below(24) as u32;
    let pieces = (0..2 + below(9))
        .map(|_| {
            let (length, width) = (200.0 + below(700) as f64, 35.0 + below(90) as f64);
            Piece { grain: below(4) > 0, ..piece(length, width, chairs * [1, 2, 4][below(3) as usize]) }
        })
        .collect();
    (boards, pieces)
}

#[test]
fn a_quick_plan_is_sound_and_has_a_bound() {
    let trim = Trim { end: 25.0, edge: 8.0 };
    for seed in 0..40 {
        let (boards, pieces) = order(seed);
        let problem = Problem::new(&boards, &pieces, 3.0, trim).unwrap();
        let area: f64 = pieces.iter().map(|p| f64::from(p.count) * p.length * p.width).sum();
        let rate = boards.iter().map(|b| b.price as f64 / (b.length * b.width)).fold(f64::INFINITY, f64::min);
        let long = solve(&problem, Budget::of(30_000_000), &mut |_| ControlFlow::Continue(()));
        for work in [0, 1, 100_000, 2_000_000] {
            let plan = solve(&problem, Budget::of(work), &mut |_| ControlFlow::Continue(()));
            check(&problem, &plan, 3.0, trim);
            assert!(plan.cost <= best_fit(&problem), "seed {seed}, work {work}");
            assert!(plan.bound as f64 >= area * rate - 1.0, "seed {seed}, work {work}: bound {}", plan.bound);
            assert!(plan.bound <= long.cost, "seed {seed}, work {work}: {} above {}", plan.bound, long.cost);
        }
    }
}

#[test]
fn a_bound_stands_where_stock_runs_out() {
    let few = [
        Board { count: Some(2), ..board(1000.0, 100.0, 9) },
        Board { count: Some(1), ..board(500.0, 100.0, 4) },
    ];
    let problem = Problem::new(&few, &[piece(450.0, 90.0, 9)], 3.0, Trim::default()).unwrap();
    let plan = solve(&problem, Budget::of(0), &mut |_| ControlFlow::Continue(()));
    // Five of nine are made, which takes all there is.
    assert_eq!((plan.missing, plan.cost, plan.bound), (vec![4], 22, 22));
}

/// Lengths with few sums in common make a table of hundreds of thousands of cells: with a small budget it is not begun, and
/// the plan is none the worse for it.
#[test]
fn a_small_budget_is_kept() {
    let lengths = [527.3, 520.1, 538.7, 464.2, 463.1, 526.4, 298.9, 391.6, 235.0, 471.8];
    let pieces: Vec<Piece> = (lengths
        .iter()
        .zip([37.0, 54.7, 36.9, 41.3, 58.6])
        .chain(lengths[5..].iter().zip([27.1, 59.3, 43.2, 37.7, 55.0])))
    .map(|(&length, width)| Piece { length, width, count: 3, grain: true })
    .collect();
    let boards = [board(2000.0, 120.0, 1011), board(2400.0, 160.0, 1617), board(3000.0, 200.0, 2527)];
    let problem = Problem::new(&boards, &pieces, 3.0, Trim { end: 25.0, edge: 5.0 }).expect("it fits");
    let mut hear = |_: &crate::Progress| ControlFlow::Continue(());
    for work in [2_000_000, 4_000_000] {
        let plan = solve(&problem, Budget::of(work), &mut hear);
        assert!(plan.work < work * 3 / 2, "{} of {work}", plan.work);
        assert!(plan.cost <= best_fit(&problem) && plan.bound > 0 && plan.missing.iter().all(|m| *m == 0));
    }
}
