"""The painted picture against a depth buffer of the same bodies, for 50 random chairs and views.

The picture is read as strict XML; its faces are painted in its own order by letter and colour. The depth
buffer knows only the bodies, how far each part has moved, and what turn and tilt mean.
"""

import math
import random
import re
import unittest
import xml.etree.ElementTree as Tree

import kernel
import numpy as np
import raster
from probe import Probe, buildable

SEED = 50
COUNT = 50
LEAST_SHARE = 0.5
# Pixels each way.
SIZE = 440
# Of the pixels that show a part, away from the edges between parts.
AGREE = 0.995

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"[-+]?\d*\.?\d+")
STEP = re.compile(r"([Mlz])([^Mlz]*)")


def views(seed):
    """Turns all round, tilts from below to above, assembled and apart in turns."""
    draw = random.Random(seed)
    while True:
        for spread in (0.0, draw.random(), 1.0):
            yield {"turn": draw.uniform(-180, 180), "tilt": draw.uniform(-30, 75), "spread": spread}


def faces(svg):
    """The filled faces of parts in painter's order: letter and colour, and the rings in pixels."""
    found = []
    for group in Tree.fromstring(svg).iter(f"{SVG}g"):
        letter = group.get("data-letter")
        for path in group.findall(f"{SVG}path"):
            if letter and path.get("fill", "none") != "none":
                found.append(((letter, path.get("fill")), rings(path.get("d"))))
    return found


def rings(text):
    """Closed rings of a path of absolute moves and steps from point to point."""
    assert STEP.sub("", text).strip() == "", f"a path of other commands: {text}"
    found = []
    for command, rest in STEP.findall(text):
        numbers = np.array([float(n) for n in NUMBER.findall(rest)]).reshape(-1, 2)
        if command == "M":
            found.append(numbers)
        elif command == "l":
            found[-1] = np.concatenate([found[-1], found[-1][-1] + np.cumsum(numbers, axis=0)])
    return found


class Scene:
    """The faces as the view moves and turns them: across and down the picture, and towards the eye, mm.

    Each is named by the letter of its part and the way it is turned, by which it is shaded.
    """

    def __init__(self, probe, design, view):
        turn, tilt = math.radians(view["turn"]), math.radians(view["tilt"])
        # The eye goes to the chair's right with the turn and upwards with the tilt.
        toward = np.array([math.sin(turn) * math.cos(tilt), -math.cos(turn) * math.cos(tilt), math.sin(tilt)])
        right = np.array([math.cos(turn), math.sin(turn), 0.0])
        axes = np.column_stack([right, -np.cross(toward, right), toward])
        travel = {row["part"]: np.array(row["travel"]) for row in probe.ask("bodies", design=design)["parts"]}
        self.faces = []
        for row in probe.ask("solids", design=design):
            points = np.array(row["vertices"])
            seen = (points + travel[row["part"]] * view["spread"]) @ axes
            for face in row["faces"]:
                normal = kernel.newell(points[face])
                normal = tuple(np.round(normal / np.linalg.norm(normal), 4) + 0.0)
                self.faces.append(((row["letter"], normal), seen, kernel.triangulated(points, face)))

    def bounds(self):
        points = np.concatenate([points for _, points, _ in self.faces])[:, :2]
        return points.min(axis=0), points.max(axis=0)

    def drawn(self, scale, shift):
        names, buffer = Names(), raster.DepthBuffer(SIZE)
        for name, points, triangles in self.faces:
            flat, number = points[:, :2] * scale + shift, names.number(name)
            for triangle in triangles:
                buffer.triangle(flat[triangle], points[triangle, 2], number)
        return buffer.image, names


class Names:
    """Numbers for names, from 1; 0 is the ground."""

    def __init__(self):
        self.all = [("", "")]
        self.known = {}

    def number(self, name):
        if name not in self.known:
            self.known[name] = len(self.all)
            self.all.append(name)
        return self.known[name]

    def letters(self):
        return np.array([letter for letter, _ in self.all])


def fitted(scene, drawn):
    """Scale and shift that lay the bodies on the drawing: they are as wide and as high as it."""
    (low, high), points = scene.bounds(), np.concatenate([ring for _, rings in drawn for ring in rings])
    drawn_low, drawn_high = points.min(axis=0), points.max(axis=0)
    across, down = (drawn_high - drawn_low) / (high - low)
    assert abs(across / down - 1.0) < 2e-3, f"stretched: {across} across, {down} down"
    return across, (drawn_low + drawn_high) / 2 - across * (low + high) / 2


def painted(drawn):
    names, image = Names(), np.zeros((SIZE, SIZE), int)
    for name, face in drawn:
        raster.paint(image, face, names.number(name))
    return image, names


def share_that_agrees(drawn, scene):
    """Of the pixels that show a part and lie away from edges, those on which both pictures show a part of
    the same letter in the colour that all faces of this part turned this way have."""
    image, names = painted(drawn)
    truth, sides = scene.drawn(*fitted(scene, drawn))
    counts = raster.away_from_edges(truth) & ((truth > 0) | (image > 0))
    shown, real = image[counts], truth[counts]
    table = np.zeros((len(sides.all), len(names.all)), int)
    np.add.at(table, (real, shown), 1)
    table[sides.letters()[:, None] != names.letters()] = 0
    return table.max(axis=1).sum() / len(real), len(real)


def drawing(probe, design, view):
    options = {**view, "scheme": "light", "letters": False, "width": SIZE, "height": SIZE}
    return faces(probe.ask("drawing", design=design, sheet="exploded", options=options)["svg"])


class Picture(unittest.TestCase):
    def test_what_is_in_front_is_in_front(self):
        with Probe() as probe:
            designs, told = buildable(probe, SEED, COUNT, LEAST_SHARE)
            shares = []
            for design, view in zip(designs, views(SEED)):
                share, pixels = share_that_agrees(drawing(probe, design, view), Scene(probe, design, view))
                shares.append(share)
                self.assertGreater(pixels, 1000, f"{view} {design}")
                self.assertGreaterEqual(share, AGREE, f"{view} {design}")
        print(f"\npicture: {told}; pixels that agree: {min(shares):.4%} at worst, {np.mean(shares):.4%} on average")

    def test_a_wrong_order_is_found(self):
        """The check itself: painted from front to back, the picture must not agree."""
        with Probe() as probe:
            view = {"turn": -32.0, "tilt": 18.0, "spread": 0.0}
            drawn, scene = drawing(probe, {}, view), Scene(probe, {}, view)
        self.assertGreaterEqual(share_that_agrees(drawn, scene)[0], AGREE)
        self.assertLess(share_that_agrees(drawn[::-1], scene)[0], AGREE)


if __name__ == "__main__":
    unittest.main()
