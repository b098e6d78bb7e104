"""What a knob says is what the chair is: sizes measured on the bodies of random chairs."""

import json
import math
import unittest

import kernel
import numpy as np
from probe import Probe, buildable

SEED = 31
COUNT = 60
LEAST_SHARE = 0.5
# mm and degrees.
FINE = 1e-6


class Measured:
    """The corners of each body, and the design."""

    def __init__(self, probe, design):
        self.design = {knob["name"]: knob["default"] for knob in probe.ask("knobs")} | design
        rows = {row["part"]: row for row in probe.ask("solids", design=design)}
        self.corners = {name: np.array(row["vertices"]) for name, row in rows.items()}
        leg = rows["back leg, right"]
        self.leg = kernel.from_mesh(leg["vertices"], leg["faces"])
        self.report = probe.ask("report", design=design)

    def of(self, start):
        """All corners of the parts whose names begin so."""
        return np.concatenate([points for name, points in self.corners.items() if name.startswith(start)])

    def span(self, start, axis):
        points = self.of(start)[:, axis]
        return points.min(), points.max()

    def numbered(self, start):
        return sorted(name for name in self.corners if name.startswith(start))


class Sizes(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with Probe() as probe:
            designs, told = buildable(probe, SEED, COUNT, LEAST_SHARE)
            print(f"\nsizes: {told}")
            cls.chairs = [Measured(probe, design) for design in designs]

    def near(self, value, wanted, chair, what):
        self.assertAlmostEqual(value, wanted, delta=FINE, msg=f"{what} {json.dumps(chair.design)}")

    def test_heights(self):
        for chair in self.chairs:
            knobs = chair.design
            self.near(chair.span("seat slat", 2)[1], knobs["seat_height"], chair, "seat")
            self.near(chair.span("back leg", 2)[1], knobs["seat_height"] + knobs["back_height"], chair, "back")
            for leg in ("front leg", "back leg"):
                self.near(chair.span(leg, 2)[0], 0.0, chair, leg)
            # The seat lies on the rails.
            self.near(chair.span("side rail", 2)[1], chair.span("seat slat", 2)[0], chair, "rail")
            self.near(np.ptp(chair.span("side rail", 2)), knobs["rail_width"], chair, "rail")

    def test_widths_and_depths(self):
        for chair in self.chairs:
            knobs = chair.design
            self.near(np.ptp(chair.span("front leg", 0)), knobs["seat_width"], chair, "front")
            self.near(np.ptp(chair.span("back leg", 0)), knobs["seat_width"] - knobs["narrowing"], chair, "behind")
            self.near(np.ptp(chair.span("front leg, right", 1)), knobs["front_leg"], chair, "front leg")
            self.near(np.ptp(chair.span("back leg, right", 0)), knobs["back_leg_thickness"], chair, "back leg")
            self.near(chair.span("front leg", 1)[0], 0.0, chair, "front face")
            self.near(chair.span("front rail", 1)[0], knobs["set_back"], chair, "set-back of the front rail")
            self.near(chair.span("back rail", 1)[1], knobs["seat_depth"] - knobs["set_back"], chair, "depth, set-back")

    def test_back_leg(self):
        """Depth of the leg at the floor and at the rails, square cut and lean at the top."""
        for chair in self.chairs:
            knobs, points = chair.design, chair.of("back leg, right")
            floor = points[points[:, 2] < FINE]
            self.near(np.ptp(floor[:, 1]), knobs["back_leg_foot"], chair, "foot")
            middle = knobs["seat_height"] - knobs["seat_slat_thickness"] - knobs["rail_width"] / 2
            _, front, _, back = chair.leg.slice(middle).bounds()
            self.near(back - front, knobs["back_leg_depth"], chair, "depth at the rails")
            highest = points[points[:, 2].argsort()][-4:]
            top = highest[:, 1:].max(axis=0) - highest[:, 1:].min(axis=0)
            self.near(math.hypot(*top), knobs["back_leg_top"], chair, "depth at the top")
            self.near(math.degrees(math.atan2(top[1], top[0])), knobs["rake"], chair, "lean")

    def test_slats_of_the_back(self):
        for chair in self.chairs:
            knobs, slats = chair.design, chair.numbered("back slat")
            self.assertEqual(len(slats), knobs["back_slats"])
            rake = math.radians(knobs["rake"])
            along, across = (0.0, math.sin(rake), math.cos(rake)), (0.0, math.cos(rake), -math.sin(rake))
            ends = [np.sort(chair.corners[slat] @ along)[[0, -1]] for slat in slats]
            gaps = [low - high for (_, high), (low, _) in zip(ends, ends[1:])]
            for gap in gaps:
                self.near(gap, gaps[0], chair, "gaps alike")
            wood = sum(high - low for low, high in ends)
            whole = ends[-1][1] - ends[0][0]
            self.near(100 * wood / whole, knobs["back_fill"], chair, "share of wood")
            top = (chair.of("back leg") @ along).max()
            self.near(top - ends[-1][1], knobs["back_top"], chair, "leg above the slats")
            for slat in slats:
                self.near(np.ptp(chair.corners[slat] @ across), knobs["back_slat_thickness"], chair, slat)

    def test_slats_of_the_seat(self):
        for chair in self.chairs:
            knobs, slats = chair.design, chair.numbered("seat slat")
            spans = sorted(tuple(np.sort(chair.corners[slat][:, 1])[[0, -1]]) for slat in slats)
            for (_, back), (front, _) in zip(spans, spans[1:]):
                self.near(front - back, knobs["seat_slat_gap"], chair, "gap")
            self.near(spans[0][0], -knobs["seat_overhang"], chair, "overhang")
            self.near(np.ptp(chair.span("seat slat", 2)), knobs["seat_slat_thickness"], chair, "thickness")

    def test_stretchers_and_pegs(self):
        for chair in self.chairs:
            knobs = chair.design
            sides, cross = chair.numbered("side stretcher"), chair.numbered("cross stretcher")
            wanted = {"none": (0, 0), "sides": (2, 0), "h": (2, 1)}[knobs["stretchers"]]
            self.assertEqual((len(sides), len(cross)), wanted)
            for name in sides + cross:
                low, high = chair.corners[name][:, 2].min(), chair.corners[name][:, 2].max()
                self.near((low + high) / 2, knobs["stretcher_height"], chair, name)
            if sides:
                self.near(np.ptp(chair.span("side stretcher", 2)), knobs["stretcher_width"], chair, "height")
            # Where no joint has room for a peg of this size, there are none; that is a finding.
            if knobs["pegs"] == "none":
                self.assertEqual(chair.numbered("peg"), [])
            self.assertEqual(len(chair.numbered("peg")), chair.report["overall"]["pegs"])

    def test_overall_sizes_are_those_of_the_bodies(self):
        for chair in self.chairs:
            points = np.concatenate(list(chair.corners.values()))
            size = points.max(axis=0) - points.min(axis=0)
            told = chair.report["overall"]
            for value, name in zip(size, ("width", "depth", "height")):
                self.assertAlmostEqual(told[name], value, delta=0.0501, msg=name)


if __name__ == "__main__":
    unittest.main()
