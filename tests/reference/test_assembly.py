"""The order of assembly of random chairs, acted out in the independent kernel manifold3d.

The kernel takes the finished meshes of the assembled chair and moves those of each step back along the
way they are said to come, in small strides while tenons and pegs are in their holes and in larger ones
beyond. Nothing that moves may enter anything that is in place. What is in place is followed here: every
part is put in once, and in the end all parts are one chair.
"""

import json
import unittest

import kernel
import numpy as np
from probe import Probe, buildable

SEED = 31
COUNT = 40
LEAST_SHARE = 0.5

# Moving parts may share this much with what is in place, mm³: a pad lies on its board with 200 000 mm²,
# and the kernel is told everything off by a hair.
TOUCH = 5e-2
# Strides while tenons slide, and beyond, mm. No wall is thinner than the larger.
STRIDE = 3.0
FAR_STRIDE = 6.0
# How far is followed, mm: longer than any chair is high.
FAR = 1500.0


class Chair:
    def __init__(self, probe, design):
        self.design = design
        rows = probe.ask("solids", design=design)
        self.meshes = {row["part"]: kernel.from_mesh(row["vertices"], row["faces"]) for row in rows}
        self.moves = probe.ask("assembly", design=design)
        self.findings = probe.ask("report", design=design)["findings"]


class Assembly(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with Probe() as probe:
            designs, told = buildable(probe, SEED, COUNT, LEAST_SHARE)
            print(f"\nassembly: {told}")
            cls.chairs = [Chair(probe, design) for design in [{}, *designs]]

    def every(self, check):
        for chair in self.chairs:
            try:
                check(chair)
            except AssertionError as error:
                self.fail(f"{error}\n{json.dumps(chair.design)}")

    def test_nothing_meets_on_the_way(self):
        acted = []

        def check(chair):
            for move in chair.moves:
                if move["task"] == "weave":
                    # Cord bends; nothing is told of its way.
                    continue
                for way in ways(move):
                    acted.append(way)
                    self.assertEqual(met(chair, move, *way), [], f"step {move['step']}")

        self.every(check)
        self.assertGreater(len(acted), 6 * COUNT)

    def test_less_than_the_travel_leaves_something_in_its_hole(self):
        """Pushed aside, parts are held while they have less than the travel to go; in the default chair no longer."""

        def check(chair):
            for move in chair.moves:
                if move["task"] not in ("join", "peg") or any(fits_loosely(name) for name in move["parts"] + move["into"]):
                    continue
                back = -np.array(move["direction"])
                # Elsewhere tenons with rounded or mitred ends come free a little earlier, and something that
                # is not in a hole may stand beside the part.
                if move["travel_mm"] == 0.0:
                    # No tenon: a panel in its groove.
                    continue
                left = 0.5 if not chair.design else move["travel_mm"] / 2
                self.assertTrue(held(chair, move, back * (move["travel_mm"] - left)), f"step {move['step']}")
                if move["task"] == "join" and not chair.design:
                    self.assertFalse(held(chair, move, back * (move["travel_mm"] + 0.5)), f"step {move['step']}")

        self.every(check)

    def test_every_part_is_put_in_once(self):
        def check(chair):
            # Each set of parts that are joined so far.
            joined = [{name} for name in chair.meshes]
            for move in chair.moves:
                parts, into = set(move["parts"]), set(move["into"])
                self.assertFalse(parts & into)
                touched = [group for group in joined if group & (parts | into)]
                self.assertEqual(set().union(*touched), parts | into, f"step {move['step']}: a part is left behind")
                # What moves and what is in place were not one before.
                self.assertFalse([g for g in touched if g & parts and g & into], f"step {move['step']}")
                joined = [group for group in joined if group not in touched] + [parts | into]
            self.assertEqual(joined, [set(chair.meshes)])

        self.every(check)

    def test_the_report_says_so(self):
        def check(chair):
            found = [f["verdict"] for f in chair.findings if f["subject"] == "order of assembly"]
            self.assertEqual(found, ["sound"])

        self.every(check)


def fits_loosely(name):
    """Wedges come free before they have gone their whole length, loose tenons and dowels half way."""
    return name.startswith(("wedge", "loose tenon", "dowel"))


def ways(move):
    """Stretches of the way back from home: where each begins, its direction, its length, its stride."""
    home, back = np.zeros(3), -np.array(move["direction"])
    travel = move["travel_mm"]
    yield home, back, travel, STRIDE
    if move["before"] is None:
        beyond = FAR if move["clear_mm"] is None else move["clear_mm"]
        yield back * travel, back, beyond - travel, FAR_STRIDE
    else:
        yield back * travel, -np.array(move["before"]), FAR, FAR_STRIDE


def met(chair, move, start, direction, length, stride):
    """What the moving parts enter on a stretch of their way."""
    found = []
    for name in move["parts"]:
        body = chair.meshes[name]
        for other_name in move["into"]:
            other = chair.meshes[other_name]
            # What two parts share at home is not the order's fault.
            allowed = TOUCH + kernel.common_volume(body, other)
            for distance in near(body, other, start, direction, length, stride):
                shared = kernel.common_volume(body.translate(start + direction * distance), other)
                if shared > allowed:
                    found.append((name, other_name, distance, shared))
                    break
    return found


def near(body, other, start, direction, length, stride):
    """Distances along a stretch at which the boxes around two bodies overlap."""
    steps = np.append(np.arange(0.0, length, stride), length)
    a, b = np.array(body.bounding_box()), np.array(other.bounding_box())
    moved = start + np.outer(steps, direction)
    overlaps = ((a[:3] + moved < b[3:]) & (b[:3] < a[3:] + moved)).all(axis=1)
    return steps[overlaps]


def held(chair, move, shift):
    """Whether some moved part hits what is in place when it is pushed aside a little."""
    direction = np.array(move["direction"])
    across, up = kernel.frame_of(direction)
    for name in move["parts"]:
        body = chair.meshes[name].translate(shift)
        for other_name in move["into"]:
            other = chair.meshes[other_name]
            for aside in (across, -across, up, -up):
                moved = body.translate(aside * 0.4)
                if kernel.boxes_meet(moved, other, -1e-6) and kernel.common_volume(moved, other) > TOUCH:
                    return True
    return False


if __name__ == "__main__":
    unittest.main()
