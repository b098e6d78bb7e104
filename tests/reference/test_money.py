"""Money recomputed with decimals: bills of random shops, orders with their price breaks, minor units of currencies against a packaged list
of ISO 4217, hours and lead time from the shop's own minutes, and quotes that hold nothing private."""

import copy
import json
import math
import random
import unittest
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal

import iso4217

from probe import Probe, ROOT, Refused

SEED = 31
SHOPS = 40
SHOP = json.loads((ROOT / "core/chair/data/shop.json").read_text(encoding="utf-8"))
DESIGNS = [
    {},
    {"family": "armchair", "seat": "board"},
    {"family": "stool", "seat": "cord"},
    {"seat": "pad", "back": "panel", "rail_joint": "dowels"},
]
SIX = Decimal("0.000001")


def half_up(value, step=Decimal(1)):
    return value.quantize(step, ROUND_HALF_UP)


def random_shop(rng):
    """The invented shop with other rates."""
    shop = copy.deepcopy(SHOP)
    labour, pricing = shop["labour"], shop["pricing"]
    labour["rate"] = rng.randint(0, 12_000) / 100
    labour["batch"] = rng.choice([1, 1, 4])
    labour["method"] = rng.choice(["hand", "router", "machine"])
    percent = lambda most: rng.randint(0, most * 100) / 100
    pricing["overhead"] = rng.choice([{"per_hour": rng.randint(0, 5000) / 100}, {"percent_of_cost": percent(200)}])
    pricing["contingency"] = percent(30)
    pricing["profit"] = rng.choice([{"margin": percent(90)}, {"markup": percent(300)}])
    if rng.random() < 0.5:
        pricing["profit_on_material"] = rng.choice([{"margin": percent(90)}, {"markup": percent(300)}])
    if rng.random() < 0.5:
        del pricing["selling_rates"]
    pricing["tax"]["percent"] = percent(100)
    pricing["deposit"] = percent(100)
    if rng.random() < 0.3:
        del pricing["rounding"]
    else:
        pricing["rounding"] = {"to": rng.choice([0.05, 1, 5, 50]), "way": rng.choice(["up", "nearest", "down"])}
    if rng.random() < 0.3:
        del pricing["delivery"]
    return shop


def share(percent):
    return Decimal(str(percent)) / 100


def on_cost(profit):
    """The share of the cost that a profit adds."""
    if "markup" in profit:
        return share(profit["markup"])
    margin = share(profit["margin"])
    return half_up(margin / (1 - margin), SIX)


def price_of(shop, bill, labour, hours):
    """The price of one chair in cents, by the rules of core/chair/data/README.md, from its material and what the rounding of
    its selling rates adds (test_readback.py works that out)."""
    material = group(bill, "material")
    rates = sum(Decimal(line["amount_minor"]) for line in bill["lines"] if line["id"] == "rounding.rates")
    pricing = shop["pricing"]
    cost = material + labour
    overhead = pricing["overhead"]
    if "per_hour" in overhead:
        cost += half_up(hours * Decimal(str(overhead["per_hour"])) * 100)
    else:
        cost += half_up(cost * share(overhead["percent_of_cost"]))
        material += half_up(material * share(overhead["percent_of_cost"]))
    cost += half_up(cost * share(pricing["contingency"]))
    material += half_up(material * share(pricing["contingency"]))
    if "profit_on_material" not in pricing:
        material = Decimal(0)
    price = cost + half_up((cost - material) * on_cost(pricing["profit"]))
    price += half_up(material * on_cost(pricing.get("profit_on_material", pricing["profit"]))) + rates
    if "rounding" in pricing:
        to = Decimal(str(pricing["rounding"]["to"])) * 100
        way = {"up": ROUND_CEILING, "down": ROUND_FLOOR, "nearest": ROUND_HALF_UP}[pricing["rounding"]["way"]]
        price = (price / to).quantize(Decimal(1), way) * to
    return price


def sold(shop, price, chairs):
    """Price, delivery and tax of so many chairs, in cents."""
    delivery = shop["pricing"].get("delivery", {"each_order": 0, "each_chair": 0})
    net = price + 100 * (Decimal(str(delivery["each_order"])) + chairs * Decimal(str(delivery["each_chair"])))
    return net + half_up(net * share(shop["pricing"]["tax"]["percent"]))


