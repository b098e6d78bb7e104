//! The timber plan, its drawings and its files.

use super::file::{CSV, Made, file_name, unwritten};
use super::orders::order_of;
use crate::progress::Progress;
use crate::refused::Refused;
use crate::request::Request;
use core::ops::ControlFlow;
use crestrail_chair::chair::Chair;
use crestrail_chair::drawing;
use crestrail_chair::export::{plan_csv, report_json};
use crestrail_chair::lists::cutting_list;
use crestrail_chair::order::timber_plan;
use crestrail_chair::plan::{self as planning, Effort, RoughPieces, SetRow, Standing, TimberPlan, Wanted};
use crestrail_chair::refusal::Refusal;
use crestrail_chair::report::allowances;
use crestrail_chair::shop::Shop;
use crestrail_phrases::word;
use crestrail_sheet::svg;
use serde_json::{Value, json};

/// The plan and a drawing of each board.
pub(crate) fn plan(request: &Request, progress: &Progress<'_>) -> Result<Value, Refused> {
    let (plan, scheme) = (planned(request, progress)?, request.view()?.scheme);
    let drawn = |class: &planning::ClassPlan| -> Vec<String> {
        class.boards.iter().map(|b| svg::write(&drawing::board(class, b, plan.kerf, scheme))).collect()
    };
    let boards: Vec<Vec<String>> = plan.classes.iter().map(drawn).collect();
    Ok(json!({ "plan": plan, "boards": boards }))
}

/// What sets of chairs of one design take.
pub(crate) fn sets_of(request: &Request, progress: &Progress<'_>) -> Result<Vec<SetRow>, Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    let chair = Chair::resolve(&design, &shop.bench())?;
    let rows = cutting_list(&chair, &allowances(&design), shop.thicknesses);
    let one = Wanted { pieces: &RoughPieces::of(&chair, &rows), count: 1 };
    let rows = planning::sets(one, &shop, Effort::SETS, &mut |standing| told(progress, standing))?;
    rows.ok_or_else(|| no_stock(&shop).into())
}

/// A file of the plan.
pub(crate) fn file(request: &Request, progress: &Progress<'_>) -> Result<Made, Refused> {
    let (kind, name) = (request.text("kind"), request.text("name"));
    let plan = planned(request, progress)?;
    let (media, ending, bytes) = match kind {
        "plan_svg" => {
            let sheet = drawing::boards(&plan, drawing::Scheme::Light);
            ("image/svg+xml", "timber-plan.svg", svg::write(&sheet).into_bytes())
        }
        "plan_csv" => (CSV, "timber-plan.csv", plan_csv(name, &plan).map_err(|e| unwritten(&e))?),
        "plan_json" => {
            let text = report_json(&plan).map_err(|e| unwritten(&e))?;
            ("application/json", "timber-plan.json", text.into_bytes())
        }
        _ => {
            let why = "There is no file of this kind; it can be plan_svg, plan_csv or plan_json.";
            return Err(Refusal::new("kind", why).into());
        }
    };
    Ok(Made::new(file_name(name, ending), media, bytes))
}

fn told(progress: &Progress<'_>, standing: Standing) -> ControlFlow<()> {
    progress.tell((100.0 * standing.done) as usize, 100, word("Laying pieces on boards"));
    ControlFlow::Continue(())
}

fn planned(request: &Request, progress: &Progress<'_>) -> Result<TimberPlan, Refused> {
    let shop = request.shop()?;
    let effort = match request.text("effort") {
        "quick" => Effort::PRICE,
        "" | "good" => Effort::SAW,
        _ => return Err(Refusal::new("effort", "The effort must be \"quick\" or \"good\".").into()),
    };
    let order = order_of(request)?;
    let plan = timber_plan(&order.made(&shop)?, &shop, effort, &mut |standing| told(progress, standing))?;
    plan.ok_or_else(|| no_stock(&shop).into())
}

fn no_stock(shop: &Shop) -> Refusal {
    let why = format!(
        "{} has no stock list, so no boards can be planned. Add \"stock\" to the shop's file: the boards your yard offers.",
        shop.name
    );
    Refusal::new("shop.stock", why)
}
