//! Frames as the crate of frames solves them: any frame, told in numbers.

use crate::Refused;
use crestrail_chair::reading::{Fields, Limits, number};
use crestrail_frame::{
    Frame, Inner, LoadCase, Member, NodeLoad, Section, Solution, Springs, Stiff, Structure, Support, Trouble,
    UniformLoad,
};
use serde_json::{Value, json};

/// Most nodes of one request: the matrix of the worst frame of so many still fits into 40 MB.
const MOST_NODES: usize = 500;
/// Most members, supports, loads or cases.
const MOST: usize = 2000;
/// Most places along a member.
const MOST_SHARES: usize = 100;

/// What may be there is for the frame to say.
const ANY: Limits = Limits { label: "A value", min: f64::MIN, max: f64::MAX, unit: "" };
const INDEX: Limits = Limits { label: "An index", min: 0.0, max: 1e9, unit: "" };
const SHARE: Limits = Limits { label: "A share of the length", min: 0.0, max: 1.0, unit: "" };

/// Displacements, end forces and reactions; a list of them for a list of `cases`. `shares` asks for the
/// forces within each member at these shares of its length.
pub(crate) fn frame(fields: &Fields<'_>) -> Result<Value, Refused> {
    let problem = fields.object("problem")?;
    problem.only(&["nodes", "members", "supports", "loads", "uniform_loads", "cases", "shares"])?;
    let frame = told(&problem)?;
    let shares = match problem.has("shares") {
        true => each(&problem, "shares", MOST_SHARES, |path, value| Ok(number(path, value, &SHARE)?))?,
        false => Vec::new(),
    };
    let structure = Structure::new(&frame).map_err(|trouble| refused("problem", &trouble))?;
    let stiff = structure.factorise().map_err(|trouble| refused("problem", &trouble))?;
    if !problem.has("cases") {
        return answer(&stiff, "problem", &case(&problem)?, &shares);
    }
    if problem.has("loads") || problem.has("uniform_loads") {
        return Err(Refused::new("problem.cases", "Give the loads of each case within it, or no cases."));
    }
    let cases = each(&problem, "cases", MOST, |path, value| {
        let fields = Fields::at(path.clone(), value)?;
        fields.only(&["loads", "uniform_loads"])?;
        answer(&stiff, &path, &case(&fields)?, &shares)
    })?;
    Ok(json!(cases))
}

/// The frame of a problem.
pub(crate) fn told(problem: &Fields<'_>) -> Result<Frame, Refused> {
    Ok(Frame {
        nodes: each(problem, "nodes", MOST_NODES, three)?,
        members: each(problem, "members", MOST, member)?,
        supports: optional(problem, "supports", support)?,
    })
}

fn answer(stiff: &Stiff<'_>, path: &str, case: &LoadCase, shares: &[f64]) -> Result<Value, Refused> {
    // What is loose is the frame's own, not the case's.
    let root = |trouble: &Trouble| if trouble.place.starts_with("nodes") { "problem" } else { path };
    let solved = stiff.solve(case).map_err(|trouble| refused(root(&trouble), &trouble))?;
    let Solution { displacements, members, reactions } = solved;
    let ends: Vec<_> = members.iter().map(|member| member.ends).collect();
    let supports: Vec<Value> =
        reactions.iter().map(|r| json!({"node": r.node, "force": r.force, "moment": r.moment})).collect();
    let mut told = json!({"displacements": displacements, "end_forces": ends, "reactions": supports});
    if !shares.is_empty() {
        let within = |inner: Inner| [inner.n, inner.vy, inner.vz, inner.t, inner.my, inner.mz];
        let along = members.iter().map(|m| shares.iter().map(|&s| within(m.along(s))).collect::<Vec<_>>());
        told["inner"] = json!(along.collect::<Vec<_>>());
    }
    Ok(told)
}

pub(crate) fn refused(path: &str, trouble: &Trouble) -> Refused {
    Refused::new(&format!("{path}.{}", trouble.place), trouble.why.clone())
}

/// The items of a list, each read at its path.
fn each<T>(
    fields: &Fields<'_>,
    name: &str,
    most: usize,
    read: impl Fn(String, &Value) -> Result<T, Refused>,
) -> Result<Vec<T>, Refused> {
    fields.list(name, most)?.into_iter().map(|(path, value)| read(path, value)).collect()
}

