//! Sizing one tenon from the two parts that meet, as if no other came near.

use super::Bench;
use super::draft::Draft;
use super::feel::{along_face, far_face, reach};
use super::kinds::Plan;
use super::section::{self, Section};
use super::separate;
use super::site::Site;
use super::{rules, trouble};
use crate::choices::LegEnd;
use crate::design::Design;
use crate::joint::{Haunch, Kind, Tongue};
use crate::meeting::JointGroup;
use crate::part::Role;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Place, Vec3};
use crestrail_phrases::word;

/// Where the tenons of the seat rails stand in the rails' thickness; all alike, so that every
/// rail is marked with one setting of the gauge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum RailTenons {
    /// In the middle.
    Middle,
    /// Towards the outer face, so that they reach deeper before they meet in the leg.
    Outwards,
}

/// What all joints of a chair are sized by.
#[derive(Clone, Copy)]
pub(super) struct Sizing<'a> {
    pub(super) design: &'a Design,
    pub(super) bench: &'a Bench,
    pub(super) rails: RailTenons,
}

impl Sizing<'_> {
    /// The tenon of a plan.
    pub(super) fn draft<'a>(&self, site: Site<'a>, plan: Plan) -> Result<Draft<'a>, Unbuildable> {
        let middle = middle(&site)?;
        let section = section::of(self, &site, &middle, plan)?;
        let mouth = mouth(&site, &middle, &section);
        let host = reach(&site, mouth.origin, site.inward)?;
        let by = (section.low + section.high) / 2.0;
        let [low, high] = site.guest.core;
        let edges = [low, high].map(|y| y - (low + high) / 2.0 - by);
        let half = site.guest.size.thickness / 2.0;
        let draft = Draft {
            site,
            kind: plan.kind,
            mouth,
            cutter: section.cutter,
            fit: self.bench.fit,
            glue_gap: self.design.glue_gap(),
            longest: host - rules::LEAST_WALL - self.design.glue_gap(),
            tongues: Vec::new(),
            edges,
            faces: [-half - section.aside, half - section.aside],
            haunch: None,
            far: None,
            into_guest: 0.0,
            cuts: Vec::new(),
            mitre: None,
            corners: Vec::new(),
        };
        self.tongued(draft, host, section.high - section.low, plan)
    }

    /// Gives the draft its tongues, which fill `width`.
    fn tongued<'a>(
        &self,
        mut draft: Draft<'a>,
        host: f64,
        width: f64,
        plan: Plan,
    ) -> Result<Draft<'a>, Unbuildable> {
        let site = draft.site;
        let length = self.length(&draft, host);
        let (low, high) = (-width / 2.0, width / 2.0);
        let whole = Tongue { y: [low, high], from: 0.0, to: length };
        let least = if plan.short { rules::SHORTEST } else { rules::LEAST_TENON };
        if length < least || width < section::least_width(&site) {
            return Err(trouble::too_small(&site, length, width));
        }
        draft.longest = draft.longest.max(length);
        draft.tongues = match plan.kind {
            Kind::Twin => twins(&site, whole, draft.cutter)?,
            Kind::Dowels => separate::dowels(whole, draft.cutter, host),
            Kind::Blind | Kind::Haunched | Kind::BareFaced | Kind::Loose => vec![whole],
            Kind::Through => vec![Tongue { to: host, ..whole }],
        };
        match plan.kind {
            Kind::Through => through(&mut draft, host)?,
            Kind::Loose | Kind::Dowels => draft.into_guest = separate::into_guest(&draft)?,
            Kind::Blind | Kind::Haunched | Kind::BareFaced | Kind::Twin => self.haunched(&mut draft),
        }
        Ok(draft)
    }

    fn length(&self, draft: &Draft<'_>, host: f64) -> f64 {
        let share = match draft.site.group {
            JointGroup::Back => self.design.back_tenon_depth(),
            _ => self.design.tenon_depth(),
        };
        let length = rules::tenon_length(draft.cutter, host, share / 100.0, draft.glue_gap);
        if draft.site.group == JointGroup::Fill { length.min(rules::FILL_TENON) } else { length }
    }

    /// A haunch as long as the tenon is thick, ending a little below the host's end so that it is not seen,
    /// where the tenon was lowered to leave the end of a leg whole.
    fn haunched(&self, draft: &mut Draft<'_>) {
        const BELOW_END: f64 = 3.0;
        let in_leg = matches!(draft.site.host.id.role, Role::FrontLeg | Role::BackLeg);
        let group = matches!(draft.site.group, JointGroup::Rails | JointGroup::Back);
        let top = draft.edges[1] - draft.across()[1];
        let lowered = top > draft.across()[0] - draft.edges[0] + 1.0 && top - BELOW_END >= LEAST_HAUNCH;
        if in_leg && group && lowered && self.design.leg_end() == LegEnd::Haunched {
            draft.haunch =
                Some(Haunch { length: draft.cutter.min(draft.length() - 1.0), width: top - BELOW_END });
        }
    }
}

