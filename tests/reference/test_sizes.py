"""What a knob says is what the chair is: sizes measured on the bodies of random chairs."""

import json
import math
import unittest

import kernel
import numpy as np
from probe import Probe, buildable

SEED = 31
COUNT = 90
LEAST_SHARE = 0.95
# mm and degrees.
FINE = 1e-6

# Legs upright and the seat level, so that sizes can be read off along the axes; angles have a check of their own.
UPRIGHT = {"splay": 0, "front_splay": 0, "seat_slope": 0}

BACKS = ("slats", "laths", "splat", "panel")

# A size that had no room says so in a finding with this source.
GAVE_WAY = "computed from the pieces that stand there"


class Measured:
    """The corners of each body, and the design."""

    def __init__(self, probe, design, defaults):
        self.design = defaults[design["family"]] | design
        rows = {row["part"]: row for row in probe.ask("solids", design=design)}
        self.corners = {name: np.array(row["vertices"]) for name, row in rows.items()}
        leg = rows[next(name for name in rows if name.startswith("back leg") and name.endswith("right"))]
        self.leg = kernel.from_mesh(leg["vertices"], leg["faces"])
        self.leg_points = np.array(leg["vertices"])
        self.report = probe.ask("report", design=design)
        self.gave_way = {f["knob"] for f in self.report["findings"] if f["source"] == GAVE_WAY}

    def of(self, start):
        """All corners of the parts whose names begin so."""
        return np.concatenate([points for name, points in self.corners.items() if name.startswith(start)])

    def span(self, start, axis):
        points = self.of(start)[:, axis]
        return points.min(), points.max()

    def numbered(self, start):
        return sorted(name for name in self.corners if name.startswith(start))

    def frames(self):
        """How many pairs of a front and a back leg there are."""
        return {"one": 2, "two": 3, "three": 4}[self.design["places"]]