def group(bill, name):
    return sum(Decimal(line["amount_minor"]) for line in bill["lines"] if line["group"] == name)


class Money(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        cls.addClassCleanup(cls.probe.close)
        rng = random.Random(SEED)
        cls.cases = []
        for i in range(SHOPS):
            design, shop = DESIGNS[i % len(DESIGNS)], random_shop(rng)
            cls.cases.append((design, shop, cls.probe.ask("report", design=design, shop=shop)))

    def test_bills_by_decimals(self):
        for _, shop, report in self.cases:
            bill = report["bill"]
            hours = [Decimal(str(row["hours"])) for row in report["labour"]["rows"]]
            rate = Decimal(str(shop["labour"]["rate"])) * 100
            labour = sum(half_up(h * rate) for h in hours)
            self.assertEqual(group(bill, "labour"), labour)
            price = price_of(shop, bill, labour, sum(hours))
            self.assertEqual(bill["price_minor"], price, (shop["pricing"], bill))
            self.assertEqual(bill["total_minor"], sold(shop, price, 1))
            deposit = half_up(sold(shop, price, 1) * share(shop["pricing"]["deposit"]))
            self.assertEqual(bill.get("deposit_minor", 0), deposit)
            self.assertEqual(sum(line["amount_minor"] for line in bill["lines"]), bill["total_minor"])
            self.assertEqual(sum(s["amount_minor"] for s in bill["sums"]), bill["total_minor"])

    def test_hours_from_the_shops_minutes(self):
        for _, shop, report in self.cases:
            labour = report["labour"]
            rates = shop["labour"]
            times = rates["operations"] | {f"joint.{k}": v for k, v in rates["joints"][rates["method"]].items()}
            self.assertEqual(labour["batch"], rates["batch"])
            for row in labour["rows"]:
                time = times[row["id"]]
                hours = (row["quantity"] * time["minutes"] + time["set_up"] / rates["batch"]) / 60
                self.assertAlmostEqual(row["hours"], hours, delta=0.000051)
            self.assertAlmostEqual(sum(row["hours"] for row in labour["rows"]), labour["hours"], places=6)

    def test_what_is_counted(self):
        """Against the lists of the same report, which other tests hold against the bodies."""
        for _, shop, report in self.cases[: len(DESIGNS)]:
            rows = {row["id"]: row["quantity"] for row in report["labour"]["rows"]}
            small = ("loose_tenon", "dowel", "wedge", "peg", "button", "pad_board", "pad", "cord")
            sticks = [row for row in report["cutting_list"] if row["role"] not in small]
            count = sum(row["quantity"] for row in sticks)
            metres = sum(row["quantity"] * row["rough"]["length"] for row in sticks) / 1000
            self.assertEqual((rows["choose_and_mark"], rows["crosscut"]), (count, count))
            self.assertAlmostEqual(rows["rip"], metres, places=6)
            self.assertAlmostEqual(rows["plane"], 4 * metres, places=6)
            joints = sum(row["quantity"] for row in report["joints"])
            self.assertEqual(sum(q for id, q in rows.items() if id.startswith("joint.")), joints)
            self.assertEqual(rows["dry_fit"], joints)
            pegs = sum(row["quantity"] for row in report["cutting_list"] if row["role"] == "peg")
            self.assertEqual(rows.get("peg", 0), pegs)
            self.assertAlmostEqual(rows["finish"], shop["finish"]["coats"] * rows["scrape_and_sand"], places=9)

    def test_lead_time_by_hand(self):
        """Hour by hour with a clock of its own: work goes on in the hours of the day, drying in all hours."""
        for _, shop, report in self.cases:
            labour = report["labour"]
            day = shop["labour"]["week"]["hours"] / shop["labour"]["week"]["days"]
            stages = {s["stage"]: s["hours"] for s in labour["stages"]}
            glue = next((int(r["quantity"]) for r in labour["rows"] if r["id"] == "glue_up"), 0)
            now = 0.0
            for stage in ("timber", "shaping", "joints", "surface", "assembly", "finish", "seat"):
                turns, wait = {"assembly": (glue, 5), "finish": (3, 16)}.get(stage, (1, 0))
                for _ in range(turns):
                    left = stages.get(stage, 0) / turns
                    while left > 1e-9:
                        if now % 24 >= day - 1e-9:
                            now = (math.floor(now / 24) + 1) * 24
                        take = min(left, day - now % 24)
                        now, left = now + take, left - take
                    now += wait
                    if wait and now % 24 >= day:
                        now = (math.floor(now / 24) + 1) * 24
            days = math.floor(now / 24) + (now % 24 > 1e-6)
            self.assertEqual(labour["lead"]["working_days"], days)

    def test_minor_units_are_those_of_the_standard(self):
        packaged = {c.code: c.exponent for c in iso4217.Currency if c.exponent is not None}
        checked = 0
        for code, digits in sorted(packaged.items()):
            shop = copy.deepcopy(SHOP) | {"currency": code, "seating": {}}
            # Whole numbers are prices of every currency.
            shop["pegs"]["price"] = shop["fixings"]["price"] = shop["glue"]["price_per_kg"] = shop["finish"]["price_per_litre"] = 1
            shop["pricing"]["overhead"] = {"per_hour": 11}
            try:
                bill = self.probe.ask("report", design={"family": "stool"}, shop=shop)["bill"]
            except Refused as refused:
                self.assertEqual(refused.error["where"], "currency", code)
                continue
            self.assertEqual((bill["currency"], bill["minor_digits"]), (code, digits))
            checked += 1
        print(f"\nmoney: {checked} of {len(packaged)} packaged currencies are known here")
        self.assertGreater(checked, 0.9 * len(packaged))


class Orders(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        cls.addClassCleanup(cls.probe.close)
        knobs = [cls.probe.ask("report", design=design)["design"] for design in DESIGNS]
        line = lambda i, name, n: {"name": name, "quantity": n, "knobs": knobs[i]}
        cls.order = {"crestrail": "order/1", "name": "", "customer": "Ada", "lines": [line(0, "Side", 6), line(1, "Arm", 2)]}

    def test_an_order_by_decimals(self):
        rng = random.Random(SEED)
        for round in range(6):
            shop = random_shop(rng)
            if round % 2:
                del shop["stock"]
            answer = self.probe.ask("order", order=self.order, shop=shop)
            goods = Decimal(0)
            for row in answer["rows"]:
                hours = sum(Decimal(str(r["hours"])) for r in row["labour"]["rows"])
                price = price_of(shop, row["bill"], group(row["bill"], "labour"), hours)
                self.assertEqual(row["price_minor"], price)
                self.assertEqual(row["labour"]["batch"], max(row["quantity"], shop["labour"]["batch"]))
                goods += price * row["quantity"]
            self.assertEqual(answer["bill"]["total_minor"], sold(shop, goods, 8))
            for row, table in zip(answer["rows"], answer["breaks"]):
                self.assertEqual([b["chairs"] for b in table["rows"]], list(range(1, 25)))
                # Designs of an order share their boards; without a stock list the row of so many is what the order pays.
                if "stock" not in shop:
                    self.assertEqual(table["rows"][row["quantity"] - 1]["price_minor"], row["price_minor"])
                for b in table["rows"]:
                    self.assertEqual(b["total_minor"], sold(shop, Decimal(b["price_minor"]) * b["chairs"], b["chairs"]))

    def test_a_quote_opens_again(self):
        text = self.probe.ask("quote", order=self.order, number="7", date="2026-03-09")["text"]
        self.assertEqual(self.probe.ask("order", order=text), self.probe.ask("order", order=self.order))

    def test_bad_orders_are_refused_by_name(self):
        for change, where in [({"lines": []}, "lines"), ({"crestrail": "order/9"}, "crestrail"), ({"total": 5}, "total")]:
            with self.assertRaises(Refused) as refused:
                self.probe.ask("order", order=self.order | change)
            self.assertEqual(refused.exception.error["where"], where)

    def test_what_moves_the_price(self):
        """Each end of the tornado is a price that a report of that design tells, too."""
        design = {"family": "stool"}
        plain = copy.deepcopy(SHOP)
        del plain["pricing"]["rounding"]
        tornado = self.probe.ask("tornado", design=design)
        self.assertGreater(len(tornado["swings"]), 5)
        for swing in tornado["swings"][:6]:
            for end in (swing["low"], swing["high"]):
                report = self.probe.ask("report", design=design | {swing["knob"]: end["value"]}, shop=plain)
                self.assertEqual(report["bill"]["price_minor"], end["price_minor"], (swing["knob"], end))


if __name__ == "__main__":
    unittest.main()
