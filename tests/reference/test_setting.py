"""Setting-out sheets against the solids of the chair: every distance is found again on the finished bodies, with nothing of
the core's own joints; and the printed files against what the sheets tell."""

import base64
import unittest
import xml.etree.ElementTree as ElementTree
from fractions import Fraction

import numpy as np
from shapely import Point, Polygon

from paper import Pdf, run
from probe import Probe, Refused, buildable

#: A figure is found where the body has a corner so near, mm: half of the finest that is marked by hand.
NEAR = 0.05
#: A figure half way between two goes to the greater one, mm.
HAIR = 1e-7
COUNT = 24
SEED = 5


def written(mm, unit):
    """A length as the sheets write it, worked out with exact fractions."""
    if unit == "mm":
        return trimmed(f"{mm + HAIR:.1f}")
    if unit == "cm":
        return trimmed(f"{(mm + HAIR) / 10:.2f}")
    parts = int(unit.removeprefix("in"))
    inches = Fraction(mm) / Fraction(254, 10)
    count = int(inches * parts + Fraction(1, 2))
    rest = inches - Fraction(count, parts)
    whole, broken = divmod(Fraction(count, parts), 1)
    figure = " ".join(str(part) for part in (whole, broken) if part) or "0"
    if abs(rest) < Fraction(1, 2000):
        return figure
    thousandths = int(abs(rest) * 1000 + Fraction(1, 2))
    return f"{figure} {'+' if rest > 0 else '-'}.{thousandths:03}"


def trimmed(text):
    text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


class Bodies:
    """Corners of a chair's solids by the names of the parts, and the planes of their faces."""

    def __init__(self, probe, design):
        rows = probe.ask("solids", design=design)
        self.by_part = {row["part"]: np.array(row["vertices"]) for row in rows}
        self.planes = {row["part"]: list(planes(self.by_part[row["part"]], row["faces"])) for row in rows}


def planes(corners, faces):
    """A point and the normal of each face, by Newell's sum."""
    for face in faces:
        ring = corners[face]
        normal = np.cross(ring, np.roll(ring, -1, axis=0)).sum(axis=0)
        yield ring[0], normal / np.linalg.norm(normal)


def on_arrises(face, along, faces_of_body):
    """Where the planes of a body's faces cross the two arrises of a blank's face, from the datum end: a shoulder is drawn
    on the squared blank, also where a bevel or curve takes the arris away later."""
    along, corner = np.array(along), np.array(face["corner"])
    for start in (corner, corner - np.array(face["up"]) * face["height"]):
        for point, normal in faces_of_body:
            rate = normal @ along
            if abs(rate) > 0.5:
                yield (point - start) @ normal / rate


class Face:
    """A face of a blank: where the corners of a body lie on it."""

    def __init__(self, face, along, corners):
        self.spec = face
        from_corner = corners - np.array(face["corner"])
        self.x = from_corner @ np.array(along)
        self.y = -(from_corner @ np.array(face["up"]))
        self.across = face["height"] - self.y if face["below"] else self.y

    def has(self, point):
        return bool(np.any(np.hypot(self.x - point[0], self.y - point[1]) < NEAR))


FAMILIES = {"tenon": ("tenon",), "mortise": ("mortise", "haunch"), "haunch": ("mortise", "haunch")}


def within(part, mark, corner):
    """Whether a corner lies where two pieces of one joint touch: a haunch and its tenon, or the steps of a tenon halved
    past another. The whole has no corner there."""
    kin = [
        Polygon(other["corners"]).buffer(2 * NEAR)
        for other in part["marks"]
        if other is not mark
        and (other["letter"], other["face"]) == (mark["letter"], mark["face"])
        and other["what"] in FAMILIES.get(mark["what"], ())
    ]
    return any(shape.covers(Point(corner)) for shape in kin)


def inner(part, figure, face):
    """Distances of such corners along or across a face."""
    for mark in part["marks"]:
        if mark["face"] != figure["face"] or mark["what"] in ("peg", "hole"):
            continue
        for corner in mark["corners"]:
            if within(part, mark, corner):
                height = face.spec["height"]
                across = height - corner[1] if face.spec["below"] else corner[1]
                told = corner[0] if figure["way"] == "along" else across
                if abs(told - figure["value"]) < NEAR:
                    return [figure["value"]]
    return []


def middle(corners):
    return (np.min(corners, axis=0) + np.max(corners, axis=0)) / 2