class Sizes(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with Probe() as probe:
            kinds = [family["name"] for family in probe.ask("families")]
            defaults = {kind: {k["name"]: k["default"] for k in probe.ask("knobs", family=kind)} for kind in kinds}
            designs, told = buildable(probe, SEED, COUNT, LEAST_SHARE, UPRIGHT)
            print(f"\nsizes: {told}")
            cls.chairs = [Measured(probe, design, defaults) for design in designs]

    def those(self, at_least, **wanted):
        """The chairs of which each of the named knobs is one of those wanted."""
        found = [c for c in self.chairs if all(c.design[knob] in values for knob, values in wanted.items())]
        self.assertGreaterEqual(len(found), at_least, wanted)
        return found

    def near(self, value, wanted, chair, what):
        self.assertAlmostEqual(value, wanted, delta=FINE, msg=f"{what} {json.dumps(chair.design)}")

    def knob(self, value, knob, chair):
        """What a knob says, unless it had no room."""
        if knob not in chair.gave_way:
            self.near(value, chair.design[knob], chair, knob)

    def test_heights(self):
        for chair in self.chairs:
            for leg in ("front leg", "back leg"):
                self.near(chair.span(leg, 2)[0], 0.0, chair, leg)
            self.knob(np.ptp(chair.span("side rail", 2)), "rail_width", chair)
        for chair in self.those(20, seat=("across", "lengthwise")):
            self.knob(chair.span("seat slat", 2)[1], "seat_height", chair)
            # The seat lies on the rails.
            self.near(chair.span("side rail", 2)[1], chair.span("seat slat", 2)[0], chair, "rail")
        for chair in self.those(20, back=BACKS):
            knobs = chair.design
            self.near(chair.span("back leg", 2)[1], knobs["seat_height"] + knobs["back_height"], chair, "back")

    def test_widths_and_depths(self):
        for chair in self.chairs:
            knobs = chair.design
            self.near(np.ptp(chair.span("front leg", 0)), knobs["seat_width"], chair, "front")
            self.near(np.ptp(chair.span("back leg", 0)), knobs["seat_width"] - knobs["narrowing"], chair, "behind")
            self.knob(np.ptp(chair.span("front leg", 1)), "front_leg", chair)
            self.near(chair.span("front leg", 1)[0], 0.0, chair, "front face")
            self.knob(chair.span("front rail", 1)[0], "set_back", chair)
        for chair in self.those(20, back=BACKS):
            knobs = chair.design
            self.knob(np.ptp(chair.leg_points[:, 0]), "back_leg_thickness", chair)
            self.near(chair.span("back rail", 1)[1], knobs["seat_depth"] - knobs["set_back"], chair, "depth, set-back")

    def test_back_leg(self):
        """Depth of the leg at the floor and at the rails, square cut and lean at the top."""
        for chair in self.those(20, back=BACKS):
            points = chair.leg_points
            floor = points[points[:, 2] < FINE]
            self.knob(np.ptp(floor[:, 1]), "back_leg_foot", chair)
            _, front, _, back = chair.leg.slice(sum(chair.span("side rail", 2)) / 2).bounds()
            self.knob(back - front, "back_leg_depth", chair)
            highest = points[points[:, 2].argsort()][-4:]
            top = highest[:, 1:].max(axis=0) - highest[:, 1:].min(axis=0)
            self.knob(math.hypot(*top), "back_leg_top", chair)
            self.knob(math.degrees(math.atan2(top[1], top[0])), "rake", chair)

    def test_slats_of_the_back(self):
        for chair in self.those(4, back=["slats"], stance=["leaning"], crest=["straight"]):
            knobs, slats = chair.design, chair.numbered("back slat")
            slats = [slat for slat in slats if not slat.endswith("left")][: self.slats_in_a_bay(chair)]
            self.knob(len(slats), "back_slats", chair)
            rake = math.radians(knobs["rake"])
            along, across = (0.0, math.sin(rake), math.cos(rake)), (0.0, math.cos(rake), -math.sin(rake))
            ends = sorted(tuple(np.sort(chair.corners[slat] @ along)[[0, -1]]) for slat in slats)
            gaps = [low - high for (_, high), (low, _) in zip(ends, ends[1:])]
            if knobs["spacing"] == "gaps":
                for gap in gaps:
                    self.near(gap, gaps[0], chair, "gaps alike")
            wood = sum(high - low for low, high in ends)
            whole = ends[-1][1] - ends[0][0]
            self.knob(100 * wood / whole, "back_fill", chair)
            top = (chair.of("back leg") @ along).max()
            self.knob(top - ends[-1][1], "back_top", chair)
            for slat in slats:
                self.knob(np.ptp(chair.corners[slat] @ across), "back_slat_thickness", chair)

    def slats_in_a_bay(self, chair):
        """Slats of one bay: those at different heights."""
        heights = {round(float(chair.corners[slat][:, 2].mean()), 3) for slat in chair.numbered("back slat")}
        return len(heights)

    def test_slats_of_the_seat(self):
        for chair in self.those(5, seat=["across"]):
            slats = chair.numbered("seat slat")
            spans = sorted({tuple(np.round(np.sort(chair.corners[slat][:, 1])[[0, -1]], 6)) for slat in slats})
            for (_, back), (front, _) in zip(spans, spans[1:]):
                self.assertAlmostEqual(front - back, chair.design["seat_slat_gap"], delta=2 * FINE)
            self.assertAlmostEqual(-spans[0][0], chair.design["seat_overhang"], delta=2 * FINE)
            self.knob(np.ptp(chair.span("seat slat", 2)), "seat_slat_thickness", chair)

    def test_stretchers_and_pegs(self):
        parts = ("side stretcher", "cross stretcher", "front stretcher", "back stretcher")
        for chair in self.chairs:
            knobs, frames = chair.design, chair.frames()
            found = [len(chair.numbered(part)) for part in parts]
            across = frames - 1
            wanted = {"none": [0, 0, 0, 0], "sides": [frames, 0, 0, 0], "h": [frames, across, 0, 0]}
            self.assertEqual(found, wanted.get(knobs["stretchers"], [frames, 0, across, across]))
            heights = ("stretcher_height", "stretcher_height", "front_stretcher_height", "back_stretcher_height")
            for part, knob in zip(parts, heights):
                for name in chair.numbered(part):
                    low, high = chair.corners[name][:, 2].min(), chair.corners[name][:, 2].max()
                    self.knob((low + high) / 2, knob, chair)
            if found[0]:
                self.knob(np.ptp(chair.span("side stretcher", 2)), "stretcher_width", chair)
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
