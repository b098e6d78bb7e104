use super::*;
use crate::labour::Labour;
use crate::lists::sample::{ALLOWANCES, chair, chair_of};
use crate::lists::{cutting_list, exposed_area, glued_area};
use crate::money::Money;
use crate::shop::{Measure, PegPrice, PegUnit, Pricing, TimberPrices};
use proptest::prelude::*;

fn of(shop: &Shop) -> Result<Bill, Refusal> {
    let chair = chair();
    let rows = cutting_list(&chair, &ALLOWANCES, shop.thicknesses);
    bill(&chair, &rows, shop)
}

/// The demo without boards, so that timber is reckoned by its yield, as can be done by hand.
fn by_yield() -> Shop {
    Shop { stock: None, ..Shop::demo() }
}

/// The same without selling rates, so that its price is cost and profit alone.
fn by_cost() -> Shop {
    let shop = by_yield();
    let pricing = shop.pricing.map(|pricing| Pricing { selling_rates: None, ..pricing });
    Shop { pricing, ..shop }
}

fn line(bill: &Bill, id: &str) -> BillLine {
    bill.lines
        .iter()
        .find(|l| l.id == id)
        .cloned()
        .unwrap_or_else(|| panic!("no line {id}: {:#?}", bill.lines))
}

/// By hand: 470 × 69 × 32 mm / 0.65 = 0.001 597 m³ at 1620.00 are 2.58714, so 2.59.
#[test]
fn timber_of_the_rail_by_hand() {
    let rail = line(&of(&by_yield()).expect("priced"), "timber.ash_white.32");
    assert_eq!(
        (rail.what.as_str(), rail.unit, rail.parts.concat()),
        ("white ash, 32 mm", "m³", "C".to_owned())
    );
    assert_eq!(
        (rail.quantity.value(), rail.rate_minor, rail.amount_minor),
        (0.001_597, Money(162_000), Money(259))
    );
    assert!(rail.why.contains("0.001038 m³") && rail.why.contains("65 % end as rough parts"), "{}", rail.why);
}

/// Two tenons of 30 × 44 have 2 × 2 × 1320 = 5280 mm² of cheeks: 0.00528 m² × 180 g = 0.00095 kg.
#[test]
fn glue_of_two_tenons_by_hand() {
    assert!((glued_area(&chair()) - 5280.0).abs() < 1e-9);
    let glue = line(&of(&by_yield()).expect("priced"), "glue");
    assert_eq!(
        (glue.quantity.value(), glue.amount_minor, glue.parts.concat()),
        (0.001, Money(1), "C".to_owned())
    );
}

/// The sample's solids have no mortises or holes in them; so the hidden part of the hosts is taken off, too,
/// and the sum by hand does the same.
#[test]
fn exposed_area_by_hand() {
    let boxed = |l: f64, w: f64, t: f64| 2.0 * (l * w + l * t + w * t);
    let rail = 2.0 * 380.0 * (64.0 + 24.0) + 2.0 * 64.0 * 24.0 + 2.0 * 2.0 * 30.0 * (44.0 + 9.0);
    let bodies = 2.0 * boxed(440.0, 38.0, 38.0) + 2.0 * boxed(880.0, 90.0, 36.0)
        + 2.0 * 2.0 * 5.0 * 7.0 // the ends of each back leg's notch
        + rail + 3.0 * boxed(420.0, 55.0, 16.0) + 4.0 * boxed(33.0, 6.0, 6.0);
    let tenon = 2.0 * 30.0 * (44.0 + 9.0) + 44.0 * 9.0;
    let mortise = 2.0 * 31.5 * (44.0 + 9.0) + 44.0 * 9.0;
    let shoulders = 2.0 * (64.0 * 24.0 - 44.0 * 9.0);
    let pegs = 2.0 * (2.0 * (24.0 * 33.0 + 36.0) - 4.0 * 36.0);
    let hidden = 2.0 * (tenon + mortise + shoulders + pegs);
    assert!((exposed_area(&chair()) - (bodies - hidden)).abs() < 1e-6);
}

#[test]
fn pegs_and_screws_are_counted() {
    let each = of(&by_yield()).expect("priced");
    assert_eq!((line(&each, "pegs").quantity.value(), line(&each, "pegs").amount_minor), (4.0, Money(72)));
    let screws = line(&each, "fixings");
    assert_eq!(
        (screws.quantity.value(), screws.amount_minor, screws.parts.concat()),
        (12.0, Money(84), "D".to_owned())
    );
    // Four pegs of 33 + 30 mm and a kerf of 3 mm each: 0.264 m.
    let rod = Shop { pegs: PegPrice { by: PegUnit::Metre, price: Money(250) }, ..by_yield() };
    let pegs = line(&of(&rod).expect("priced"), "pegs");
    assert_eq!((pegs.quantity.value(), pegs.unit, pegs.amount_minor), (0.264, "m", Money(66)));
}

