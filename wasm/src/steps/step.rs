//! One step of a knob: from values to report and picture.

use crate::refused::Refused;
use crate::request::Request;
use crate::steps::stopwatch::Stopwatch;
use crestrail_chair::chair::Chair;
use crestrail_chair::dimensions::{Dimensions, dimensions};
use crestrail_chair::drawing::exploded;
use crestrail_chair::report::{Report, report, report_of_doubts, service};
use crestrail_sheet::svg;
use serde::Serialize;

/// What a step brings; what was not wanted is left out.
#[derive(Serialize)]
pub(crate) struct Stepped {
    #[serde(skip_serializing_if = "Option::is_none")]
    report: Option<Report>,
    #[serde(skip_serializing_if = "Option::is_none")]
    picture: Option<String>,
    /// The dimension lines over the picture, where the view keeps room for them.
    #[serde(skip_serializing_if = "Option::is_none")]
    dimensions: Option<Dimensions>,
    marks: Marks,
}

/// The time that each stage took, ms; 0 for a stage that was not wanted.
#[derive(Serialize)]
struct Marks {
    resolve: f64,
    report: f64,
    picture: f64,
}

/// Answers a step's request.
pub(crate) fn step(request: &Request) -> Result<Stepped, Refused> {
    let (design, shop, view) = (request.design()?, request.shop()?, request.view()?);
    let clock = Stopwatch::new();
    let (chair, resolve) = clock.time("resolve", || Chair::resolve(&design, &shop.bench()));
    let chair = chair?;
    let wanted = |what: &str| request.wants("want", what);
    let told = if request.names("leave", "sound") { report_of_doubts } else { report };
    let (report, report_time) =
        split(wanted("report").then(|| clock.time("report", || told(&design, &chair, &shop))));
    let (picture, picture_time) = split(
        wanted("picture")
            .then(|| clock.time("picture", || svg::write(&exploded(&chair, &view, &service(&design))))),
    );
    let measured = wanted("picture") && view.dimensions.is_some();
    let dimensions = measured.then(|| dimensions(&chair, &design, &view));
    Ok(Stepped {
        report,
        picture,
        dimensions,
        marks: Marks { resolve, report: report_time, picture: picture_time },
    })
}

fn split<T>(timed: Option<(T, f64)>) -> (Option<T>, f64) {
    timed.map_or((None, 0.0), |(made, took)| (Some(made), took))
}
