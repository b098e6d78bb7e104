//! The first picture: one drawing for light and dark, its colours in a style sheet.

use crate::html;
use anyhow::{Context, Result, ensure};
use crestrail_chair::chair::Chair;
use crestrail_chair::drawing::{Scheme, View, close};
use crestrail_chair::service::Service;
use crestrail_sheet::svg;
use std::fmt::Write as _;

/// About as high as the picture is on a desk, px, so that its corners are as fine as those of the live one there.
const HEIGHT: f64 = 640.0;

/// A drawing and the colours of its classes.
pub(super) struct Drawn {
    pub(super) svg: String,
    pub(super) colours: String,
}

/// The chair as the page looks at it first.
pub(super) fn drawn(chair: &Chair, service: &Service) -> Result<Drawn> {
    let of = |scheme| {
        let view = View { scheme, height: HEIGHT, letters: false, ..View::default() };
        bare(&svg::write(&close(chair, &view, service)))
    };
    let (svg, classes) = merged(&of(Scheme::Light)?, &of(Scheme::Dark)?)?;
    let mut colours = String::new();
    for (i, [light, dark]) in classes.iter().enumerate() {
        let _ = writeln!(colours, ".first .c{i}{{{light}}}");
        let _ = writeln!(colours, "[data-scheme=\"dark\"] .first .c{i}{{{dark}}}");
    }
    Ok(Drawn { svg, colours })
}

/// Without what the page takes off every picture it shows: the title, and the sheet's own ground; and without a size.
fn bare(svg: &str) -> Result<String> {
    let body = svg.find("</desc>").context("a picture has a description")? + "</desc>".len();
    let ground = "<g data-layer=\"paper\">";
    let rest = svg[body..].strip_prefix(ground).context("a picture begins with its ground")?;
    let rest = &rest[rest.find("</g>").context("the ground is closed")? + "</g>".len()..];
    let root = html::tags(svg).into_iter().next().context("a picture is an element")?;
    let kept = root
        .attributes
        .iter()
        .filter(|(name, _)| !["xmlns", "role", "width", "height"].contains(&name.as_str()));
    let mut head = "<svg aria-hidden=\"true\" focusable=\"false\"".to_owned();
    for (name, value) in kept {
        let name = if name == "viewbox" { "viewBox" } else { name };
        let _ = write!(head, " {name}=\"{value}\"");
    }
    Ok(format!("{head}>{rest}"))
}

/// What the style sheet tells of an element in one scheme: colours, how dense they are, and how thick its lines.
fn declared(tag: &html::Tag, weight: f64) -> String {
    let told = tag.attributes.iter().filter(|(name, value)| is_told(name, value));
    let one = |(name, value): &(String, String)| match (name.as_str(), value.parse::<f64>()) {
        // However large the picture is shown, lines are as thick as on one drawn for that size.
        (THICKNESS, Ok(thick)) => format!("{name}:calc({:.3} * var(--weight))", thick / weight),
        _ => format!("{name}:{value}"),
    };
    told.map(one).collect::<Vec<_>>().join(";")
}

const THICKNESS: &str = "stroke-width";

fn is_told(name: &str, value: &str) -> bool {
    ["fill", "fill-opacity", "stroke", "stroke-opacity", THICKNESS].contains(&name) && value != "none"
}

/// By how much lines are thicker on a drawing than on one 800 pixels wide or high (`drawing/frame.rs`).
fn weight(root: &html::Tag) -> Result<f64> {
    let view = root.get("viewbox").context("a picture has its view box")?;
    let sides: Vec<f64> = view.split(' ').skip(2).filter_map(|side| side.parse().ok()).collect();
    ensure!(sides.len() == 2, "{view} is no view box");
    Ok((sides[0].min(sides[1]) / 800.0).clamp(0.6, 1.6))
}

/// Two drawings that differ in their colours alone as one, with a class for each pair of them in place of the colours.
fn merged(light: &str, dark: &str) -> Result<(String, Vec<[String; 2]>)> {
    let (ours, theirs) = (html::tags(light), html::tags(dark));
    ensure!(ours.len() == theirs.len(), "light and dark pictures differ in more than colours");
    let weight = weight(ours.first().context("a picture is an element")?)?;
    let mut classes: Vec<[String; 2]> = Vec::new();
    let (mut out, mut at) = (String::with_capacity(light.len()), 0);
    for (a, b) in ours.iter().zip(&theirs) {
        let pair = [declared(a, weight), declared(b, weight)];
        if pair[0].is_empty() && pair[1].is_empty() {
            continue;
        }
        let class = classes.iter().position(|known| *known == pair).unwrap_or_else(|| {
            classes.push(pair);
            classes.len() - 1
        });
        out.push_str(&light[at..a.range.start]);
        out.push_str(&classed(&light[a.range.clone()], a, class));
        at = a.range.end;
    }
    out.push_str(&light[at..]);
    Ok((out, classes))
}

fn classed(text: &str, tag: &html::Tag, class: usize) -> String {
    let told = tag.attributes.iter().filter(|(name, value)| is_told(name, value));
    let bare = told
        .fold(text.to_owned(), |text, (name, value)| text.replacen(&format!(" {name}=\"{value}\""), "", 1));
    let end = bare.len() - if bare.ends_with("/>") { 2 } else { 1 };
    format!("{} class=\"c{class}\"{}", &bare[..end], &bare[end..])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crestrail_chair::design::Design;
    use crestrail_chair::report::service;
    use crestrail_chair::shop::Shop;

    /// With the colours of a scheme put back in the place of its classes it is the core's own drawing in that scheme.
    #[test]
    fn each_scheme_is_the_cores_own_drawing() {
        let design = Design::default();
        let chair = Chair::resolve(&design, &Shop::demo().bench()).unwrap();
        let Drawn { svg, colours } = drawn(&chair, &service(&design)).unwrap();
        for (scheme, before) in
            [(Scheme::Light, "\n.first .c"), (Scheme::Dark, "\n[data-scheme=\"dark\"] .first .c")]
        {
            let view = View { scheme, height: HEIGHT, letters: false, ..View::default() };
            let wanted = bare(&svg::write(&close(&chair, &view, &service(&design)))).unwrap();
            let mut text = svg.clone();
            let rules = format!("\n{colours}");
            for rule in rules.split(before).skip(1) {
                let (class, rule) = rule.split_once('{').unwrap();
                let attributes: String = rule
                    .split('}')
                    .next()
                    .unwrap()
                    .split(';')
                    .map(|one| {
                        one.split_once(':').map(|(name, value)| format!(" {name}=\"{value}\"")).unwrap()
                    })
                    .collect();
                text = text.replace(&format!(" class=\"c{class}\""), &attributes);
            }
            for (ours, theirs) in sorted(&text).iter().zip(&sorted(&wanted)) {
                assert_eq!(ours, theirs);
            }
            assert_eq!(sorted(&text).len(), sorted(&wanted).len());
        }
    }

    /// The elements with their attributes in order of their names, but for how thick lines are.
    fn sorted(svg: &str) -> Vec<(String, Vec<(String, String)>)> {
        let sort = |tag: html::Tag| {
            let mut attributes = tag.attributes;
            attributes.retain(|(name, _)| name != THICKNESS);
            attributes.sort();
            (tag.name, attributes)
        };
        html::tags(svg).into_iter().map(sort).collect()
    }
}
