"""From chair to boards: every plan is checked from the chairs' own lists and the workshop's file alone, by another program
and another library of plane geometry."""

import copy
import json
import random
import unittest
from decimal import ROUND_HALF_UP, Decimal

from shapely.geometry import MultiPoint, Polygon, box
from shapely.ops import unary_union

from probe import Probe, ROOT, Refused
from saw import can_be_parted

SHOP = json.loads((ROOT / "core/chair/data/shop.json").read_text(encoding="utf-8"))
SEED = 77
# Corners of pieces are told to the hundredth.
ROUNDED = 0.02
NOT_SAWN = ("peg", "dowel", "wedge", "pad_board", "pad", "cord")
ORDERS = [
    [({}, 1)],
    [({}, 6), ({"family": "armchair"}, 2)],
    [({"family": "bar_chair"}, 4)],
    [({"family": "bench_three", "back": "laths"}, 1)],
    [({"seat": "board", "species": "oak_european"}, 3), ({"species": "oak_european"}, 2)],
    [({"family": "stool", "seat": "cord"}, 8)],
    [({}, 24)],
]


def order(lines):
    return {"crestrail": "order/1", "lines": [{"quantity": n, "knobs": knobs} for knobs, n in lines]}


def random_shop(rng):
    """The invented shop with other boards, and perhaps without some thickness."""
    shop = copy.deepcopy(SHOP)
    stock = shop["stock"]
    stock["trim_ends"], stock["trim_edges"] = rng.randint(0, 60), rng.randint(0, 12)
    stock["offcuts"] = {"length": rng.randint(200, 800), "width": rng.randint(40, 120), "credit": rng.randint(0, 100)}
    shop["kerf"] = rng.choice([1.5, 3, 4.2])
    for row in stock["offer"]:
        row["length"], row["width"] = rng.randint(1500, 4000), rng.randint(110, 400)
        if rng.random() < 0.3:
            row["price"] = rng.randint(500, 9000) / 100
    if rng.random() < 0.5:
        del stock["rack"]
    return shop


