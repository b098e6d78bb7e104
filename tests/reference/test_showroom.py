"""Prices "from" against all chairs of a grid, links against a checksum of our own, and an altered price against the report."""

import itertools
import json
import unittest

from probe import Probe

ROOM = {
    "crestrail": "showroom/1",
    "brand": "Test bench",
    "contact": {"mail": "a@b.example"},
    "colours": {"light": "#1f5f5b", "dark": "#7cc7ba"},
    "language": "en",
    "currency": "EUR",
    "price": "from",
    "offers": [
        {
            "name": "Stool",
            "knobs": {"family": "stool"},
            "open": [
                {"knob": "seat_height", "from": 420, "to": 480},
                {"knob": "seat_width", "from": 360, "to": 460},
                {"knob": "seat", "only": ["across", "cord"]},
                {"knob": "species", "only": ["ash_white", "pine_scots"]},
            ],
        }
    ],
}


def checked(text):
    """The text with its checksum: FNV-1a of 32 bits, by the published description."""
    value = 0x811C9DC5
    for byte in text.encode():
        value = ((value ^ byte) * 0x01000193) % 2**32
    return f"{text};check={value:08x}"


class Showroom(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        cls.addClassCleanup(cls.probe.close)

    def price(self, design):
        return self.probe.ask(ask="report", design=design)["bill"]["total_minor"]

    def test_no_chair_of_a_grid_is_cheaper_than_from(self):
        room = self.probe.ask(ask="published", showroom=ROOM)
        told = round(room["offers"][0]["from"] * 100)
        grid = itertools.product(range(420, 481, 20), range(360, 461, 25), ["across", "cord"], ["ash_white", "pine_scots"])
        names = ["seat_height", "seat_width", "seat", "species"]
        prices = [self.price({"family": "stool", **dict(zip(names, values))}) for values in grid]
        self.assertEqual(min(prices), told)
        self.assertLess(min(prices), max(prices))

    def test_a_link_with_an_altered_price_stands_out(self):
        design = {"family": "stool", "seat_height": 470}
        true = self.price(design)
        for minor, differs in [(true, 0), (true - 1, 1), (10_000, 1)]:
            link = checked(f"design/1;family=stool;seat_height=470;told=shown.EUR.{minor}")
            [line] = self.probe.ask(ask="checkin", text=f"https://maker.example/#{link}")["lines"]
            self.assertEqual(sum(d["grave"] for d in line["differences"]), differs, minor)
            self.assertEqual(line["design"]["seat_height"], 470)
            self.assertEqual(line["price"], f"EUR {true / 100:.2f}")

    def test_a_published_file_holds_the_makers_lines_and_no_more(self):
        room = self.probe.ask(ask="published", showroom=ROOM)
        added = room.pop("bench")
        self.assertEqual(sorted(added), ["cutters", "joint_fit"])
        room["offers"][0].pop("from")
        self.assertEqual(json.dumps(room, sort_keys=True), json.dumps(ROOM, sort_keys=True))


if __name__ == "__main__":
    unittest.main()
