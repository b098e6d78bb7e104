//! The chair taken apart, each part with its letter, above the parts list.

use super::Order;
use super::ink::Ink;
use super::list;
use crate::chair::Chair;
use crate::drawing::{self, View};
use crate::service::Service;
use crestrail_sheet::{Group, Item};
use kurbo::{Point, Rect, Vec2};

/// Pixels of the picture to a mm on paper: its letters come out about 3 mm high.
const PIXELS: f64 = 2.8;
/// Between picture and list, mm.
const APART: f64 = 6.0;

/// Picture and list within a field: the list at the foot, where it is no higher than half of it, else on the right.
pub(super) fn exploded(order: &Order<'_>, field: Rect) -> Ink {
    let list = list::list(order.chair, order.lengths);
    let size = list.room.map_or(kurbo::Size::ZERO, |room| room.size());
    let level = field.width() - size.width - APART >= field.height();
    let (picture, at) = if level {
        let free = Rect { x1: field.x1 - size.width - APART, ..field };
        (free, Point::new(field.x1 - size.width, field.y1 - size.height))
    } else {
        let free = Rect { y1: field.y1 - size.height - APART, ..field };
        (free, Point::new(field.x1 - size.width, field.y1 - size.height))
    };
    let mut ink = Ink::default();
    ink.add(list.moved(at.to_vec2()));
    ink.take(picture);
    ink.items.push(shown(order.chair, order.service, picture));
    ink
}

fn shown(chair: &Chair, service: &Service, free: Rect) -> Item {
    let (width, height) = (free.width() * PIXELS, free.height() * PIXELS);
    let view = View { spread: 1.0, width, height, ..View::default() };
    let sheet = drawing::exploded(chair, &view, service);
    // The picture's own ground would print a rectangle.
    let items = sheet.items.into_iter().filter(|item| !is_ground(item)).collect();
    let group = Group { data: vec![("view", "exploded".to_owned())], items };
    Item::Group(group).scaled(1.0 / PIXELS).moved(Vec2::new(free.x0, free.y0))
}

fn is_ground(item: &Item) -> bool {
    matches!(item, Item::Group(group) if group.data.iter().any(|row| *row == ("layer", "paper".to_owned())))
}
