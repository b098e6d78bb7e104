//! A report as a page of text that somebody can read.

use crestrail_chair::bill::Bill;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::labour::Labour;
use crestrail_chair::lists::{CuttingRow, JointRow, TimberLine};
use crestrail_chair::nearest;
use crestrail_chair::plan::BoardsNeeded;
use crestrail_chair::report::{Report, report};
use crestrail_chair::shop::Shop;
use crestrail_chair::unbuildable::Unbuildable;
use std::fmt::{self, Write};

/// The page of a design: its report, or why it cannot be built.
pub fn of(name: &str, design: &Design, shop: &Shop) -> String {
    let mut page = String::new();
    let written = match Chair::resolve(design, &shop.bench()) {
        Ok(chair) => built(&mut page, name, &report(design, &chair, shop)),
        Err(clash) => refused(&mut page, name, design, &clash, shop),
    };
    written.expect("a text takes whatever is written");
    page
}

fn refused(to: &mut String, name: &str, design: &Design, clash: &Unbuildable, shop: &Shop) -> fmt::Result {
    writeln!(to, "{name}: cannot be built\n\nstage {:?}\nwhy   {}", clash.stage, clash.why)?;
    writeln!(to, "knobs {}", clash.knobs.join(", "))?;
    match nearest::mend(design, clash, &shop.bench()) {
        Some(mend) => writeln!(to, "mend  {}", mend.say),
        None => writeln!(to, "mend  none by one knob"),
    }
}

fn built(to: &mut String, name: &str, report: &Report) -> fmt::Result {
    let o = &report.overall;
    writeln!(to, "{name}\n\nOVERALL")?;
    writeln!(to, "  {} wide, {} deep, {} high, seat at {} mm", o.width, o.depth, o.height, o.seat_height)?;
    writeln!(to, "  {:.3} kg, {} parts, {} pegs", o.mass_kg, o.parts, o.pegs)?;
    writeln!(to, "\nCUTTING LIST (finished, then rough, mm)")?;
    report.cutting_list.iter().try_for_each(|row| cutting(to, row))?;
    writeln!(to, "\nJOINTS (mm)")?;
    report.joints.iter().try_for_each(|row| joint(to, row))?;
    writeln!(to, "\nASSEMBLY")?;
    for row in &report.assembly {
        writeln!(to, "  {}. {} [{}]\n     {}", row.number, row.title, row.letters.join(" "), row.say)?;
    }
    writeln!(to, "\nFINDINGS")?;
    for finding in &report.findings {
        writeln!(
            to,
            "  {:?}, {:.3} of the limit: {}: {}",
            finding.verdict, finding.used, finding.subject, finding.say
        )?;
    }
    writeln!(to, "\nTIMBER")?;
    report.timber.lines.iter().try_for_each(|line| timber(to, line))?;
    writeln!(to, "\nBOARDS")?;
    report.boards.iter().try_for_each(|class| boards(to, class))?;
    writeln!(to, "\nBILL")?;
    match (&report.bill, &report.no_bill) {
        (Some(lines), _) => bill(to, lines)?,
        (None, refusal) => writeln!(to, "  none: {refusal:?}")?,
    }
    report.labour.iter().try_for_each(|work| labour(to, work))?;
    writeln!(to, "\nCAUTIONS")?;
    report.cautions.iter().try_for_each(|caution| writeln!(to, "  {caution}"))
}

fn cutting(to: &mut String, row: &CuttingRow) -> fmt::Result {
    let (f, r) = (row.finished, row.rough);
    writeln!(
        to,
        "  {:3} {:2} × {:16} {:7.2} × {:6.2} × {:5.2}   {:7.2} × {:6.2} × {:5.2}   {} of {}{}; {:.0} mm³, {:.4} kg{}",
        row.letter,
        row.quantity,
        row.part,
        f.length,
        f.width,
        f.thickness,
        r.length,
        r.width,
        r.thickness,
        row.trade.unwrap_or("no trade size"),
        row.timber,
        if row.handed { ", handed" } else { "" },
        row.volume_mm3,
        row.mass_kg,
        if row.note.is_empty() { String::new() } else { format!("; {}", row.note) },
    )
}

