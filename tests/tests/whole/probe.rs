//! Bad lines to the probe: each is refused with a place and a reason, and the next is still served.

use crestrail_tests::answer;
use serde_json::{Value, json};
use std::io::Write;
use std::process::{Command, Stdio};

fn refused(line: &str) -> (String, String) {
    let answer = answer(line);
    let short: String = line.chars().take(120).collect();
    assert_eq!(answer.get("ok"), None, "{short}");
    let error = answer.get("error").unwrap_or_else(|| panic!("{short}: {answer}"));
    let text = |name: &str| error[name].as_str().unwrap_or_default().to_owned();
    let (place, why) = (text("where"), text("why"));
    assert!(!place.is_empty() && why.ends_with('.'), "{short}: {answer}");
    // The longest lists all species.
    assert!(why.chars().count() < 700, "a message nobody reads: {why}");
    (place, why)
}

#[test]
fn lines_that_are_no_request() {
    let huge = format!("{{\"ask\":\"knobs\",\"x\":\"{}\"}}", "a".repeat(2_000_000));
    let deep = format!("{}{}", "[".repeat(50_000), "]".repeat(50_000));
    let lines = [
        "",
        " ",
        "{",
        "}",
        "nonsense",
        "null",
        "7",
        "\"knobs\"",
        "[]",
        "{}",
        "{\"ask\":7}",
        "{\"ask\":null}",
        "{\"ask\":\"\"}",
        "{\"ask\":\"chairs\"}",
        "{\"ask\":\"knobs\"",
        "{\"ask\":\"knobs\"} {\"ask\":\"knobs\"}",
        "{\"ask\":\"knobs\",\"ask\":\"knobs\"}",
        "{\"ask\":\"knobs\",\"more\":1}",
        "\u{0}",
        "{'ask':'knobs'}",
        &huge,
        &deep,
    ];
    lines.into_iter().for_each(|line| drop(refused(line)));
}

/// Each with the place that must be named.
#[test]
fn designs_that_are_none() {
    let cases = [
        (json!({"ask": "report", "design": []}), "design"),
        (json!({"ask": "report", "design": "oak"}), "design"),
        (json!({"ask": "report", "design": {"sofa": 1}}), "sofa"),
        (json!({"ask": "report", "design": {"seat_height": 900}}), "seat_height"),
        (json!({"ask": "report", "design": {"seat_height": -1e300}}), "seat_height"),
        (json!({"ask": "report", "design": {"seat_height": "450"}}), "seat_height"),
        (json!({"ask": "report", "design": {"seat_height": null}}), "seat_height"),
        (json!({"ask": "report", "design": {"seat_height": [450]}}), "seat_height"),
        (json!({"ask": "report", "design": {"seat_height": {"mm": 450}}}), "seat_height"),
        (json!({"ask": "report", "design": {"back_slats": 3.5}}), "back_slats"),
        (json!({"ask": "report", "design": {"back_slats": 99}}), "back_slats"),
        (json!({"ask": "report", "design": {"pegs": "iron"}}), "pegs"),
        (json!({"ask": "report", "design": {"pegs": 1}}), "pegs"),
        (json!({"ask": "report", "design": {"species": "Ash_White"}}), "species"),
        (json!({"ask": "report", "shop": {}}), "crestrail"),
        (json!({"ask": "report", "shop": {"crestrail": "shop/9"}}), "crestrail"),
        (json!({"ask": "solids", "design": {"rake": true}}), "rake"),
        (json!({"ask": "bodies", "design": {"rake": 90}}), "rake"),
        (json!({"ask": "file", "kind": "pdf"}), "kind"),
        (json!({"ask": "file"}), "kind"),
        (json!({"ask": "boards"}), "problem"),
        (
            json!({"ask": "bars", "problem": {"bars": [], "pieces": [{"length": 5, "count": 1}], "kerf": 3}}),
            "problem.pieces[0].length",
        ),
        (json!({"ask": "board_measure"}), "boards"),
        (json!({"ask": "board_measure", "boards": [{"thickness_in": 1}]}), "boards[0].width_in"),
        (json!({"ask": "density", "basic_gravity": -1, "moisture": 12}), "basic_gravity"),
    ];
    for (request, place) in cases {
        let (where_, why) = refused(&request.to_string());
        assert_eq!(where_, place, "{why}");
    }
}

/// NaN and Infinity are no JSON; a number too great for a float is none either.
#[test]
fn numbers_that_are_none() {
    for number in ["NaN", "Infinity", "-Infinity", "1e999", "-1e999", "0x1C2", "450.", ".5", "+450", "4_50"] {
        refused(&format!("{{\"ask\":\"report\",\"design\":{{\"seat_height\":{number}}}}}"));
    }
}

/// A refused value says what would do; the words are the design's own check.
#[test]
fn out_of_range_says_the_nearest_value() {
    let answer = answer("{\"ask\":\"report\",\"design\":{\"seat_height\":900}}");
    let error = &answer["error"];
    assert_eq!(error["why"], "Seat height is 900 mm; it must be from 380 to 520 mm.");
    assert_eq!(
        error["mend"],
        json!({"knob": "seat_height", "value": 520.0, "say": "Set seat height to 520 mm"})
    );
}

/// The program itself: lines that are no text, no JSON, empty, or end without a line break.
#[test]
fn each_kind_of_chair_has_its_own_table_of_the_same_knobs() {
    let ok = |request: Value| answer(&request.to_string())["ok"].clone();
    let names = |rows: &Value| -> Vec<Value> {
        rows.as_array().expect("a list").iter().map(|row| row["name"].clone()).collect()
    };
    let side = ok(json!({"ask": "knobs"}));
    assert_eq!(ok(json!({"ask": "knobs", "family": "side_chair"})), side);
    for family in names(&ok(json!({"ask": "families"}))) {
        let table = ok(json!({"ask": "knobs", "family": family}));
        assert_eq!(names(&table), names(&side), "{family}");
        assert_eq!(names(&table[0]["choices"]), [family], "a design drawn from the table stays in its kind");
    }
    assert_eq!(refused("{\"ask\":\"knobs\",\"family\":\"sofa\"}").0, "family");
    assert_eq!(refused("{\"ask\":\"knobs\",\"family\":3}").0, "family");
}

#[test]
fn the_next_line_is_still_served() {
    let mut run = Command::new(env!("CARGO_BIN_EXE_probe"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the probe starts");
    let lines: [&[u8]; 6] = [
        b"\xff\xfe broken\n",
        b"\n",
        b"{\"ask\":\n",
        b"{\"ask\":\"knobs\"}\r\n",
        b"{\"ask\":\"chairs\"}\n",
        b"{\"ask\":\"knobs\"}",
    ];
    let mut to = run.stdin.take().expect("piped");
    to.write_all(&lines.concat()).expect("it reads");
    drop(to);
    let out = run.wait_with_output().expect("it ends");
    assert!(out.status.success());
    let answers: Vec<Value> = String::from_utf8(out.stdout)
        .expect("answers are text")
        .lines()
        .map(|line| serde_json::from_str(line).expect("each answer is one line of JSON"))
        .collect();
    let fine: Vec<bool> = answers.iter().map(|answer| answer.get("ok").is_some()).collect();
    assert_eq!(fine, [false, false, true, false, true]);
}
