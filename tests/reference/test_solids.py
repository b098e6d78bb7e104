"""The bodies of 300 random chairs (`SOLIDS_COUNT`) of a seed (`SOLIDS_SEED`) against the independent kernel manifold3d.

The kernel takes each mesh as a closed surface, finds the same volume, carves the same part from its
plain bodies by its own booleans, finds no two parts in one place, and measures how each tenon lies in
its mortise on the finished meshes.
"""

import itertools
import json
import os
import unittest

import kernel
import manifold3d
import numpy as np
from probe import Probe, buildable

SEED = int(os.environ.get("SOLIDS_SEED", "20"))
COUNT = int(os.environ.get("SOLIDS_COUNT", "300"))
# At most one design in fifty may be refused.
LEAST_SHARE = 0.98

# Of the volume of a part.
EXACT = 1e-6
# Parts may share this much, mm³: a strip glued along a whole rail shares its rounding, a ten-millionth of a millimetre.
SHARED = 1e-2
# A part that is moved touches another from here on, mm³.
TOUCH = 1e-3
# How finely a gap is told, mm.
FINE = 1e-3


class Chair:
    """One chair in the kernel: its finished meshes, what they are made from, and its joints."""

    def __init__(self, probe, design):
        self.design = design
        self.rows = {row["part"]: row for row in probe.ask("solids", design=design)}
        self.meshes = {name: kernel.from_mesh(row["vertices"], row["faces"]) for name, row in self.rows.items()}
        plain = probe.ask("bodies", design=design)
        self.plain = {row["part"]: row for row in plain["parts"]}
        self.joints = plain["joints"]

    def not_left(self):
        return [(name, mesh) for name, mesh in self.meshes.items() if not name.endswith("left")]

    def right_joints(self):
        return [joint for joint in self.joints if not joint["host"].endswith("left")]

    def plain_joints(self):
        """Those whose tenon is one rectangle that ends inside its host."""
        return [joint for joint in self.right_joints() if joint["plain"]]

    def inside(self, joint):
        """The guest beyond the host's face, in the frame of the joint's mouth: tenon and haunch."""
        *normal, offset = joint["face"]
        guest = self.meshes[joint["guest"]]
        # The kernel keeps what lies along the normal from the offset on.
        entered = guest.trim_by_plane([-n for n in normal], -(offset - FINE))
        return kernel.into_frame(entered, joint["mouth"])

    def has_bottom(self, joint):
        """Whether the sizes told of the host's other mortises leave wood behind the end of the tenon."""
        shallow = 2 * FINE
        deep = joint["length"] + joint["glue_gap"]
        sides = [joint["width"], joint["thickness"]]
        behind = manifold3d.Manifold.cube([shallow, *sides]).translate([deep, -sides[0] / 2, -sides[1] / 2])
        for other in self.joints:
            if other["host"] == joint["host"] and other is not joint:
                behind -= kernel.into_frame(kernel.out_of_frame(mortise(other), other["mouth"]), joint["mouth"])
        return behind.volume() > TOUCH

    def host(self, joint):
        return kernel.into_frame(self.meshes[joint["host"]], joint["mouth"])


