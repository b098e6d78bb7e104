"""Shoulder angles against spherical trigonometry worked out apart, from the knobs and from the finished meshes.

Formulae, in right spherical triangles and in triangles with one side of 90 degrees (Napier's rules and the law of
cosines for sides, as in any table of spherical trigonometry; from memory):

- A leg leans sideways by s seen from the front and by f seen from the side. A rail across the chair whose faces lean
  by f with the leg meets it at a shoulder that departs from square by w across its width and by t across its thickness:
  tan w = tan s cos f, tan t = tan s sin f.
- A level rail with upright faces, at the angle p in plan to a leg that leans in depth by f: tan w = tan f / cos p, t = p.
- Directions g (grain), w (width), t (thickness) of a piece are 90 degrees apart on the sphere; n is the normal of the
  shoulder. In the triangle t-g-n the side t-g is 90 degrees, so the angle at t is acos(cos gn / sin tn): by so much the
  shoulder departs from square across the width. In the triangle w-g-n the same holds across the thickness.
"""

import math
import unittest

import numpy as np
from probe import Probe, buildable

SEED = 31
COUNT = 60
# The list rounds angles to a tenth of a degree.
TENTH = 0.05 + 1e-6
# The cosine of the greatest angle of a tenon to its grain that is looked for.
ROUGHLY = 0.8


def tan(degrees):
    return math.tan(math.radians(degrees))


def arc(one, other):
    """The side of a spherical triangle between two directions, or between their lines."""
    return math.acos(min(1.0, abs(float(np.dot(one, other)))))


def departs(pole, grain, normal):
    """The angle at `pole` between the great circles to the grain and to the normal, degrees."""
    ratio = math.cos(arc(grain, normal)) / math.sin(arc(pole, normal))
    return math.degrees(math.acos(min(1.0, ratio)))


class Knobs(unittest.TestCase):
    """What the list tells for chairs whose angles follow from two knobs."""

    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def angles(self, guest, host, **design):
        rows = self.probe.ask("report", design=design)["joints"]
        return [row["angles"] for row in rows if (row["guest"], row["host"]) == (guest, host)]

    def test_rails_across_between_splayed_legs(self):
        for splay in (0.5, 2.0, 4.0):
            for front in (0.0, 3.0, 6.0):
                design = {"family": "stool", "splay": splay, "front_splay": front, "stretchers": "box"}
                for guest in ("front rail", "front stretcher"):
                    (told,) = self.angles(guest, "front leg", **design)
                    across_width = math.degrees(math.atan(tan(splay) * math.cos(math.radians(front))))
                    across_thickness = math.degrees(math.atan(tan(splay) * math.sin(math.radians(front))))
                    self.assertAlmostEqual(told["shoulder_across_width"], across_width, delta=TENTH)
                    self.assertAlmostEqual(told["shoulder_across_thickness"], across_thickness, delta=TENTH)

    def test_side_stretchers_in_plan_at_leaning_legs(self):
        for narrowing in (10, 40, 58):
            for front in (0.0, 3.0, 6.0):
                design = {"narrowing": narrowing, "front_splay": front, "stretchers": "sides", "splay": 0}
                (told,) = self.angles("side stretcher", "front leg", **design)
                solids = self.probe.ask("solids", design=design)
                row = next(row for row in solids if row["part"].startswith("side stretcher"))
                g = Piece(row, [0.0, 1.0, 0.0]).grain
                p = math.degrees(math.atan2(abs(g[0]), abs(g[1])))
                self.assertGreater(p, 0.3)
                self.assertAlmostEqual(g[2], 0.0, delta=1e-9)
                across_width = math.degrees(math.atan(tan(front) / math.cos(math.radians(p))))
                self.assertAlmostEqual(told["shoulder_across_width"], across_width, delta=TENTH)
                self.assertAlmostEqual(told["shoulder_across_thickness"], p, delta=TENTH)


