"""Moisture of wood in still air: the handbook's table through the probe, and its equation worked out once more.

USDA Wood Handbook, FPL-GTR-282, Eq. 4-5 and Table 4-2 as a timber merchant reproduces it.
"""

import csv
import pathlib
import unittest

from probe import Probe

TABLE = pathlib.Path(__file__).parents[2] / "core/timber/data/emc_table.csv"


def equilibrium_fahrenheit(h, t):
    """Eq. 4-5 with the coefficients printed for °F, in the form of A. J. Hailwood and S. Horrobin 1946."""
    w = 330 + 0.452 * t + 0.00415 * t**2
    k = 0.791 + 4.63e-4 * t - 8.44e-7 * t**2
    k1 = 6.34 + 7.75e-4 * t - 9.35e-5 * t**2
    k2 = 1.09 + 2.84e-2 * t - 9.04e-5 * t**2
    a = k * h
    hydrated = (k1 * a + 2 * k1 * k2 * a * a) / (1 + k1 * a + k1 * k2 * a * a)
    return 1800 / w * (a / (1 - a) + hydrated)


class Moisture(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def test_every_cell_of_the_table(self):
        with TABLE.open() as file:
            rows = [row for row in csv.DictReader(file) if "misprint" not in row["note"]]
        worst = 0.0
        for row in rows:
            h, printed = float(row["rh_pct"]) / 100, float(row["emc_table_pct"])
            for unit, column in (("celsius", "temp_c"), ("fahrenheit", "temp_f")):
                found = self.probe.ask("moisture", rh=h, **{unit: float(row[column])})["emc_percent"]
                worst = max(worst, abs(found - printed))
                self.assertAlmostEqual(found, printed, delta=0.1, msg=f"{row} {unit}")
        print(f"\nmoisture: {len(rows)} cells, {worst:.3f} % off at worst")

    def test_the_other_form_of_the_equation(self):
        for h in (0.05, 0.3, 0.5, 0.65, 0.8, 0.9):
            for f in (32, 50, 70, 90, 110, 130):
                told = self.probe.ask("moisture", rh=h, celsius=(f - 32) / 1.8)["emc_percent"]
                self.assertAlmostEqual(told, equilibrium_fahrenheit(h, f), delta=0.08)
                exact = self.probe.ask("moisture", rh=h, fahrenheit=f)["emc_percent"]
                self.assertAlmostEqual(exact, equilibrium_fahrenheit(h, f), delta=1e-9)


if __name__ == "__main__":
    unittest.main()
