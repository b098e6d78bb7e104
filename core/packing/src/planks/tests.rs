use super::*;
use polygon::area;
use std::ops::ControlFlow;

fn plank(length: f64, width: f64) -> Plank {
    Plank { length, width, price: 1000, count: None }
}

/// The leg of the facts: 900 long, limbs 40 wide, bent 12° in the middle, its chord along the grain.
fn leg() -> Vec<[f64; 2]> {
    let (sin, cos) = libm::sincos(6.0_f64.to_radians());
    let rise = 450.0 * sin;
    let (dx, dy) = (20.0 * sin, 20.0 * cos);
    let half = 450.0 * cos;
    let mitre = 20.0 / cos;
    vec![
        [dx, -dy],
        [half, rise - mitre],
        [2.0 * half - dx, -dy],
        [2.0 * half + dx, dy],
        [half, rise + mitre],
        [-dx, dy],
    ]
}

fn shape(outline: Vec<[f64; 2]>, count: u32) -> Shape {
    Shape { outline, count, turns: vec![0.0, 180.0], tilt: 0.0 }
}

fn rectangle(length: f64, width: f64) -> Vec<[f64; 2]> {
    vec![[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]]
}

fn solved(planks: &[Plank], shapes: &[Shape], kerf: f64, trim: Trim) -> Plan {
    let problem = Problem::new(planks, shapes, kerf, trim, 0.0).unwrap();
    let plan = solve(&problem, Budget::of(20_000_000), &mut |_| ControlFlow::Continue(()));
    for sawn in &plan.planks {
        apart(&problem, sawn, kerf);
    }
    plan
}

