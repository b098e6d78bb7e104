//! A joint in the making: sized, but not yet parted from its neighbours nor pegged.

use super::Bench;
use super::block::Block;
use super::kinds;
use super::refusals::{breaks_out, lost, no_cutter, too_small};
use super::site::Site;
use super::{rules, walls};
use crate::choices::LegEnd;
use crate::design::Design;
use crate::joint::{Corner, Haunch, Kind, Mitre, Shoulders, Step};
use crate::meeting::JointGroup;
use crate::part::Role;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Place, Vec3};

/// A joint whose tenon is sized.
#[derive(Clone, Debug)]
pub(super) struct Draft<'a> {
    pub(super) site: Site<'a>,
    pub(super) kind: Kind,
    pub(super) why: String,
    /// See [`crate::joint::Joint::given_way`].
    pub(super) given_way: Option<String>,
    /// See [`crate::joint::Joint::mouth`].
    pub(super) mouth: Place,
    /// Thickness of the mortise: the cutter.
    pub(super) cutter: f64,
    /// Play over the whole thickness and width.
    pub(super) fit: f64,
    /// The greatest length that leaves enough timber behind the mortise.
    pub(super) longest: f64,
    /// Width of the tenon.
    pub(super) width: f64,
    /// Length of the tenon on its longer side.
    pub(super) length: f64,
    pub(super) shoulders: Shoulders,
    pub(super) haunch: Option<Haunch>,
    pub(super) mitre: Option<Mitre>,
    pub(super) step: Option<Step>,
    /// Space between twin tenons.
    pub(super) gap: Option<f64>,
    pub(super) corners: Vec<Corner>,
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
        let rail = matches!(site.guest.id.role, Role::FrontRail | Role::SideRail | Role::BackRail)
            && !site.is_in_the_middle();
        match self {
            Self::Outwards if rail => {
                (shoulder - rules::OUTER_SHOULDER.max(rules::LEAST_WALL - set_back)).max(0.0)
            }
            _ => 0.0,
        }
    }
}

/// How far the hole of a through tenon goes on beyond the far face, mm, so that it is open there.
const OPEN: f64 = 4.0;

/// A haunch shorter than this holds nothing, mm (common practice, no source).
const LEAST_HAUNCH: f64 = 4.0;

/// What sizing needs beside the site.
#[derive(Clone, Copy)]
pub(super) struct Sizing<'a> {
    pub(super) design: &'a Design,
    pub(super) bench: &'a Bench,
    pub(super) rails: RailTenons,
    /// No mortise wider than this: smaller tenons reach deeper before they meet.
    pub(super) widest: f64,
}

impl<'a> Draft<'a> {
    /// The joint as it would be if no other came near: of the kind asked for, else of the first kind
    /// by the rules that has room.
    pub(super) fn size(site: Site<'a>, sizing: &Sizing<'_>) -> Result<Self, Unbuildable> {
        let wish = kinds::wish(sizing.design, site.group);
        let mut given_way = None;
        if let Some(kind) = wish {
            match Self::of_kind(site, kind, sizing) {
                Ok(draft) => return Ok(Self { why: kinds::ASKED.to_owned(), ..draft }),
                Err(clash) => given_way = Some(format!("A {} was asked for. {}", kind.name(), clash.why)),
            }
        }
        let mut first = None;
        for &kind in kinds::by_rule(&site) {
            match Self::of_kind(site, kind, sizing) {
                Ok(draft) => return Ok(Self { given_way, ..draft }),
                Err(clash) => first = first.or(Some(clash)),
            }
        }
        Err(first.unwrap_or_else(|| lost(&site, "no kind of joint has room")))
    }

    /// The joint by the rules alone, because what was asked for has no room.
    pub(super) fn by_rule(site: Site<'a>, sizing: &Sizing<'_>, why: String) -> Result<Self, Unbuildable> {
        let kinds = kinds::by_rule(&site).iter().filter(|kind| kind.of_the_guest());
        let mut first = None;
        for &kind in kinds {
            match Self::of_kind(site, kind, sizing) {
                Ok(draft) => return Ok(Self { given_way: Some(why), ..draft }),
                Err(clash) => first = first.or(Some(clash)),
            }
        }
        Err(first.unwrap_or_else(|| lost(&site, "no kind of joint has room")))
    }

    /// The space that a loose tenon or dowels take in the guest.
    pub(super) fn block_in_guest(&self) -> Option<Block> {
        let block = self.block();
        let deep = self.length + rules::LEAST_WALL / 2.0;
        (!self.kind.of_the_guest()).then(|| Block { low: Vec3 { x: -deep, ..block.low }, ..block })
    }

