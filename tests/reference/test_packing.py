"""Bars, boards and planks: every plan is checked by `saw`, costs by independent solvers, known optima by open data."""

import itertools
import json
import math
import pathlib
import random
import time
import unittest

import highspy
from ortools.sat.python import cp_model

import saw
from probe import Probe, Refused

DATA = pathlib.Path(__file__).resolve().parents[1] / "data" / "packing"


def data(name):
    return json.loads((DATA / f"{name}.json").read_text(encoding="utf-8"))


class Packing(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def ask(self, kind, problem, work=None):
        answer = self.probe.ask(kind, problem=problem, **({} if work is None else {"work": work}))
        {"bars": saw.check_bars, "boards": saw.check_boards, "planks": saw.check_planks}[kind](problem, answer)
        return answer

    def refused(self, kind, problem, place, *words):
        with self.assertRaises(Refused) as caught:
            self.probe.ask(kind, problem=problem)
        self.assertEqual(caught.exception.error["where"], place)
        for word in words:
            self.assertIn(word, caught.exception.error["why"])


class Bars(Packing):
    def test_open_problems_reach_their_proven_best(self):
        for name, few in (("falkenauer_u120", 20), ("falkenauer_t60", 20), ("scholl1_sample", 40), ("schwerin1", 20)):
            began, proven, rows = time.time(), 0, data(name)[:few]
            for row in rows:
                pieces = [{"length": length, "count": count} for length, count in row["items"]]
                answer = self.ask("bars", {"bars": [{"length": row["cap"], "price": 1}], "pieces": pieces, "kerf": 0, "trim": 0}, work=3e9)
                proven += answer["cost"] == answer["bound"]
                if "best" in row:
                    self.assertEqual(answer["cost"], row["best"], row["name"])
            print(f"bars {name}: {proven} of {len(rows)} proven, {time.time() - began:.1f} s")
            self.assertEqual(proven, len(rows))

    def test_small_orders_cost_what_other_solvers_prove(self):
        dice, agreed = random.Random(5), 0
        for _ in range(25):
            problem = small_bars(dice)
            answer = self.ask("bars", problem)
            best = [by_patterns(problem), by_assignment(problem)]
            for cost in (cost for cost in best if cost is not None):
                self.assertLessEqual(answer["bound"], cost)
                self.assertEqual(answer["cost"], cost, problem)
                agreed += 1
        print(f"bars: {agreed} proofs of HiGHS and CP-SAT agree")
        self.assertGreater(agreed, 40)

    def test_workshop_orders(self):
        dice, gaps = random.Random(8), []
        for _ in range(10):
            answer = self.ask("bars", workshop_bars(dice))
            gaps.append(answer["cost"] / answer["bound"] - 1)
        print(f"bars workshop: largest gap {max(gaps):.3%}, proven {sum(g == 0 for g in gaps)} of {len(gaps)}")
        self.assertLess(max(gaps), 0.01)

    def test_same_work_same_plan(self):
        problem = workshop_bars(random.Random(3))
        first, second = (self.ask("bars", problem, work=3e7) for _ in range(2))
        for answer in (first, second):
            del answer["seconds"]
        self.assertEqual(first, second)

    def test_parts_of_a_millimetre_and_long_lists(self):
        problem = {"bars": [{"length": 2440.5, "price": 999}], "kerf": 3.17, "trim": 12.7, "pieces": [
            {"length": round(200 + 17.31 * i, 2), "count": 3} for i in range(40)]}
        answer = self.ask("bars", problem)
        self.assertLessEqual(answer["cost"], 1.03 * answer["bound"])

    def test_stock_that_is_too_small_says_what_is_missing(self):
        problem = {"bars": [{"length": 1000, "price": 300, "count": 2}], "kerf": 3, "trim": 0,
                   "pieces": [{"length": 600, "count": 3}, {"length": 300, "count": 2}]}
        answer = self.ask("bars", problem)
        self.assertEqual(answer["missing"], [1, 0])

    def test_bad_input(self):
        bars, good = [{"length": 2000, "price": 5}], {"length": 500, "count": 1}
        problem = lambda **change: {"bars": bars, "pieces": [good], "kerf": 3, "trim": 5, **change}
        self.refused("bars", problem(pieces=[good, {"length": 2015, "count": 1}]), "problem.pieces[1].length", "25 mm longer")
        self.refused("bars", problem(pieces=[{"length": 0, "count": 1}]), "problem.pieces[0].length", "above 0")
        self.refused("bars", problem(pieces=[{"length": -4, "count": 1}]), "problem.pieces[0].length", "-4")
        self.refused("bars", problem(pieces=[{"length": 5, "count": 1.5}]), "problem.pieces[0].count", "whole")
        self.refused("bars", problem(kerf=-1), "problem.kerf")
        self.refused("bars", problem(bars=[]), "problem.pieces[0].length", "no bar")
        self.refused("bars", problem(bars=[{"length": 2000, "price": -5}]), "problem.bars[0].price")
        self.refused("bars", problem(bars=[{"length": 2000, "price": 2.5}]), "problem.bars[0].price", "whole")
        self.refused("bars", problem(stock=1), "problem.stock")


def small_bars(dice):
    bars = [{"length": dice.randrange(1200, 3100, 100), "price": dice.randint(300, 1500)} for _ in range(dice.randint(1, 3))]
    for bar in bars[1:]:
        if dice.random() < 0.5:
            bar["count"] = dice.randint(1, 2)
    pieces = [{"length": dice.randint(150, 1150), "count": dice.randint(1, 3)} for _ in range(dice.randint(2, 5))]
    return {"bars": bars, "pieces": pieces, "kerf": dice.choice([0, 2.5, 3.2]), "trim": dice.choice([0, 10])}


def workshop_bars(dice):
    chairs = dice.choice([6, 12, 24])
    bars = [{"length": dice.randrange(1800, 4900, 300), "price": dice.randint(800, 2600)} for _ in range(4)]
    pieces = [{"length": dice.randint(180, 1100), "count": chairs * dice.choice([1, 2, 4])} for _ in range(10)]
    return {"bars": bars, "pieces": pieces, "kerf": 3, "trim": 15}


def weights(problem):
    rooms = [round((bar["length"] - 2 * problem["trim"] + problem["kerf"]) * 100) for bar in problem["bars"]]
    return rooms, [round((piece["length"] + problem["kerf"]) * 100) for piece in problem["pieces"]]


def by_patterns(problem):
    """HiGHS: every way to fill every bar is a column of an integer program."""
    rooms, sizes = weights(problem)
    counts = [piece["count"] for piece in problem["pieces"]]
    patterns = [
        (kind, pattern)
        for kind, room in enumerate(rooms)
        for pattern in itertools.product(*(range(n + 1) for n in counts))
        if any(pattern) and sum(map(lambda n, size: n * size, pattern, sizes)) <= room
    ]
    model = highspy.Highs()
    model.silent()
    uses = [model.addIntegral(lb=0, ub=sum(counts)) for _ in patterns]
    for row, n in enumerate(counts):
        model.addConstr(sum((u * p[row] for u, (_, p) in zip(uses, patterns) if p[row]), start=uses[0] * 0) == n)
    for kind, bar in enumerate(problem["bars"]):
        own = [u for u, (k, _) in zip(uses, patterns) if k == kind]
        if "count" in bar and own:
            model.addConstr(sum(own, start=uses[0] * 0) <= bar["count"])
    model.minimize(sum((u * problem["bars"][k]["price"] for u, (k, _) in zip(uses, patterns)), start=uses[0] * 0))
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return round(model.getInfo().objective_function_value)


def by_assignment(problem):
    """CP-SAT: each piece goes to one of so many bars of each kind."""
    rooms, sizes = weights(problem)
    single = [size for size, piece in zip(sizes, problem["pieces"]) for _ in range(piece["count"])]
    slots = [(k, i) for k, bar in enumerate(problem["bars"]) for i in range(min(bar.get("count", len(single)), len(single)))]
    model = cp_model.CpModel()
    used = {slot: model.new_bool_var("") for slot in slots}
    on = {(p, slot): model.new_bool_var("") for p in range(len(single)) for slot in slots}
    for p in range(len(single)):
        model.add_exactly_one(on[p, slot] for slot in slots)
    for slot in slots:
        model.add(sum(size * on[p, slot] for p, size in enumerate(single)) <= rooms[slot[0]] * used[slot])
        if (slot[0], slot[1] - 1) in used:
            model.add_implication(used[slot], used[slot[0], slot[1] - 1])
    model.minimize(sum(problem["bars"][slot[0]]["price"] * u for slot, u in used.items()))
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = 2
    solver.parameters.num_workers = 1
    return round(solver.objective_value) if solver.solve(model) == cp_model.OPTIMAL else None


class Boards(Packing):
    def test_small_orders_against_every_guillotine_layout(self):
        dice, best, proven, total = random.Random(11), 0, 0, 30
        for _ in range(total):
            problem = small_boards(dice)
            answer = self.ask("boards", problem)
            cost = by_merging(problem)
            self.assertLessEqual(answer["bound"], cost, problem)
            self.assertGreaterEqual(answer["cost"], cost, problem)
            best += answer["cost"] == cost
            proven += answer["cost"] == answer["bound"]
        print(f"boards: {best} of {total} small orders at the optimum, {proven} proven")
        self.assertEqual((best, proven), (total, total))

    def test_workshop_orders(self):
        dice, gaps, gains = random.Random(4), [], []
        for _ in range(8):
            answer = self.ask("boards", workshop_boards(dice))
            self.assertLessEqual(answer["cost"], answer["best_fit"])
            gaps.append(answer["cost"] / answer["bound"] - 1)
            gains.append(answer["best_fit"] / answer["cost"] - 1)
        mean = lambda values: sum(values) / len(values)
        print(f"boards workshop: {mean(gaps):.2%} above the bound on average, best fit {mean(gains):.2%} dearer")
        self.assertLess(mean(gaps), 0.03)

    def test_strips_that_are_full(self):
        """Which of them are full by cuts right through too: such a layout is joined from blocks of equal sides."""
        met = 0
        for row in data("hopper_T_sample"):
            sizes = [item[:2] for item in row["items"]]
            full = full_by_guillotine(sizes, 200) if len(sizes) < 30 else None
            pieces = [{"length": b, "width": a, "count": 1, "grain": False} for a, b in sizes]
            problem = {"boards": [{"length": 205, "width": 200, "price": 1, "count": 1}], "pieces": pieces, "kerf": 0, "trim": 0}
            fits = sum(self.ask("boards", problem, work=6e8)["missing"]) == 0
            met += fits
            told = {True: "", False: ", not full by guillotine cuts", None: ""}[full]
            print(f"boards strip {row['name']}: {'within' if fits else 'above'} 205{told}")
        # Of T1c and T1e there is no such layout by cuts right through; see DEVELOPERS.md.
        self.assertGreaterEqual(met, 15)

    def test_a_little_work_gives_a_plan_and_a_bound(self):
        dice = random.Random(9)
        for _ in range(10):
            problem = workshop_boards(dice)
            quick, long = self.ask("boards", problem, work=2e6), self.ask("boards", problem, work=2e8)
            self.assertLessEqual(quick["cost"], quick["best_fit"])
            area = sum(p["length"] * p["width"] * p["count"] for p in problem["pieces"])
            self.assertGreaterEqual(quick["bound"], area * min(b["price"] / (b["length"] * b["width"]) for b in problem["boards"]) - 1)
            self.assertLessEqual(quick["bound"], long["cost"])

    def test_stock_that_is_too_small_says_what_is_missing(self):
        problem = {"boards": [{"length": 1000, "width": 100, "price": 9, "count": 1}], "kerf": 3,
                   "trim": {"end": 5, "edge": 2}, "pieces": [{"length": 450, "width": 90, "count": 3, "grain": True}]}
        self.assertEqual(self.ask("boards", problem)["missing"], [1])

    def test_bad_input(self):
        piece = {"length": 500, "width": 80, "count": 1, "grain": True}
        problem = lambda **change: {"boards": [{"length": 1000, "width": 100, "price": 5}], "kerf": 3, "trim": 0,
                                    "pieces": [{**piece, **change}]}
        self.refused("boards", problem(length=1010), "problem.pieces[0]", "10 mm too long")
        self.refused("boards", problem(width=120.5), "problem.pieces[0]", "20.5 mm too wide")
        self.refused("boards", problem(width=0), "problem.pieces[0].width", "above 0")
        self.refused("boards", problem(grain="yes"), "problem.pieces[0].grain")
        self.refused("boards", problem(count=1e6), "problem.pieces[0].count")


def small_boards(dice):
    boards = [{"length": dice.randrange(900, 2100, 100), "width": dice.randrange(140, 260, 10), "price": dice.randint(400, 1500)}
              for _ in range(dice.randint(1, 3))]
    pieces, left = [], dice.randint(3, 7)
    while left:
        n = min(left, dice.randint(1, 3))
        left -= n
        pieces.append({"length": dice.randint(150, 850), "width": dice.randint(40, 120), "count": n, "grain": dice.random() < 0.6})
    return {"boards": boards, "pieces": pieces, "kerf": 3, "trim": {"end": 10, "edge": 5}}


def workshop_boards(dice):
    chairs = dice.choice([4, 8, 12, 24])
    boards = [{"length": dice.randrange(1800, 3300, 300), "width": dice.randrange(150, 300, 25), "price": 0} for _ in range(3)]
    for board in boards:
        board["price"] = round(board["length"] * board["width"] * dice.uniform(0.008, 0.011))
    pieces = [{"length": dice.randint(200, 900), "width": dice.randint(35, 125), "count": chairs * dice.choice([1, 2, 4]),
               "grain": dice.random() < 0.8} for _ in range(7)]
    return {"boards": boards, "pieces": pieces, "kerf": 3, "trim": {"end": 25, "edge": 8}}


def full_by_guillotine(sizes, side):
    """Whether rectangles fill a square by cuts right through: joins every two blocks of one side's length, each set of
    pieces at each size once, until there are no new ones."""
    blocks, todo = set(), []

    def add(pieces, size):
        for turned in {size, size[::-1]}:
            if max(size) <= side and (pieces, turned) not in blocks:
                blocks.add((pieces, turned))
                todo.append((pieces, turned))

    for i, size in enumerate(sizes):
        add(1 << i, tuple(size))
    for done, (own, (a, b)) in enumerate(todo):
        for other, (c, d) in todo[:done]:
            if not own & other and b == d:
                add(own | other, (a + c, b))
            if not own & other and a == c:
                add(own | other, (a, b + d))
    return ((1 << len(sizes)) - 1, (side, side)) in blocks


def by_merging(problem):
    """The optimum by all guillotine layouts: the smallest rectangles that hold each set of pieces, made by
    putting those of two parts side by side or one above the other; then the cheapest way to share the pieces out."""
    kerf, (end, edge) = problem["kerf"], saw.trims(problem)
    single = [piece for piece in problem["pieces"] for _ in range(piece["count"])]
    sets = 1 << len(single)
    smallest = [set() for _ in range(sets)]
    for i, piece in enumerate(single):
        size = (piece["length"] + kerf, piece["width"] + kerf)
        smallest[1 << i] = {size} if piece["grain"] else {size, size[::-1]}
    for whole in range(1, sets):
        part = (whole - 1) & whole
        while part:
            rest = whole ^ part
            if part < rest:
                for (a, b), (c, d) in itertools.product(smallest[part], smallest[rest]):
                    smallest[whole] |= {(a + c, max(b, d)), (max(a, c), b + d)}
            part = (part - 1) & whole
        smallest[whole] = pareto(smallest[whole])
    rooms = [(b["length"] - 2 * end + kerf, b["width"] - 2 * edge + kerf, b["price"]) for b in problem["boards"]]
    price = [min((p for x, y, p in rooms if any(a <= x + 1e-9 and b <= y + 1e-9 for a, b in sizes)), default=math.inf)
             for sizes in smallest]
    cost = [0] + [math.inf] * (sets - 1)
    for whole in range(1, sets):
        part = whole
        while part:
            cost[whole] = min(cost[whole], price[part] + cost[whole ^ part])
            part = (part - 1) & whole
    return cost[-1]


def pareto(sizes):
    kept, low = set(), math.inf
    for length, width in sorted(sizes):
        if width < low:
            kept.add((length, width))
            low = width
    return kept


class Planks(Packing):
    def test_raked_legs_lie_in_rows(self):
        for length, width, count in ((2400, 200, 6), (3000, 220, 12)):
            problem = {"planks": [{"length": length, "width": width, "price": 1, "count": 1}], "kerf": 3, "trim": 0,
                       "shapes": [{"outline": leg(), "count": 40, "turns": [0, 180]}]}
            made = 40 - self.ask("planks", problem)["missing"][0]
            print(f"planks: {made} legs on {width} × {length} in a second")
            self.assertGreaterEqual(made, count)

    def test_irregular_sets(self):
        known = data("irregular/BEST_KNOWN_from_memory")
        for name in ("albano", "jakobs1", "marques", "shapes1", "dighe1"):
            row = data(f"irregular/{name}")
            width, area = row["board_bbox"][1], row["total_area"]
            length = 3 * area / width
            shapes = [{"outline": item["poly"], "count": item["q"], "turns": item["rot"]} for item in row["items"]]
            problem = {"planks": [{"length": length, "width": width, "price": 1, "count": 1}], "shapes": shapes, "kerf": 0, "trim": 0}
            answer = self.ask("planks", problem, work=2.7e9)
            self.assertEqual(sum(answer["missing"]), 0)
            density = 100 * area / (width * (length - answer["planks"][0]["offcut"]))
            best = known.get(name, {}).get("best_known_density_pct_memory", 100)
            source = "best known from memory" if name in known else "full, it is a jigsaw"
            print(f"planks {name}: density {density:.1f} %, {best} % {source}, that is {density / best:.1%} of it")
            self.assertGreater(density / best, 0.85)

    def test_a_mixed_order_with_tilt(self):
        shapes = [{"outline": leg(), "count": 10, "turns": [0, 180], "tilt": 2},
                  {"outline": [[0, 0], [420, 0], [400, 60], [210, 75], [20, 60]], "count": 9, "turns": [0, 180]},
                  {"outline": [[0, 0], [300, 0], [300, 40], [0, 40]], "count": 12, "turns": [0]}]
        planks = [{"length": 2400, "width": 200, "price": 3900}, {"length": 3000, "width": 220, "price": 5600, "count": 1}]
        answer = self.ask("planks", {"planks": planks, "shapes": shapes, "kerf": 3, "trim": {"end": 25, "edge": 8}, "tolerance": 0.1})
        self.assertEqual(sum(answer["missing"]), 0)
        print(f"planks mixed order: cost {answer['cost']}, bound {answer['bound']}")

    def test_bad_input(self):
        problem = lambda outline, **shape: {"planks": [{"length": 1000, "width": 100, "price": 5}], "kerf": 3, "trim": 0,
                                            "shapes": [{"outline": outline, "count": 1, "turns": [0, 180], **shape}]}
        square = [[0, 0], [50, 0], [50, 50], [0, 50]]
        self.refused("planks", problem([[0, 0], [1030, 0], [1030, 50]]), "problem.shapes[0].outline", "30.00 mm too long")
        self.refused("planks", problem([[0, 0], [50, 0], [50, 120]]), "problem.shapes[0].outline", "20.00 mm too wide")
        self.refused("planks", problem([[0, 0], [50, 50], [50, 0], [0, 40]]), "problem.shapes[0].outline", "crosses")
        self.refused("planks", problem([[0, 0], [50, 50]]), "problem.shapes[0].outline", "no area")
        self.refused("planks", problem([[0, 0], [50]]), "problem.shapes[0].outline[1]", "two numbers")
        self.refused("planks", problem(square, turns=[]), "problem.shapes[0].turns")
        self.refused("planks", problem(square, tilt=40), "problem.shapes[0].tilt")


def leg():
    """900 long, limbs 40 wide, bent 12° in the middle; its chord lies along the grain."""
    sin, cos = math.sin(math.radians(6)), math.cos(math.radians(6))
    dx, dy, half, rise, mitre = 20 * sin, 20 * cos, 450 * cos, 450 * sin, 20 / cos
    return [[dx, -dy], [half, rise - mitre], [2 * half - dx, -dy], [2 * half + dx, dy], [half, rise + mitre], [-dx, dy]]


del Packing

if __name__ == "__main__":
    unittest.main()