/// No two pieces share area, measured by samples along their edges: none of one lies within the other.
fn apart(problem: &Problem, sawn: &Sawn, kerf: f64) {
    let outlines: Vec<Vec<[f64; 2]>> = (sawn.pieces.iter())
        .map(|p| {
            let (sin, cos) = libm::sincos(p.turn.to_radians());
            let turned = |q: &[f64; 2]| [p.x + q[0] * cos - q[1] * sin, p.y + q[0] * sin + q[1] * cos];
            polygon::cleaned(&problem.shapes[p.shape].outline.iter().map(turned).collect::<Vec<_>>())
        })
        .collect();
    for (i, a) in outlines.iter().enumerate() {
        for b in outlines.iter().skip(i + 1) {
            for k in 0..a.len() {
                let (p, q) = (a[k], a[(k + 1) % a.len()]);
                for share in 0..20 {
                    let t = f64::from(share) / 20.0;
                    let at = [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
                    assert!(distance(at, b) >= kerf - 1e-3, "{} mm apart", distance(at, b));
                }
            }
        }
    }
    assert!(outlines.iter().all(|o| area(o) > 0.0));
}

/// Distance to an outline; zero inside.
fn distance(at: [f64; 2], outline: &[[f64; 2]]) -> f64 {
    let n = outline.len();
    let mut inside = false;
    let mut least = f64::INFINITY;
    for i in 0..n {
        let (p, q) = (outline[i], outline[(i + 1) % n]);
        let (d, v) = ([q[0] - p[0], q[1] - p[1]], [at[0] - p[0], at[1] - p[1]]);
        let t = ((d[0] * v[0] + d[1] * v[1]) / (d[0] * d[0] + d[1] * d[1])).clamp(0.0, 1.0);
        least = least.min(libm::hypot(v[0] - t * d[0], v[1] - t * d[1]));
        if (p[1] > at[1]) != (q[1] > at[1]) && at[0] < p[0] + d[0] * (at[1] - p[1]) / d[1] {
            inside = !inside;
        }
    }
    if inside { 0.0 } else { least }
}

#[test]
fn six_legs_on_a_narrow_plank_and_twelve_on_a_wide_one() {
    let six = solved(&[plank(2400.0, 200.0)], &[shape(leg(), 6)], 3.0, Trim::default());
    assert_eq!(six.planks.len(), 1, "{six:?}");
    let twelve = solved(&[plank(3000.0, 220.0)], &[shape(leg(), 12)], 3.0, Trim::default());
    assert_eq!(twelve.planks.len(), 1, "{twelve:?}");
}

#[test]
fn rectangles_lie_a_kerf_apart() {
    // Two rows of three, 100 × 50 each: just 306 × 103.
    let fits = solved(&[plank(306.0, 103.0)], &[shape(rectangle(100.0, 50.0), 6)], 3.0, Trim::default());
    assert_eq!(fits.cost, 1000);
    let tight = solved(&[plank(305.9, 103.0)], &[shape(rectangle(100.0, 50.0), 6)], 3.0, Trim::default());
    assert_eq!(tight.cost, 2000);
}

#[test]
fn small_pieces_fill_what_is_left() {
    let shapes = [shape(leg(), 6), shape(rectangle(200.0, 30.0), 6)];
    let plan = solved(&[plank(2400.0, 200.0)], &shapes, 3.0, Trim { end: 20.0, edge: 3.0 });
    assert_eq!((plan.cost, plan.missing), (1000, vec![0, 0]));
}

#[test]
fn a_limited_stock_leaves_pieces_out() {
    let few = Plank { count: Some(1), ..plank(300.0, 100.0) };
    let plan = solved(&[few], &[shape(rectangle(140.0, 90.0), 5)], 3.0, Trim::default());
    assert_eq!((plan.cost, plan.missing), (1000, vec![3]));
}

#[test]
fn bad_input_is_refused_by_name() {
    let refused = |outline: Vec<[f64; 2]>, planks: &[Plank]| {
        Problem::new(planks, &[shape(outline, 1)], 3.0, Trim::default(), 0.0).unwrap_err()
    };
    let planks = [plank(1000.0, 100.0)];
    assert!(refused(rectangle(1020.0, 30.0), &planks).why.contains("20.00 mm too long"));
    assert!(refused(rectangle(900.0, 130.0), &planks).why.contains("30.00 mm too wide"));
    assert!(refused(vec![[0.0, 0.0], [9.0, 9.0], [9.0, 0.0], [0.0, 8.0]], &planks).why.contains("crosses"));
    assert!(refused(vec![[0.0, 0.0], [9.0, 9.0]], &planks).why.contains("no area"));
    assert!(refused(vec![[0.0, f64::NAN], [9.0, 9.0], [1.0, 0.0]], &planks).why.contains("corner"));
    assert_eq!(refused(rectangle(9.0, 9.0), &[]).why, "There is no plank to saw it from.");
    assert_eq!(refused(rectangle(9.0, 9.0), &[plank(0.0, 9.0)]).place, "planks[0].length");
}

/// Bound and cost where the best plan is known by reasoning.
#[test]
fn the_bound_knows_lengths_and_heights() {
    // Rectangles in rows: 3 × 2 to a plank, 2 × 2 where it is a trifle too short, 3 × 1 where it is too narrow.
    for (length, width, to_plank) in [(306.0, 103.0, 6), (305.0, 103.0, 4), (306.0, 102.0, 3)] {
        let plan =
            solved(&[plank(length, width)], &[shape(rectangle(100.0, 50.0), 12)], 3.0, Trim::default());
        let planks = 12_u32.div_ceil(to_plank);
        assert_eq!(
            (plan.cost, plan.bound),
            (1000 * i64::from(planks), 1000 * i64::from(planks)),
            "{length} × {width}"
        );
    }
}

/// By area twelve of the bent legs would go on a plank, by two lines eight.
#[test]
fn the_bound_of_legs_is_more_than_their_area() {
    let plan = solved(&[plank(2400.0, 200.0)], &[shape(leg(), 48)], 3.0, Trim::default());
    assert_eq!((plan.cost, plan.bound), (8000, 6000));
    let tilted = Shape { tilt: 1.5, ..shape(leg(), 48) };
    let plan = solved(&[plank(2400.0, 200.0)], &[tilted], 3.0, Trim::default());
    assert_eq!(plan.bound, 6000);
}

/// Random pieces of which a full plank is known: the bound never asks for a second one.
#[test]
fn the_bound_is_never_above_a_plan() {
    let mut state = 5_u64;
    let mut below = |n: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % n
    };
    for round in 0..40 {
        let kerf = [0.0, 1.0, 3.0][below(3) as usize];
        // A plank cut across, each length ripped, each strip cut by a slanting line: no room is left over.
        let (mut x, mut shapes) = (0.0, Vec::new());
        for _ in 0..1 + below(4) {
            let (length, mut y) = (80.0 + below(300) as f64, 0.0);
            let (strips, height) = (1 + below(4), 200.0);
            let each = (height - (strips - 1) as f64 * kerf) / strips as f64;
            for _ in 0..strips {
                let lean = below(30) as f64;
                // Two parts with slanting ends, a kerf between them measured square to the slant.
                let gap = kerf * libm::hypot(lean, each) / each;
                let cut = 20.0 + below((length - 60.0) as u64) as f64;
                shapes
                    .push(shape(vec![[0.0, 0.0], [cut, 0.0], [(cut - lean).max(0.0), each], [0.0, each]], 1));
                let (from, top) = (cut + gap, cut + gap - lean);
                if cut - lean > 0.0 && from < length {
                    shapes.push(shape(vec![[from, 0.0], [length, 0.0], [length, each], [top, each]], 1));
                }
                y += each + kerf;
            }
            assert!(y - kerf <= height + 1e-9);
            x += length + kerf;
        }
        let bed = [plank(x - kerf, 200.0)];
        let problem = Problem::new(&bed, &shapes, kerf, Trim::default(), 0.0).unwrap();
        let counts = vec![1; shapes.len()];
        assert_eq!(bound::Bound::new(&problem).least(&problem, &counts), 1000, "round {round}");
    }
}

