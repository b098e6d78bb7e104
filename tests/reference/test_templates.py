"""Templates as they come out of the printer, measured on the pages, and against the solids of the chair.

Each page is rasterised by poppler. The check bars are measured; the outline of the leg is measured where it is
drawn, sheet by sheet and over the joined sheets, which are laid on each other by their marks alone, as at the bench. The
outlines themselves are compared with the shadows of the finished solids, which the drawing code never sees.
"""

import base64
import re
import unittest
import xml.etree.ElementTree as Tree

import kernel
import numpy as np
import shapely
from paper import FOOT, MARGIN, OVERLAP, Pdf, bars, marks
from probe import Probe, buildable

PAPERS = ["a4", "a3", "letter", "tabloid", "roll"]
DPI = 300
# Of a bar, and of an outline on one sheet; of an outline over all joined sheets, mm.
ON_A_SHEET = 0.1
JOINED = 0.3
# Of what a shape measures round itself, mm: tenons are drawn to a hundredth, curves to five.
SHADOW = 0.3
# Seen along its edge a bent leg has no face that tells the direction; it is guessed from its tightest box.
GUESSED = 0.7
SLOT = 3.0
# Of the stations along the leg, those where nothing else is drawn across or beside the outline.
LEAST_MEASURED = 0.7
# Random chairs whose outlines are compared with their solids.
SEED, COUNT, LEAST_SHARE = 14, 12, 0.5

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"[-+]?\d*\.?\d+")
STEP = re.compile(r"([Mlz])([^Mlz]*)")


def rings(path):
    """Closed rings of a path of absolute moves and steps from point to point."""
    found = []
    for command, rest in STEP.findall(path.get("d")):
        numbers = np.array([float(n) for n in NUMBER.findall(rest)]).reshape(-1, 2)
        if command == "M":
            found.append(numbers)
        elif command == "l":
            found[-1] = np.concatenate([found[-1], found[-1][-1] + np.cumsum(numbers, axis=0)])
    return found


def views(svg):
    """For each view of a template, the timber's outline, and all that is sawn: with the tenons."""
    found, wide = {}, None
    for group in Tree.fromstring(svg).iter(f"{SVG}g"):
        kind = next((kind for kind in ("outline", "marks") if group.get(f"data-{kind}")), None)
        if kind is None:
            continue
        name = group.get(f"data-{kind}")
        timber, sawn = found.get(name, (None, []))
        for path in group.findall(f"{SVG}path"):
            wide = path.get("stroke-width") if kind == "outline" else wide
            # A tenon is drawn as wide as the outline, what is cut into the timber is thin.
            if path.get("stroke-width") == wide:
                shapes = [shapely.Polygon(ring) for ring in rings(path)]
                timber = shapes[0] if kind == "outline" else timber
                sawn = sawn + shapes
        found[name] = (timber, sawn)
    return {name: (timber, welded(sawn)) for name, (timber, sawn) in found.items()}


def welded(shapes):
    """Their union; a tenon's root and its shoulder part by what the file rounds off, 0.01 mm."""
    whole = shapely.union_all([shape.buffer(0.02, join_style="mitre") for shape in shapes])
    return whole.buffer(-0.02, join_style="mitre")


def shadow(solid, normal):
    """What a solid covers seen along a direction, as a polygon without holes."""
    flat = np.array(solid["vertices"]) @ np.column_stack(axes(normal))
    faces = [shapely.Polygon(flat[face]) for face in solid["faces"]]
    whole = shapely.union_all([face.buffer(0) for face in faces if face.area > 1e-9], grid_size=1e-6)
    largest = max(getattr(whole, "geoms", [whole]), key=lambda part: part.area)
    return shapely.Polygon(largest.exterior)


def directions(solid):
    """The ways its largest faces look: among them are the faces on which a template is laid."""
    points, found = np.array(solid["vertices"]), []
    for face in solid["faces"]:
        normal = kernel.newell(points[face])
        found.append((np.linalg.norm(normal), normal / np.linalg.norm(normal)))
    found.sort(key=lambda row: -row[0])
    largest = [normal for _, normal in found[:12]]
    return largest + [beside(solid, normal) for normal in largest[:6]]


def beside(solid, normal):
    """Across a face and across its length: how the edge of a bent leg is seen, which has no one face there."""
    right, up = axes(normal)
    corners = np.array(shadow(solid, normal).minimum_rotated_rectangle.exterior.coords)
    sides = np.diff(corners, axis=0)[:2]
    long = max(sides, key=np.linalg.norm)
    way = np.cross(normal, right * long[0] + up * long[1])
    return way / np.linalg.norm(way)


def axes(normal):
    right = np.cross(normal, [1.0, 0.0, 0.0] if abs(normal[0]) < 0.9 else [0.0, 1.0, 0.0])
    right /= np.linalg.norm(right)
    return right, np.cross(normal, right)


