//! Frames through the probe: the form of the answer, and what is refused.

use crestrail_tests::answer;
use serde_json::{Value, json};

/// A cantilever of 400 mm along x, 25 × 40 mm upright, with 100 N down at its tip.
fn problem() -> Value {
    json!({
        "nodes": [[0, 0, 0], [400, 0, 0]],
        "members": [{"i": 0, "j": 1, "e": 12000, "g": 750, "area": 1000, "iy": 52083.333333333336,
            "iz": 133333.33333333334, "j_torsion": 127345.15, "up": [0, 0, 1]}],
        "supports": [{"node": 0, "fixed": [true, true, true, true, true, true]}],
        "loads": [{"node": 1, "force": [0, 0, -100], "moment": [0, 0, 0]}],
    })
}

fn asked(problem: &Value) -> Value {
    answer(&json!({"ask": "frame", "problem": problem}).to_string())
}

#[track_caller]
fn assert_near(value: &Value, wanted: f64) {
    let value = value.as_f64().unwrap_or(f64::NAN);
    assert!((value - wanted).abs() <= 1e-9 * wanted.abs().max(1.0), "{value} is not {wanted}");
}

#[test]
fn an_answer_has_displacements_end_forces_and_reactions() {
    let ok = &asked(&problem())["ok"];
    assert_near(&ok["displacements"][1][2], -4.0 / 3.0);
    assert_near(&ok["displacements"][1][4], 0.005);
    assert_near(&ok["displacements"][0][2], 0.0);
    for (k, wanted) in [(1, 100.0), (5, 40_000.0), (7, -100.0), (11, 0.0)] {
        assert_near(&ok["end_forces"][0][k], wanted);
    }
    assert_eq!(ok["reactions"][0]["node"], 0);
    assert_near(&ok["reactions"][0]["force"][2], 100.0);
    assert_near(&ok["reactions"][0]["moment"][1], -40_000.0);
    assert_eq!(ok.get("inner"), None);
}

#[test]
fn springs_cases_and_shares() {
    let mut problem = problem();
    problem["members"][0]["springs_i"] = json!({"z": 5e6});
    let loads = problem["loads"].take();
    problem.as_object_mut().expect("an object").remove("loads");
    problem["cases"] = json!([{"loads": loads}, {"uniform_loads": [{"member": 0, "force": [0, 0, -2]}]}]);
    problem["shares"] = json!([0, 0.5, 1]);
    let ok = &asked(&problem)["ok"];
    assert_near(&ok[0]["displacements"][1][2], -(4.0 / 3.0 + 3.2));
    // Hogging by the load on the far half: q (L/2)²/2.
    assert_near(&ok[1]["inner"][0][1][5], -40_000.0);
    assert_near(&ok[1]["inner"][0][2][5], 0.0);
    assert_near(&ok[1]["reactions"][0]["force"][2], 800.0);
}

/// Each change with the place that is named.
#[test]
fn problems_that_are_none() {
    type Change = fn(&mut Value);
    let changes: [(Change, &str); 29] = [
        (|p| *p = json!(7), "problem"),
        (|p| *p = json!({}), "problem.nodes"),
        (|p| p["more"] = json!(1), "problem.more"),
        (|p| p["nodes"][1] = json!([400, 0]), "problem.nodes[1]"),
        (|p| p["nodes"][1][2] = json!("0"), "problem.nodes[1][2]"),
        (|p| p["nodes"][1][2] = json!(null), "problem.nodes[1][2]"),
        (|p| p["nodes"][1][0] = json!(0), "problem.members[0]"),
        (|p| p["nodes"][1][0] = json!(1e300), "problem.nodes[1]"),
        (|p| p["nodes"] = json!(vec![[0; 3]; 501]), "problem.nodes"),
        (|p| p["members"] = json!([]), "problem.members"),
        (|p| p["members"][0]["i"] = json!(2), "problem.members[0].i"),
        (|p| p["members"][0]["j"] = json!(-1), "problem.members[0].j"),
        (|p| p["members"][0]["j"] = json!(0.5), "problem.members[0].j"),
        (|p| p["members"][0]["j"] = json!(0), "problem.members[0].j"),
        (|p| p["members"][0]["e"] = json!(0), "problem.members[0].e"),
        (|p| p["members"][0]["iz"] = json!(-1), "problem.members[0].iz"),
        (|p| p["members"][0]["shear_y"] = json!(0), "problem.members[0].shear_y"),
        (|p| p["members"][0]["up"] = json!([1, 0, 0]), "problem.members[0].up"),
        (|p| p["members"][0]["up"] = json!([0, 0, 0]), "problem.members[0].up"),
        (|p| p["members"][0]["springs_j"] = json!({"z": 0}), "problem.members[0].springs_j.z"),
        (|p| p["members"][0]["springs_i"] = json!({"w": 1}), "problem.members[0].springs_i.w"),
        (|p| p["supports"][0]["node"] = json!(9), "problem.supports[0].node"),
        (|p| p["supports"][0]["fixed"] = json!([true]), "problem.supports[0].fixed"),
        (|p| p["supports"][0]["fixed"][3] = json!(1), "problem.supports[0].fixed[3]"),
        (|p| p["supports"] = json!([]), "problem.nodes[1]"),
        (|p| p["loads"][0]["node"] = json!(2), "problem.loads[0].node"),
        (|p| p["loads"][0]["force"] = json!([1e300, 0, 0]), "problem.loads[0].force"),
        (
            |p| p["uniform_loads"] = json!([{"member": 1, "force": [0, 0, 1]}]),
            "problem.uniform_loads[0].member",
        ),
        (|p| p["cases"] = json!([]), "problem.cases"),
    ];
    for (change, place) in changes {
        let mut changed = problem();
        change(&mut changed);
        let error = &asked(&changed)["error"];
        assert_eq!(error["where"], place, "{error}");
        assert!(error["why"].as_str().is_some_and(|why| why.ends_with('.')), "{error}");
    }
    let mut cases = problem();
    cases.as_object_mut().expect("an object").remove("loads");
    cases["cases"] = json!([{}, {"loads": [{"node": 5}]}]);
    assert_eq!(asked(&cases)["error"]["where"], "problem.cases[1].loads[0].node");
}
