"""The quote as PDF against independent readers: qpdf for structure and files inside, poppler for words, files and pages."""

import base64
import json
import pathlib
import tempfile
import unittest

from paper import Pdf, run
from probe import ROOT, Probe, Refused

# ISO 216 and ANSI/ASME Y14.1, mm; readers round to a hundredth of a point.
SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
SHOP = json.loads((ROOT / "core/chair/data/shop.json").read_text())


class Quotes(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        line = lambda name, family, quantity: {"name": name, "quantity": quantity, "knobs": cls.knobs(family)}
        cls.order = {
            "crestrail": "order/2",
            "name": "Dining room",
            "customer": "Zoë Čapek (No. 7)",
            "lines": [line("Side chair", "side_chair", 6), line("Armchair", "armchair", 2), line("Bench", "bench_three", 1)],
        }

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    @classmethod
    def knobs(cls, family):
        return {row["name"]: row["default"] for row in cls.probe.ask("knobs", family=family)}

    def quote(self, paper, **more):
        asked = {"order": self.order, "number": "2026-014", "date": "2026-03-09", "paper": paper} | more
        answer = self.probe.ask("quote", **asked)
        return answer, base64.b64decode(answer["pdf_base64"])

    def test_the_structure_is_sound_and_pages_have_the_sizes_of_paper(self):
        for paper, size in SIZES.items():
            answer, data = self.quote(paper)
            self.assertEqual(answer["missing"], "")
            with Pdf(data) as pdf:
                self.assertIn("No syntax or stream encoding errors found", run("qpdf", "--check", pdf.path).decode())
                pages, info = pdf.sizes(), pdf.info()
                catalogue, spec = pdf.dictionary("/Catalog"), pdf.dictionary("/Filespec")
            self.assertEqual(len(pages), answer["pages"])
            for page in pages:
                for have, want in zip(page, size):
                    self.assertAlmostEqual(have, want, delta=0.01)
            self.assertEqual(info["Title"], f"Quote 2026-014, {SHOP['name']}")
            self.assertEqual(catalogue["/Lang"], "u:en")
            self.assertEqual(len(catalogue["/AF"]), 1)
            self.assertTrue(catalogue["/ViewerPreferences"]["/DisplayDocTitle"])
            self.assertNotIn("/PrintScaling", catalogue["/ViewerPreferences"])
            self.assertEqual(spec["/AFRelationship"], "/Source")

    def test_all_that_a_customer_asks_can_be_read(self):
        for paper in SIZES:
            answer, data = self.quote(paper)
            with Pdf(data) as pdf:
                text = pdf.text()
            flat = " ".join(text.split())
            bill = self.probe.ask("order", order=self.order)["bill"]
            amounts = [f"{line['amount_minor'] / 100:.2f}" for line in bill["lines"]] + [f"{bill['total_minor'] / 100:.2f}"]
            terms = SHOP["quote"]["terms"]
            wanted = ["Quote 2026-014", "9 March 2026", "8 April 2026", "Zoë Čapek (No. 7)", "Dining room", "white ash", *terms, *amounts]
            wanted += ["6 × Side chair", "2 × Armchair", "1 × Bench", "Parts of 6 × Side chair", "No chair is meant for standing on"]
            for words in wanted:
                self.assertIn(words, flat)
            for number in range(1, answer["pages"] + 1):
                self.assertIn(f"{number} of {answer['pages']}", flat)

    def test_the_parts_are_those_of_the_cutting_list(self):
        _, data = self.quote("a4")
        with Pdf(data) as pdf:
            lines = [" ".join(line.split()) for line in pdf.text().splitlines()]
        rows = self.probe.ask("report", design=self.order["lines"][0]["knobs"])["cutting_list"]
        plain = lambda size: f"{size:.1f}".removesuffix(".0")
        for row in rows:
            if row["part"] == "peg":
                continue
            sizes = " ".join(plain(row[side]) for side in ("length", "width", "thickness"))
            wanted = f"{row['letter']} {row['part']} {row['quantity']} {6 * row['quantity']} {sizes} {row['timber']}"
            self.assertTrue(any(line.endswith(wanted) for line in lines), wanted)

    def test_the_order_inside_is_the_same_to_the_byte(self):
        answer, data = self.quote("a4")
        want = answer["order"].encode()
        with Pdf(data) as pdf, tempfile.TemporaryDirectory() as folder:
            self.assertEqual(run("qpdf", "--show-attachment=order.json", pdf.path), want)
            run("pdfdetach", "-saveall", "-o", folder, pdf.path)
            self.assertEqual(pathlib.Path(folder, "order.json").read_bytes(), want)
        self.assertEqual(self.probe.ask("order", order=answer["order"]), self.probe.ask("order", order=self.order))

    def test_the_order_is_found_again_after_another_program_has_saved_the_file(self):
        answer, data = self.quote("a4")
        ways = [
            [],
            ["--object-streams=generate", "--recompress-flate", "--compression-level=9"],
            ["--linearize"],
            ["--qdf"],
            ["--stream-data=uncompress"],
        ]
        attached = lambda file: self.probe.ask("attached", pdf_base64=base64.b64encode(file).decode())
        self.assertEqual(attached(data), [answer["order"]])
        with Pdf(data) as pdf:
            for way in ways:
                self.assertEqual(attached(run("qpdf", *way, pdf.path, "-")), [answer["order"]], way)
            for lock in (["--encrypt", "u", "o", "256", "--"], ["--object-streams=generate", "--encrypt", "", "o", "256", "--"]):
                with self.assertRaises(Refused) as refused:
                    attached(run("qpdf", *lock, pdf.path, "-"))
                self.assertIn("locked", refused.exception.error["why"])
            self.assertEqual(attached(run("qpdf", "--remove-attachment=order.json", pdf.path, "-")), [])

    def test_nothing_private_is_in_it(self):
        """No amount of the bill below the price of a chair, no figure of the book but those that customers are told."""
        _, data = self.quote("a4")
        with Pdf(data) as pdf:
            words = pdf.text()
            whole = run("qpdf", "--qdf", "--object-streams=disable", "--remove-attachment=order.json", pdf.path, "-").decode("latin-1")
        flat = " ".join(words.split())
        report = self.probe.ask("order", order=self.order)
        told = {amount for line in report["bill"]["lines"] for amount in (line["rate_minor"], line["amount_minor"])}
        told |= {report["bill"]["total_minor"], report["bill"].get("deposit_minor")}
        seen = 0
        for row in report["rows"]:
            for line in row["bill"]["lines"]:
                for amount in {line["rate_minor"], line["amount_minor"]} - told:
                    seen += 1
                    self.assertNotIn(f"EUR {amount / 100:.2f}", flat, line["id"])
        self.assertGreater(seen, 60)
        for word in ("margin", "overhead", "contingency", "mark-up", "hourly", "kerf"):
            self.assertNotIn(word, words.lower())
            self.assertNotIn(f"({word}", whole.lower())

    def test_the_same_order_gives_the_same_bytes(self):
        self.assertEqual(self.quote("a4")[1], self.quote("a4")[1])
        self.assertNotEqual(self.quote("a4")[1], self.quote("a4", number="2026-015")[1])

    def test_a_roll_is_refused(self):
        with self.assertRaises(Refused) as refused:
            self.quote("roll")
        self.assertEqual(refused.exception.error["where"], "paper")


if __name__ == "__main__":
    unittest.main()
