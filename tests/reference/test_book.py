"""The bench book against independent readers: qpdf for structure, bookmarks and the file inside, poppler for words and fonts."""

import base64
import json
import re
import unittest
from fractions import Fraction

from paper import Pdf, run
from probe import ROOT, Probe, Refused

# ISO 216 and ANSI/ASME Y14.1, mm; readers round to a hundredth of a point.
SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
CHAPTERS = ["Drawing", "Cutting list", "Timber plan", "Setting out", "Gauges and cutters", "Joints", "Order of work", "Card for the bench", "Findings", "Labels"]
DESIGNS = {"Side chair": {}, "Armchair": {"family": "armchair"}}
NAME = "Zoë’s chair"

# A figure half way between two tenths is written as the greater one.
HALF = 1e-7


def plain(size):
    return f"{size:.1f}".removesuffix(".0")


def sixteenths(length):
    """A length in mm as the nearest sixteenth of an inch."""
    parts = Fraction(round(length / 25.4 * 16), 16)
    whole, rest = divmod(parts, 1)
    return " ".join(str(part) for part in (whole, rest) if part) or "0"


class Books(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def book(self, design, paper="a4", **more):
        options = {"paper": paper, "name": NAME, "date": "9 March 2026"} | more
        answer = self.probe.ask("drawing", sheet="book", design=design, options=options)
        return answer, base64.b64decode(answer["pdf_base64"])

    def pages(self, pdf):
        """The words of each page, their spaces drawn together."""
        return [" ".join(page.split()) for page in pdf.text().split("\f")[:-1]]

    def test_the_structure_is_sound_and_pages_are_of_the_paper_upright_or_level(self):
        for paper, size in SIZES.items():
            answer, data = self.book({}, paper)
            self.assertEqual(answer["missing"], "")
            with Pdf(data) as pdf:
                self.assertIn("No syntax or stream encoding errors found", run("qpdf", "--check", pdf.path).decode())
                sizes, info = pdf.sizes(), pdf.info()
                catalogue = pdf.dictionary("/Catalog")
            self.assertEqual(len(sizes), answer["pages"])
            for have in sizes:
                for side, want in zip(sorted(have), size):
                    self.assertAlmostEqual(side, want, delta=0.01)
            self.assertEqual(info["Title"], f"{NAME}: bench book")
            self.assertEqual(catalogue["/Lang"], "u:en")

    def test_every_page_is_numbered_and_the_contents_lead_to_the_chapters(self):
        for design in DESIGNS.values():
            answer, data = self.book(design)
            with Pdf(data) as pdf:
                pages = self.pages(pdf)
                lines = [" ".join(line.split()) for line in run("pdftotext", "-layout", "-l", "1", pdf.path, "-").decode().splitlines()]
            count = answer["pages"]
            self.assertEqual(len(pages), count)
            for number, words in enumerate(pages, 1):
                self.assertIn(f"{NAME} · {number} of {count}", words)
            for title in CHAPTERS:
                entries = [int(found[1]) for line in lines if (found := re.fullmatch(rf"{title} (\d+)", line))]
                self.assertEqual(len(entries), 1, title)
                foot = lambda page: re.search(rf"{title} {re.escape(NAME)} · {page} of {count}$", pages[page - 1])
                self.assertTrue(foot(entries[0]), title)
                self.assertFalse(foot(entries[0] - 1), title)

    def test_bookmarks_lead_to_the_pages_that_say_them(self):
        _, data = self.book({})
        with Pdf(data) as pdf:
            told = json.loads(run("qpdf", "--json", "--json-key=outlines", pdf.path))["outlines"]
            pages = self.pages(pdf)
        self.assertEqual([row["title"] for row in told], ["Bench book", *CHAPTERS])
        below = 0
        for chapter in told:
            for row in chapter["kids"]:
                below += 1
                words = " ".join(row["title"].split())
                said = pages[row["destpageposfrom1"] - 1]
                # A drawing's title block writes its title with a capital, and the parts list alone.
                wanted = words.split(",")[0] if chapter["title"] == "Drawing" else words
                self.assertIn(wanted.lower(), said.lower())
        self.assertGreater(below, 30)

    def test_all_parts_and_the_figures_of_the_lists_can_be_read(self):
        for design in DESIGNS.values():
            report = self.probe.ask("report", design=design)
            _, data = self.book(design)
            with Pdf(data) as pdf:
                pages = self.pages(pdf)
                lines = [" ".join(line.split()) for line in pdf.text().splitlines()]
            for row in report["cutting_list"]:
                rough = " × ".join(plain(row["rough"][side]) for side in ("length", "width", "thickness"))
                sizes = " ".join(plain(row[side]) for side in ("length", "width", "thickness"))
                wanted = f"{row['letter']} {row['part']} {row['quantity']} {sizes} {rough}"
                self.assertTrue(any(line.startswith(wanted) for line in lines), wanted)
            for row in report["joints"]:
                tenon, mortise = (" × ".join(plain(row[of][side]) for side in sides) for of, sides in (("tenon", ("length", "width", "thickness")), ("mortise", ("depth", "width", "thickness"))))
                around = ", ".join(plain(row["shoulders"][side]) for side in ("top", "bottom", "front", "back"))
                wanted = f"{row['quantity']} {tenon} {around} {mortise}"
                self.assertTrue(any(line.endswith(wanted) and line.startswith(row["name"]) for line in lines), f"{row['name']} {wanted}")
            found = " ".join(page for page in pages if " Findings " in f" {page} ")
            for finding in report["findings"]:
                self.assertIn(" ".join(finding["say"].split())[:60], found)
            setting = self.probe.ask("setting", design=design)
            whole = " ".join(pages)
            for setting_row in setting["gauges"]:
                self.assertIn(" and ".join(plain(pin + HALF) for pin in setting_row["pins"]), whole)

    def test_the_boards_are_those_of_the_plan_for_the_saw(self):
        knobs = {row["name"]: row["default"] for row in self.probe.ask("knobs")}
        order = {"crestrail": "order/2", "name": "", "customer": "", "lines": [{"name": "Chair", "quantity": 1, "knobs": knobs}]}
        plan = self.probe.ask("plan", order=order, effort="good")
        _, data = self.book({})
        with Pdf(data) as pdf:
            pages = self.pages(pdf)
        words = " ".join(page for page in pages if "Timber plan Zoë" in page)
        boards = [board for group in plan["classes"] for board in group["boards"]]
        self.assertGreater(len(boards), 3)
        for board in boards:
            self.assertIn(f"{plain(board['length'])} × {plain(board['width'])}", words)
            for cut in board["cuts"]:
                way = "along" if cut["along"] else "across"
                self.assertIn(f"{cut['number']} {way} at {plain(cut['at'])}, {plain(cut['from'])} to {plain(cut['to'])}", words)
            for piece in board["pieces"]:
                self.assertRegex(words, rf"\b{piece['letter']}\b")
        self.assertIn(f"{plan['currency']} {plan['cost_minor'] / 100:.2f}", words)

    def test_fonts_are_embedded_and_cut_down_and_words_are_unicode(self):
        _, data = self.book({})
        with Pdf(data) as pdf:
            rows = run("pdffonts", pdf.path).decode().splitlines()[2:]
            words = pdf.text()
        self.assertEqual(len(rows), 2)
        for row in rows:
            self.assertRegex(row, r"^[A-Z]{6}\+\S+ +CID TrueType +Identity-H +yes +yes +yes ")
        self.assertIn("Zoë’s chair", words)

    def test_the_design_inside_is_the_one_that_was_asked(self):
        _, data = self.book({"seat_height": 460})
        with Pdf(data) as pdf:
            inside = json.loads(run("qpdf", "--show-attachment=design.json", pdf.path))
        self.assertEqual(inside["name"], NAME)
        self.assertEqual(inside["knobs"]["seat_height"], 460)

    def test_the_same_design_gives_the_same_bytes_and_a_roll_is_refused(self):
        self.assertEqual(self.book({})[1], self.book({})[1])
        for paper in ("roll", "a2", "ansi-d"):
            with self.assertRaises(Refused) as refused:
                self.book({}, paper)
            self.assertEqual(refused.exception.error["where"], "paper")
            self.assertIn("A4", refused.exception.error["why"])

    def test_every_chapter_has_its_lengths_in_the_unit_that_was_asked(self):
        """In inches the lists, the plan, the order of work and the sheets tell fractions, whose values are those of the
        report; no chapter but the findings says millimetres."""
        report = self.probe.ask("report", design={})
        _, data = self.book({}, "letter", unit="in16")
        with Pdf(data) as pdf:
            pages = self.pages(pdf)
        chapters = {title: " ".join(page for page in pages if page.split("Zoë’s chair · ")[0].endswith(f"{title} ") ) for title in CHAPTERS}
        for title in ("Cutting list", "Timber plan", "Setting out", "Gauges and cutters", "Joints", "Order of work"):
            self.assertRegex(chapters[title], r"Inches", title)
            self.assertNotIn("Millimetres", chapters[title], title)
            self.assertRegex(chapters[title], r"\d \d+/(2|4|8|16)\b", title)
        for row in report["cutting_list"]:
            self.assertIn(sixteenths(row["length"]), chapters["Cutting list"], row["letter"])
        for clamp in (clamp for step in self.probe.ask("work", design={}) for clamp in step["clamps"]):
            self.assertIn(f"opening {sixteenths(clamp['opening'])}", chapters["Order of work"])


if __name__ == "__main__":
    unittest.main()
