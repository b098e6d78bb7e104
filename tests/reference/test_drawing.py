"""The drawing to a scale against programs that know nothing of it.

Which stretches of edges are hidden: a depth buffer of the bodies, filled with triangles. What is measured: the corners
of the bodies themselves. The PDF file: poppler and qpdf.
"""

import base64
import math
import re
import unittest

import kernel
import numpy as np
import paper
import raster
from probe import Probe, buildable

SEED = 128
COUNT = 10
LEAST_SHARE = 0.5
# Pixels each way.
SIZE = 900
# Of the points of edges that are looked at, those on which the drawing and the depth buffer agree.
AGREE = 0.99
# Points nearer than this behind or before a face are not looked at, mm: a pixel of a slanting face spans as much.
UNCLEAR = 1.5


class Buffer:
    """The nearest surface under each pixel of one view."""

    def __init__(self, rows, view):
        right, up = np.array(view["right"]), np.array(view["up"])
        self.axes = np.column_stack([right, -up, np.cross(right, up)])
        seen = [(np.array(row["vertices"]) @ self.axes, row["faces"], np.array(row["vertices"])) for row in rows]
        all_points = np.concatenate([points for points, _, _ in seen])
        low, high = all_points[:, :2].min(axis=0), all_points[:, :2].max(axis=0)
        self.scale = (SIZE - 8) / (high - low).max()
        self.shift = 4.0 - low * self.scale
        buffer = raster.DepthBuffer(SIZE)
        for points, faces, vertices in seen:
            flat = points[:, :2] * self.scale + self.shift
            for face in faces:
                for triangle in kernel.triangulated(vertices, face):
                    buffer.triangle(flat[triangle], points[triangle, 2], 1)
        self.nearness = buffer.nearness

    def around(self, points):
        """The nearness of the nine pixels around each point, and that of the points."""
        seen = points @ self.axes
        pixel = np.floor(seen[:, :2] * self.scale + self.shift).astype(int)
        steps = [(x, y) for x in (-1, 0, 1) for y in (-1, 0, 1)]
        under = [self.nearness[pixel[:, 1] + y, pixel[:, 0] + x] for x, y in steps]
        return np.array(under), seen[:, 2]

    def samples(self, edge):
        """Points along an edge, well away from its ends."""
        ends = np.array([edge["from"], edge["to"]])
        long = np.linalg.norm((ends @ self.axes)[1, :2] - (ends @ self.axes)[0, :2]) * self.scale
        if long < 8.0:
            return np.empty((0, 3))
        shares = np.linspace(3.0 / long, 1.0 - 3.0 / long, max(2, int(long / 6.0)))
        return ends[0] + shares[:, None] * (ends[1] - ends[0])


def agreement(rows, view):
    """Of the points of hidden and of seen stretches, how many were looked at, and how many agree."""
    buffer, found = Buffer(rows, view), {True: [0, 0], False: [0, 0]}
    for edge in view["edges"]:
        points = buffer.samples(edge)
        if len(points) == 0:
            continue
        under, near = buffer.around(points)
        # Of all nine pixels the surface lies well before the point, or of none; anything else is the rim of something.
        before = under - near > UNCLEAR
        hidden, seen = before.all(axis=0), ~before.any(axis=0)
        found[edge["seen"]][0] += int((hidden | seen).sum())
        found[edge["seen"]][1] += int((seen if edge["seen"] else hidden).sum())
    return found


def turned_over(view):
    """Every stretch told the other way: the check must not take that."""
    return {**view, "edges": [{**edge, "seen": not edge["seen"]} for edge in view["edges"]]}


class Hidden(unittest.TestCase):
    def test_edges_are_hidden_where_a_depth_buffer_hides_them(self):
        total = {True: np.zeros(2, int), False: np.zeros(2, int)}
        with Probe() as probe:
            designs, told = buildable(probe, SEED, COUNT, LEAST_SHARE)
            for design in designs:
                rows = probe.ask("solids", design=design)
                for view in probe.ask("edges", design=design, paper="a4"):
                    for seen, (count, agree) in agreement(rows, view).items():
                        total[seen] += (count, agree)
                        if count > 200:
                            self.assertGreaterEqual(agree / count, AGREE - 0.03, f"{view['view']} {seen} {design}")
        shares = {seen: agree / count for seen, (count, agree) in total.items()}
        print(f"\ndrawing: {told}; points that agree: seen {shares[True]:.3%} of {total[True][0]}, hidden {shares[False]:.3%} of {total[False][0]}")
        for seen in (True, False):
            self.assertGreater(total[seen][0], 10000)
            self.assertGreaterEqual(shares[seen], AGREE)

    def test_lines_told_the_wrong_way_are_found(self):
        with Probe() as probe:
            rows = probe.ask("solids", design={})
            view = probe.ask("edges", design={}, paper="a4")[0]
        for count, agree in agreement(rows, turned_over(view)).values():
            self.assertLess(agree / count, 1.0 - AGREE)


