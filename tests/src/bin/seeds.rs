//! Writes the files that the fuzz targets and their tests begin with: `cargo run -p crestrail-tests --bin seeds`. They are made
//! of what is in the repository already, so that a change of a format is followed by running this once more.

use crestrail_chair::choices::{Choice, Family};
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::link;
use crestrail_chair::order::{ORDER_MARK, Order, OrderLine};
use crestrail_chair::shop::{DEMO_SHOP, Shop};
use crestrail_chair::showroom::{DEMO_SHOWROOM, published};
use crestrail_chair::told::{Told, ToldLabel};
use serde_json::{Map, Value, json};
use std::fs;
use std::path::{Path, PathBuf};

fn main() {
    let designs = designs();
    for (name, design) in &designs {
        write("design", name, &NamedDesign { name: name.clone(), design: design.clone() }.write());
        write("link", name, &link::write(design));
    }
    orders(&designs);
    shops();
    lines();
    catalogues();
    figures();
    problems();
}

fn here(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn write(door: &str, name: &str, text: &str) {
    let folder = here("fuzz/corpus").join(door);
    fs::create_dir_all(&folder).expect("the folder can be made");
    fs::write(folder.join(name.replace(' ', "_")), text).expect("the file can be written");
}

fn data(name: &str) -> Value {
    let text = fs::read_to_string(here("data").join(name)).expect("the file is there");
    serde_json::from_str(&text).expect("it is JSON")
}

/// The golden designs, and each kind of chair in its first values.
fn designs() -> Vec<(String, Design)> {
    let goldens: Map<String, Value> = serde_json::from_value(data("designs.json")).expect("designs by name");
    let golden = |(name, values): (String, Value)| (name, Design::from_value(&values).expect("a design"));
    let kinds = Family::ALL.iter().map(|(family, ..)| (family.name().to_owned(), Design::of(*family)));
    goldens.into_iter().map(golden).chain(kinds).collect()
}

fn orders(designs: &[(String, Design)]) {
    let label = ToldLabel::read("from.EUR.41500");
    let told = Told { offer: Some("Kitchen chair".to_owned()), label, size: Some([490.0, 515.0, 888.0]) };
    let line = |quantity, told: Option<&Told>| OrderLine {
        name: designs[0].0.clone(),
        quantity,
        design: designs[0].1.clone(),
        told: told.cloned(),
    };
    let order = |lines| Order { name: "Table and six".to_owned(), customer: "Ann".to_owned(), lines }.write();
    let (plain, asked) = (order(vec![line(1, None)]), order(vec![line(2, Some(&told)), line(40, None)]));
    let quote = format!("<!doctype html>{ORDER_MARK}{plain}</script>");
    for (name, text) in [("plain", &plain), ("asked", &asked), ("quote", &quote)] {
        write("order", name, text);
        write("message", name, text);
    }
    let words = link::write_told(&designs[1].1, label.as_ref());
    write("link", "told", &words);
    write("message", "mail", &format!("Dear maker,\n\n<https://maker.example/#{words}>.\nAnn"));
    write(
        "message",
        "escaped",
        &format!("see https://maker.example/#{}", words.replace(';', "%3B").replace('=', "%3D")),
    );
    write("quote_pdf", "plain", &pdf(&plain, &plain.len().to_string(), ""));
    write("quote_pdf", "elsewhere", &pdf(&asked, "7 0 R", &format!("7 0 obj\n{}\nendobj\n", asked.len())));
}

fn pdf(order: &str, length: &str, after: &str) -> String {
    format!(
        "%PDF-1.7\n1 0 obj\n<</Type/EmbeddedFile/Subtype/application#2Fjson/Length {length}>>\nstream\r\n{order}\nendstream\nendobj\n{after}trailer<</Root 1 0 R>>\n"
    )
}

fn shops() {
    write("shop", "demo", DEMO_SHOP);
    let mut bare: Value = serde_json::from_str(DEMO_SHOP).expect("JSON");
    let fields = bare.as_object_mut().expect("an object");
    for name in ["stock", "labour", "pricing", "quote", "seating", "note"] {
        fields.remove(name);
    }
    write("shop", "bare", &bare.to_string());
    write("showroom", "demo", DEMO_SHOWROOM);
    let mut room: Value = serde_json::from_str(DEMO_SHOWROOM).expect("JSON");
    room["offers"].as_array_mut().expect("a list").truncate(1);
    write("showroom", "one", &room.to_string());
    for price in ["from", "shown"] {
        room["price"] = json!(price);
        let published = published(&room, &Shop::demo()).expect("the demonstration can be published");
        write("showroom", &format!("published_{price}"), &published.to_string());
    }
}

fn lines() {
    let asks = [
        json!({"ask": "knobs", "family": "stool"}),
        json!({"ask": "families", "language": "de"}),
        json!({"ask": "report", "design": {"seat_height": 440, "species": "oak_white"}}),
        json!({"ask": "solids", "design": {"family": "stool", "seat": "pad"}}),
        json!({"ask": "drawing", "sheet": "exploded", "options": {"spread": 0.5, "turn": 20}}),
        json!({"ask": "board_measure", "boards": [{"length": 2400, "width": 200, "thickness": 27, "count": 2}]}),
        json!({"ask": "density", "basic_gravity": 0.56, "moisture": 12}),
        json!({"ask": "moisture", "rh": 0.5, "celsius": 20}),
        json!({"ask": "sitter", "rule": "seat_height", "value": 450, "stature": 1700, "sex": "female", "weight": 70}),
        json!({"ask": "label", "showroom": {}, "design": {}}),
    ];
    for (i, ask) in asks.iter().enumerate() {
        write("probe", &format!("{i}_{}", ask["ask"].as_str().unwrap_or_default()), &ask.to_string());
    }
}

/// The first phrases of each catalogue, and some with plurals.
fn catalogues() {
    for language in ["de", "ar"] {
        let path = here("../core/phrases/data").join(format!("{language}.json"));
        let mut catalogue: Value =
            serde_json::from_str(&fs::read_to_string(path).expect("there")).expect("JSON");
        let phrases = catalogue["phrases"].as_object().expect("an object").clone();
        let (plural, plain): (Map<_, _>, Map<_, _>) =
            phrases.into_iter().partition(|(_, said)| said.is_object());
        catalogue["phrases"] =
            plural.into_iter().take(3).chain(plain.into_iter().step_by(40).take(20)).collect();
        write("phrases", language, &catalogue.to_string());
    }
    for (i, pattern) in
        ["The seat is {} mm high", "{name:.1} of {} {{kept}} {name:.1}", "\"a\\n\\u{e9}\\\n  b\""]
            .iter()
            .enumerate()
    {
        write("phrases", &format!("pattern_{i}"), pattern);
    }
}

fn figures() {
    let texts = [
        "450",
        "62.54",
        "-0.02",
        "78.58124999",
        "1234.5",
        "2026-02-28",
        "#1f5f5b",
        "from.EUR.41500",
        "in32",
        "9999999",
    ];
    for (i, text) in texts.iter().enumerate() {
        write("figures", &format!("{i}"), text);
    }
    let view = json!({"turn": 20, "tilt": -30, "spread": 0.5, "held": {"scale": 1, "focus": [0, 0]}, "dimensions": {"figure": [40, 12], "clear": [[0, 0, 9, 9]]}});
    write("figures", "view", &view.to_string());
}

fn problems() {
    let bars = |row: &Value| {
        let pieces: Vec<Value> = row["items"]
            .as_array()
            .expect("a list")
            .iter()
            .take(12)
            .map(|p| json!({"length": p[0], "count": p[1]}))
            .collect();
        json!({"ask": "bars", "problem": {"bars": [{"length": row["cap"], "price": 100}, {"length": 90, "price": 70, "count": 3}], "pieces": pieces, "kerf": 3, "trim": 1}})
    };
    write("packing", "bars", &bars(&data("packing/falkenauer_u120.json")[0]).to_string());
    let sizes = [(434, 46, 2), (468, 69, 3), (412, 53, 3), (520, 59, 9)];
    let pieces: Vec<Value> = sizes
        .iter()
        .map(|(l, w, n)| json!({"length": l, "width": w, "count": n, "grain": n % 2 == 0}))
        .collect();
    let boards = json!({"ask": "boards", "problem": {"boards": [{"length": 2400, "width": 200, "price": 3000}, {"length": 3000, "width": 150, "price": 2500, "count": 2}], "pieces": pieces, "kerf": 3, "trim": {"end": 30, "edge": 5}}});
    write("packing", "boards", &boards.to_string());
    let irregular = data("packing/irregular/dighe1.json");
    let items = irregular["items"].as_array().expect("a list");
    let shape =
        |item: &Value| json!({"outline": item["poly"], "count": item["q"], "turns": [0, 180], "tilt": 2});
    let shapes: Vec<Value> = items.iter().take(6).map(shape).collect();
    let planks = json!({"ask": "planks", "problem": {"planks": [{"length": 300, "width": 120, "price": 900}], "shapes": shapes, "kerf": 2, "trim": 1, "tolerance": 0.1}});
    write("packing", "planks", &planks.to_string());
    for (i, item) in items.iter().enumerate().take(4) {
        write("outlines", &format!("dighe_{i}"), &item["poly"].to_string());
    }
    write("outlines", "square", "[[0,0],[90,0],[90,90],[0,90]]");
    write("outlines", "crossed", "[[0,0],[90,90],[90,0],[0,90],[0,45],[0,0]]");
    frames();
}

/// A cantilever and a portal of wood-like sizes, mm and N.
fn frames() {
    let bar = |i: u32, j: u32| json!({"i": i, "j": j, "e": 11000, "g": 700, "area": 1600, "iy": 213333, "iz": 213333, "j_torsion": 360000, "up": [1, 0, 0]});
    let held = |node: u32| json!({"node": node, "fixed": [true, true, true, true, true, true]});
    let cantilever = json!({"ask": "frame", "problem": {"nodes": [[0, 0, 0], [0, 0, 450]], "members": [bar(0, 1)], "supports": [held(0)], "loads": [{"node": 1, "force": [100, 0, 0], "moment": [0, 0, 0]}], "shares": [0, 0.5, 1]}});
    write("frame", "cantilever", &cantilever.to_string());
    let mut beam = bar(1, 2);
    beam["up"] = json!([0, 0, 1]);
    beam["springs_i"] = json!({"z": 1e8});
    let portal = json!({"ask": "frame", "problem": {"nodes": [[0, 0, 0], [0, 0, 450], [400, 0, 450], [400, 0, 0]], "members": [bar(0, 1), beam, bar(3, 2)], "supports": [held(0), held(3)], "cases": [{"loads": [{"node": 1, "force": [0, 0, -500], "moment": [0, 0, 0]}], "uniform_loads": [{"member": 1, "force": [0, 0, -1]}]}]}});
    write("frame", "portal", &portal.to_string());
}