#[test]
fn timber_may_be_sold_by_board_foot() {
    let shop = by_yield();
    let shop = Shop { timber: TimberPrices { measure: Measure::BoardFoot, ..shop.timber }, ..shop };
    let rail = line(&of(&shop).expect("priced"), "timber.ash_white.32");
    // 0.001 596 55 m³ / 0.002 359 737 m³ = 0.677.
    assert_eq!((rail.quantity.value(), rail.unit), (0.677, "board ft"));
}

#[test]
fn a_species_without_a_price_is_refused() {
    let shop = by_yield();
    let rows = shop.timber.rows.iter().filter(|r| r.species.id != "ash_white").cloned().collect();
    let shop = Shop { timber: TimberPrices { rows, ..shop.timber }, ..shop };
    let refusal = of(&shop).expect_err("no price");
    assert!(refusal.where_ == "species" && refusal.why.contains("no price for white ash"), "{refusal}");
}

#[test]
fn the_bill_is_written_with_the_agreed_names() {
    let value = serde_json::to_value(of(&by_yield()).expect("priced")).expect("JSON");
    let names =
        |v: &serde_json::Value| v.as_object().expect("object").keys().cloned().collect::<Vec<_>>().join(" ");
    assert_eq!(
        names(&value),
        "currency deposit_minor lines minor_digits missing price_minor sums total_minor"
    );
    assert_eq!(names(&value["lines"][0]), "amount_minor group id parts quantity rate_minor unit what why");
    assert!(value["total_minor"].is_i64() && value["lines"][0]["quantity"].is_f64());
}

proptest! {
    /// The total is the sum of the lines for any rates, and a dearer timber never makes a cheaper chair.
    #[test]
    fn totals_add_up(price in 0_i64..10_000_000, glue in 0_i64..100_000, yield_share in 0.2..1.0_f64, coats in 0_u32..20) {
        let mut shop = by_yield();
        shop.timber.yield_share = yield_share;
        shop.timber.rows.iter_mut().for_each(|r| r.price = Money(price));
        shop.glue.price_per_kg = Money(glue);
        shop.finish.coats = coats;
        let cheap = of(&shop).expect("priced");
        prop_assert_eq!(cheap.lines.iter().map(|l| l.amount_minor.0).sum::<i64>(), cheap.total_minor.0);
        shop.timber.rows.iter_mut().for_each(|r| r.price = Money(price + 100));
        prop_assert!(of(&shop).expect("priced").total_minor >= cheap.total_minor);
    }
}

#[test]
fn timbers_differ_only_where_they_should() {
    let shop = by_yield();
    let quantities = |timber_id: &str| {
        let chair = chair_of(timber_id);
        let rows = cutting_list(&chair, &ALLOWANCES, shop.thicknesses);
        let bill = bill(&chair, &rows, &shop).expect("priced");
        bill.lines.iter().map(|l| l.quantity).collect::<Vec<_>>()
    };
    assert_eq!(quantities("oak_white"), quantities("pine_scots"));
}

fn seat_bill(seat: &str, shop: &Shop) -> Result<Bill, Refusal> {
    let design = crate::design::Design::from_value(&serde_json::json!({ "seat": seat })).expect("a design");
    let chair = Chair::resolve(&design, &shop.bench()).expect("it can be built");
    let rows = cutting_list(&chair, &ALLOWANCES, shop.thicknesses);
    bill(&chair, &rows, shop)
}

/// What a seat is made of has a line of its own and is no timber.
#[test]
fn seats_are_billed_by_their_material() {
    let lines = |seat: &str, start: &str| {
        let bill = seat_bill(seat, &by_yield()).expect("priced");
        bill.lines.into_iter().filter(|l| l.id.starts_with(start)).collect::<Vec<_>>()
    };
    let pad: Vec<String> = lines("pad", "seat.").into_iter().map(|l| l.id).collect();
    assert_eq!(pad, ["seat.plywood.J", "seat.foam.JP", "seat.cover.JP"]);
    assert!(lines("pad", "timber.").iter().all(|l| !l.parts.iter().any(|p| p == "J" || p == "JP")));
    let cord = &lines("cord", "seat.")[0];
    assert!(cord.unit == "m" && (80.0..180.0).contains(&cord.quantity.value()), "{cord:?}");
    assert_eq!(cord.rate_minor, Money(17));
    assert!(lines("across", "seat.").is_empty() && lines("board", "seat.").is_empty());
    assert_eq!(lines("board", "fixings")[0].quantity.value(), 6.0);
    assert_eq!(lines("cord", "fixings").len(), 0);
    assert!(lines("pad", "fixings")[0].what.contains("ledges"));
}

