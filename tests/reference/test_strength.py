"""The strength of joints: the published sample behind the models, and the frame of whole chairs by its statics.

Eckelman, Uysal and Haviarova 2016, BioResources 11(3):7162: T joints of red oak (n = 215) and white oak (n = 140).
"""

import math
import unittest

from probe import Probe
from scipy.stats import nct, norm

# Mean, standard deviation and number, N·m; lower tolerance limits for confidence | proportion as published.
SAMPLES = {
    "red oak": (353.0, 48.0, 215, {(0.75, 0.75): 318, (0.90, 0.75): 316, (0.75, 0.90): 289, (0.90, 0.90): 286, (0.95, 0.95): 266}),
    "white oak": (358.0, 62.0, 140, {(0.75, 0.75): 314, (0.90, 0.75): 308, (0.75, 0.90): 273, (0.90, 0.90): 268, (0.95, 0.95): 240}),
}
# The tested joint: tenon 32 long, 38 wide, 9.5 thick in a rail 63.5 high, mm.
LENGTH, WIDTH, RAIL = 32.0, 38.0, 63.5
# Shear along the grain, MPa (Wood Handbook, FPL-GTR-190, Table 5-3a).
SHEAR = {"red oak": 12.3, "white oak": 13.8}
# What the core takes of it (`core/chair/src/checks/strength/capacity.rs`).
TWIST, COUPLE = 0.8, 0.35


def tolerance(mean, deviation, number, confidence, proportion):
    """One-sided lower tolerance limit of a normal sample: mean − k s, k from the noncentral t distribution."""
    delta = norm.ppf(proportion) * math.sqrt(number)
    return mean - nct.ppf(confidence, number - 1, delta) / math.sqrt(number) * deviation


class Samples(unittest.TestCase):
    def test_tolerance_limits_are_those_published(self):
        for name, (mean, deviation, number, limits) in SAMPLES.items():
            for (confidence, proportion), published in limits.items():
                found = tolerance(mean, deviation, number, confidence, proportion)
                self.assertAlmostEqual(found, published, delta=2.0, msg=f"{name} {confidence}|{proportion}")

    def test_a_proof_uses_no_more_than_the_tolerance_limit(self):
        """The core takes 0.75 of the mean for a proof: the limit 90 | 90 of the more scattered sample."""
        shares = [tolerance(m, s, n, 0.9, 0.9) / m for m, s, n, _ in SAMPLES.values()]
        self.assertGreaterEqual(min(shares), 0.745)

    def test_the_models_meet_the_means(self):
        """Numerically integrated, not by the closed form of the core: mean distance of a rectangle from its middle."""
        steps = 400
        cells = [((i + 0.5) / steps - 0.5) for i in range(steps)]
        arm = sum(math.hypot(x * LENGTH, y * WIDTH) for x in cells for y in cells) / steps**2
        cheeks = 2 * LENGTH * WIDTH
        for name, (mean, *_) in SAMPLES.items():
            twist = TWIST * SHEAR[name] * cheeks * arm / 1000
            couple = COUPLE * SHEAR[name] * cheeks * ((RAIL - WIDTH) / 2 + WIDTH / 2) / 1000
            self.assertAlmostEqual(min(twist, couple), mean, delta=0.1 * mean, msg=name)


class Chairs(unittest.TestCase):
    """What a maker expects when a size changes."""

    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def finding(self, subject, **design):
        findings = self.probe.ask("report", design=design)["findings"]
        return next(f for f in findings if f["subject"] == subject)

    def test_thin_rails_fail_and_high_ones_hold(self):
        subject = "strength of side rail in back leg"
        verdicts = [self.finding(subject, rail_width=w)["verdict"] for w in (40, 64, 96)]
        self.assertEqual((verdicts[0], verdicts[2]), ("fails", "sound"))

    def test_a_stretcher_helps(self):
        subject = "strength of side rail in back leg"
        used = [self.finding(subject, stretchers=s)["used"] for s in ("none", "h")]
        self.assertGreater(used[0], 1.2 * used[1])

    def test_heavier_users_use_more(self):
        for subject in ("strength of side rail in back leg", "strength of the back leg", "strength of front rail in front leg"):
            used = [self.finding(subject, user=u)["used"] for u in ("kg75", "kg110", "kg125", "kg150")]
            self.assertEqual(used, sorted(used), subject)
            self.assertAlmostEqual(used[3] / used[1], 150 / 110, delta=0.12, msg=subject)

    def test_stronger_timber_uses_less(self):
        subject = "strength of side rail in back leg"
        used = [self.finding(subject, species=s)["used"] for s in ("pine_eastern_white", "ash_white", "maple_hard")]
        self.assertEqual(used, sorted(used, reverse=True))

    def test_feet_behind_the_back_keep_it_from_tipping(self):
        pushes = [self.finding("tipping backwards", kick=k)["value"] for k in (0, 7, 14)]
        self.assertEqual(pushes, sorted(pushes))

    def test_an_overhanging_seat_tips_sooner(self):
        pushes = [self.finding("tipping forwards", seat_overhang=o)["value"] for o in (0, 10, 20)]
        self.assertEqual(pushes, sorted(pushes, reverse=True))


if __name__ == "__main__":
    unittest.main()
