//! Drawings of a chair.
//!
//! The exploded picture, and boards as they go to the saw (`boards`).
//!
//! The exploded picture: every part is moved along the way it comes away (`apart`, `stage`), looked at
//! through a camera, fitted to the sheet (`frame`), tinted (`palette`) and painted from back to
//! front (`faces`), with the grain of timber (`grain`), or with hatching where tints tell the share of its strength that is used (`shares`,
//! `hatch`); then come the lines that show where each part goes home (`home`) and the
//! letters (`letters`).

mod apart;
mod boards;
mod close;
mod faces;
mod frame;
mod grain;
mod hatch;
mod home;
mod letters;
mod look;
mod palette;
mod shadow;
mod shares;
mod stage;
mod step;
mod view;
mod work;

#[cfg(test)]
mod tests;

pub use apart::shifts;
pub use boards::{board, boards};
pub use close::close;
pub use frame::Held;
pub use look::Look;
pub use palette::colour_of;
pub use step::step;
pub use view::{DimensionRoom, Meaning, Scheme, View};
pub use work::work_step;

use crate::chair::Chair;
use crate::service::Service;
use crestrail_geometry::math;
use crestrail_geometry::view::{Camera, Picture};
use crestrail_sheet::{Fill, Group, Item, Path, Sheet, Trace, Unit};
use frame::Frame;
use kurbo::{Point, Rect};
use palette::Palette;
use shares::Shares;
use stage::Stage;

/// Everything a layer of the picture is drawn from.
struct Scene<'a> {
    chair: &'a Chair,
    view: &'a View,
    stage: Stage<'a>,
    picture: Picture,
    frame: Frame,
    palette: Palette,
    /// Where tints tell it.
    shares: Option<Shares>,
}

/// The chair in an axonometric view, as far apart as the view says; lengths in pixels.
///
/// What the chair is meant to serve counts where the tints tell how much of its strength is used.
/// Groups carry the letter and name of the part they show, or the name of their layer, as data.
pub fn exploded(chair: &Chair, view: &View, service: &Service) -> Sheet {
    let scene = Scene::of(chair, Stage::of_view(chair, view), view, service);
    let items = core::iter::once(paper(&scene)).chain(shadow::items(&scene)).chain(painted(&scene)).collect();
    sheet(view, chair, items)
}

/// All but the ground.
fn painted(scene: &Scene<'_>) -> Vec<Item> {
    let mut items: Vec<Item> = faces::items(scene).collect();
    items.extend(home::items(scene));
    if scene.view.letters {
        items.extend(letters::items(scene));
    }
    items.extend(scene.shares.as_ref().map(|_| shares::legend(scene)));
    items
}

fn sheet(view: &View, chair: &Chair, items: Vec<Item>) -> Sheet {
    let (title, description) = (view.title(), view.description(chair));
    Sheet {
        width: view.width,
        height: view.height,
        unit: Unit::Pixel,
        decimals: 1,
        title,
        description,
        items,
    }
}

impl<'a> Scene<'a> {
    fn of(chair: &'a Chair, stage: Stage<'a>, view: &'a View, service: &Service) -> Self {
        let camera = Camera::new(math::radians(view.turn), math::radians(view.tilt));
        let picture = Picture::take(&stage.subjects, &camera);
        let frame = Frame::fit(&stage, &camera, view);
        let shares = (view.colour == Meaning::Share).then(|| Shares::of(chair, service));
        Self { chair, view, stage, picture, frame, palette: Palette::of(view.scheme), shares }
    }
}

/// The ground of the picture, so that a saved file has one.
fn paper(scene: &Scene<'_>) -> Item {
    let sheet = Rect::new(0.0, 0.0, scene.view.width, scene.view.height);
    let corners = [(sheet.x0, sheet.y0), (sheet.x1, sheet.y0), (sheet.x1, sheet.y1), (sheet.x0, sheet.y1)];
    let points = corners.into_iter().map(Point::from).collect();
    let fill = Some(Fill::solid(scene.palette.paper));
    let path = Path { traces: vec![Trace { points, closed: true }], fill, stroke: None };
    Item::Group(Group { data: vec![("layer", "paper".to_owned())], items: vec![Item::Path(path)] })
}
