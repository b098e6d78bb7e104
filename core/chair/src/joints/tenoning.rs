//! Sizing one mortise and tenon from the two parts that meet.

use super::Bench;
use super::block::Block;
use super::rules;
use super::site::Site;
use crate::choices::LegEnd;
use crate::design::Design;
use crate::joint::{Haunch, Joint, Mitre, Mortise, Peg, Shoulders, Tenon};
use crate::part::Role;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::math::acos;
use crestrail_geometry::{Body, Place, Plane, Vec3};

/// A joint whose tenon is sized but not yet parted from its neighbours nor pegged.
#[derive(Clone, Debug)]
pub(super) struct Draft<'a> {
    pub(super) site: Site<'a>,
    /// See [`Joint::mouth`].
    pub(super) mouth: Place,
    /// Thickness of the mortise: the cutter.
    pub(super) cutter: f64,
    /// Play over the whole thickness and width.
    fit: f64,
    /// The greatest length that leaves enough timber behind the mortise.
    pub(super) longest: f64,
    /// Width of the tenon.
    pub(super) width: f64,
    /// Length of the tenon on its longer side.
    pub(super) length: f64,
    pub(super) shoulders: Shoulders,
    pub(super) haunch: Option<Haunch>,
    pub(super) mitre: Option<Mitre>,
}

/// Where the tenons of the seat rails stand in the rails' thickness; all alike, so that every
/// rail is marked with one setting of the gauge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum RailTenons {
    /// In the middle.
    Middle,
    /// Towards the outer face, so that they reach deeper before they meet in the leg.
    Outwards,
}

impl RailTenons {
    /// How far the tenon of this site moves towards the outer face.
    fn outwards(self, site: &Site<'_>, shoulder: f64, set_back: f64) -> f64 {
        let rail = matches!(site.guest.id.role, Role::FrontRail | Role::SideRail | Role::BackRail);
        match self {
            Self::Outwards if rail => {
                (shoulder - rules::OUTER_SHOULDER.max(rules::LEAST_WALL - set_back)).max(0.0)
            }
            _ => 0.0,
        }
    }
}

/// A haunch shorter than this holds nothing, mm (common practice, no source).
const LEAST_HAUNCH: f64 = 4.0;

/// Length left at the outer edge of a sloping haunch, mm: a feather edge would crumble.
const HAUNCH_TIP: f64 = 1.0;

impl<'a> Draft<'a> {
    /// The tenon as it would be if no other came near.
    pub(super) fn size(
        design: &Design,
        site: Site<'a>,
        bench: &Bench,
        rails: RailTenons,
    ) -> Result<Self, Unbuildable> {
        let guest = site.guest;
        let (core, thickness) = (guest.core, guest.size.thickness);
        let width = (core[1] - core[0]).min(site.width.unwrap_or(f64::INFINITY));
        let cutter = rules::mortise_thickness(thickness, design.tenon_share() / 100.0, &bench.cutters)
            .ok_or_else(|| no_cutter(&site, thickness))?;
        let axis = guest.place.point(Vec3::Y * ((core[0] + core[1]) / 2.0));
        let centre = site
            .face
            .meet(axis, guest.place.x)
            .ok_or_else(|| lost(&site, "its axis runs along the face it should meet"))?;
        let middle = Place::new(centre, site.inward, guest.place.y);
        let outwards = rails.outwards(&site, (thickness - cutter) / 2.0, design.set_back())
            * site.peg_side.dot(middle.z).signum();
        let edge = rules::edge_shoulder(width);
        let top = top_shoulder(&site, &middle, width, edge)?;
        let tenon_width = width - top - edge;
        let mouth = middle.moved(middle.y * ((edge - top) / 2.0) + middle.z * outwards);
        let mouth =
            Place { origin: site.face.meet(mouth.origin, site.inward).unwrap_or(mouth.origin), ..mouth };
        let host = reach(&site, mouth.origin, site.inward)?;
        let length = rules::tenon_length(cutter, host, design.glue_gap());
        if length < rules::LEAST_TENON || tenon_width < cutter {
            return Err(too_small(&site, length, tenon_width));
        }
        let fit = bench.fit;
        let side = (thickness - cutter + fit) / 2.0;
        let shoulders = Shoulders { top, bottom: edge, front: side - outwards, back: side + outwards };
        let haunch = (top > edge && design.leg_end() == LegEnd::Haunched).then(|| haunch(cutter, top));
        Ok(Self {
            site,
            mouth,
            cutter,
            fit,
            longest: host - rules::LEAST_WALL - design.glue_gap(),
            width: tenon_width,
            length,
            shoulders,
            haunch,
            mitre: None,
        })
    }

    /// Play on each side of the tenon.
    fn play(&self) -> f64 {
        self.fit / 2.0
    }

    /// The space the tenon takes, its end drawn straight across.
    pub(super) fn block(&self) -> Block {
        let (w, t) = (self.width / 2.0, self.cutter / 2.0 - self.play());
        let root = -self.lead();
        Block { place: self.mouth, low: Vec3::new(root, -w, -t), high: Vec3::new(self.length, w, t) }
    }

