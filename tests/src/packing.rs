//! Bars, boards and planks on their own: pieces onto stock, without a chair.

use crate::Refused;
use crestrail_chair::reading::{Fields, Limits, number};
use crestrail_packing::{Budget, MOST, bars, boards, planks};
use serde_json::{Value, json};
use std::ops::ControlFlow;
use std::time::Instant;

/// Most rows of one list.
const ROWS: usize = 1000;
/// Work of one request unless it says another: about a second.
const WORK: f64 = 1e9;

// The crate has its own limits and words; these only keep numbers within what it can read.
const SIZE: Limits = Limits { label: "A size", min: -1e9, max: 1e9, unit: " mm" };
const ANGLE: Limits = Limits { label: "An angle", min: -1e6, max: 1e6, unit: "°" };
const PRICE: Limits = Limits { label: "A price", min: -1e15, max: 1e15, unit: "" };
const COUNT: Limits = Limits { label: "A count", min: 0.0, max: MOST as f64, unit: "" };
const UNITS: Limits = Limits { label: "Work", min: 0.0, max: 1e12, unit: "" };

impl From<crestrail_packing::Refused> for Refused {
    fn from(refused: crestrail_packing::Refused) -> Self {
        Self::new(&format!("problem.{}", refused.place), refused.why)
    }
}

pub(crate) fn bars(fields: &Fields<'_>) -> Result<Value, Refused> {
    let problem = fields.object("problem")?;
    problem.only(&["bars", "pieces", "kerf", "trim"])?;
    let stock = rows(&problem, "bars", |row| {
        row.only(&["length", "price", "count"])?;
        Ok(bars::Bar { length: row.number("length", &SIZE)?, price: price(row)?, count: endless(row)? })
    })?;
    let pieces = rows(&problem, "pieces", |row| {
        row.only(&["length", "count"])?;
        Ok(bars::Piece { length: row.number("length", &SIZE)?, count: row.count("count", &COUNT)? })
    })?;
    let checked = bars::Problem::new(&stock, &pieces, kerf(&problem)?, trim(&problem)?[0])?;
    let (budget, began) = (budget(fields)?, Instant::now());
    let plan = bars::solve(&checked, budget, &mut |_| ControlFlow::Continue(()));
    let seconds = began.elapsed().as_secs_f64();
    let patterns: Vec<Value> = (plan.cuts.iter())
        .map(|c| json!({"bar": c.bar, "times": c.times, "pieces": c.pieces, "offcut": c.offcut}))
        .collect();
    Ok(json!({
        "cost": plan.cost, "bound": plan.bound, "patterns": patterns,
        "missing": plan.missing, "work": plan.work, "seconds": seconds,
    }))
}

pub(crate) fn boards(fields: &Fields<'_>) -> Result<Value, Refused> {
    let problem = fields.object("problem")?;
    problem.only(&["boards", "pieces", "kerf", "trim"])?;
    let stock = rows(&problem, "boards", |row| {
        row.only(&["length", "width", "price", "count"])?;
        let (length, width) = (row.number("length", &SIZE)?, row.number("width", &SIZE)?);
        Ok(boards::Board { length, width, price: price(row)?, count: endless(row)? })
    })?;
    let pieces = rows(&problem, "pieces", |row| {
        row.only(&["length", "width", "count", "grain"])?;
        let (length, width) = (row.number("length", &SIZE)?, row.number("width", &SIZE)?);
        Ok(boards::Piece { length, width, count: row.count("count", &COUNT)?, grain: grain(row)? })
    })?;
    let [end, edge] = trim(&problem)?;
    let checked = boards::Problem::new(&stock, &pieces, kerf(&problem)?, boards::Trim { end, edge })?;
    let (budget, began) = (budget(fields)?, Instant::now());
    let plan = boards::solve(&checked, budget, &mut |_| ControlFlow::Continue(()));
    let seconds = began.elapsed().as_secs_f64();
    Ok(json!({
        "cost": plan.cost, "bound": plan.bound, "boards": plan.boards.iter().map(sawn_board).collect::<Vec<_>>(),
        "missing": plan.missing, "work": plan.work, "seconds": seconds, "best_fit": boards::best_fit(&checked),
    }))
}

fn sawn_board(sawn: &boards::Sawn) -> Value {
    let pieces: Vec<Value> = (sawn.pieces.iter())
        .map(|p| json!({"piece": p.piece, "x": p.x, "y": p.y, "length": p.length, "width": p.width}))
        .collect();
    let way = |axis| if axis == boards::Axis::Across { "across" } else { "along" };
    let cuts: Vec<Value> = (sawn.cuts.iter())
        .map(|c| json!({"stage": c.stage, "way": way(c.axis), "at": c.at, "from": c.from, "to": c.to}))
        .collect();
    json!({"board": sawn.board, "times": sawn.times, "pieces": pieces, "cuts": cuts})
}