def extent(rows, axis, of=lambda role: True):
    values = np.concatenate([np.array(row["vertices"])[:, axis] for row in rows if of(row["role"])])
    return values.min(), values.max()


SEATS = {"seat_slat", "seat_board", "pad_board", "pad", "cord"}
# Measured in the plane of a section, not from corner to corner.
IN_SECTIONS = {"length of the tenon", "width of the tenon", "width of the rail"}


class Figures(unittest.TestCase):
    def test_every_figure_is_the_models(self):
        with Probe() as probe:
            designs, _ = buildable(probe, SEED + 1, 30, LEAST_SHARE)
            for design in designs:
                rows = probe.ask("solids", design=design)
                corners = np.concatenate([np.array(row["vertices"]) for row in rows])
                figures = probe.ask("dimensions", design=design, paper="a3")
                self.assertGreater(len(figures), 10)
                for figure in figures:
                    self.check(figure, corners)
                self.check_extents({figure["name"]: figure["value"] for figure in figures}, rows)

    def check(self, figure, corners):
        start, end, along = (np.array(figure[key]) for key in ("from", "to", "along"))
        if figure["name"] == "rake of the back":
            value = math.degrees(math.atan2(end[1] - start[1], end[2] - start[2]))
        else:
            value = (end - start) @ along
        self.assertAlmostEqual(value, figure["value"], places=6)
        if figure["name"] not in IN_SECTIONS:
            for point in (start, end):
                self.assertLess(np.linalg.norm(corners - point, axis=1).min(), 1e-6, figure)

    def check_extents(self, told, rows):
        low, high = extent(rows, 2)
        self.assertAlmostEqual(told["height"], high - low, delta=0.1)
        low_y, high_y = extent(rows, 1)
        self.assertAlmostEqual(told["depth"], high_y - low_y, delta=0.1)
        low_x, high_x = extent(rows, 0)
        self.assertAlmostEqual(told["width"], high_x - low_x, delta=0.1)
        front, back = extent(rows, 1, lambda role: role in SEATS)
        self.assertAlmostEqual(told["depth of the seat"], back - front, delta=0.1)
        top = extent(rows, 2, lambda role: role in SEATS)[1] - low
        # Told under the name of what else ends there, if it is the same.
        self.assertLess(min(abs(value - top) for value in told.values()), 0.6)


class Files(unittest.TestCase):
    def test_the_file_is_sound_and_has_the_paper(self):
        sizes = {"a4": (210, 297), "a3": (297, 420), "letter": (215.9, 279.4), "tabloid": (279.4, 431.8), "a2": (420, 594), "a1": (594, 841), "ansi-c": (431.8, 558.8), "ansi-d": (558.8, 863.6), "roll": (841, 1189)}
        with Probe() as probe:
            for name, size in sizes.items():
                answer = probe.ask("drawing", design={"family": "armchair"}, sheet="drawing", options={"paper": name, "name": "Armchair"})
                self.assertEqual((answer["pages"], answer["missing"]), (3, ""))
                with paper.Pdf(base64.b64decode(answer["pdf_base64"])) as pdf:
                    paper.run("qpdf", "--check", str(pdf.path))
                    for page in pdf.sizes():
                        for told, real in zip(sorted(page), size):
                            self.assertAlmostEqual(told, real, delta=0.2)
                    text = pdf.text()
                for words in ("Legal owner", "Date of issue", "From above", "A–A", "Length × width × thickness"):
                    self.assertIn(words, text)

    def test_figures_in_inches_are_the_models(self):
        """Every length of the views and sections is read off the page, and the fraction with what it leaves over is the
        model's length; scales are of inches to the foot."""
        with Probe() as probe:
            measures = probe.ask("dimensions", design={}, paper="ansi-c")
            options = {"paper": "ansi-c", "name": "Chair", "unit": "in16"}
            answer = probe.ask("drawing", design={}, sheet="drawing", options=options)
            metric = probe.ask("drawing", design={}, sheet="drawing", options=options | {"unit": "mm"})
        with paper.Pdf(base64.b64decode(answer["pdf_base64"])) as pdf:
            text = pdf.text()
        figures = [paper.read_inches(words) for words in re.findall(r"(?<![\d/])(?:\d+ )?\d+/\d+(?: [+-]\.\d{3})?|\d+ [+-]\.\d{3}", text)]
        lengths = [m["value"] for m in measures if m["name"] != "rake of the back"]
        self.assertGreater(len(lengths), 20)
        for value in lengths:
            near = min(abs(figure * 25.4 - value) for figure in figures + [round(value / 25.4)])
            self.assertLess(near, 0.0006 * 25.4, f"{value} mm")
        self.assertIn("Inches to 1/16", text)
        self.assertIn("in, 1/16", text)
        self.assertRegex(text, r"1:(2|4|8|12|16)\b")
        with paper.Pdf(base64.b64decode(metric["pdf_base64"])) as pdf:
            self.assertNotIn("Inches", pdf.text())


if __name__ == "__main__":
    unittest.main()