/// A seat without a price is refused with its field and a seat that needs none; other seats are priced.
#[test]
fn a_seat_without_a_price_is_refused() {
    let shop = Shop { seating: crate::shop::Seating::default(), ..by_yield() };
    for (seat, field) in [("pad", "plywood_per_m2"), ("cord", "cord_per_metre")] {
        let refusal = seat_bill(seat, &shop).expect_err(seat);
        assert!(refusal.where_ == "seat" && refusal.why.contains(field), "{refusal}");
        assert_eq!(refusal.mend.map(|m| m.value), Some("across".into()));
    }
    assert!(seat_bill("board", &shop).is_ok() && seat_bill("lengthwise", &shop).is_ok());
}

/// By hand, in cents: material and labour of the sample, then each rule of the invented shop in turn.
#[test]
fn from_cost_to_price_by_hand() {
    let shop = by_cost();
    let bill = of(&shop).expect("priced");
    let sum = |group: Group| bill.sums.iter().find(|s| s.group == group).map_or(0, |s| s.amount_minor.0);
    let half_up = |exact: f64| (exact + 0.5).floor() as i64;
    let hours = Labour::of(&chair(), &cutting_list(&chair(), &ALLOWANCES, shop.thicknesses), &shop, 1)
        .expect("times")
        .hours;
    assert_eq!(sum(Group::Overhead), half_up(hours * 1150.0));
    let cost = sum(Group::Material) + sum(Group::Labour) + sum(Group::Overhead);
    assert_eq!(sum(Group::Contingency), half_up(cost as f64 * 0.04));
    let cost = cost + sum(Group::Contingency);
    // A margin of 22 % is 0.22 / 0.78 = 0.282051 on the cost.
    assert_eq!(sum(Group::Profit), half_up(cost as f64 * 0.282_051));
    let price = cost + sum(Group::Profit) + sum(Group::Rounding);
    assert!(price % 500 == 0 && (0..500).contains(&sum(Group::Rounding)), "{price}");
    assert_eq!((bill.price_minor, sum(Group::Delivery)), (Money(price), 4800 + 900));
    assert_eq!(sum(Group::Tax), half_up((price + 5700) as f64 * 0.175));
    assert_eq!(bill.total_minor.0, price + 5700 + sum(Group::Tax));
    assert_eq!(bill.deposit_minor, Some(Money(half_up(bill.total_minor.0 as f64 * 0.4))));
    assert!(bill.missing.is_empty());
}

/// By hand: a mark-up of 15 % on material with its 4 % of contingency, and the margin on all the rest; by percent of cost,
/// material bears its overhead, too.
#[test]
fn material_may_bear_a_profit_of_its_own() {
    for (overhead, bears) in [("{\"per_hour\": 11.5}", 0.0), ("{\"percent_of_cost\": 30}", 0.3)] {
        let mut file: serde_json::Value = serde_json::from_str(crate::shop::DEMO_SHOP).expect("JSON");
        file["pricing"]["profit_on_material"] = serde_json::json!({"markup": 15});
        file["pricing"]["overhead"] = serde_json::from_str(overhead).expect("JSON");
        let shop = Shop::from_value(&file).expect("a shop");
        let bill = of(&Shop { stock: None, ..shop }).expect("priced");
        let sum = |group: Group| bill.sums.iter().find(|s| s.group == group).map_or(0, |s| s.amount_minor.0);
        let half_up = |exact: f64| (exact + 0.5).floor() as i64;
        let material = sum(Group::Material) + half_up(sum(Group::Material) as f64 * bears);
        let material = material + half_up(material as f64 * 0.04);
        let all = [Group::Material, Group::Labour, Group::Overhead, Group::Contingency].map(sum);
        let rest = all.iter().sum::<i64>() - material;
        assert_eq!(line(&bill, "profit.material").amount_minor.0, half_up(material as f64 * 0.15));
        assert_eq!(line(&bill, "profit").amount_minor.0, half_up(rest as f64 * 0.282_051));
        assert!(line(&bill, "profit.material").what.contains("on material"));
    }
}

