"""Pages of PDF files as the printer would see them: rasterised by poppler, measured in millimetres."""

import json
import pathlib
import re
import subprocess
import tempfile

import numpy as np

INCH = 25.4
# From the edge of the paper to the drawing; the strip below it; what two neighbours both show (core/sheet/src/tiling).
MARGIN = 8.0
FOOT = 27.0
OVERLAP = 16.0


def run(*command, data=None):
    done = subprocess.run(command, input=data, capture_output=True, check=False)
    if done.returncode != 0:
        raise AssertionError(f"{command[0]}: {done.stderr.decode(errors='replace')[:500]}")
    return done.stdout


def read_inches(words):
    """A figure such as `17 5/16 +.010` as a number."""
    total = 0.0
    for word in words.split():
        above, _, below = word.partition("/")
        total += float(above) / float(below or 1)
    return total


class Pdf:
    """A PDF file in a folder of its own."""

    def __init__(self, data):
        self._folder = tempfile.TemporaryDirectory()
        self.path = str(pathlib.Path(self._folder.name) / "sheets.pdf")
        pathlib.Path(self.path).write_bytes(data)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._folder.cleanup()

    def info(self):
        """What pdfinfo tells, by its names."""
        lines = run("pdfinfo", self.path).decode().splitlines()
        return {name.strip(): value.strip() for name, value in (line.split(":", 1) for line in lines)}

    def sizes(self):
        """Width and height of each page, mm."""
        text = run("pdfinfo", "-l", "-1", self.path).decode()
        rows = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+) pts", text)
        return [(float(w) / 72 * INCH, float(h) / 72 * INCH) for w, h in rows]

    def dictionary(self, kind):
        """The first dictionary of this type, such as `/Catalog`, as qpdf tells it."""
        objects = json.loads(run("qpdf", "--json", "--json-key=qpdf", self.path))["qpdf"][1].values()
        values = [entry.get("value") for entry in objects]
        return next(value for value in values if isinstance(value, dict) and value.get("/Type") == kind)

    def text(self):
        return run("pdftotext", "-layout", self.path, "-").decode()

    def page(self, number, dpi):
        """Page `number`, from 1, as a picture."""
        data = run("pdftoppm", "-r", str(dpi), "-gray", "-f", str(number), "-l", str(number), self.path)
        head, width, height, depth = re.match(rb"(P5)\s+(\d+)\s+(\d+)\s+(\d+)\s", data).groups()
        assert head == b"P5" and depth == b"255"
        pixels = np.frombuffer(data[-int(width) * int(height) :], np.uint8)
        return Picture(pixels.reshape(int(height), int(width)), dpi)


class Picture:
    """A page's darkness, 0 to 1."""

    def __init__(self, pixels, dpi):
        self.dark = 1.0 - pixels / 255.0
        self.scale = dpi / INCH
        self.width, self.height = pixels.shape[1] / self.scale, pixels.shape[0] / self.scale

    def line_across(self, y, x, reach):
        """Where an upright line crosses the height `y` within `reach` of `x`: its middle, and how wide it is, mm."""
        row = self.dark[int(y * self.scale)]
        return self._middle(row, x, reach)

    def line_along(self, x, y, reach):
        """Where a level line crosses `x` within `reach` of `y`: its middle, and how wide it is, mm."""
        column = self.dark[:, int(x * self.scale)]
        return self._middle(column, y, reach)

    def _middle(self, strip, at, reach):
        """The dark run nearest to `at`; None where there is none."""
        low = max(int((at - reach) * self.scale), 0)
        part = strip[low : int((at + reach) * self.scale) + 2]
        runs = np.flatnonzero(np.diff(np.concatenate([[0], (part > 0.1).astype(int), [0]]))).reshape(-1, 2)
        found = []
        for start, end in runs:
            weight = part[start:end]
            middle = (low + start + 0.5 + (weight * np.arange(end - start)).sum() / weight.sum()) / self.scale
            found.append((abs(middle - at), middle, weight.sum() / self.scale))
        return min(found)[1:] if found else None


def bars(picture):
    """Lengths of the two check bars of a page, mm, between the middles of their ends."""
    top = picture.height - MARGIN - FOOT
    lengths = []
    for y, length in ((top + 12.5, 100.0), (top + 21.5, 4 * INCH)):
        # Above the small marks between the ends, and below the tips of these.
        ends = [picture.line_across(y - 1.9, MARGIN + x, 2.0) for x in (0.0, length)]
        lengths.append(ends[1][0] - ends[0][0])
    return lengths


def marks(picture, side):
    """The two marks in the strip at one side of a page, mm: where their crosses stand."""
    x = MARGIN + OVERLAP / 2 if side == "left" else picture.width - MARGIN - OVERLAP / 2
    found = []
    dark = picture.dark
    low, high = (int((x + d) * picture.scale) for d in (-5.5, 5.5))
    top, bottom = (int(v * picture.scale) for v in (MARGIN + 1, picture.height - MARGIN - FOOT - 1))
    # Rows in which the strip is dark from end to end of an arm: the level lines of the crosses, or of the drawing.
    rows = (dark[top:bottom, low:high] > 0.3).mean(axis=1) > 0.85
    for row in np.flatnonzero(rows):
        y = (top + row + 0.5) / picture.scale
        above, below = picture.line_across(y - 4.2, x, 1.0), picture.line_across(y + 4.2, x, 1.0)
        if above and below and abs(above[0] - below[0]) < 0.1 and max(above[1], below[1]) < 0.5:
            middle = picture.line_along(x - 4.2, y, 1.0)
            found.append((above[0], middle[0]))
    # A line is some rows thick.
    crosses = [found[0]]
    for cross in found[1:]:
        if cross[1] - crosses[-1][1] > 2.0:
            crosses.append(cross)
    return crosses
