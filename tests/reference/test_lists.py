"""The lists recomputed: CSV as another program reads it, money by decimals, board measure, density,
mass, timber, glue and finish from the bodies and the shop's rates."""

import csv
import io
import json
import math
import unittest
from decimal import ROUND_HALF_UP, Decimal

import kernel
from probe import Probe, ROOT, buildable

SEED = 9
COUNT = 24
LEAST_SHARE = 0.5

SHOP = json.loads((ROOT / "core/chair/data/shop.json").read_text(encoding="utf-8"))
# The invented shop without a stock list: its timber is reckoned by yield.
BY_YIELD = {name: part for name, part in SHOP.items() if name != "stock"}

# Specific gravity at 12 % moisture of clear wood: USDA Wood Handbook, FPL-GTR-190 (2010), Table 5-3a.
GRAVITY_AT_12 = {"white ash": 0.60, "white oak": 0.68, "sugar maple": 0.63, "black cherry": 0.50}
SPECIES = {"ash_white": "white ash", "oak_white": "white oak", "maple_hard": "sugar maple", "cherry_black": "black cherry"}

CUT_TO_SIZE = ("dowel", "wedge", "pad_board", "pad", "cord")

# How the program names what stands in a spreadsheet's cell that would be taken for a formula.
RISKY = '=SUM(A1:A9), the "best" — Zoë'


def read_csv(text):
    """Records as Python's csv module reads them, strictly; RFC 4180 wants CRLF after each line."""
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", ""), "lines must end with CRLF"
    head, *rows = csv.reader(io.StringIO(text, newline=""), strict=True)
    assert all(len(row) == len(head) for row in rows), "a row of another length"
    return [dict(zip(head, row)) for row in rows]