    /// The joint as one kind.
    pub(super) fn of_kind(site: Site<'a>, kind: Kind, sizing: &Sizing<'_>) -> Result<Self, Unbuildable> {
        let Sizing { design, bench, rails, widest } = *sizing;
        let (guest, core) = (site.guest, site.guest.core);
        let thickness = guest.size.thickness;
        let whole = core[1] - core[0];
        let room = whole - 2.0 * rules::edge_shoulder(whole);
        let widest_tenon = room.min(site.width.unwrap_or(f64::INFINITY));
        let edge = (whole - widest_tenon) / 2.0;
        let share = design.tenon_share() / 100.0;
        // Two dowels one above the other keep wood between them.
        let most = if kind == Kind::Dowels { (widest_tenon - rules::LEAST_WALL) / 2.0 } else { widest_tenon };
        let most = most.min(widest);
        let reckoned = thickness.min(rules::THICKEST).min(rules::MOST_BROAD * whole);
        let cutter = cutter(kind, reckoned, share, most, bench).ok_or_else(|| no_cutter(&site, thickness))?;
        let axis = guest.place.point(Vec3::Y * ((core[0] + core[1]) / 2.0));
        let centre = site
            .face
            .meet(axis, guest.place.x)
            .ok_or_else(|| lost(&site, "its axis runs along the face it should meet"))?;
        let middle = Place::new(centre, site.inward, guest.place.y);
        if kind == Kind::BareFaced && site.is_in_the_middle() {
            return Err(lost(&site, "a bare-faced tenon would not stand in the middle"));
        }
        let outer = site.peg_side.dot(middle.z).signum();
        let fit = bench.fit;
        let outwards = match kind {
            Kind::BareFaced => -(thickness - cutter + fit) / 2.0,
            _ => rails.outwards(&site, (thickness - cutter) / 2.0, design.set_back()),
        } * outer;
        let (top, bottom) = ends(&site, &middle, whole, edge)?;
        let tenon_width = whole - top - bottom;
        let mouth = middle.moved(middle.y * ((bottom - top) / 2.0) + middle.z * outwards);
        let mouth =
            Place { origin: site.face.meet(mouth.origin, site.inward).unwrap_or(mouth.origin), ..mouth };
        let host = reach(&site, mouth.origin, site.inward)?;
        let longest = host - rules::LEAST_WALL - design.glue_gap();
        let length = match kind {
            Kind::Through => host,
            _ => rules::tenon_length(cutter, host, design.glue_gap(), depth_share(design, site.group)),
        };
        if length < rules::LEAST_TENON || tenon_width < cutter.min(rules::LEAST_PASS) {
            return Err(too_small(&site, length, tenon_width));
        }
        let side = (thickness - cutter + fit) / 2.0;
        let haunched = top.max(bottom) > edge && kind == Kind::Blind && top > bottom;
        let haunch = (haunched && design.leg_end() == LegEnd::Haunched).then(|| haunch(cutter, top));
        let kind = if haunch.is_some() { Kind::Haunched } else { kind };
        let draft = Self {
            site,
            kind,
            why: kinds::reason(kind).to_owned(),
            given_way: None,
            mouth,
            cutter,
            fit,
            longest: if kind == Kind::Through { host } else { longest },
            width: tenon_width,
            length,
            shoulders: Shoulders { top, bottom, front: side - outwards, back: side + outwards },
            haunch,
            mitre: None,
            step: None,
            gap: (kind == Kind::Twin).then_some(tenon_width * rules::TWIN_GAP),
            corners: Vec::new(),
        };
        let (wall, from_end) = draft.around(design.glue_gap())?;
        if wall.min(from_end) < rules::NO_WALL {
            return Err(breaks_out(&site, wall.min(from_end)));
        }
        Ok(draft)
    }

    /// Timber of the host beside and behind the mortise, and to its nearer end, mm.
    pub(super) fn around(&self, glue_gap: f64) -> Result<(f64, f64), Unbuildable> {
        let hole = self.hole(&self.block(), glue_gap);
        Ok((walls::wall(self, &hole, self.kind == Kind::Through)?, walls::room_to_end(self, &hole)?))
    }

    /// The space of the mortise for a block of the tenon.
    pub(super) fn hole(&self, block: &Block, glue_gap: f64) -> Block {
        let (play, half) = (self.play(), self.cutter / 2.0);
        let beyond = if self.kind == Kind::Through { OPEN + self.lead() } else { glue_gap };
        Block {
            low: Vec3::new(-self.lead(), block.low.y - play, -half),
            high: Vec3::new(block.high.x + beyond, block.high.y + play, half),
            ..*block
        }
    }

    /// Play on each side of the tenon.
    pub(super) fn play(&self) -> f64 {
        self.fit / 2.0
    }

    /// The whole space of the tenon, its end drawn straight across.
    pub(super) fn block(&self) -> Block {
        self.slice(self.length, -self.width / 2.0, self.width / 2.0)
    }

    /// The part of the tenon's space up to `length` between two heights.
    fn slice(&self, length: f64, low: f64, high: f64) -> Block {
        let t = self.cutter / 2.0 - self.play();
        Block { place: self.mouth, low: Vec3::new(-self.lead(), low, -t), high: Vec3::new(length, high, t) }
    }