/// By hand: each rate of the sheet times what the sample has of it, and its timber at the selling rate.
#[test]
fn selling_rates_by_hand() {
    let shop = by_yield();
    let bill = of(&shop).expect("priced");
    let sheet = crate::rates::PriceSheet::of(&shop).expect("selling rates");
    let each = |work: crate::rates::Work| {
        let rate = sheet.work.iter().find(|rate| rate.work == work).expect("a rate");
        [rate.each, rate.once].map(|money| money.0 as f64 / 1000.0)
    };
    // 40.5 an hour with contingency and margin are 54.00 an hour, 90 cents a minute; a part takes 3 + 2 min, so 4.50.
    assert_eq!(each(crate::rates::Work::Part), [450.0, 0.0]);
    // 470 mm and more of every part: 1.2 min to rip a metre and 4 × 0.8 to plane it, 3.96: 4.00.
    assert_eq!(each(crate::rates::Work::Metre), [400.0, 0.0]);
    // 1620.00 × 1.04 × 1.282051 = 2160.00, between 2120 and 2240.
    assert_eq!(
        sheet.timber.rows.iter().find(|r| r.species.id == "ash_white").map(|r| r.price),
        Some(Money(212_000))
    );
    let rates = line(&bill, "rounding.rates");
    let before: i64 =
        bill.lines.iter().take_while(|l| l.id != "rounding.rates").map(|l| l.amount_minor.0).sum();
    let share = rates.amount_minor.0 as f64 / before as f64;
    assert!(share.abs() < 0.03 && rates.group == Group::Rounding, "{share}");
    assert!(rates.why.contains("R40"), "{}", rates.why);
}

/// What the file does not say is not in the bill, and the bill says so.
#[test]
fn what_is_missing_is_said() {
    let silent = Shop { labour: None, pricing: None, ..by_yield() };
    let bill = of(&silent).expect("priced");
    assert!(bill.lines.iter().all(|line| line.group == Group::Material));
    assert_eq!((bill.price_minor, bill.deposit_minor), (bill.total_minor, None));
    assert_eq!(bill.missing.len(), 2);
    assert!(bill.missing[0].contains("\"labour\": the bill holds no labour"), "{:?}", bill.missing);
    assert!(bill.missing[1].contains("\"pricing\": the bill holds no overhead"), "{:?}", bill.missing);
}

/// Every line names parts of the chair, and a line of labour its operation.
#[test]
fn every_line_is_traced() {
    let bill = of(&by_yield()).expect("priced");
    let letters = ["A", "B", "C", "D", "E"];
    for line in &bill.lines {
        assert!(
            !line.parts.is_empty() && line.parts.iter().all(|l| letters.contains(&l.as_str())),
            "{line:?}"
        );
        assert!(line.why.ends_with('.'), "{line:?}");
    }
    let labour = bill.lines.iter().filter(|l| l.group == Group::Labour);
    assert!(
        labour.clone().count() > 8 && labour.clone().all(|l| l.id.starts_with("labour.") && l.unit == "h")
    );
}

fn percent(hundredths: u32) -> String {
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

proptest! {
    /// Whatever the rates, the total is the sum of the lines and the sum of the groups, to the last unit, in every kind
    /// of currency.
    #[test]
    fn any_shop_adds_up(
        currency in prop::sample::select(vec!["EUR", "JPY", "KWD", "CLF"]),
        rate in 0_u32..500, over in 0_u32..90_000, profit in 0_u32..9_000, tax in 0_u32..10_000,
        to in 1_u32..500, way in prop::sample::select(vec!["up", "nearest", "down"]), margin in prop::bool::ANY,
    ) {
        let mut file: serde_json::Value = serde_json::from_str(crate::shop::DEMO_SHOP).expect("JSON");
        // Prices of the demo have decimals that not every currency has.
        for at in ["/pegs/price", "/glue/price_per_kg", "/finish/price_per_litre", "/fixings/price"] {
            *file.pointer_mut(at).expect(at) = 7.into();
        }
        file["seating"] = serde_json::json!({});
        file["currency"] = currency.into();
        file["labour"]["rate"] = rate.into();
        let number = |text: String| text.parse::<f64>().expect("a number");
        file["pricing"]["overhead"] = serde_json::json!({"percent_of_cost": number(percent(over))});
        let kind = if margin { "margin" } else { "markup" };
        file["pricing"]["profit"] = serde_json::json!({kind: number(percent(profit))});
        file["pricing"]["tax"]["percent"] = number(percent(tax)).into();
        file["pricing"]["rounding"] = serde_json::json!({"to": to, "way": way});
        let bill = of(&Shop::from_value(&file).expect("a shop")).expect("priced");
        let total = bill.total_minor.0;
        prop_assert_eq!(bill.lines.iter().map(|l| l.amount_minor.0).sum::<i64>(), total);
        prop_assert_eq!(bill.sums.iter().map(|s| s.amount_minor.0).sum::<i64>(), total);
        let before_sale = bill.lines.iter().filter(|l| l.group < Group::Delivery).map(|l| l.amount_minor.0).sum::<i64>();
        prop_assert_eq!(before_sale, bill.price_minor.0);
        let step = i64::from(to) * 10_i64.pow(u32::from(bill.minor_digits));
        prop_assert_eq!(bill.price_minor.0 % step, 0);
        prop_assert!(bill.deposit_minor.is_none_or(|deposit| (0..=total).contains(&deposit.0)));
        for line in &bill.lines {
            prop_assert_eq!(line.rate_minor.times(line.quantity), Some(line.amount_minor));
        }
    }
}