class Written(unittest.TestCase):
    """The files against the report."""

    @classmethod
    def setUpClass(cls):
        with Probe() as probe:
            designs, told = buildable(probe, SEED, COUNT, LEAST_SHARE)
            print(f"\nlists: {told}")
            cls.chairs = [
                {
                    "design": design,
                    "values": {k["name"]: k["default"] for k in probe.ask("knobs", family=design["family"])} | design,
                    "report": probe.ask("report", design=design),
                    "by_yield": probe.ask("report", design=design, shop=BY_YIELD),
                    "cutting": read_csv(cls.file(probe, "cutting_list_csv", design)),
                    "bill": read_csv(cls.file(probe, "bill_csv", design)),
                    "solids": probe.ask("solids", design=design),
                    "bodies": probe.ask("bodies", design=design),
                }
                for design in designs
            ]

    @staticmethod
    def file(probe, kind, design):
        return probe.ask("file", kind=kind, name=RISKY, design=design)["text"]

    def test_cutting_list_reads_back(self):
        for chair in self.chairs:
            rows = chair["report"]["cutting_list"]
            self.assertEqual(len(chair["cutting"]), len(rows))
            for cells, row in zip(chair["cutting"], rows):
                self.assertEqual(cells["chair"], "'" + RISKY)
                self.assertEqual((cells["letter"], cells["part"], cells["note"]), (row["letter"], row["part"], row["note"]))
                self.assertEqual(int(cells["quantity"]), row["quantity"])
                self.assertEqual(cells["left and right"], "yes" if row["handed"] else "no")
                for side in ("length", "width", "thickness"):
                    self.assertAlmostEqual(float(cells[f"{side} (mm)"]), row[side], delta=0.0501)
                    self.assertAlmostEqual(float(cells[f"rough {side} (mm)"]), row["rough"][side], delta=0.0501)
                self.assertAlmostEqual(float(cells["volume of one (mm3)"]), row["volume_mm3"], delta=0.501)
                self.assertAlmostEqual(float(cells["mass of one (kg)"]), row["mass_kg"], delta=0.000051)

    def test_bill_adds_up_to_the_cent(self):
        for chair in self.chairs:
            *lines, total = chair["bill"]
            self.assertEqual((total["line"], total["currency"]), ("total", "EUR"))
            amounts = [Decimal(line["amount"]) for line in lines]
            self.assertEqual(sum(amounts), Decimal(total["amount"]))
            self.assertEqual(Decimal(total["amount"]) * 100, chair["report"]["bill"]["total_minor"])
            for line, amount in zip(lines, amounts):
                exact = Decimal(line["quantity"]) * Decimal(line["rate"])
                self.assertEqual(amount, exact.quantize(Decimal("0.01"), ROUND_HALF_UP), line)

    def test_bill_names_parts_of_the_list(self):
        for chair in self.chairs:
            letters = {row["letter"] for row in chair["report"]["cutting_list"]}
            for line in chair["bill"][:-1]:
                self.assertTrue(line["parts"].split(), line)
                self.assertLessEqual(set(line["parts"].split()), letters)

    def test_rows_count_the_bodies(self):
        for chair in self.chairs:
            for row in chair["report"]["cutting_list"]:
                bodies = [body for body in chair["solids"] if body["letter"] == row["letter"]]
                self.assertEqual(len(bodies), row["quantity"])
                self.assertEqual({body["role"] for body in bodies}, {row["role"]})

    def test_allowances_are_the_designs(self):
        for chair in self.chairs:
            for row in chair["report"]["cutting_list"]:
                for side in ("length", "width", "thickness"):
                    # Pegs are cut from rods of their own section; what is split, bought or woven has no allowance.
                    none = row["role"] in CUT_TO_SIZE or (row["role"] == "peg" and side != "length")
                    more = 0.0 if none else chair["design"][f"allowance_{side}"]
                    self.assertAlmostEqual(row["rough"][side], row[side] + more, delta=1e-9)

    def test_timber_is_rough_volume_over_yield(self):
        for chair in self.chairs:
            rows = {row["letter"]: row for row in chair["report"]["cutting_list"]}
            for line in chair["by_yield"]["timber"]["lines"]:
                faces = sum(
                    rows[letter]["quantity"] * rows[letter]["rough"]["length"] * rows[letter]["rough"]["width"]
                    for letter in line["parts"]
                )
                thick = line["thickness_mm"]
                self.assertGreaterEqual(thick + 0.01, max(rows[letter]["rough"]["thickness"] for letter in line["parts"]))
                bought = faces * thick * 1e-9 / SHOP["timber"]["yield"]
                self.assertAlmostEqual(line["bought_m3"], bought, delta=1e-12)
                # A board foot is 144 cubic inches; stock under one inch is charged as one inch.
                feet = bought * 1e9 * max(thick, 25.4) / thick / (144 * 25.4**3)
                self.assertAlmostEqual(line["board_feet"], feet, delta=1e-9)

    def test_glue_is_the_area_of_the_cheeks(self):
        for chair in self.chairs:
            area = sum(row["quantity"] * cheeks(row) for row in chair["report"]["joints"])
            # The strips under a pad are glued to the rails with their broad faces.
            rows = chair["report"]["cutting_list"]
            area += sum(r["quantity"] * r["length"] * r["width"] for r in rows if r["role"] == "ledge")
            kilograms = area * 1e-6 * SHOP["glue"]["grams_per_m2"] / 1000
            line = bill_line(chair, "glue")
            # The report gives measures to a tenth of a millimetre, the bill grams to a tenth; the mitre of twin
            # tongues between splayed legs leans, so each ends elsewhere than the mean says.
            self.assertAlmostEqual(line["quantity"], kilograms, delta=0.03 * kilograms + 0.00005)

    def test_finish_is_the_surface_outside_the_joints(self):
        """The kernel joins the frame's uncut bodies into one; seat slats only lie on it. Chairs of which all parts
        are joined or lie on others are compared: what stands in grooves has surface there too."""
        compared = [c for c in self.chairs if c["values"]["seat"] in SLATTED and c["values"]["back"] in PLAIN_BACKS]
        self.assertGreater(len(compared), 5)
        for chair in compared:
            parts = {row["part"]: [kernel.from_row(body) for body in row["added"]] for row in chair["bodies"]["parts"]}
            slats = [body for name, bodies in parts.items() if name.startswith("seat slat") for body in bodies]
            frame = [
                # Shoulders are pressed into their legs by a hair, for faces that only touch would both be counted.
                body if "leg" in name else kernel.swollen(body, 1e-6)
                for name, bodies in parts.items()
                if not name.startswith(("seat slat", "peg"))
                for body in bodies
            ]
            area = kernel.union(frame).surface_area() + sum(slat.surface_area() for slat in slats)
            finish = SHOP["finish"]
            litres = area * 1e-6 * finish["coats"] / finish["m2_per_litre"]
            # The program counts joints as upright boxes; that changes about a hundredth at most.
            self.assertAlmostEqual(bill_line(chair, "finish")["quantity"], litres, delta=0.01 * litres)


SLATTED = ("across", "lengthwise")
PLAIN_BACKS = ("slats", "laths", "splat", "open")


