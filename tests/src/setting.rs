//! What the setting-out sheets tell, as plain figures in chair space.

use crate::Refused;
use crestrail_chair::chair::Chair;
use crestrail_chair::sheets::setting::{
    Limit, Limits, Subject, Way, curves, cutters, gauges, limits, offsets, subjects,
};
use crestrail_geometry::Vec3;
use serde_json::{Value, json};

/// Stations of the offset table, mm.
const APART: f64 = 50.0;

/// Parts with their faces, figures and marks; gauge settings; cutters.
pub(crate) fn rows(chair: &Chair) -> Result<Value, Refused> {
    let subjects = subjects(chair).map_err(|clash| Refused::new("build", clash.why))?;
    let parts: Vec<Value> = subjects.iter().map(|subject| part(chair, subject)).collect();
    let gauges = gauges(&subjects);
    let settings: Vec<Value> = (gauges.settings.iter())
        .map(|row| json!({"pins": row.pins, "from": row.from, "uses": row.uses}))
        .collect();
    let cutters: Vec<Value> = (cutters(chair).iter())
        .map(|c| json!({"size": c.size, "tool": c.tool, "deepest": c.deepest, "uses": c.uses}))
        .collect();
    let curves: Vec<Value> = (curves(&subjects).iter())
        .map(|c| json!({"letter": c.letter, "hollow": c.hollow, "round": c.round, "blade": c.blade()}))
        .collect();
    Ok(
        json!({"parts": parts, "gauges": settings, "drawn": gauges.drawn, "cutters": cutters, "curves": curves}),
    )
}

/// The limits of a part's sizes, mm.
fn limited(chair: &Chair, subject: &Subject<'_>) -> Vec<Value> {
    let one = |limit: &Limit| json!({"what": format!("{:?}", limit.what).to_lowercase(), "size": limit.size, "upper": limit.upper, "lower": limit.lower});
    let row = |row: &Limits| json!({"title": row.title, "all": row.all.iter().map(one).collect::<Vec<_>>()});
    limits(chair, subject).iter().map(row).collect()
}

fn part(chair: &Chair, subject: &Subject<'_>) -> Value {
    let limited = limited(chair, subject);
    let blank = &subject.marked.blank;
    let faces: Vec<Value> = (0..4)
        .map(|i| {
            let face = &blank.faces[i];
            json!({
                "name": face.name, "from": face.from, "below": face.below, "height": face.height,
                "normal": vector(face.normal), "up": vector(face.up), "corner": vector(blank.corner(i)),
                "curved": subject.marked.is_curved(i),
                "offsets": if subject.marked.is_curved(i) { offsets(subject, i, APART) } else { Vec::new() },
            })
        })
        .collect();
    let figures: Vec<Value> = (subject.figures.iter())
        .map(|f| {
            let way = if f.way == Way::Along { "along" } else { "across" };
            json!({"face": f.face, "way": way, "value": f.value, "what": f.what})
        })
        .collect();
    let marks: Vec<Value> = (subject.marked.marks.iter())
        .map(|mark| {
            let corners: Vec<[f64; 2]> = mark.corners.iter().map(|p| [p.x, p.y]).collect();
            json!({
                "what": format!("{:?}", mark.what).to_lowercase(), "face": mark.face, "letter": mark.letter,
                "corners": corners, "depth": mark.depth, "size": mark.size,
            })
        })
        .collect();
    json!({
        "sheet": format!("setting-{}", subject.key()), "part": subject.part.id.to_string(), "letter": subject.part.letter,
        "hand": subject.hand(), "count": subject.count, "length": blank.length, "along": vector(blank.along),
        "faces": faces, "figures": figures, "marks": marks, "limits": limited,
    })
}

fn vector(v: Vec3) -> [f64; 3] {
    [v.x, v.y, v.z]
}
