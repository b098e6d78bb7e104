"""Asks the core through its probe, and draws random designs within the knobs it tells."""

import json
import pathlib
import random
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD_AND_RUN = ["cargo", "run", "--quiet", "--package", "crestrail-tests", "--bin", "probe"]


class Refused(Exception):
    """The core refused a request; `error` holds its `where`, `why` and perhaps `mend`."""

    def __init__(self, error):
        super().__init__(f"{error['where']}: {error['why']}")
        self.error = error


class Probe:
    """A running probe: one line out, one line back."""

    def __init__(self):
        pipe = subprocess.PIPE
        self._run = subprocess.Popen(BUILD_AND_RUN, cwd=ROOT, stdin=pipe, stdout=pipe, encoding="utf-8")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()

    def close(self):
        self._run.stdin.close()
        self._run.stdout.close()
        self._run.wait(timeout=60)

    def line(self, text):
        """The answer to a line as it stands."""
        self._run.stdin.write(text + "\n")
        self._run.stdin.flush()
        answer = self._run.stdout.readline()
        if not answer:
            raise RuntimeError(f"the probe ended with {self._run.wait()} at: {text[:500]}")
        return json.loads(answer, parse_constant=not_json)

    def ask(self, ask, **rest):
        """The answer to a request; raises `Refused` where the core refuses it."""
        answer = self.line(json.dumps({"ask": ask, **rest}, allow_nan=False))
        if "error" in answer:
            raise Refused(answer["error"])
        return answer["ok"]


def not_json(name):
    raise ValueError(f"{name} is not JSON")


class Designs:
    """Random designs of all kinds of chair within their knob boxes, always the same ones for one seed.

    Three ways in turns: values anywhere between the limits; values on the steps of the page; and
    defaults mixed with limits, where sizes coincide and faces fall into one plane.
    """

    def __init__(self, probe, seed):
        self.kinds = [probe.ask("knobs", family=family["name"]) for family in probe.ask("families")]
        self.random = random.Random(seed)
        # Who a chair is for changes what is found about it and nothing of its wood; so it is drawn apart, and
        # another knob about people leaves the chairs of a seed as they are.
        self.people = random.Random(~seed)
        self.drawn = 0

    def draw(self):
        way = (self._anywhere, self._on_steps, self._at_limits)[self.drawn % 3]
        self.drawn += 1
        design = {}
        for knob in self.random.choice(self.kinds):
            if self._applies(knob, design):
                design[knob["name"]] = self._value(knob, way, self.people if knob["group"] == "use" else self.random)
        return design

    def _applies(self, knob, design):
        """Whether the knob has an effect, as far as the choices drawn before it tell."""
        return all(design[rule["knob"]] in rule["any"] for rule in knob.get("applies", []) if rule["knob"] in design)

    def _value(self, knob, way, source):
        if knob["kind"] == "choice":
            return source.choice(knob["choices"])["name"]
        if knob["kind"] == "count":
            return source.randint(int(knob["min"]), int(knob["max"]))
        return way(knob, source)

    def _anywhere(self, knob, source):
        return source.uniform(knob["min"], knob["max"])

    def _on_steps(self, knob, source):
        steps = int((knob["max"] - knob["min"]) / knob["step"])
        return knob["min"] + source.randint(0, steps) * knob["step"]

    def _at_limits(self, knob, source):
        pick = source.random()
        if pick < 0.7:
            return knob["default"]
        return knob["min"] if pick < 0.85 else knob["max"]


def buildable(probe, seed, count, least_share, pinned=None):
    """`count` designs that can be built, and a line that says how many were refused.

    Refused ones are replaced; a share of buildable ones below `least_share` is an error, for then the
    core refuses more than its rules explain, or the knobs are drawn wrongly. Values `pinned` stand in every design.
    """
    designs, found = Designs(probe, seed), []
    while len(found) < count:
        design = designs.draw() | (pinned or {})
        try:
            probe.ask("report", design=design)
            found.append(design)
        except Refused as refused:
            if refused.error["where"] != "build":
                raise
        if designs.drawn > count / least_share:
            raise AssertionError(f"only {len(found)} of {designs.drawn} designs could be built (seed {seed})")
    share = 1.0 - count / designs.drawn
    return found, f"seed {seed}: {count} designs built, {designs.drawn - count} refused ({share:.0%})"