def cheeks(joint):
    """Both cheeks of a tenon and its haunch, mm², once for each mortise; a mitred tenon counts its mean length, a
    dowel its round."""
    length = joint["tenon"]["length"]
    if "mitre" in joint:
        length = (length + joint["mitre"]["short_length"]) / 2
    if joint["kind"] == "dowels":
        inserts = joint["inserts"]
        return 2 * inserts["quantity"] * math.pi * inserts["width"] * length
    # A piece that ends at the mitre ends at its mean.
    pieces = joint.get("tongues") or [{"width": joint["tenon"]["width"], "from": 0.0, "to": length}]
    face = sum(piece["width"] * (min(piece["to"], length) - piece["from"]) for piece in pieces)
    haunch = joint.get("haunch", {"length": 0.0, "width": 0.0})
    mortises = 2 if joint["kind"] == "loose" else 1
    return 2 * (mortises * face + haunch["length"] * haunch["width"] / 2)


def bill_line(chair, name):
    return next(line for line in chair["report"]["bill"]["lines"] if line["id"] == name)


class Measures(unittest.TestCase):
    """Worked examples in print, and the same formulae once more."""

    def test_mass_is_volume_times_published_density(self):
        with Probe() as probe:
            for species, name in SPECIES.items():
                # Density at 12 % moisture: 1000 G (1 + 12 / 100), FPL-GTR-282 Eq. 4-9.
                density = 1000 * GRAVITY_AT_12[name] * 1.12
                for row in probe.ask("solids", design={"species": species}):
                    expected = row["volume_mm3"] * 1e-9 * density
                    self.assertAlmostEqual(row["mass_kg"], expected, delta=0.002 * expected)

    def test_density_of_printed_examples(self):
        """Radiata pine and jarrah as printed with the handbook's method; white ash of the handbook, whose
        figures are read off its chart (FPL-GTR-282, chapter 4)."""
        last_digit, chart = (0.00005, 0.05), (0.006, 7.0)
        printed = [(0.42, 0.4501, 504.1, last_digit), (0.67, 0.7499, 839.9, last_digit), (0.55, 0.605, 678.0, chart)]
        with Probe() as probe:
            for basic, gravity, density, within in printed:
                told = probe.ask("density", basic_gravity=basic, moisture=12)
                self.assertAlmostEqual(told["specific_gravity"], gravity, delta=within[0])
                self.assertAlmostEqual(told["density"], density, delta=within[1])

    def test_density_by_the_handbooks_formulae(self):
        """G_x = G_b / (1 − 0.265 G_b (1 − x / 30)), density = 1000 G_x (1 + x / 100); Eq. 4-9, 4-11 to 4-14."""
        with Probe() as probe:
            for basic in (0.3, 0.45, 0.6, 0.9):
                for moisture in (0, 6, 12, 20, 30):
                    told = probe.ask("density", basic_gravity=basic, moisture=moisture)
                    gravity = basic / (1 - 0.265 * basic * (1 - moisture / 30))
                    self.assertAlmostEqual(told["specific_gravity"], gravity, delta=1e-12)
                    self.assertAlmostEqual(told["density"], 1000 * gravity * (1 + moisture / 100), delta=1e-9)

    def test_board_feet_of_printed_examples(self):
        """Texts on buying lumber: 1 × 9 in × 8 ft is 6; 1½ × 9 × 8 is 9; 2 × 16 × 8 is 21.3."""
        boards, feet = [(1, 9, 8), (1.5, 9, 8), (2, 16, 8)], [6.0, 9.0, 21.3]
        for told, printed in zip(measured(boards), feet):
            self.assertAlmostEqual(told["board_feet"], printed, delta=0.05)
            # A board foot is 144 cubic inches, so the volume gives the same.
            self.assertAlmostEqual(told["board_feet_of_volume"], told["board_feet"], delta=1e-9)

    def test_surface_measure_of_printed_examples(self):
        """Printed with the rule of the NHLA: 6½ in × 8 ft is 4; 8 × 12 is 8; 10 × 13 is 11, and two
        inches thick that is 22 board feet."""
        boards, surfaces = [(1, 6.5, 8), (1, 8, 12), (2, 10, 13)], [4, 8, 11]
        told = measured(boards)
        self.assertEqual([board["surface_ft2"] for board in told], surfaces)
        self.assertEqual(told[2]["board_feet_of_surface"], 22)

    def test_stock_under_an_inch_is_charged_as_one(self):
        thin, full = measured([(0.75, 9, 8), (1, 9, 8)])
        self.assertEqual(thin["board_feet"], full["board_feet"])


def measured(boards):
    names = ("thickness_in", "width_in", "length_ft")
    with Probe() as probe:
        return probe.ask("board_measure", boards=[dict(zip(names, board)) for board in boards])


if __name__ == "__main__":
    unittest.main()