/// Each piece, largest first, in a shelf of its bounding box: what a saw without templates does.
fn by_boxes(plank: Plank, shapes: &[Shape], kerf: f64) -> i64 {
    let mut boxes: Vec<[f64; 2]> = (shapes.iter())
        .flat_map(|s| {
            let [low, high] = polygon::bounds(&s.outline);
            std::iter::repeat_n([high[0] - low[0], high[1] - low[1]], s.count as usize)
        })
        .collect();
    boxes.sort_by(|a, b| b[1].total_cmp(&a[1]).then(b[0].total_cmp(&a[0])));
    // Shelves: length used, height, by plank; a new one opens above the last.
    let mut planks: Vec<Vec<[f64; 2]>> = Vec::new();
    for [length, height] in boxes {
        let shelf =
            planks.iter_mut().flatten().find(|s| s[1] >= height && s[0] + kerf + length <= plank.length);
        if let Some(shelf) = shelf {
            shelf[0] += kerf + length;
            continue;
        }
        let room = |p: &Vec<[f64; 2]>| p.iter().map(|s| s[1] + kerf).sum::<f64>() + height <= plank.width;
        match planks.iter_mut().find(|p| room(p)) {
            Some(own) => own.push([length, height]),
            None => planks.push(vec![[length, height]]),
        }
    }
    planks.len() as i64 * plank.price
}

#[test]
fn a_quick_plan_is_sound_and_has_a_bound() {
    let mut state = 29_u64;
    let mut below = |n: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % n
    };
    for round in 0..25 {
        let chairs = 1 + below(6) as u32;
        let mut shapes = vec![shape(leg(), 2 * chairs)];
        for _ in 0..1 + below(3) {
            let (length, width, waist) =
                (150.0 + below(350) as f64, 40.0 + below(60) as f64, below(15) as f64);
            let outline = vec![
                [0.0, 0.0],
                [length / 2.0, waist],
                [length, 0.0],
                [length - waist, width],
                [waist, width],
            ];
            shapes.push(shape(outline, chairs * (1 + below(3) as u32)));
        }
        let bed = plank(2400.0 + 300.0 * below(3) as f64, 180.0 + 20.0 * below(4) as f64);
        let problem = Problem::new(&[bed], &shapes, 3.0, Trim::default(), 0.0).unwrap();
        let area: f64 = shapes.iter().map(|s| f64::from(s.count) * area(&polygon::cleaned(&s.outline))).sum();
        for work in [0, 2_000_000] {
            let plan = solve(&problem, Budget::of(work), &mut |_| ControlFlow::Continue(()));
            plan.planks.iter().for_each(|sawn| apart(&problem, sawn, 3.0));
            assert!(plan.missing.iter().all(|&n| n == 0));
            assert!(plan.cost <= by_boxes(bed, &shapes, 3.0), "round {round}, work {work}: {}", plan.cost);
            let least = (area / (bed.length * bed.width)).ceil() as i64 * bed.price;
            assert!(least <= plan.bound && plan.bound <= plan.cost, "round {round}: {}", plan.bound);
        }
    }
}

#[test]
fn the_rack_gives_the_plank_that_takes_most() {
    let planks = [
        Plank { length: 1000.0, width: 120.0, price: 0, count: Some(1) },
        Plank { length: 2000.0, width: 120.0, price: 0, count: Some(1) },
    ];
    let plan = solved(&planks, &[shape(rectangle(450.0, 100.0), 4)], 3.0, Trim::default());
    assert_eq!((plan.planks.len(), plan.planks[0].plank), (1, 1));
    assert_eq!(plan.missing, [0]);
}

#[test]
fn a_price_keeps_near_its_budget() {
    // Every filling of the first plan is counted; what goes beyond is that plan and no search.
    let shapes = [shape(leg(), 4), shape(rectangle(600.0, 60.0), 4), shape(rectangle(300.0, 40.0), 6)];
    let planks = [plank(3000.0, 160.0), plank(2400.0, 200.0)];
    let problem = Problem::new(&planks, &shapes, 3.0, Trim::default(), 0.0).unwrap();
    let work = |most| solve(&problem, Budget::of(most), &mut |_| ControlFlow::Continue(())).work;
    let first = work(1);
    assert!(first < 2_000_000, "the first plan takes {first}");
    assert!(work(5_000_000) < 5_000_000 + first, "{}", work(5_000_000));
}
