//! The report: all that the page shows of a design.

use crate::bill::{Bill, TimberUsed, bill_of};
use crate::chair::Chair;
use crate::checks::fit::Fit;
use crate::checks::{Checked, checked, doubted};
use crate::choices::{Pegs, Sits, Table, Weight};
use crate::climate::Climate;
use crate::design::Design;
use crate::finding::Finding;
use crate::joints::{Bench, Cutters};
use crate::labour::Labour;
use crate::length::Lengths;
use crate::lists::{
    Allowances, AssemblyRow, CuttingRow, JointRow, Timber, assembly_steps, cautions, cutting_list,
    joint_list, tenths, timber,
};
use crate::part::Role;
use crate::plan::{BoardsNeeded, TimberPlan, plan_of_one};
use crate::refusal::Refusal;
use crate::service::{Service, TableAt};
use crate::shop::Shop;
use crestrail_geometry::Bounds;
use crestrail_sitter::Sitter;
use serde::Serialize;

/// All that the page shows of a design. Lengths mm, masses kg, money in minor units.
#[derive(Clone, Debug, Serialize)]
pub struct Report {
    /// Kind and version of the report.
    pub crestrail: &'static str,
    /// The values of all knobs.
    pub design: serde_json::Map<String, serde_json::Value>,
    /// Sizes of the whole chair.
    pub overall: Overall,
    /// What to cut.
    pub cutting_list: Vec<CuttingRow>,
    /// What to mark.
    pub joints: Vec<JointRow>,
    /// How it goes together, step by step.
    pub assembly: Vec<AssemblyRow>,
    /// What was checked, the worst first.
    pub findings: Vec<Finding>,
    /// How many findings are sound, also where these are left out.
    pub sound: usize,
    /// How it fits whoever sits on it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fit: Option<Fit>,
    /// What timber is in it.
    pub timber: Timber,
    /// Which boards it takes when made alone; empty where the shop has no stock list, or no price for the timber.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub boards: Vec<BoardsNeeded>,
    /// What it costs; nothing where the shop has no price for something.
    pub bill: Option<Bill>,
    /// Why there is no bill.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub no_bill: Option<Refusal>,
    /// How long it takes, made alone; nothing where the shop's file has no times.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub labour: Option<Labour>,
    /// What can hurt somebody.
    pub cautions: Vec<String>,
}

/// Sizes of the whole chair.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Overall {
    /// Over everything, side to side, mm.
    pub width: f64,
    /// Over everything, front to back, mm.
    pub depth: f64,
    /// From the floor to the highest corner, mm.
    pub height: f64,
    /// Top of the seat, mm.
    pub seat_height: f64,
    /// Mass of all parts at 12 % moisture, kg.
    pub mass_kg: f64,
    /// Number of parts without pegs.
    pub parts: usize,
    /// Number of pegs.
    pub pegs: usize,
}

/// The report of a chair that was resolved from `design`.
pub fn report(design: &Design, chair: &Chair, shop: &Shop) -> Report {
    with(checked(chair, &service(design)), design, chair, shop)
}

/// The same without the findings that are sound, which nobody reads while a knob is moved.
pub fn report_of_doubts(design: &Design, chair: &Chair, shop: &Shop) -> Report {
    with(doubted(chair, &service(design)), design, chair, shop)
}

fn with(checked: Checked, design: &Design, chair: &Chair, shop: &Shop) -> Report {
    let rows = cutting_list(chair, &allowances(design), shop.thicknesses);
    let timber = timber(&rows, shop);
    let labour = Labour::of(chair, &rows, shop, 1);
    let plan = plan_of_one(chair, &rows, shop);
    let boards = plan.as_ref().ok().and_then(Option::as_ref).map_or_else(Vec::new, TimberPlan::boards_needed);
    let bill = plan.and_then(|plan| {
        bill_of(chair, &rows, &timber, TimberUsed::of(plan.as_ref(), 0, 1), labour.as_ref(), shop)
    });
    let (bill, no_bill) = match bill {
        Ok(bill) => (Some(bill), None),
        Err(refusal) => (None, Some(refusal)),
    };
    let Checked { findings, sound, fit } = checked;
    Report {
        crestrail: "report/1",
        design: design.to_map(),
        overall: overall(design, chair),
        joints: joint_list(chair),
        assembly: assembly_steps(chair, Lengths::Millimetres),
        findings,
        sound,
        fit,
        cautions: cautions(&rows, shop),
        cutting_list: rows,
        timber,
        boards,
        bill,
        no_bill,
        labour,
    }
}

/// What a design is meant to serve.
pub fn service(design: &Design) -> Service {
    Service {
        user: design.user().mass(),
        pegged: design.pegs() != Pegs::None,
        sitter: sitter(design),
        table: table(design),
        climate: Climate::of(design.stands().humidity(), design.made_at()),
    }
}

fn sitter(design: &Design) -> Sitter {
    match design.sits() {
        Sits::Adults => Sitter::Adults,
        Sits::Adult => Sitter::Stature {
            mm: design.stature(),
            sex: None,
            weight_kg: (design.weight_known() == Weight::Given).then(|| design.weight()),
        },
        Sits::Child => Sitter::Child { stature_mm: design.child_stature() },
        // The knob ends at 7.
        Sits::School => Sitter::School { mark: design.school_mark() as u8 },
    }
}

fn table(design: &Design) -> Option<TableAt> {
    let top = design.table_height();
    (design.table() == Table::Given).then(|| TableAt { top, underside: top - design.table_depth() })
}

/// The sawing allowances of a design.
pub fn allowances(design: &Design) -> Allowances {
    Allowances {
        length: design.allowance_length(),
        width: design.allowance_width(),
        thickness: design.allowance_thickness(),
    }
}

impl Shop {
    /// What the shop brings to its joints.
    pub fn bench(&self) -> Bench {
        Bench { cutters: Cutters::new(&self.cutters), fit: self.joint_fit }
    }
}

/// The sizes of the whole chair.
pub fn overall(design: &Design, chair: &Chair) -> Overall {
    let corners = |(part, body): (&crate::part::Part, &crate::chair::PartBody)| {
        body.solid.vertices.iter().map(|&v| part.place.point(v)).collect::<Vec<_>>()
    };
    let all: Vec<_> = chair.pieces().flat_map(corners).collect();
    let size = Bounds::around(&all).size();
    let pegs = chair.parts.iter().filter(|p| p.id.role == Role::Peg).count();
    Overall {
        width: tenths(size.x),
        depth: tenths(size.y),
        height: tenths(size.z),
        seat_height: design.seat_height(),
        mass_kg: chair.pieces().map(|(part, body)| part.material.mass(body.volume)).sum(),
        parts: chair.parts.len() - pegs,
        pegs,
    }
}