class Solids(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with Probe() as probe:
            designs, told = buildable(probe, SEED, COUNT, LEAST_SHARE)
            print(f"\nsolids: {told}")
            cls.chairs = [Chair(probe, design) for design in designs]

    def every(self, check):
        """Checks every chair; tells how many fail and the first of them with its design."""
        failed = []
        for chair in self.chairs:
            try:
                check(chair)
            except AssertionError as error:
                failed.append((error, chair.design))
        if failed:
            error, design = failed[0]
            self.fail(f"{len(failed)} of {len(self.chairs)} chairs; the first: {error}\n{json.dumps(design)}")

    def test_volume_is_the_kernels(self):
        def check(chair):
            for name, mesh in chair.meshes.items():
                told = chair.rows[name]["volume_mm3"]
                self.assertGreater(told, 0.0, name)
                self.assertLessEqual(abs(mesh.volume() - told), EXACT * told, name)

        self.every(check)

    def test_the_kernel_carves_the_same_parts(self):
        def check(chair):
            for name, mesh in chair.not_left():
                plain = chair.plain[name]
                own = kernel.carved(plain["added"], plain["cut"])
                told = chair.rows[name]["volume_mm3"]
                self.assertLessEqual(abs(own.volume() - told), EXACT * told, name)
                self.assertLessEqual(kernel.difference_volume(own, mesh), EXACT * told, name)

        self.every(check)

    def test_no_part_enters_another(self):
        def check(chair):
            # What meets on the left meets on the right too.
            for (name, mesh), (other_name, other) in itertools.combinations(chair.not_left(), 2):
                if kernel.boxes_meet(mesh, other):
                    shared = kernel.common_volume(mesh, other)
                    self.assertLessEqual(shared, SHARED, f"{name} and {other_name}")

        self.every(check)

    def test_left_mirrors_right(self):
        def check(chair):
            for name, row in chair.rows.items():
                if name.endswith(", left"):
                    twin = chair.rows[name.replace(", left", ", right")]
                    left = np.array(row["vertices"]) * [-1.0, 1.0, 1.0]
                    self.assertEqual(as_set(left), as_set(np.array(twin["vertices"])), name)
                    self.assertEqual(row["volume_mm3"], twin["volume_mm3"])

        self.every(check)

    def test_tenon_has_the_size_told(self):
        def check(chair):
            for joint in chair.plain_joints():
                inside = chair.inside(joint)
                if joint["haunch"]:
                    inside = inside.trim_by_plane([1.0, 0.0, 0.0], joint["haunch"] + FINE)
                box = np.array(inside.bounding_box())
                what = f"{joint['guest']} in {joint['host']}"
                self.assertAlmostEqual(box[3], joint["length"], delta=1e-6, msg=what)
                self.assertAlmostEqual(box[4] - box[1], joint["width"], delta=1e-6, msg=what)
                self.assertAlmostEqual(box[5] - box[2], joint["thickness"], delta=1e-6, msg=what)

        self.every(check)

    def test_tenon_has_the_play_told(self):
        """A tenon moved by a little less than the gap touches nothing, by a little more it does."""

        def check(chair):
            for joint in chair.plain_joints():
                inside, host = chair.inside(joint), chair.host(joint)
                for way, gap in ways(joint, chair.has_bottom(joint)):
                    what = f"{joint['guest']} in {joint['host']} {way}"
                    self.assertFalse(touches(inside, host, way, gap - FINE), f"{what} less than {gap}")
                    self.assertTrue(touches(inside, host, way, gap + FINE), f"{what} more than {gap}")

        self.every(check)

    def test_mitred_tenons_keep_their_gap(self):
        met = []

        def check(chair):
            for joint in chair.plain_joints():
                other = joint["mitre"] and partner(chair, joint)
                if not other or not other["plain"]:
                    continue
                met.append(joint)
                one = chair.inside(joint)
                two = kernel.into_frame(chair.meshes[other["guest"]], joint["mouth"])
                told = joint["mitre"]["gap"]
                found = one.min_gap(two, told + 1.0)
                self.assertAlmostEqual(found, told, delta=1e-6, msg=f"{joint['guest']} and {other['guest']}")

        self.every(check)
        self.assertGreater(len(met), COUNT / 4)


def as_set(points):
    """Points to a billionth of a millimetre, in order."""
    return sorted(map(tuple, np.round(points, 9) + 0.0))


def mortise(joint):
    """The mortise as it is told, in the frame of its mouth."""
    deep = joint["length"] + joint["glue_gap"]
    sides = [joint["width"] + joint["play"][0], joint["thickness"] + joint["play"][1]]
    return manifold3d.Manifold.cube([deep, *sides]).translate([0.0, -sides[0] / 2, -sides[1] / 2])


def ways(joint, has_bottom):
    """Directions in the frame of the mouth, with the gap that must lie there."""
    width, thickness = joint["play"]
    found = [((0, 0, 1), thickness / 2), ((0, 0, -1), thickness / 2), ((0, -1, 0), width / 2), ((0, 1, 0), width / 2)]
    # Behind the end of a tenon that meets another may lie the other one's mortise, not a bottom.
    if has_bottom and not joint["ways"]:
        found.append(((1, 0, 0), joint["glue_gap"]))
    return found


def touches(body, host, way, distance):
    moved = body.translate(np.array(way, float) * distance)
    return kernel.common_volume(moved, host) > TOUCH


def partner(chair, joint):
    with_ = joint["mitre"]["with"]
    return next(j for j in chair.joints if j["guest"] == with_ and j["host"] == joint["host"])


if __name__ == "__main__":
    unittest.main()