    /// The space the tenon takes: one block, or a root and a half that goes on.
    pub(super) fn blocks(&self) -> Vec<Block> {
        let Some(step) = self.step else { return vec![self.block()] };
        let half = self.width / 2.0;
        let (low, high) = step.heights(half);
        vec![self.slice(step.root, -half, half), self.slice(self.length, low, high)]
    }

    /// The blocks of the tenon and of its haunch.
    pub(super) fn all_blocks(&self) -> Vec<Block> {
        let mut blocks = self.blocks();
        blocks.extend(self.haunch_block());
        blocks
    }

    /// Length of the tenon in the middle of its thickness, where its height is whole.
    pub(super) fn peg_length(&self) -> f64 {
        let length = self.mitre.map_or(self.length, |mitre| (self.length + mitre.short_length) / 2.0);
        self.step.map_or(length, |step| step.root)
    }

    /// Area of both cheeks, mm²: see [`crate::joint::Tenon::cheeks`].
    pub(super) fn cheeks(&self) -> f64 {
        let mean = self.mitre.map_or(self.length, |mitre| (self.length + mitre.short_length) / 2.0);
        let past = self.step.map_or(0.0, |s| (self.length - s.root) * (self.width - s.width));
        2.0 * (self.width * mean - past)
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
        if self.kind == Kind::Haunched {
            self.kind = Kind::Blind;
            self.why = "There is no room for a haunch beside the other tenon.".to_owned();
        }
    }

    /// How far the host's face slants across the mouth: the tenon's root may lie this much before it.
    pub(super) fn lead(&self) -> f64 {
        let n = self.mouth.local_direction(self.site.face.normal);
        let high = self.width / 2.0 + self.haunch.map_or(0.0, |h| h.width);
        (n.y.abs() * high + n.z.abs() * self.cutter / 2.0) / n.x.abs() + 0.5
    }
}

impl Step {
    /// Lower and upper edge of the half that goes on, for a tenon `half` above and below its middle.
    pub(super) fn heights(&self, half: f64) -> (f64, f64) {
        if self.upper { (half - self.width, half) } else { (-half, self.width - half) }
    }
}

/// The cutter for a kind of joint in stock of a thickness.
fn cutter(kind: Kind, thickness: f64, share: f64, most: f64, bench: &Bench) -> Option<f64> {
    match kind {
        Kind::BareFaced => rules::bare_thickness(thickness, share, most, &bench.cutters),
        Kind::Blind if thickness < rules::THIN => {
            rules::bare_thickness(thickness, share, most, &bench.cutters)
        }
        Kind::Dowels => rules::dowel_diameter(thickness, most, &bench.cutters),
        _ => rules::mortise_thickness(thickness, share, most, &bench.cutters),
    }
}

/// How much of its host a tenon of a group may enter.
fn depth_share(design: &Design, group: JointGroup) -> f64 {
    match group {
        JointGroup::Back => design.back_tenon_depth() / 100.0,
        JointGroup::Rails | JointGroup::Stretchers | JointGroup::Arms => design.tenon_depth() / 100.0,
        JointGroup::Fill => FILL_DEPTH,
    }
}

/// Laths and splats enter a third of their rail: they carry little (common practice, no source).
const FILL_DEPTH: f64 = 0.34;

/// The shoulders above and below: wide enough towards the nearer end of the host to leave it whole.
fn ends(site: &Site<'_>, middle: &Place, width: f64, edge: f64) -> Result<(f64, f64), Unbuildable> {
    let inside = middle.point(Vec3::X);
    let room = |way: Vec3| reach(site, inside, along_face(site, way)).map(|r| r - width / 2.0 + edge);
    let shoulder = |room: f64| if room >= rules::LEAST_END { edge } else { edge + rules::LEAST_END - room };
    let (above, below) = (room(middle.y)?, room(-middle.y)?);
    let corner = above < rules::LEAST_END && site.group == JointGroup::Rails;
    let top = if corner { rules::haunch_share(width).max(edge) } else { shoulder(above) };
    Ok((top, shoulder(below)))
}

/// The direction `d` laid into the host's face, which may slant.
pub(super) fn along_face(site: &Site<'_>, d: Vec3) -> Vec3 {
    let normal = site.face.normal;
    (d - normal * normal.dot(d)).unit()
}

/// A haunch as long as the tenon is thick, ending a little below the host's end so that it is not seen.
fn haunch(cutter: f64, shoulder: f64) -> Haunch {
    const BELOW_END: f64 = 3.0;
    Haunch { length: cutter, width: shoulder - BELOW_END }
}

/// Timber of the host ahead of a point on or in it.
pub(super) fn reach(site: &Site<'_>, p: Vec3, d: Vec3) -> Result<f64, Unbuildable> {
    // A point in the host's face is taken as just inside it.
    let inside = p + site.inward * 1e-3;
    let exit = site.host.exit(inside, d).map(|exit| exit.distance);
    exit.filter(|distance| *distance > 0.0).ok_or_else(|| lost(site, "it does not meet it"))
}
