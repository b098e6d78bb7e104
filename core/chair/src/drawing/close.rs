//! The exploded picture without room around it.

use super::frame::{Held, halves, middle_of};
use super::stage::Stage;
use super::{View, exploded};
use crate::chair::Chair;
use crate::service::Service;
use crestrail_geometry::math;
use crestrail_geometry::view::Camera;
use crestrail_sheet::Sheet;

/// The picture of [`exploded`] on a sheet that just holds the cylinder around the chair, for whoever gives it by other means the
/// room that the view would keep. The sheet is as high as the view says, in pixels; its width follows.
pub fn close(chair: &Chair, view: &View, service: &Service) -> Sheet {
    let stage = Stage::of_view(chair, view);
    let camera = Camera::new(math::radians(view.turn), math::radians(view.tilt));
    let [half_width, half_height] = halves(&stage, &camera);
    let held = Held { scale: view.height / (2.0 * half_height), focus: middle_of(&stage, &camera) };
    let width = 2.0 * half_width * held.scale;
    exploded(chair, &View { width, held: Some(held), dimensions: None, ..view.clone() }, service)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::drawing::DimensionRoom;
    use crate::report::service;
    use crate::shop::Shop;
    use crestrail_sheet::Item;

    /// Boxes of the groups of parts, by their data.
    fn places(sheet: &Sheet) -> Vec<kurbo::Rect> {
        let points = |item: &Item| match item {
            Item::Path(path) => path.traces.iter().flat_map(|trace| trace.points.clone()).collect(),
            _ => Vec::new(),
        };
        let groups = sheet.items.iter().filter_map(|item| match item {
            Item::Group(group) => Some(group.items.iter().flat_map(points).collect::<Vec<_>>()),
            _ => None,
        });
        let boxed = |points: Vec<kurbo::Point>| {
            let first = *points.first()?;
            Some(points.iter().fold(kurbo::Rect::from_points(first, first), |all, &p| all.union_pt(p)))
        };
        // The first group is the sheet's own ground.
        groups.skip(1).filter_map(boxed).collect()
    }

    /// Laid into the room that a view keeps, the close picture is that view's own: the page does so with its style sheet.
    #[test]
    fn in_the_room_of_a_view_it_is_that_views_picture() {
        let design = Design::default();
        let chair = Chair::resolve(&design, &Shop::demo().bench()).unwrap();
        let service = service(&design);
        let room = DimensionRoom { figure: [70.0, 23.0], clear: Vec::new() };
        for (width, height) in [(390.0, 300.0), (900.0, 680.0), (500.0, 1000.0)] {
            let view =
                View { width, height, letters: false, dimensions: Some(room.clone()), ..View::default() };
            let there = places(&exploded(&chair, &view, &service));
            let sheet = close(&chair, &view, &service);
            let smaller = width.min(height);
            let (side, above, below) =
                ((0.085 * smaller).max(61.0), (0.035 * smaller).max(14.0), (0.035 * smaller).max(37.5));
            let (wide, high) = (width - 2.0 * side, height - above - below);
            let scale = (wide / sheet.width).min(high / sheet.height);
            let corner =
                (side + (wide - scale * sheet.width) / 2.0, above + (high - scale * sheet.height) / 2.0);
            let here = places(&sheet);
            assert_eq!(here.len(), there.len());
            for (a, b) in here.iter().zip(&there) {
                let a = a.scale_from_origin(scale) + kurbo::Vec2::from(corner);
                let far = (a.x0 - b.x0)
                    .abs()
                    .max((a.y0 - b.y0).abs())
                    .max((a.x1 - b.x1).abs())
                    .max((a.y1 - b.y1).abs());
                assert!(far < 1e-6, "{a:?} is not {b:?} on {width} × {height}");
            }
        }
    }
}