class Plans(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        cls.addClassCleanup(cls.probe.close)
        rng = random.Random(SEED)
        shops = [SHOP] + [random_shop(rng) for _ in range(3)]
        cls.cases = []
        for lines in ORDERS:
            for shop in shops:
                knobs = [cls.full(design) for design, _ in lines]
                rows = [cls.probe.ask("report", design=design, shop=shop)["cutting_list"] for design in knobs]
                asked = order([(design, n) for design, (_, n) in zip(knobs, lines)])
                plan = cls.probe.ask("plan", order=asked, shop=shop, effort="quick")
                cls.cases.append((lines, shop, rows, plan))

    @classmethod
    def full(cls, design):
        """The design with all knobs of its kind, as an order holds it."""
        rows = cls.probe.ask("knobs", **({"family": design["family"]} if "family" in design else {}))
        return {row["name"]: row["default"] for row in rows} | design

    def boards(self):
        for lines, shop, rows, plan in self.cases:
            for one in plan["classes"]:
                for board in one["boards"]:
                    yield shop, one, board

    def test_every_piece_is_laid_or_missing(self):
        for lines, shop, rows, plan in self.cases:
            for design, ((_, count), cutting) in enumerate(zip(lines, rows)):
                for row in cutting:
                    if row["role"] in NOT_SAWN:
                        continue
                    own = lambda p: p["letter"].lstrip("0123456789") == row["letter"] and p["design"] == design
                    laid = sum(
                        board["times"] / piece["strips"]
                        for one in plan["classes"] for board in one["boards"] for piece in board["pieces"] if own(piece)
                    )
                    missing = sum(m["count"] for one in plan["classes"] for m in one["missing"] if own(m))
                    self.assertAlmostEqual(laid + missing, count * row["quantity"], places=6, msg=row["letter"])

    def test_pieces_are_clear_of_each_other_and_of_the_trims(self):
        for shop, _, board in self.boards():
            stock = shop["stock"]
            bed = box(
                stock["trim_ends"], stock["trim_edges"], board["length"] - stock["trim_ends"], board["width"] - stock["trim_edges"]
            ).buffer(ROUNDED)
            outlines = [Polygon(piece["outline"]) for piece in board["pieces"]]
            for outline in outlines:
                self.assertTrue(outline.is_valid and bed.contains(outline), (outline.bounds, board["length"], board["width"]))
            for i, a in enumerate(outlines):
                for b in outlines[:i]:
                    self.assertGreaterEqual(a.distance(b), shop["kerf"] - 2 * ROUNDED)
            for offcut in board["offcuts"]:
                left = box(offcut["x"], offcut["y"], offcut["x"] + offcut["length"], offcut["y"] + offcut["width"])
                self.assertTrue(bed.contains(left))
                self.assertGreaterEqual(offcut["length"], stock["offcuts"]["length"])
                self.assertGreaterEqual(offcut["width"], stock["offcuts"]["width"])
                for outline in outlines:
                    self.assertLess(left.intersection(outline).area, 1.0)

    def test_straight_pieces_are_rough_and_can_be_sawn(self):
        for lines, shop, rows, plan in self.cases:
            for one in plan["classes"]:
                for board in one["boards"]:
                    boxes = []
                    for piece in board["pieces"]:
                        row = next(r for r in rows[piece["design"]] if r["letter"] == piece["letter"].lstrip("0123456789"))
                        x0, y0, x1, y1 = Polygon(piece["outline"]).bounds
                        boxes.append((x0, y0, x1, y1))
                        if len(piece["outline"]) > 4:
                            continue
                        # Sawn to the tenth above, the grain along the board.
                        self.assertTrue(-ROUNDED <= x1 - x0 - row["rough"]["length"] <= 0.1 + ROUNDED, (piece, row))
                        if piece["strips"] == 1:
                            self.assertTrue(-ROUNDED <= y1 - y0 - row["rough"]["width"] <= 0.1 + ROUNDED, (piece, row))
                        else:
                            # Each glued joint takes 5 mm of width for planing.
                            whole = piece["strips"] * (y1 - y0) - 5 * (piece["strips"] - 1)
                            self.assertGreaterEqual(whole, row["rough"]["width"] - 0.2)
                    if one["way"] != "outlines":
                        self.assertTrue(can_be_parted(boxes, shop["kerf"] - 2 * ROUNDED), board)

    def test_cuts_part_the_board(self):
        """The cuts made one after another leave each piece by itself, at its own size."""
        for shop, one, board in self.boards():
            if one["way"] == "outlines":
                continue
            stock, kerf = shop["stock"], shop["kerf"]
            parts = [(stock["trim_ends"], stock["trim_edges"], board["length"] - stock["trim_ends"], board["width"] - stock["trim_edges"])]
            for number, cut in enumerate(board["cuts"], 1):
                self.assertEqual(cut["number"], number)
                axis = 1 if cut["along"] else 0
                other = 1 - axis
                goes = [
                    p for p in parts
                    if p[axis] - ROUNDED <= cut["at"] <= p[axis + 2] + ROUNDED
                    and abs(p[other] - cut["from"]) < ROUNDED and abs(p[other + 2] - cut["to"]) < ROUNDED
                ]
                self.assertTrue(goes, (cut, parts))
                parts.remove(goes[0])
                low, high = list(goes[0]), list(goes[0])
                low[axis + 2], high[axis] = cut["at"], cut["at"] + kerf
                parts += [tuple(p) for p in (low, high) if p[axis + 2] > p[axis] + 1e-6]
            for piece in board["pieces"]:
                bounds = Polygon(piece["outline"]).bounds
                fits = [p for p in parts if all(abs(a - b) < 2 * ROUNDED for a, b in zip(p, bounds))]
                self.assertEqual(len(fits), 1, (bounds, parts))

    def test_money_by_decimals(self):
        for _, shop, _, plan in self.cases:
            prices = {row["species"]: row for row in shop["timber"]["species"]}
            by_name = {"white ash": "ash_white", "European oak": "oak_european"}
            cost = credit = 0
            for one in plan["classes"]:
                own = 0
                for stack in one["buy"]:
                    offers = [
                        o for o in shop["stock"]["offer"]
                        if one["thickness"] in o["thicknesses"] and (o["length"], o["width"]) == (stack["length"], stack["width"])
                    ]
                    each = set()
                    for offer in offers:
                        if "price" in offer:
                            each.add(int(Decimal(str(offer["price"])) * 100))
                            continue
                        species = prices[by_name[one["species"]]]
                        special = [t["price"] for t in species.get("by_thickness", []) if t["thickness"] == one["thickness"]]
                        rate = Decimal(str((special or [species["price"]])[0])) * 100
                        volume = Decimal(str(stack["length"])) * Decimal(str(stack["width"])) * Decimal(str(one["thickness_mm"])) / 10**9
                        volume = volume.quantize(Decimal("0.000001"), ROUND_HALF_UP)
                        each.add(int((volume * rate).quantize(Decimal(1), ROUND_HALF_UP)))
                    self.assertIn(stack["each_minor"], each)
                    own += stack["count"] * stack["each_minor"]
                self.assertEqual(one["cost_minor"], own)
                taken = sum(s["count"] for s in one["buy"] + one["rack"])
                self.assertEqual(taken, sum(b["times"] for b in one["boards"]))
                cost += own
                credit += one["credit_minor"]
            self.assertEqual((plan["cost_minor"], plan["credit_minor"]), (cost, credit))
            self.assertLessEqual(plan["bound_minor"], cost)

    def test_no_bound_lies_above_what_area_asks(self):
        """The cheapest area on offer, all of it used, is a bound of our own; a plan's cost never lies below it."""
        for _, shop, _, plan in self.cases:
            for one in plan["classes"]:
                if not one["buy"] or one["rack"]:
                    continue
                cheapest = min(s["each_minor"] / (s["length"] * s["width"]) for s in one["buy"])
                # Boards that were not taken may be cheaper by area; so only where there is one kind.
                kinds = [o for o in shop["stock"]["offer"] if one["thickness"] in o["thicknesses"]]
                if len(kinds) == 1:
                    self.assertGreaterEqual(one["cost_minor"] + 1, one["pieces_m2"] * 1e6 * cheapest)

    def test_racks_give_no_more_than_they_hold(self):
        for _, shop, _, plan in self.cases:
            held = {}
            for kept in shop["stock"].get("rack", []):
                key = (kept["thickness"], kept["length"], kept["width"])
                held[key] = held.get(key, 0) + kept["count"]
            for one in plan["classes"]:
                for stack in one["rack"]:
                    self.assertLessEqual(stack["count"], held[(one["thickness"], stack["length"], stack["width"])])
                    self.assertEqual(stack["each_minor"], 0)

    def test_outlines_hold_the_finished_part_and_its_allowance_once(self):
        """The back leg of a chair without splay, seen from the side: grown square to its edges by half of the width's
        allowance, and at its ends by half of the length's."""
        bodies = self.probe.ask("solids", design={})
        leg = next(body for body in bodies if body["role"] == "back_leg")
        faces = [Polygon([leg["vertices"][i][1:] for i in face]) for face in leg["faces"]]
        side = unary_union([face.buffer(0) for face in faces if face.area > 1e-6])
        self.assertEqual(side.geom_type, "Polygon")
        side = Polygon(side.exterior)
        _, _, rows, plan = self.cases[0]
        row = next(r for r in rows[0] if r["role"] == "back_leg")
        laid = next(p for one in plan["classes"] for b in one["boards"] for p in b["pieces"] if p["letter"] == row["letter"])
        outline = Polygon(laid["outline"])
        around = (row["rough"]["width"] - row["width"]) / 2
        ends = (row["rough"]["length"] - row["length"]) / 2
        least = side.buffer(around, join_style="mitre").area
        width = side.area / row["length"]
        self.assertGreater(outline.area, least - 0.25 * side.length)
        self.assertLess(outline.area, least + 2 * (ends - around) * 2 * width + 0.5 * side.length)
        self.assertLess(outline.area, 0.8 * row["rough"]["length"] * row["rough"]["width"])
        hull = MultiPoint(side.exterior.coords).minimum_rotated_rectangle
        self.assertGreater(outline.minimum_rotated_rectangle.area, hull.area)

    def test_one_plan_for_all_costs_no_more_than_each_alone(self):
        lines, shop, rows, plan = next(case for case in self.cases if len(case[0]) > 1 and case[1] is SHOP)
        alone = 0
        for design, n in lines:
            alone += self.probe.ask("plan", order=order([(self.full(design), n)]), shop=shop, effort="quick")["cost_minor"]
        self.assertLessEqual(plan["cost_minor"], alone)

    def test_more_work_never_costs_more(self):
        for lines in ORDERS:
            asked = order([(self.full(design), n) for design, n in lines])
            quick, good = (self.probe.ask("plan", order=asked, effort=effort) for effort in ("quick", "good"))
            print(
                f"plan {lines[0][0] or 'side chair'} × {lines[0][1]}: quick {quick['cost_minor'] / 100:.2f}, good {good['cost_minor'] / 100:.2f}, "
                f"bound {good['bound_minor'] / 100:.2f}, at most {100 * good['above_bound']:.1f} % above, {100 * good['yield']:.0f} % used"
            )
            self.assertLessEqual(good["cost_minor"], quick["cost_minor"])
            self.assertLessEqual(good["bound_minor"], quick["cost_minor"])

    def test_refusals(self):
        shop = {name: part for name, part in SHOP.items() if name != "stock"}
        with self.assertRaises(Refused) as caught:
            self.probe.ask("plan", order=order([(self.full({}), 1)]), shop=shop, effort="quick")
        self.assertEqual(caught.exception.error["where"], "shop.stock")


if __name__ == "__main__":
    unittest.main()