/// A haunch shorter or narrower than this holds nothing, mm (common practice, no source).
pub(super) const LEAST_HAUNCH: f64 = 4.0;

/// The middle of the guest's full-thickness timber at the host's face, in the frame of a tenon.
fn middle(site: &Site<'_>) -> Result<Place, Unbuildable> {
    let guest = site.guest;
    let axis = guest.place.point(Vec3::Y * ((guest.core[0] + guest.core[1]) / 2.0));
    let centre = site.face.meet(axis, guest.place.x);
    let centre =
        centre.ok_or_else(|| trouble::lost(site, word("its axis runs along the face it should meet")))?;
    Ok(Place::new(centre, site.inward, guest.place.y))
}

fn mouth(site: &Site<'_>, middle: &Place, section: &Section) -> Place {
    let moved = middle.moved(middle.y * ((section.low + section.high) / 2.0) + middle.z * section.aside);
    Place { origin: site.face.meet(moved.origin, site.inward).unwrap_or(moved.origin), ..moved }
}

/// Two tongues with timber of the host between them.
fn twins(site: &Site<'_>, whole: Tongue, cutter: f64) -> Result<Vec<Tongue>, Unbuildable> {
    let each = (whole.width() - cutter.max(rules::TWIN_GAP)) / 2.0;
    if each < rules::TWIN_LEAST {
        return Err(trouble::no_twins(site, whole.width()));
    }
    let [low, high] = whole.y;
    Ok(vec![Tongue { y: [low, low + each], ..whole }, Tongue { y: [high - each, high], ..whole }])
}

/// Lets the tenon come out at the host's far face, if that is flat there.
fn through(draft: &mut Draft<'_>, host: f64) -> Result<(), Unbuildable> {
    let ([low, high], half) = (draft.across(), draft.cutter / 2.0);
    let around = [low - 1.0, high + 1.0].into_iter().flat_map(|y| [-half - 1.0, half + 1.0].map(|z| (y, z)));
    let mut starts = vec![draft.mouth.origin];
    starts.extend(around.map(|(y, z)| draft.mouth.point(Vec3::new(1.0, y, z))));
    // A face that the tenon would only graze is not the one behind.
    let far = far_face(&draft.site, &starts).filter(|far| far.normal.dot(draft.mouth.x) > 0.9);
    let far = far.ok_or_else(|| trouble::uneven(&draft.site))?;
    draft.far = Some(far);
    draft.longest = host;
    Ok(())
}

/// Room of the host above and below the guest's edges at the mouth.
pub(super) fn beyond_edges(site: &Site<'_>, middle: &Place, half: f64) -> Result<[f64; 2], Unbuildable> {
    let inside = middle.point(Vec3::X);
    let room = |d: Vec3| reach(site, inside, along_face(site, d)).map(|r| r - half);
    Ok([room(-middle.y)?, room(middle.y)?])
}