def is_middle(part, figure):
    """Whether it tells the middle of a dowel's hole."""
    face = part["faces"][figure["face"]]
    for mark in part["marks"]:
        if mark["what"] == "hole" and mark["face"] == figure["face"]:
            x, y = middle(mark["corners"])
            told = x if figure["way"] == "along" else face["height"] - y if face["below"] else y
            if abs(told - figure["value"]) < NEAR:
                return True
    return False


def draws(design):
    return design.get("peg_way") == "drawn"


class Setting(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        kinds = [{"family": family["name"]} for family in cls.probe.ask("families")]
        found, _ = buildable(cls.probe, SEED, COUNT, 0.1)
        cls.chairs = []
        for design in kinds + found:
            told = cls.probe.ask("setting", design=design)
            bodies = Bodies(cls.probe, design)
            cls.chairs.append((design, told, bodies))

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def parts(self):
        for design, told, bodies in self.chairs:
            for part in told["parts"]:
                corners = bodies.by_part[part["part"]]
                faces = [Face(face, part["along"], corners) for face in part["faces"]]
                yield design, part, bodies.planes[part["part"]], corners, faces

    def test_frames_are_true(self):
        """Faces stand square to each other, are rolled one after the other as one sees them from outside, and the datum
        end and the faces that are measured from touch the body."""
        for _, part, _, corners, faces in self.parts():
            along = np.array(part["along"])
            reach = corners @ along
            name = (part["sheet"], part["part"])
            self.assertAlmostEqual(reach.max() - reach.min(), part["length"], 6, name)
            normals = {face.spec["name"]: np.array(face.spec["normal"]) for face in faces}
            for face in faces:
                normal, up = np.array(face.spec["normal"]), np.array(face.spec["up"])
                self.assertAlmostEqual(np.dot(np.cross(along, up), normal), 1.0, 9, "seen from outside, right-handed")
                self.assertAlmostEqual(face.x.min(), 0.0, 6, name)
                outermost = (corners @ normal).max() - np.dot(face.spec["corner"], normal)
                self.assertLess(outermost, 3.0, "only a slanted tenon stands out of its blank")
                down = np.dot(up, normals[face.spec["from"]]) < 0
                self.assertEqual(down, face.spec["below"], name)
            self.assertAlmostEqual(np.dot(normals["face side"], normals["face edge"]), 0.0, 9)

    def test_mouths_and_tenons_have_the_corners_that_are_marked(self):
        """Each corner of a mortise, groove, far mouth or tenon lies over or under a corner of the finished body."""
        found = missed = 0
        missing = []
        for design, part, _, _, faces in self.parts():
            for mark in part["marks"]:
                if mark["what"] in ("peg", "hole") or len(mark["corners"]) != 4:
                    continue
                for corner in mark["corners"]:
                    if within(part, mark, corner):
                        continue
                    if faces[mark["face"]].has(corner):
                        found += 1
                    else:
                        missed += 1
                        missing.append((part["sheet"], mark["what"], mark["letter"], part["faces"][mark["face"]]["name"], corner))
        print(f"\nsetting out: {found} corners of {len(self.chairs)} chairs found on the bodies, {missed} not", end=" ")
        self.assertGreater(found, 5000)
        # A corner that another cut takes away is no corner of the body any more.
        self.assertLess(missed, 0.005 * found, missing[:12])

    def test_every_distance_is_found_on_the_body(self):
        """Shoulders, ends, cuts and gauge lines: somewhere the body has a corner at that distance."""
        found, missing = 0, []
        for design, part, sides, _, faces in self.parts():
            for figure in part["figures"]:
                if "peg" in figure["what"] or is_middle(part, figure):
                    continue
                face = faces[figure["face"]]
                held = face.x if figure["way"] == "along" else face.across
                if np.abs(held - figure["value"]).min() < NEAR or figure["value"] in inner(part, figure, face):
                    found += 1
                elif figure["what"] == ["shoulder"] and any(
                    abs(x - figure["value"]) < NEAR for x in on_arrises(face.spec, part["along"], sides)
                ):
                    found += 1
                else:
                    missing.append((part["sheet"], face.spec["name"], figure))
        print(f"\nsetting out: {found} distances found, {len(missing)} not", end=" ")
        self.assertLess(len(missing), 0.005 * found, missing[:12])

    def test_pegs_and_dowels_stand_in_the_middle_of_their_holes(self):
        count = 0
        for design, part, _, _, faces in self.parts():
            if draws(design):
                continue
            for mark in part["marks"]:
                if mark["what"] not in ("peg", "hole"):
                    continue
                face, at = faces[mark["face"]], middle(mark["corners"])
                # Corners of the hole lie about half of its size, or of a square's diagonal, from its middle, all round it.
                off = np.hypot(face.x - at[0], face.y - at[1])
                ring = (off > 0.45 * mark["size"]) & (off < 0.78 * mark["size"])
                points = np.unique(np.round(np.column_stack([face.x[ring], face.y[ring]]), 3), axis=0)
                self.assertGreaterEqual(len(points), 4, (part["sheet"], mark))
                # A hole that slants through the timber has its two mouths beside each other.
                if np.hypot(*(middle(points) - at)) < 0.2:
                    count += 1
        self.assertGreater(count, 300)

    def test_offsets_follow_the_outline(self):
        """At each station the body has no corner outside the two lines, and the lines lie on its edges."""
        stations = 0
        for _, part, _, _, faces in self.parts():
            for face in faces[:2]:
                rows = np.array(face.spec["offsets"])
                if not len(rows):
                    continue
                stations += len(rows)
                self.assertTrue((np.diff(rows[:, 0]) > 0).all())
                # Between stations the true outline bends; its corners stay within what an arc of that step could rise.
                for x, near, far in rows:
                    # Near the ends, which may be cut at any slant, the lines run steeply.
                    if x < rows[0, 0] + 20 or x > rows[-1, 0] - 20:
                        continue
                    here = np.abs(face.x - x) < 3.0
                    if here.any():
                        self.assertGreater(face.across[here].min(), near - 1.5, part["sheet"])
                        self.assertLess(face.across[here].max(), far + 1.5, part["sheet"])
                low, high = rows[:, 1].min(), rows[:, 2].max()
                self.assertLess(abs(face.across.max() - high), 6.0, part["sheet"])
                self.assertLess(abs(face.across.min() - low), 6.0, part["sheet"])
        self.assertGreater(stations, 100)

    def test_pairs_are_mirror_images(self):
        """A left part's marks are its right twin's: the same figures, in chair space on the other side of the middle."""
        pairs = 0
        for _, told, bodies in self.chairs:
            by_sheet = {part["sheet"]: part for part in told["parts"]}
            for name, right in by_sheet.items():
                if right["hand"] != "right":
                    continue
                left = by_sheet[name.replace("-right", "-left")]
                mirror = np.array([-1.0, 1.0, 1.0])
                for a, b in zip(right["faces"], left["faces"]):
                    np.testing.assert_allclose(np.array(a["normal"]) * mirror, b["normal"], atol=1e-9)
                self.assertEqual([f["what"] for f in right["figures"]], [f["what"] for f in left["figures"]])
                np.testing.assert_allclose(
                    [f["value"] for f in right["figures"]], [f["value"] for f in left["figures"]], atol=1e-6
                )
                pairs += 1
        self.assertGreater(pairs, 40)

    def test_figures_are_written_as_they_are(self):
        """Each running figure of the drawing is its distance, written anew from exact fractions."""
        design, told, _ = self.chairs[0]
        names = [f"{part['sheet']}{more}" for part in told["parts"] for more in ("", "-2", "-3", "-4")]
        for unit in ("mm", "cm", "in16", "in64"):
            count = 0
            for part in told["parts"]:
                drawn = [text for name in names if name == part["sheet"] or name.startswith(part["sheet"] + "-")
                         for text in self.texts(design, name, unit)]
                for figure in part["figures"]:
                    text = f"{written(figure['value'], unit)}  {', '.join(figure['what'])}"
                    self.assertIn(text, drawn, (part["sheet"], unit))
                    count += 1
            self.assertGreater(count, 100)

    def texts(self, design, name, unit):
        """All texts of a sheet; a second one may be there in one unit and not in another."""
        try:
            svg = self.probe.ask("drawing", design=design, sheet=name, options={"unit": unit})["svg"]
        except Refused as refused:
            if refused.error["where"] != "sheet":
                raise
            return []
        return list(texts(ElementTree.fromstring(svg)))

    def test_gauges_tell_the_marks(self):
        """Each setting of a gauge is found on the part that it names."""
        for _, told, _ in self.chairs:
            by_letter = {}
            for part in told["parts"]:
                by_letter.setdefault(part["letter"], []).append(part)
            for row in told["gauges"]:
                if row["from"].endswith("as sawn"):
                    continue
                for use in row["uses"]:
                    letter = use.split(" ")[0]
                    across = [
                        figure["value"]
                        for part in by_letter[letter]
                        for figure in part["figures"]
                        if figure["way"] == "across" and part["faces"][figure["face"]]["from"] == row["from"]
                    ]
                    heights = [face["height"] for part in by_letter[letter] for face in part["faces"]]
                    for pin in row["pins"]:
                        near = [abs(pin - value) < 2 * NEAR for value in across + heights + [0.0]]
                        self.assertTrue(any(near), (row, use))

    def test_limits_are_those_of_the_standards_and_lie_about_the_figures(self):
        """Each size with limits is a figure, a depth or a length that is told elsewhere; its deviations are those that the
        tables of ISO 2768-1 give for the class (written here by their own rule of steps), and no limit lets a tenon be
        larger or a mortise smaller than it should be."""
        steps = [3, 6, 30, 120, 400, 1000, 2000]
        classes = {"fine": [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5], "medium": [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2]}
        of = {"shoulders": "fine", "wide": "fine", "long": "medium", "mouth": "fine", "deep": "medium", "across": "fine", "along": "fine", "peg": "fine"}
        seen = {}
        for _, part, _, _, _ in self.parts():
            for limit in (limit for row in part["limits"] for limit in row["all"]):
                what, size, upper, lower = (limit[key] for key in ("what", "size", "upper", "lower"))
                seen[what] = seen.get(what, 0) + 1
                if what in of:
                    by = classes[of[what]][next(i for i, end in enumerate(steps) if size <= end)]
                    self.assertAlmostEqual(upper - lower, 2 * by, 9, (part["sheet"], limit))
                if what in ("wide", "long"):
                    self.assertEqual(upper, 0.0)
                elif what in ("cut", "mouth", "deep"):
                    self.assertEqual(lower, 0.0)
                else:
                    self.assertAlmostEqual(upper, -lower, 9)
                if what in ("along", "across"):
                    # Gauged from a sawn edge it is no figure of the blank.
                    told = [figure["value"] for figure in part["figures"] if figure["way"] == what]
                    if not any(face["curved"] for face in part["faces"]):
                        self.assertLess(min(abs(value - size) for value in told), 2 * NEAR, (part["sheet"], limit))
        for what in (*of, "thick", "cut"):
            self.assertGreater(seen.get(what, 0), 10, what)

    def test_limits_are_printed_with_a_box_to_tick(self):
        """Poppler reads sizes and deviations on the page of a rail."""
        design, told, _ = self.chairs[0]
        rail = next(part for part in told["parts"] if "front_rail" in part["part"] or "front rail" in part["part"])
        made = self.probe.ask("drawing", design=design, sheet=rail["sheet"], options={"paper": "a4", "unit": "mm"})
        with Pdf(base64.b64decode(made["pdf_base64"])) as pdf:
            text = pdf.text()
        self.assertIn("tick each size when it has been measured", text)
        svg = self.probe.ask("drawing", design=design, sheet=rail["sheet"])["svg"]
        boxes = svg.count('data-limit="')
        self.assertGreaterEqual(boxes, 4)
        self.assertLessEqual(boxes, sum(len(row["all"]) for row in rail["limits"]))
        shoulders = next(limit for row in rail["limits"] for limit in row["all"] if limit["what"] == "shoulders")
        self.assertRegex(text, rf"{shoulders['size']:.2f}".rstrip("0").rstrip(".") + r"\s*±")

    def test_files_are_sound(self):
        """qpdf finds no fault, and the text of the pages holds title, figures and labels."""
        design, told, _ = self.chairs[0]
        options = {"paper": "a4", "unit": "in32"}
        wanted = {
            "setting": ["Front leg, right", "Front leg, left", "Mortises", "Tenons"],
            "gauges": ["mortise gauge", "Cutters and bits"],
            "labels": ["face side", "Back leg, left"],
        }
        for sheet, words in wanted.items():
            made = self.probe.ask("drawing", design=design, sheet=sheet, options=options)
            self.assertEqual(made["missing"], "")
            with Pdf(base64.b64decode(made["pdf_base64"])) as pdf:
                self.assertIn("No syntax or stream encoding errors found", run("qpdf", "--check", pdf.path).decode())
                text = pdf.text()
                for word in words:
                    self.assertIn(word, text)


def texts(root):
    for node in root.iter():
        if node.tag.endswith("}text") or node.tag == "text":
            yield "".join(node.itertext())


if __name__ == "__main__":
    unittest.main()
