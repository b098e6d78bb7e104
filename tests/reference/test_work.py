"""The order of work: lengths for the tape and openings of clamps, measured anew on the finished meshes.

Corners of the legs are found here from the vertices that the probe's `solids` tell, and openings by straight rays through the
triangles of the meshes, so neither takes anything from how the core finds them.
"""

import json
import unittest

import numpy as np
from probe import Probe

# Corners of an end lie within this of its furthest point, mm.
END = 0.5
# What lengths may differ by, mm.
NEAR = 1e-6


def end_corner(row, top, left):
    """The outermost corner at the top or the foot of a leg."""
    corners = np.array(row["vertices"])
    height = corners[:, 2] if top else -corners[:, 2]
    at_end = corners[height > height.max() - END]
    front = row["role"] == "front_leg"
    out = at_end[:, 0] * (-1 if left else 1) + at_end[:, 1] * (-1 if front else 1)
    return at_end[np.argmax(out)]


def furthest_hit(row, start, way):
    """How far along the ray the mesh is left for the last time."""
    corners = np.array(row["vertices"])
    best = -np.inf
    for face in row["faces"]:
        # Faces are flat but not all convex: rays count through signed fans, so cut each into triangles from its first corner
        # and count how often the point is wound round.
        points = corners[face]
        normal = sum(np.cross(points[i] - points[0], points[i + 1] - points[0]) for i in range(1, len(points) - 1))
        if np.linalg.norm(normal) < 1e-9 or abs(normal @ way) < 1e-9 * np.linalg.norm(normal):
            continue
        t = normal @ (points[0] - start) / (normal @ way)
        hit = start + t * way
        turns = 0.0
        for a, b in zip(points, np.roll(points, -1, axis=0)):
            u, v = a - hit, b - hit
            turns += np.arctan2(np.cross(u, v) @ normal / np.linalg.norm(normal), u @ v)
        if abs(turns) > np.pi:
            best = max(best, t)
    return best


class Work(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        cls.addClassCleanup(cls.probe.close)
        cls.designs = [{"family": row["name"]} for row in cls.probe.ask("families")] + [{"splay": 4}, {"narrowing": 0, "rake": 15}]

    def each(self):
        for design in self.designs:
            solids = {row["part"]: row for row in self.probe.ask("solids", design=design)}
            yield design, solids, self.probe.ask("work", design=design)

    def test_lengths_for_the_tape(self):
        told = 0
        for _, solids, steps in self.each():
            for tape in (tape for step in steps for tape in step["tapes"]):
                for ends in [tape["ends"], tape.get("equal")]:
                    if ends is None:
                        continue
                    a, b = (end_corner(solids[end["part"]], end["top"], end["part"].endswith("left")) for end in ends)
                    self.assertAlmostEqual(np.linalg.norm(a - b), tape["length"], delta=NEAR, msg=tape["say"])
                    told += 1
        self.assertGreater(told, 6 * len(self.designs))

    def test_unequal_lengths_are_not_called_equal(self):
        """The two lengths of a side frame differ for every chair whose back leg stands taller than the front one."""
        _, _, steps = next(self.each())
        side = next(step for step in steps if step["title"].startswith("Two side frames"))
        first, second = side["tapes"]
        self.assertNotIn("equal", first)
        self.assertGreater(abs(first["length"] - second["length"]), 10)

    def test_openings_of_clamps(self):
        told = 0
        for design, solids, steps in self.each():
            joints = self.probe.ask("bodies", design=design)["joints"]
            for clamp in (clamp for step in steps for clamp in step["clamps"]):
                opening = self.opening(clamp, solids, joints)
                if opening is not None:
                    self.assertLess(min(abs(o - clamp["opening"]) for o in opening), 0.5, clamp)
                    told += 1
        self.assertGreater(told, 3 * len(self.designs))

    def opening(self, clamp, solids, joints):
        """Of every line of parts with the clamp's letter that has a joint at both ends, from far face to far face."""
        frames = [[np.array(v) for v in joint["mouth"]] for joint in joints]
        own = [i for i, joint in enumerate(joints) if solids[joint["guest"]]["letter"] == clamp["letter"]]
        found = []
        for i in own:
            start, way = frames[i][:2]
            along = {j: (frames[j][0] - start) @ way for j in own}
            line = [j for j in own if np.linalg.norm(frames[j][0] - start - along[j] * way) < 20 and abs(frames[j][1] @ way) > 0.99]
            low, high = min(line, key=along.get), max(line, key=along.get)
            if low == high or frames[low][1] @ way > 0 or frames[high][1] @ way < 0:
                continue
            reach = [furthest_hit(solids[joints[j]["host"]], *frames[j][:2]) for j in (low, high)]
            found.append(along[high] - along[low] + sum(reach))
        return found or None


if __name__ == "__main__":
    unittest.main()