    /// Length of the tenon in the middle of its thickness.
    pub(super) fn middle_length(&self) -> f64 {
        self.mitre.map_or(self.length, |mitre| (self.length + mitre.short_length) / 2.0)
    }

    /// The space the haunch takes.
    pub(super) fn haunch_block(&self) -> Option<Block> {
        let tenon = self.block();
        self.haunch.map(|h| Block {
            low: Vec3::new(tenon.low.x, tenon.high.y, tenon.low.z),
            high: Vec3::new(h.length, tenon.high.y + h.width, tenon.high.z),
            ..tenon
        })
    }

    /// A shorter haunch, or none, so that it stays clear of the blocks of another joint.
    pub(super) fn clear_haunch_of(&mut self, others: &[Block]) {
        while let Some(block) = self.haunch_block() {
            if !others.iter().any(|other| block.grown(rules::MITRE_GAP).overlaps(other)) {
                return;
            }
            let shorter = self.haunch.map(|h| Haunch { length: h.length - 1.0, ..h });
            self.haunch = shorter.filter(|h| h.length >= LEAST_HAUNCH);
        }
    }

    /// How far the host's face slants across the mouth: the tenon's root may lie this much before it.
    fn lead(&self) -> f64 {
        let n = self.mouth.local_direction(self.site.face.normal);
        let slant = (n.y.abs() * self.width + n.z.abs() * self.cutter) / (2.0 * n.x.abs());
        slant + 0.5
    }

    /// The joint with its measures and bodies.
    pub(super) fn finish(&self, design: &Design, pegs: Vec<Peg>) -> Result<Joint, Unbuildable> {
        let mortise = self.mortise(design.glue_gap())?;
        if mortise.wall < rules::NO_WALL || mortise.from_end < rules::NO_WALL {
            return Err(breaks_out(&self.site, mortise.wall.min(mortise.from_end)));
        }
        let grain = self.site.guest.place.x;
        Ok(Joint {
            host: self.site.host.id,
            guest: self.site.guest.id,
            end: self.site.end,
            mouth: self.mouth,
            face: self.site.face,
            tenon: Tenon {
                length: self.length,
                width: self.width,
                thickness: self.cutter - self.fit,
                shoulders: self.shoulders,
                haunch: self.haunch,
                mitre: self.mitre,
                to_grain: acos(grain.dot(self.mouth.x).abs()),
                bodies: self.tenon_bodies(),
            },
            mortise,
            pegs,
        })
    }

    /// The tenon from its shoulder to its end, and its haunch.
    fn tenon_bodies(&self) -> Vec<Body> {
        let mut planes = self.block().open_planes();
        planes.extend(self.mitre.map(|mitre| mitre.plane));
        planes.push(self.site.face);
        let tenon = Body::Convex(planes);
        let haunch = self.haunch.map(|h| self.haunch_body(h, 0.0, 0.0, self.site.face));
        [Some(tenon), haunch].into_iter().flatten().collect()
    }

    fn mortise(&self, glue_gap: f64) -> Result<Mortise, Unbuildable> {
        let depth = self.length + glue_gap;
        let (width, thickness) = (self.width + self.fit, self.cutter);
        let low = Vec3::new(-self.lead(), -width / 2.0, -thickness / 2.0);
        let high = Vec3::new(depth, width / 2.0, thickness / 2.0);
        let hole = Block { place: self.mouth, low, high };
        let mouth_of_haunch = Plane { normal: -Vec3::X, offset: self.lead() };
        let mouth_of_haunch = self.mouth.plane(&mouth_of_haunch);
        let haunch = self.haunch.map(|h| self.haunch_body(h, self.play(), glue_gap, mouth_of_haunch));
        Ok(Mortise {
            depth,
            width,
            thickness,
            glue_gap,
            wall: self.wall(&hole)?,
            from_end: self.room_to_end(&hole)?,
            bodies: [Some(hole.body()), haunch].into_iter().flatten().collect(),
        })
    }

    /// A wedge beside the tenon that slopes from the haunch's length to its tip at the outer edge,
    /// kept `clear` of the timber it enters at its end and with `play` at its cheeks and outer edge.
    fn haunch_body(&self, haunch: Haunch, play: f64, clear: f64, root: Plane) -> Body {
        let (foot, half) = (self.width / 2.0, self.cutter / 2.0 - self.play() + play);
        let side = |normal: Vec3, at: f64| self.mouth.plane(&Plane { normal, offset: at });
        let slope = Plane::through(
            Vec3::new(haunch.length + clear, foot, 0.0),
            Vec3::new(haunch.width, haunch.length - HAUNCH_TIP, 0.0),
        );
        Body::Convex(vec![
            side(-Vec3::Y, -foot),
            side(Vec3::Y, foot + haunch.width + play),
            side(Vec3::Z, half),
            side(-Vec3::Z, half),
            self.mouth.plane(&slope),
            root,
        ])
    }