class Piece:
    """Directions of a piece of timber, taken from its finished mesh: its grain runs roughly along `towards`."""

    def __init__(self, row, towards):
        self.points = np.array(row["vertices"])
        self.faces = row["faces"]
        edges = [self.points[b] - self.points[a] for f in self.faces for a, b in zip(f, [*f[1:], f[0]])]
        lengths = [np.linalg.norm(e) for e in edges]
        ways = [(e / length, length) for e, length in zip(edges, lengths) if length > 1e-6]
        along = [(way, length) for way, length in ways if abs(np.dot(way, towards)) > ROUGHLY]
        # Holes have edges too, but short ones.
        longest = max(length for _, length in along)
        self.grain = heaviest([(way, length) for way, length in along if length > longest / 2.0])
        self.planes = [self.plane(face) for face in self.faces]
        along = [(n, area) for n, area, _ in self.planes if abs(np.dot(n, self.grain)) < 1e-6]
        self.thickness = heaviest(along)
        self.width = np.cross(self.thickness, self.grain)

    def plane(self, face):
        """Normal, area, and distance from the origin."""
        p = self.points[face]
        twice = sum(np.cross(a, b) for a, b in zip(p, np.roll(p, -1, axis=0)))
        length = np.linalg.norm(twice)
        normal = twice / length if length > 0 else np.zeros(3)
        return normal, length / 2.0, float(np.dot(normal, p[0]))

    def is_curved(self):
        """Whether it is sawn to a curve: more than a fifth of its surface looks neither way of a straight stick."""
        ways = (self.grain, self.width, self.thickness)
        odd = sum(area for n, area, _ in self.planes if max(abs(np.dot(n, way)) for way in ways) < 0.9)
        return odd > 0.2 * sum(area for _, area, _ in self.planes)

    def shoulder(self, face):
        """The normal of the mesh's own surface that lies in a plane of the host, with its area."""
        *normal, offset = face
        normal = np.array(normal)
        lies = [
            (n, area)
            for n, area, d in self.planes
            if abs(np.dot(n, normal)) > 1 - 1e-10 and abs(d * np.dot(n, normal) - offset) < 1e-5
        ]
        return heaviest(lies) if sum(area for _, area in lies) > 1.0 else None


def heaviest(weighed):
    """The direction, either way, that has most weight."""
    found = []
    for direction, weight in weighed:
        for group in found:
            if abs(np.dot(group[0], direction)) > 1 - 1e-9:
                group[1] += weight
                break
        else:
            found.append([direction, weight])
    return max(found, key=lambda group: group[1])[0]


class Meshes(unittest.TestCase):
    def test_random_chairs_of_all_kinds(self):
        with Probe() as probe:
            designs, told = buildable(probe, SEED, COUNT, 0.95)
            compared = sum(self.chair(probe, design) for design in designs)
        print(f"\nangles: {told}; {compared} shoulders compared with the meshes")
        self.assertGreater(compared, 10 * COUNT)

    def chair(self, probe, design):
        rows = probe.ask("report", design=design)["joints"]
        pieces = {row["part"]: row for row in probe.ask("solids", design=design)}
        compared = 0
        for joint in probe.ask("bodies", design=design)["joints"]:
            piece = Piece(pieces[joint["guest"]], joint["mouth"][1])
            normal = piece.shoulder(joint["face"])
            # A sawn curve has no straight edge along its grain, and a housed joint no shoulder.
            if normal is None or piece.is_curved():
                continue
            found = departs(piece.thickness, piece.grain, normal), departs(piece.width, piece.grain, normal)
            named = [r["angles"] for r in rows if named_alike(r, joint)]
            near = [told for told in named if close(told, found) or close(told, found[::-1])]
            self.assertTrue(near, f"{joint['guest']} in {joint['host']}: {found}, told {named}\n{design}")
            compared += 1
        return compared


def named_alike(row, joint):
    return joint["guest"].startswith(row["guest"]) and joint["host"].startswith(row["host"])


def close(told, found):
    pair = told["shoulder_across_width"], told["shoulder_across_thickness"]
    return all(abs(a - b) <= TENTH for a, b in zip(pair, found))


if __name__ == "__main__":
    unittest.main()
