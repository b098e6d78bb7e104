//! Cord woven round the four rails of each place. The weave is shown as one thin flat body.

use super::field::{Field, mirrored, widened};
use super::opening::{Beside, Face, field, rail_id};
use super::plate::plate;
use crate::material::Material;
use crate::part::Role;
use crate::parts::maker::{Maker, id};
use crate::seating::cord_length;
use crate::skeleton::Bay;
use crestrail_geometry::outline::signed_area;

/// Room between the weave and a leg or the next weave, mm.
const ROOM: f64 = 1.0;

/// The weave of every place.
pub(super) fn make(maker: &mut Maker<'_>) {
    for bay in &maker.lines.bays {
        let Some(field) = woven(maker, bay) else { continue };
        let seat = &maker.lines.seat;
        let outline = field.outline();
        let thickness = maker.design.cord();
        let length = cord_length(signed_area(&outline), rail_faces(maker, bay), thickness);
        let timber = plate(seat, &outline, 0.0, seat.rise);
        maker.add_of(id(Role::Cord, bay.side, 1), timber, Material::Cord { thickness, length });
    }
}

/// From the outer faces of the rails, or from the middle of a rail that two places share.
fn woven(maker: &Maker<'_>, bay: &Bay) -> Option<Field> {
    let far = if bay.far == 0 { Face::Outer } else { Face::Middle };
    let faces = [Face::Outer, Face::Outer, Face::Middle, far];
    let seat = &maker.lines.seat;
    let mut field = field(maker, bay, faces, (0.0, seat.rise), ROOM)?;
    if far == Face::Middle {
        field.right = field.right.moved(-ROOM / 2.0);
    }
    if bay.near.is_some() {
        field.left = field.left.moved(ROOM / 2.0);
    } else {
        field.left = field.right.mirrored();
    }
    let post = maker.lines.arms.as_ref().filter(|arms| arms.post.is_some());
    if let Some(post) = post.and(seat.through.last()) {
        field.blocks.extend([widened(post, ROOM), widened(&mirrored(post), ROOM)]);
    }
    Some(field)
}

/// The outer faces of the four rails, mm².
fn rail_faces(maker: &Maker<'_>, bay: &Bay) -> f64 {
    let near = if bay.near.is_some() { Beside::Near } else { Beside::Far };
    [Beside::Front, Beside::Back, near, Beside::Far]
        .into_iter()
        .filter_map(|beside| rail_id(maker, bay, beside))
        .filter_map(|rail| maker.parts.iter().find(|p| p.id == rail))
        .map(|rail| rail.size.length * rail.size.width)
        .sum()
}