def measures(polygon):
    """Of a shape without the slots for wedges, which are thinner than twice `SLOT`: what does not depend on how a shape lies: area, length round it, and the sides of its tightest box, mm."""
    polygon = polygon.buffer(SLOT, join_style="mitre").buffer(-SLOT, join_style="mitre")
    corners = np.array(polygon.minimum_rotated_rectangle.exterior.coords)
    sides = sorted(np.linalg.norm(np.diff(corners, axis=0), axis=1)[:2])
    return np.array([polygon.area / polygon.length, polygon.length, *sides])


class Joined:
    """The sheets of one row laid on each other by their marks: points of the whole on each page."""

    def __init__(self, pdf, pages):
        self.pictures = [pdf.page(number, DPI) for number in pages]
        self.starts = [np.zeros(2)]
        for left, right in zip(self.pictures, self.pictures[1:]):
            here, there = np.array(marks(left, "right")), np.array(marks(right, "left"))
            assert here.shape == there.shape == (2, 2), f"marks {here} {there}"
            # Both marks must lie on each other: the second tells that the sheets are neither turned nor stretched.
            assert np.abs((here - there) - (here - there).mean(axis=0)).max() < ON_A_SHEET
            self.starts.append(self.starts[-1] + (here - there).mean(axis=0))

    def edge(self, page, x, y):
        """The level line of the whole at x near y, as it is drawn on a page; None where it cannot be measured."""
        picture, start = self.pictures[page], self.starts[page]
        if not MARGIN + 2 < x - start[0] < picture.width - MARGIN - 2:
            return None
        found = picture.line_along(x - start[0], y - start[1], 2.0)
        # Where something else touches the line it is wider than the pen.
        return found[0] + start[1] if found and found[1] < 0.55 else None


def crossings(polygon, x):
    """The heights at which the outline crosses x, the upper first."""
    line = shapely.LineString([(x, -1e4), (x, 1e4)]).intersection(polygon)
    return [line.bounds[1], line.bounds[3]]