    /// The thinnest timber beside and behind the mortise.
    fn wall(&self, hole: &Block) -> Result<f64, Unbuildable> {
        let half = hole.high.z;
        let behind = reach(&self.site, self.mouth.origin, self.mouth.x)? - hole.high.x;
        let mut least = behind;
        for depth in [1.0, hole.high.x - 1.0] {
            let at = self.mouth.point(Vec3::X * depth);
            // Measured in the direction of the host's face, which a slanting mortise is not square to.
            let way = along_face(&self.site, self.mouth.z);
            for way in [way, -way] {
                let square = way.dot(self.mouth.z).abs();
                least = least.min(reach(&self.site, at, way)? * square - half);
            }
        }
        Ok(least)
    }

    /// Timber between the mortise and the nearer end of the host.
    fn room_to_end(&self, hole: &Block) -> Result<f64, Unbuildable> {
        let at = self.mouth.point(Vec3::X);
        let along = along_face(&self.site, self.mouth.y);
        let up = reach(&self.site, at, along)?;
        let down = reach(&self.site, at, -along)?;
        Ok(up.min(down) - hole.high.y)
    }
}

/// The shoulder towards the nearer end of the host: wide enough to leave that end whole.
fn top_shoulder(site: &Site<'_>, middle: &Place, width: f64, edge: f64) -> Result<f64, Unbuildable> {
    let inside = middle.point(Vec3::X);
    let above = reach(site, inside, along_face(site, middle.y))? - width / 2.0;
    Ok(if above + edge >= rules::LEAST_END { edge } else { rules::haunch_share(width) })
}

/// The direction `d` laid into the host's face, which may slant.
fn along_face(site: &Site<'_>, d: Vec3) -> Vec3 {
    let normal = site.face.normal;
    (d - normal * normal.dot(d)).unit()
}

/// A haunch as long as the tenon is thick, ending a little below the host's end so that it is not seen.
fn haunch(cutter: f64, shoulder: f64) -> Haunch {
    const BELOW_END: f64 = 3.0;
    Haunch { length: cutter, width: shoulder - BELOW_END }
}

/// Timber of the host ahead of a point on or in it.
fn reach(site: &Site<'_>, p: Vec3, d: Vec3) -> Result<f64, Unbuildable> {
    // A point in the host's face is taken as just inside it.
    let inside = p + site.inward * 1e-3;
    let exit = site.host.exit(inside, d).map(|exit| exit.distance);
    exit.filter(|distance| *distance > 0.0).ok_or_else(|| lost(site, "it does not meet it"))
}

/// The knobs that decide the section of a part.
pub(crate) fn section_knobs(role: Role) -> &'static [&'static str] {
    match role {
        Role::FrontLeg => &["front_leg"],
        Role::BackLeg => &["back_leg_thickness", "back_leg_depth"],
        Role::FrontRail | Role::SideRail | Role::BackRail => &["rail_thickness", "rail_width"],
        Role::SideStretcher | Role::CrossStretcher | Role::FrontStretcher | Role::BackStretcher => {
            &["stretcher_thickness", "stretcher_width"]
        }
        Role::CrestRail | Role::LowerBackRail => &["back_slat_thickness", "back_rail_width"],
        Role::Lath => &["fill_thickness", "lath_width"],
        Role::Splat => &["fill_thickness", "splat_share"],
        Role::Stile => &["back_slat_thickness"],
        Role::Panel => &["fill_thickness"],
        Role::Arm => &["arm_thickness", "arm_width"],
        Role::ArmPost => &["rail_thickness", "front_leg"],
        Role::BackSlat => &["back_slat_thickness", "back_fill"],
        Role::SeatSlat => &["seat_slat_thickness"],
        Role::Peg => &["peg_size"],
    }
}

fn clash(site: &Site<'_>, first: &[&'static str], why: String) -> Unbuildable {
    let more = section_knobs(site.host.id.role).iter().chain(section_knobs(site.guest.id.role));
    let mut knobs = first.to_vec();
    more.for_each(|knob| {
        if !knobs.contains(knob) {
            knobs.push(knob);
        }
    });
    Unbuildable { stage: Stage::Joints, knobs, why }
}

fn no_cutter(site: &Site<'_>, thickness: f64) -> Unbuildable {
    let why = format!(
        "No mortise cutter of the shop is from a quarter to just under half of the {thickness:.1} mm of the {}.",
        site.guest.id.role.name()
    );
    clash(site, section_knobs(site.guest.id.role), why)
}

fn too_small(site: &Site<'_>, length: f64, width: f64) -> Unbuildable {
    let why = format!(
        "The tenon of the {} in the {} would be only {length:.0} mm long and {width:.0} mm wide.",
        site.guest.id.role.name(),
        site.host.id.role.name()
    );
    clash(site, &[], why)
}

fn breaks_out(site: &Site<'_>, wall: f64) -> Unbuildable {
    let why = format!(
        "The mortise for the {} leaves {:.1} mm of the {}; it would break out.",
        site.guest.id.role.name(),
        wall.max(0.0),
        site.host.id.role.name()
    );
    clash(site, &["set_back"], why)
}

fn lost(site: &Site<'_>, why: &str) -> Unbuildable {
    let why = format!(
        "The {} cannot be joined to the {}: {why}.",
        site.guest.id.role.name(),
        site.host.id.role.name()
    );
    clash(site, &[], why)
}
