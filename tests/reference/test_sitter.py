"""People's sizes against the files of the surveys, with another curve and another library; and chairs made to fit, as a caller sees it."""

import csv
import unittest

import numpy as np
from scipy.stats import norm

from probe import ROOT, Probe

DATA = ROOT / "core/sitter/data"
PERCENTILES = {"p1": 1, "p2_5": 2.5, "p5": 5, "p10": 10, "p25": 25, "p50": 50, "p75": 75, "p90": 90, "p95": 95, "p97_5": 97.5, "p99": 99}
# rule: measure of the body, added to it (mm), whether the size must be at most that
RULES = {
    "seat_height": ("poplitealheight", 25, True),
    "seat_depth": ("buttockpopliteallength", -50, True),
    "seat_width": ("hipbreadthsitting", 25, False),
    "between_arms": ("hipbreadthsitting", 50, False),
    "arm_height": ("elbowrestheight", 0, True),
    "thigh_room": ("thighclearance", 15, False),
    "knee_room": ("kneeheightsitting", 25, False),
}
# Counted in the records, person by person: shares of women and of men, percent.
COUNTED = [
    ("seat_height", 420, 37, 93), ("seat_height", 440, 13.5, 72.5), ("seat_height", 450, 6.3, 57.9),
    ("seat_depth", 400, 90, 98), ("seat_depth", 420, 70, 88), ("seat_depth", 440, 42, 68),
    ("between_arms", 480, 84, 95), ("between_arms", 500, 94, 98),
    ("thigh_room", 210, 97, 84),
]


def table(name):
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def row(rows, measure, sex):
    return next(r for r in rows if r["measure"] == measure and r["sex"] == sex)


class Sitters(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        cls.addClassCleanup(cls.probe.close)

    def suits(self, rule, value, **who):
        return self.probe.ask("sitter", rule=rule, value=value, **who)["suits"]

    def test_shares_by_scipy(self):
        """Straight lines on probability paper, drawn with scipy's inverse normal and numpy's interpolation."""
        rows, worst, asked = table("anthropometry.csv"), 0, 0
        z = norm.ppf(np.array(list(PERCENTILES.values())) / 100)
        for rule, (measure, plus, at_most) in RULES.items():
            for value in np.arange(100.5, 760, 7.25):
                told = self.suits(rule, float(value))
                for sex, whom in (("female", "women"), ("male", "men")):
                    knots = np.array([float(row(rows, measure, sex)[p]) for p in PERCENTILES])
                    body = value - plus
                    if not knots[0] < body < knots[-1]:
                        self.assertIsNone(told[whom], (rule, value, whom))
                        continue
                    below = 100 * norm.cdf(np.interp(body, knots, z))
                    share = 100 - below if at_most else below
                    worst = max(worst, abs(told[whom] - share))
                    asked += 1
        self.assertGreater(asked, 200)
        self.assertLess(worst, 1e-9)
        print(f"{asked} shares, worst difference {worst:.1e} %")

    def test_shares_as_counted(self):
        """Records are whole millimetres, and near the middle one millimetre is 1.4 to 1.7 % of people."""
        for rule, value, women, men in COUNTED:
            told = self.suits(rule, value)
            for whom, counted in (("women", women), ("men", men)):
                self.assertAlmostEqual(told[whom], counted, delta=1.5, msg=(rule, value, whom))

    def test_a_person_by_stature(self):
        """The line of regression, and the share of people as tall by scipy's normal curve."""
        lines = table("anthropometry_regression.csv")
        sexes = {None: "pooled_50_50", "female": "female", "male": "male"}
        for sex, name in sexes.items():
            who = {} if sex is None else {"sex": sex}
            for stature in (1450, 1500, 1650, 1700, 1900, 2000):
                for rule, (measure, plus, at_most) in RULES.items():
                    line = row(lines, measure, name)
                    mean = float(line["intercept"]) + float(line["slope_per_mm_stature"]) * stature
                    sd = float(line["residual_sd"])
                    value = mean + plus + 0.7 * sd
                    told = self.suits(rule, value, stature=stature, **who)
                    self.assertAlmostEqual(told["mean"], mean, places=6)
                    share = norm.sf(0.7) if at_most else norm.cdf(0.7)
                    self.assertAlmostEqual(told["people"], 100 * share, places=6)

    def test_a_person_by_weight(self):
        planes = {"seat_width": {"female": (305.58, -0.0524, 2.6375), "male": (261.42, -0.0272, 1.9359)},
                  "thigh_room": {"female": (148.30, -0.0371, 1.1793), "male": (165.93, -0.0404, 1.0002)}}
        for rule, both in planes.items():
            for sex, plane in both.items():
                told = self.suits(rule, 400, stature=1720, weight=81, sex=sex)
                self.assertAlmostEqual(told["mean"], float(np.dot(plane, (1, 1720, 81))), places=9)

    def test_children_and_marks(self):
        """Least squares through the six sizes of ISO 5970 give the line back."""
        printed = np.array([(1050, 260), (1200, 300), (1350, 340), (1500, 380), (1650, 420), (1800, 460)])
        slope, start = np.polyfit(printed[:, 0], printed[:, 1], 1)
        for stature in (1050, 1111, 1234, 1500, 1800):
            told = self.suits("seat_height", 300, child=stature)
            self.assertAlmostEqual((told["at_least"] + told["at_most"]) / 2, slope * stature + start, places=6)
        for mark, seat in enumerate((210, 260, 310, 350, 380, 430, 460, 510)):
            told = self.suits("seat_height", seat, mark=mark)
            self.assertEqual((told["at_least"], told["at_most"], told["holds"]), (seat - 10, seat + 10, True))

    def test_a_seat_made_to_fit_is_where_the_line_says(self):
        line = row(table("anthropometry_regression.csv"), "poplitealheight", "pooled_50_50")
        for stature in (1600, 1700, 1800, 1900):
            design = {"sits": "adult", "stature": stature, "table": "none"}
            made = self.probe.ask("fit", design=design)
            hollow = float(line["intercept"]) + float(line["slope_per_mm_stature"]) * stature
            self.assertAlmostEqual(made["design"]["seat_height"], hollow + 15, delta=1.0)
            self.assertEqual(made["unmet"], [])
            rows = self.probe.ask("report", design=made["design"])["fit"]["rows"]
            self.assertTrue(all(r["verdict"] == "sound" for r in rows), stature)


if __name__ == "__main__":
    unittest.main()