class Templates(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def pdf(self, design, sheet, paper):
        answer = self.probe.ask("drawing", sheet=sheet, design=design, options={"paper": paper})
        return Pdf(base64.b64decode(answer["pdf_base64"])), answer["pages"]

    def test_bars_have_their_lengths(self):
        worst = 0.0
        for paper in PAPERS:
            file, pages = self.pdf({}, "template-B", paper)
            with file as pdf:
                for number in range(1, pages + 1):
                    for have, want in zip(bars(pdf.page(number, DPI)), (100.0, 101.6)):
                        self.assertAlmostEqual(have, want, delta=ON_A_SHEET, msg=f"{paper}, page {number}")
                        worst = max(worst, abs(have - want))
        print(f"\nbars: at most {worst:.3f} mm wrong")

    def test_a_leg_is_true_on_each_sheet_and_joined(self):
        """The leg as it is drawn against the leg as it is: the shadow of its finished solid."""
        leg = next(row for row in self.probe.ask("solids") if row["part"] == "back leg, right")
        # The default leg stands in a plane across the chair's width; its shadow along the width is its outline.
        solid = shadow(leg, np.array([1.0, 0.0, 0.0]))
        for paper in PAPERS:
            file, pages = self.pdf({}, "template-B", paper)
            with file as pdf:
                self.measure(paper, solid, Joined(pdf, range(1, pages + 1)))

    def measure(self, paper, solid, joined):
        drawn = next(iter(views(self.probe.ask("drawing", sheet="template-B", design={})["svg"]).values()))[0]
        laid = laid_on(solid, drawn)
        stations, pages = [], len(joined.pictures)
        # Where the drawing lies on the paper is no part of its truth: the first sheet tells it, the others must follow.
        low, _, high, _ = drawn.bounds
        offset = self.offset(joined, drawn)
        tried = 0
        for x in np.arange(low + 4, high - 4, 7.0):
            for y in crossings(laid, x):
                for page in range(pages):
                    at = np.array([x, y]) + offset
                    inside = MARGIN + 2 < at[0] - joined.starts[page][0] < joined.pictures[page].width - MARGIN - 2
                    tried += inside
                    found = joined.edge(page, *at) if inside else None
                    if found is not None:
                        stations.append((page, found - at[1]))
        self.assertGreater(len(stations), LEAST_MEASURED * tried, paper)
        errors = np.array([error for _, error in stations])
        for page in range(pages):
            own = np.array([error for number, error in stations if number == page])
            self.assertLessEqual(np.abs(own - np.median(own)).max(), ON_A_SHEET, f"{paper}, page {page + 1}")
        self.assertLessEqual(np.abs(errors).max(), JOINED, paper)
        length = self.length(joined, drawn, offset)
        self.assertAlmostEqual(length, laid.bounds[2] - laid.bounds[0], delta=JOINED, msg=paper)
        print(f"\nleg on {paper}: {pages} sheets, {len(stations)} places, at most {np.abs(errors).max():.3f} mm wrong, "
              f"length {length:.2f} of {laid.bounds[2] - laid.bounds[0]:.2f}")

    def offset(self, joined, drawn):
        """From the drawing's coordinates to those of the first page: the drawing lies in the middle of the sheets."""
        svg = Tree.fromstring(self.probe.ask("drawing", sheet="template-B", design={})["svg"])
        width, height = (float(svg.get(name).removesuffix("mm")) for name in ("width", "height"))
        first = joined.pictures[0]
        window = np.array([first.width - 2 * MARGIN, first.height - 2 * MARGIN - FOOT])
        count = len(joined.pictures)
        whole = np.array([count * window[0] - (count - 1) * OVERLAP, window[1]])
        return (whole - np.array([width, height])) / 2 + MARGIN

    def length(self, joined, drawn, offset):
        """Between the ends of the dimension of the length, on the first and the last sheet."""
        low, _, high, bottom = drawn.bounds
        ends = []
        for x, page in ((low, 0), (high, len(joined.pictures) - 1)):
            start = joined.starts[page]
            at = np.array([x, bottom + 4.0]) + offset - start
            found = joined.pictures[page].line_across(at[1], at[0], 2.0)
            ends.append(found[0] + start[0])
        return ends[1] - ends[0]

    def test_outlines_are_the_shadows_of_the_finished_parts(self):
        named = [
            {},
            {"family": "armchair", "arms": "posts", "back": "splat", "crest": "curved", "splay": 4},
            {"family": "stool"},
        ]
        designs, told = buildable(self.probe, SEED, COUNT, LEAST_SHARE)
        counted, worst = 0, 0.0
        for design in named + designs:
            solids = self.probe.ask("solids", design=design)
            for row in self.probe.ask("sheets", design=design):
                if not row["name"].startswith("template-"):
                    continue
                letter = row["name"].removeprefix("template-")
                parts = [s for s in solids if s["letter"] == letter and not s["part"].endswith(", left")]
                svg = self.probe.ask("drawing", sheet=row["name"], design=design)["svg"]
                for name, (_, sawn) in views(svg).items():
                    shape = shapely.Polygon(sawn.exterior)
                    ways = [measures(shadow(parts[0], way)) for way in directions(parts[0])]
                    off = min(np.abs(measures(shape) - way).max() for way in ways)
                    bent = "Back leg" in row["title"] and name.endswith(("front", "back"))
                    self.assertLessEqual(off, GUESSED if bent else SHADOW, f"{row['title']} {name}: {design}")
                    worst, counted = max(worst, off), counted + 1
        print(f"\noutlines: {told}; {counted} views, at most {worst:.3f} mm off, round the whole counted")

    def test_a_stretched_page_is_found(self):
        """The check itself: a bar one part in five hundred too long must not pass."""
        file, _ = self.pdf({}, "template-B", "a4")
        with file as pdf:
            picture = pdf.page(1, DPI)
        picture.scale *= 1 / 1.002
        picture.width, picture.height = picture.width * 1.002, picture.height * 1.002
        self.assertGreater(abs(bars(picture)[0] - 100.0), ON_A_SHEET)


def laid_on(solid, drawn):
    """The shadow turned and moved onto the drawn outline: whichever of its four ways to lie leaves least between them."""
    best = None
    for flip in (1.0, -1.0):
        turned = shapely.affinity.scale(solid, flip, 1.0, origin=(0, 0))
        for half in (0.0, 180.0):
            moved = aligned(shapely.affinity.rotate(turned, half, origin=(0, 0)), drawn)
            apart = moved.symmetric_difference(drawn).area
            if best is None or apart < best[0]:
                best = (apart, moved)
    return best[1]


def aligned(shape, target):
    """Laid with its longest straight ends as the target's are: by the middles of the two ends of its tightest box."""
    def axis(polygon):
        corners = np.array(polygon.minimum_rotated_rectangle.exterior.coords)[:4]
        sides = [np.linalg.norm(corners[1] - corners[0]), np.linalg.norm(corners[2] - corners[1])]
        long = 0 if sides[0] > sides[1] else 1
        one = corners[long]
        two = corners[(long + 1) % 4]
        return np.arctan2(*(two - one)[::-1]), np.array(polygon.minimum_rotated_rectangle.centroid.coords[0])

    (from_turn, from_at), (to_turn, to_at) = axis(shape), axis(target)
    turned = shapely.affinity.rotate(shape, to_turn - from_turn, origin=tuple(from_at), use_radians=True)
    return shapely.affinity.translate(turned, *(to_at - from_at))


if __name__ == "__main__":
    unittest.main()
