"""The order of work: lengths for the tape and openings of clamps, measured anew on the finished meshes.

Corners of the legs are found here from the vertices that the probe's `solids` tell, and openings by straight rays through the
triangles of the meshes, so neither takes anything from how the core finds them.
"""

import base64
import json
import re
import unittest

import numpy as np
from paper import Pdf, read_inches, run
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

    def test_lengths_are_told_in_the_unit_that_was_asked(self):
        """The same steps in sixteenths of an inch: openings and tapes are the nearest."""
        metric, inches = (self.probe.ask("work", design={}, unit=unit) for unit in ("mm", "in16"))
        told = 0
        for a, b in zip(metric, inches):
            for one, other in zip(a["clamps"], b["clamps"]):
                self.assertEqual(one["told"], f"{one['opening']:.0f} mm")
                self.assertAlmostEqual(read_inches(other["told"].removesuffix(" in")), one["opening"] / 25.4, delta=1 / 32 + 1e-6)
                told += 1
            for one, other in zip(a["tapes"], b["tapes"]):
                self.assertIn(f"{one['length']:.0f} mm", one["say"])
                figure = re.search(r"(\d+(?: \d+/\d+)?) in\b", other["say"])
                self.assertAlmostEqual(read_inches(figure[1]), one["length"] / 25.4, delta=1 / 32 + 1e-6)
                told += 1
        self.assertGreater(told, 8)

    def test_printed_pages_and_card_are_sound_and_carry_the_design(self):
        """qpdf finds no fault and hands the design out again; poppler reads every step on the pages and on the card, which is
        one page; the pictures of the pages show all parts."""
        for paper in ("a4", "letter"):
            for design in ({"family": "armchair"}, {"family": "bar_chair"}):
                steps = self.probe.ask("work", design=design)
                for kind in ("pages", "card"):
                    made = self.probe.ask("work", design=design, print=kind, paper=paper, name="Zoë’s chair")
                    with Pdf(base64.b64decode(made["pdf_base64"])) as pdf:
                        self.assertIn("No syntax or stream encoding errors found", run("qpdf", "--check", pdf.path).decode())
                        inside = json.loads(run("qpdf", "--show-attachment=design.json", pdf.path))
                        text, pages = " ".join(pdf.text().split()), len(pdf.sizes())
                    self.assertEqual((inside["name"], inside["knobs"]["family"]), ("Zoë’s chair", design["family"]))
                    for step in steps:
                        self.assertIn(f"{step['number']}. {step['title']}", text)
                    self.assertEqual(pages, len(made["svgs"]))
                    self.assertEqual(pages == 1, kind == "card")
                    # The parts of a picture carry their letters; a card has none.
                    for letter in {letter for step in steps for letter in step["letters"]}:
                        self.assertEqual(f'data-letter="{letter}"' in made["svg"], kind == "pages", letter)

    def test_no_line_of_the_pages_leaves_its_column(self):
        """Every word lies within the margins, as poppler finds it with the typeface that is inside."""
        for paper, width in (("a4", 210.0), ("letter", 215.9)):
            for unit in ("mm", "in64"):
                made = self.probe.ask("work", design={"family": "bench_three"}, print="pages", paper=paper, unit=unit)
                with Pdf(base64.b64decode(made["pdf_base64"])) as pdf:
                    boxes = run("pdftotext", "-bbox", pdf.path, "-").decode()
                ends = [float(x) / 72 * 25.4 for x in re.findall(r'xMax="([\d.]+)"', boxes)]
                self.assertGreater(len(ends), 500)
                self.assertLess(max(ends), width - 14.0 + 0.1)


if __name__ == "__main__":
    unittest.main()
