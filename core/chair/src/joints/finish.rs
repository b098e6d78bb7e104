//! From a draft to a joint with its measures and bodies.

use super::draft::Draft;
use super::kinds;
use super::shape::Numbers;
use super::{walls, wedging};
use crate::joint::{Joint, Kind, Mitre, Mortise, Peg, Shoulders, Tenon};
use crate::unbuildable::Unbuildable;
use crestrail_geometry::math::acos;

impl Draft<'_> {
    /// The joint.
    pub(super) fn finish(
        &self,
        wish: Option<Kind>,
        given_way: Option<String>,
        pegs: Vec<Peg>,
        numbers: &mut Numbers,
    ) -> Result<Joint, Unbuildable> {
        let kind = self.haunch.filter(|_| self.kind == Kind::Blind).map_or(self.kind, |_| Kind::Haunched);
        Ok(Joint {
            host: self.site.host.id,
            guest: self.site.guest.id,
            end: self.site.end,
            mouth: self.mouth,
            face: self.site.face,
            kind,
            why: kinds::why(kind, wish, self.width()),
            given_way: wish.zip(given_way).map(|(wish, why)| kinds::given_way(wish, kind, &why)),
            corners: self.corners.clone(),
            tenon: self.tenon(),
            mortise: self.mortise()?,
            pegs,
            guest_cuts: self.guest_cuts(),
            inserts: self.inserts(numbers),
            wedging: wedging::wedging(self),
        })
    }

    fn tenon(&self) -> Tenon {
        let ([low, high], half) = (self.across(), self.half());
        Tenon {
            length: self.length(),
            width: high - low,
            thickness: 2.0 * half,
            shoulders: Shoulders {
                top: self.edges[1] - high,
                bottom: low - self.edges[0],
                front: (self.faces[1] - half).max(0.0),
                back: (-half - self.faces[0]).max(0.0),
            },
            tongues: self.tongues.clone(),
            cheek_area: self.cheeks(),
            haunch: self.haunch,
            mitre: self.mitre.map(|m| Mitre { short_length: self.short_length(), ..m }),
            to_grain: acos(self.site.guest.place.x.dot(self.mouth.x).abs().min(1.0)),
            bodies: self.tenon_bodies(),
        }
    }

    fn mortise(&self) -> Result<Mortise, Unbuildable> {
        let dowels = self.kind == Kind::Dowels;
        let glue_gap = if self.far.is_some() { 0.0 } else { self.end_room() };
        Ok(Mortise {
            depth: self.length() + glue_gap,
            width: self.width() + if dowels { 0.0 } else { self.fit },
            thickness: self.cutter,
            glue_gap,
            wall: walls::wall(self)?,
            from_end: walls::room_to_end(self)?,
            bodies: self.mortise_bodies(),
        })
    }
}