fn joint(to: &mut String, row: &JointRow) -> fmt::Result {
    let (t, s, m, a) = (&row.tenon, &row.shoulders, &row.mortise, &row.angles);
    writeln!(to, "  {} × {} ({} in {})", row.quantity, row.name, row.letter_guest, row.letter_host)?;
    writeln!(
        to,
        "      tenon {} × {} × {}, shoulders {} {} {} {}",
        t.length, t.width, t.thickness, s.top, s.bottom, s.front, s.back
    )?;
    if let Some(haunch) = &row.haunch {
        writeln!(to, "      haunch {} × {}", haunch.length, haunch.width)?;
    }
    if let Some(mitre) = &row.mitre {
        writeln!(to, "      mitred to {} with the {}, gap {}", mitre.short_length, mitre.with, mitre.gap)?;
    }
    let height: String =
        m.above_floor.iter().map(|[low, high]| format!(", {low} to {high} above the floor")).collect();
    writeln!(
        to,
        "      mortise {} × {} × {}, glue gap {}, wall {}, end {}{height}",
        m.depth, m.width, m.thickness, m.glue_gap, m.wall, m.from_end
    )?;
    for peg in &row.pegs {
        writeln!(
            to,
            "      {} peg {}: {} from the face, {} from the middle, {} long",
            peg.shape, peg.size, peg.from_face, peg.from_middle, peg.length
        )?;
    }
    writeln!(
        to,
        "      angles: shoulder {}° {}°, tenon to grain {}°, mortise {}°",
        a.shoulder_across_width, a.shoulder_across_thickness, a.tenon_to_grain, a.mortise_from_square
    )
}

fn timber(to: &mut String, line: &TimberLine) -> fmt::Result {
    writeln!(
        to,
        "  {} {}: net {:.6} m³, rough {:.6} for {}",
        line.species,
        line.thickness.unwrap_or("to order"),
        line.volume_m3,
        line.rough_m3,
        line.parts.join(" ")
    )
}

fn boards(to: &mut String, class: &BoardsNeeded) -> fmt::Result {
    let thickness = class.thickness.unwrap_or("to order");
    writeln!(
        to,
        "  {} {thickness}: {:.1} % used for {}",
        class.species,
        100.0 * class.yields,
        class.parts.join(" ")
    )?;
    let lists = [("rack", &class.rack), ("yard", &class.buy)];
    for (from, stack) in lists.iter().flat_map(|(from, list)| list.iter().map(move |s| (from, s))) {
        writeln!(
            to,
            "    {from}: {} of {} × {} at {}",
            stack.count, stack.length, stack.width, stack.each_minor.0
        )?;
    }
    class.missing.iter().try_for_each(|m| writeln!(to, "    missing: {} of {}", m.count, m.letter))
}

fn labour(to: &mut String, labour: &Labour) -> fmt::Result {
    writeln!(to, "\nLABOUR by {}", labour.method)?;
    for stage in &labour.stages {
        writeln!(to, "  {:8.4} h  {} ({})", stage.hours, stage.name, stage.parts.join(" "))?;
    }
    let (hours, lead) = (labour.hours, &labour.lead);
    writeln!(to, "  {hours:8.4} h  in all; ready in {} working days. {}", lead.working_days, lead.why)
}

fn bill(to: &mut String, bill: &Bill) -> fmt::Result {
    for line in &bill.lines {
        writeln!(
            to,
            "  {:8}  {}: {} {} at {}. {}",
            line.amount_minor.0, line.what, line.quantity, line.unit, line.rate_minor.0, line.why
        )?;
    }
    writeln!(to, "  {:8}  total, {} with {} decimals", bill.total_minor.0, bill.currency, bill.minor_digits)
}
