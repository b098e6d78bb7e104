"""PDF files against independent readers of them: qpdf for the structure, poppler for text, fonts and pages."""

import base64
import json
import unittest

from paper import Pdf, run
from probe import Probe

NAME = "Zoë’s Čair №1"
# ISO 216 and ANSI/ASME Y14.1, mm.
SIZES = {"a4": (210.0, 297.0), "a3": (297.0, 420.0), "letter": (215.9, 279.4), "tabloid": (279.4, 431.8), "a2": (420.0, 594.0), "a1": (594.0, 841.0), "ansi-c": (431.8, 558.8), "ansi-d": (558.8, 863.6)}
# What a reader rounds sizes to is a hundredth of a point.
SIZE_ERROR = 0.01


def sheets(probe, paper, sheet="sheets", name=NAME, design=None):
    """The answer for sheets over paper, and their file."""
    options = {"paper": paper, "name": name}
    answer = probe.ask("drawing", sheet=sheet, design=design or {}, options=options)
    return answer, base64.b64decode(answer["pdf_base64"])


class PdfFiles(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def test_the_structure_is_sound(self):
        for paper in [*SIZES, "roll"]:
            _, data = sheets(self.probe, paper)
            with Pdf(data) as pdf:
                told = run("qpdf", "--check", pdf.path).decode()
                self.assertIn("No syntax or stream encoding errors found", told)
                self.assertIn("PDF Version: 1.7", told)

    def test_pages_have_the_sizes_of_paper(self):
        for paper, size in SIZES.items():
            answer, data = sheets(self.probe, paper)
            with Pdf(data) as pdf:
                pages = pdf.sizes()
            self.assertEqual(len(pages), answer["pages"])
            for page in pages:
                for have, want in zip(sorted(page), size):
                    self.assertAlmostEqual(have, want, delta=SIZE_ERROR, msg=f"{paper}: {page}")
        with Pdf(sheets(self.probe, "roll")[1]) as pdf:
            for page in pdf.sizes():
                self.assertLess(min(abs(side - 36 * 25.4) for side in page), SIZE_ERROR, f"{page}")

    def test_text_can_be_searched_and_the_title_is_told(self):
        answer, data = sheets(self.probe, "a4", sheet="template-B")
        with Pdf(data) as pdf:
            text, info = pdf.text(), pdf.info()
        # The sign № is not in the font; the answer says so, and an empty box stands in its place.
        self.assertEqual(answer["missing"], "№")
        for words in ("Zoë’s Čair \ufffd1", "Back leg", "grain", "100 mm", "4 in", f"1 of {answer['pages']}"):
            self.assertIn(words, text)
        self.assertEqual(info["Title"], f"{NAME}: sheets for the bench")
        self.assertEqual(sheets(self.probe, "a4", sheet="rod", name="Zoë’s chair")[0]["missing"], "")

    def test_fonts_are_inside_and_cut_down(self):
        with Pdf(sheets(self.probe, "a4")[1]) as pdf:
            rows = [line.split() for line in run("pdffonts", pdf.path).decode().splitlines()[2:]]
        self.assertEqual(sorted(row[0].split("+")[1] for row in rows), ["CrestrailSans-Medium", "CrestrailSans-Regular"])
        for row in rows:
            # Embedded, cut down, with a table to Unicode.
            self.assertEqual(row[-5:-2], ["yes", "yes", "yes"], row)

    def test_bookmarks_and_the_design_are_inside(self):
        answer, data = sheets(self.probe, "a4", sheet="template", design={"seat_height": 440})
        with Pdf(data) as pdf:
            whole = json.loads(run("qpdf", "--json", "--json-key=outlines", "--json-key=attachments", "--json-key=pagelabels", pdf.path))
            design = json.loads(run("qpdf", "--show-attachment=design.json", pdf.path))
        titles = [mark["title"] for mark in whole["outlines"]]
        listed = self.probe.ask("sheets", design={"seat_height": 440})
        self.assertEqual(titles, [row["title"] for row in listed if row["name"].startswith("template-")])
        pages = [mark["destpageposfrom1"] for mark in whole["outlines"]]
        self.assertEqual(pages, sorted(pages))
        leg = next(mark for mark in whole["outlines"] if "Back leg" in mark["title"])
        self.assertEqual([kid["title"] for kid in leg["kids"]][:2], ["A1", "A2"])
        self.assertLessEqual(max(pages), answer["pages"])
        self.assertEqual(len(whole["pagelabels"]), answer["pages"])
        self.assertEqual(design["knobs"]["seat_height"] if "knobs" in design else design["seat_height"], 440)
        self.assertEqual(design["crestrail"], "design/1")

    def test_the_same_design_gives_the_same_bytes(self):
        self.assertEqual(sheets(self.probe, "a3")[1], sheets(self.probe, "a3")[1])


if __name__ == "__main__":
    unittest.main()
