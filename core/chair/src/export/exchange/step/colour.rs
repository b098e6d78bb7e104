//! The colours of solids (ISO 10303-46).

use super::data::{Data, Id, list, real};
use crate::drawing::colour_of;
use crate::material::Material;
use crestrail_sheet::Colour;

/// Styled items for solids of one material; they are gathered by [`gather`].
pub(super) fn paint(data: &mut Data, material: Material, solids: &[Id]) -> Vec<Id> {
    let Colour { red, green, blue } = colour_of(material);
    let [r, g, b] = [red, green, blue].map(|c| real((f64::from(c) / 255.0 * 1e4).round() / 1e4));
    let colour = data.add(format_args!("COLOUR_RGB('',{r},{g},{b})"));
    let area = data.add(format_args!("FILL_AREA_STYLE_COLOUR('',{colour})"));
    let area = data.add(format_args!("FILL_AREA_STYLE('',({area}))"));
    let area = data.add(format_args!("SURFACE_STYLE_FILL_AREA({area})"));
    let side = data.add(format_args!("SURFACE_SIDE_STYLE('',({area}))"));
    let usage = data.add(format_args!("SURFACE_STYLE_USAGE(.BOTH.,{side})"));
    let style = data.add(format_args!("PRESENTATION_STYLE_ASSIGNMENT(({usage}))"));
    solids.iter().map(|solid| data.add(format_args!("STYLED_ITEM('',({style}),{solid})"))).collect()
}

/// Puts styled items in force.
pub(super) fn gather(data: &mut Data, styled: &[Id], units: Id) {
    let items = list(styled);
    data.add(format_args!("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',({items}),{units})"));
}