/// Likewise; none where the list is missing.
fn optional<T>(
    fields: &Fields<'_>,
    name: &str,
    read: impl Fn(String, &Value) -> Result<T, Refused>,
) -> Result<Vec<T>, Refused> {
    if fields.has(name) { each(fields, name, MOST, read) } else { Ok(Vec::new()) }
}

fn member(path: String, value: &Value) -> Result<Member, Refused> {
    let fields = Fields::at(path, value)?;
    fields.only(&[
        "i",
        "j",
        "e",
        "g",
        "area",
        "iy",
        "iz",
        "j_torsion",
        "shear_y",
        "shear_z",
        "up",
        "springs_i",
        "springs_j",
    ])?;
    let size = |name| fields.number(name, &ANY);
    let maybe = |name| fields.has(name).then(|| size(name)).transpose();
    let section = Section {
        e: size("e")?,
        g: size("g")?,
        area: size("area")?,
        iy: size("iy")?,
        iz: size("iz")?,
        torsion: size("j_torsion")?,
        shear_y: maybe("shear_y")?,
        shear_z: maybe("shear_z")?,
    };
    Ok(Member {
        i: index(&fields, "i")?,
        j: index(&fields, "j")?,
        section,
        up: three(fields.path("up"), fields.needed("up")?)?,
        springs_i: springs(&fields, "springs_i")?,
        springs_j: springs(&fields, "springs_j")?,
    })
}

fn springs(member: &Fields<'_>, name: &str) -> Result<Springs, Refused> {
    if !member.has(name) {
        return Ok(Springs::RIGID);
    }
    let fields = member.object(name)?;
    fields.only(&["x", "y", "z"])?;
    let about = |axis| fields.has(axis).then(|| fields.number(axis, &ANY)).transpose();
    Ok(Springs { x: about("x")?, y: about("y")?, z: about("z")? })
}

fn support(path: String, value: &Value) -> Result<Support, Refused> {
    let fields = Fields::at(path, value)?;
    fields.only(&["node", "fixed"])?;
    let fixed = each(&fields, "fixed", 6, |path, value| {
        value.as_bool().ok_or_else(|| Refused::new(&path, "Here must be true or false."))
    })?;
    let fixed = fixed
        .try_into()
        .map_err(|_| Refused::new(&fields.path("fixed"), "Give six: along x, y, z and about x, y, z."))?;
    Ok(Support { node: index(&fields, "node")?, fixed })
}

/// The loads of a problem, or of one of its cases.
pub(crate) fn case(fields: &Fields<'_>) -> Result<LoadCase, Refused> {
    Ok(LoadCase {
        nodes: optional(fields, "loads", load)?,
        members: optional(fields, "uniform_loads", uniform)?,
    })
}

/// A missing force or moment is none.
fn load(path: String, value: &Value) -> Result<NodeLoad, Refused> {
    let fields = Fields::at(path, value)?;
    fields.only(&["node", "force", "moment"])?;
    let part = |name: &str| fields.value(name).map_or(Ok([0.0; 3]), |value| three(fields.path(name), value));
    Ok(NodeLoad { node: index(&fields, "node")?, force: part("force")?, moment: part("moment")? })
}

fn uniform(path: String, value: &Value) -> Result<UniformLoad, Refused> {
    let fields = Fields::at(path, value)?;
    fields.only(&["member", "force"])?;
    let force = three(fields.path("force"), fields.needed("force")?)?;
    Ok(UniformLoad { member: index(&fields, "member")?, force })
}

fn index(fields: &Fields<'_>, name: &str) -> Result<usize, Refused> {
    Ok(fields.count(name, &INDEX)? as usize)
}

fn three(path: String, value: &Value) -> Result<[f64; 3], Refused> {
    let wrong = || Refused::new(&path, "Here must be three numbers [x, y, z].");
    let items = value.as_array().filter(|items| items.len() == 3).ok_or_else(wrong)?;
    let mut three = [0.0; 3];
    for (k, (place, item)) in three.iter_mut().zip(items).enumerate() {
        *place = number(format!("{path}[{k}]"), item, &ANY)?;
    }
    Ok(three)
}