pub(crate) fn planks(fields: &Fields<'_>) -> Result<Value, Refused> {
    let problem = fields.object("problem")?;
    problem.only(&["planks", "shapes", "kerf", "trim", "tolerance"])?;
    let stock = rows(&problem, "planks", |row| {
        row.only(&["length", "width", "price", "count"])?;
        let (length, width) = (row.number("length", &SIZE)?, row.number("width", &SIZE)?);
        Ok(planks::Plank { length, width, price: price(row)?, count: endless(row)? })
    })?;
    let shapes = rows(&problem, "shapes", shape)?;
    let [end, edge] = trim(&problem)?;
    let tolerance = if problem.has("tolerance") { problem.number("tolerance", &SIZE)? } else { 0.0 };
    let checked =
        planks::Problem::new(&stock, &shapes, kerf(&problem)?, planks::Trim { end, edge }, tolerance)?;
    let (budget, began) = (budget(fields)?, Instant::now());
    let plan = planks::solve(&checked, budget, &mut |_| ControlFlow::Continue(()));
    let seconds = began.elapsed().as_secs_f64();
    Ok(json!({
        "cost": plan.cost, "bound": plan.bound, "planks": plan.planks.iter().map(sawn_plank).collect::<Vec<_>>(),
        "missing": plan.missing, "work": plan.work, "seconds": seconds,
    }))
}

fn sawn_plank(sawn: &planks::Sawn) -> Value {
    let pieces: Vec<Value> =
        (sawn.pieces.iter()).map(|p| json!({"shape": p.shape, "x": p.x, "y": p.y, "turn": p.turn})).collect();
    json!({"plank": sawn.plank, "times": sawn.times, "pieces": pieces, "offcut": sawn.offcut, "yield": sawn.yields})
}

fn shape(row: &Fields<'_>) -> Result<planks::Shape, Refused> {
    row.only(&["outline", "count", "turns", "tilt"])?;
    let mut outline = Vec::new();
    for (path, corner) in row.list("outline", ROWS)? {
        let Some([x, y]) = corner.as_array().and_then(|c| <&[Value; 2]>::try_from(c.as_slice()).ok()) else {
            return Err(Refused::new(&path, "A corner must be two numbers [x, y]."));
        };
        outline.push([number(format!("{path}[0]"), x, &SIZE)?, number(format!("{path}[1]"), y, &SIZE)?]);
    }
    let mut turns = Vec::new();
    for (path, turn) in row.list("turns", ROWS)? {
        turns.push(number(path, turn, &ANGLE)?);
    }
    let tilt = if row.has("tilt") { row.number("tilt", &ANGLE)? } else { 0.0 };
    Ok(planks::Shape { outline, count: row.count("count", &COUNT)?, turns, tilt })
}

fn rows<T>(
    problem: &Fields<'_>,
    name: &str,
    read: impl Fn(&Fields<'_>) -> Result<T, Refused>,
) -> Result<Vec<T>, Refused> {
    problem.list(name, ROWS)?.into_iter().map(|(path, value)| read(&Fields::at(path, value)?)).collect()
}

fn price(row: &Fields<'_>) -> Result<i64, Refused> {
    let price = row.number("price", &PRICE)?;
    if price.fract() == 0.0 {
        return Ok(price as i64);
    }
    Err(Refused::new(&row.path("price"), "A price is a whole number of minor units."))
}

/// How many there are; absent for without end.
fn endless(row: &Fields<'_>) -> Result<Option<u32>, Refused> {
    if row.has("count") { Ok(Some(row.count("count", &COUNT)?)) } else { Ok(None) }
}

fn grain(row: &Fields<'_>) -> Result<bool, Refused> {
    match row.value("grain") {
        None => Ok(true),
        Some(Value::Bool(grain)) => Ok(*grain),
        Some(_) => Err(Refused::new(&row.path("grain"), "Here must be true or false.")),
    }
}

fn kerf(problem: &Fields<'_>) -> Result<f64, Refused> {
    Ok(problem.number("kerf", &SIZE)?)
}

/// Off ends and off edges: one number for both, or `{"end", "edge"}`.
fn trim(problem: &Fields<'_>) -> Result<[f64; 2], Refused> {
    let Some(value) = problem.value("trim") else { return Ok([0.0; 2]) };
    if value.is_number() {
        return Ok([problem.number("trim", &SIZE)?; 2]);
    }
    let both = problem.object("trim")?;
    both.only(&["end", "edge"])?;
    let one = |name| if both.has(name) { both.number(name, &SIZE) } else { Ok(0.0) };
    Ok([one("end")?, one("edge")?])
}

fn budget(fields: &Fields<'_>) -> Result<Budget, Refused> {
    let work = if fields.has("work") { fields.number("work", &UNITS)? } else { WORK };
    Ok(Budget::of(work as u64))
}
