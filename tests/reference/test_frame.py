"""Random frames in space against PyNite, and against the method of forces in frames.py.

PyNite has no rotational spring between two members. There a spring becomes a stub of 8 mm cut from the member's
end, with as much more flexibility as the spring has. Stubs of half and of a quarter of that length tell how much their length
counts, and the answer is carried on to no length, which leaves errors of its third power; much shorter stubs would be so
stiff that PyNite's own sums lose the figures. Hence the wider limit there.
"""

import copy
import math
import unittest

import frames
import numpy as np
from Pynite import FEModel3D
from probe import Probe, Refused

SEED = 7
STUB = 8.0
WAYS = ("X", "Y", "Z")


def share_apart(found, wanted):
    """Largest difference as a share of the largest value, forces and moments, moves and turns apart."""
    shares = []
    for first in (0, 3):
        columns = [k for k in range(np.shape(wanted)[1]) if k % 6 // 3 == first // 3]
        one, other = np.asarray(found)[:, columns], np.asarray(wanted)[:, columns]
        most = np.abs(other).max()
        # All held or all free of moment: only rounding is left.
        shares.append(np.abs(one - other).max() / most if most > 0 else np.abs(one).max())
    return max(shares)


def pynite(problem):
    """Displacements, end forces, reactions of the supports and the moments in the middles, by PyNite."""
    model = FEModel3D()
    for index, node in enumerate(problem["nodes"]):
        model.add_node(f"n{index}", *node)
    for index, member in enumerate(problem["members"]):
        name = f"m{index}"
        model.add_material(name, member["e"], member["g"], 0.3, 0.0)
        model.add_section(name, member["area"], member["iy"], member["iz"], member["j_torsion"])
        model.add_member(name, f"n{member['i']}", f"n{member['j']}", name, name)
        wanted, _ = frames.axes(problem, member)
        y, z = model.members[name].T()[1, :3], model.members[name].T()[2, :3]
        model.members[name].rotation = math.degrees(math.atan2(wanted[1] @ z, wanted[1] @ y))
        assert np.allclose(model.members[name].T()[:3, :3], wanted, atol=1e-9), "the axes differ"
    for row in problem["supports"]:
        model.def_support(f"n{row['node']}", *row["fixed"])
    for load in problem["loads"]:
        for way, force, moment in zip(WAYS, load["force"], load["moment"]):
            model.add_node_load(f"n{load['node']}", f"F{way}", force)
            model.add_node_load(f"n{load['node']}", f"M{way}", moment)
    for load in problem["uniform_loads"]:
        for way, force in zip(WAYS, load["force"]):
            model.add_member_dist_load(f"m{load['member']}", f"F{way}", force, force)
    # Its check of stability takes stubs for loose; a loose frame would show in the comparison.
    model.analyze_linear(check_stability=False)
    nodes = [model.nodes[f"n{index}"] for index in range(len(problem["nodes"]))]
    moved = [[getattr(node, kind + way)["Combo 1"] for kind in "DR" for way in WAYS] for node in nodes]
    supported = [nodes[row["node"]] for row in problem["supports"]]
    pushed = [[getattr(node, f"Rxn{kind}{way}")["Combo 1"] for kind in "FM" for way in WAYS] for node in supported]
    members = [model.members[f"m{index}"] for index in range(len(problem["members"]))]
    ends = [member.f("Combo 1").ravel() for member in members]
    middles = [[member.moment("Mz", member.L() / 2), member.moment("My", member.L() / 2)] for member in members]
    return np.array(moved), np.array(ends), np.array(pushed), np.array(middles)


def with_stubs(problem, length):
    """Springs made into stubs; the nodes and members that there were keep their numbers."""
    made = copy.deepcopy(problem)
    for member in made["members"].copy():
        along, _ = frames.axes(problem, member)
        for end, way in (("i", 1), ("j", -1)):
            springs = member.pop(f"springs_{end}", {})
            if not springs:
                continue
            stub = copy.deepcopy(member)
            stub.pop("springs_j", None)
            for size, modulus, axis in (("j_torsion", "g", "x"), ("iy", "e", "y"), ("iz", "e", "z")):
                if axis in springs:
                    stub[size] = 1 / (1 / member[size] + member[modulus] / (springs[axis] * length))
            joint = member[end]
            made["nodes"].append([c + way * length * x for c, x in zip(problem["nodes"][joint], along[0])])
            member[end] = len(made["nodes"]) - 1
            stub["i"], stub["j"] = (joint, member[end]) if end == "i" else (member[end], joint)
            made["members"].append(stub)
            index = len(made["members"]) - 1
            parent = made["members"].index(member)
            made["uniform_loads"] += [
                {"member": index, "force": load["force"]} for load in problem["uniform_loads"] if load["member"] == parent
            ]
    return made


class Frame(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()

    @classmethod
    def tearDownClass(cls):
        cls.probe.close()

    def worst(self, shares, limit, what):
        print(f"\nframes, {what}: {len(shares)} of seed {SEED}, {max(shares):.1e} apart at most")
        self.assertLess(max(shares), limit, f"frame {int(np.argmax(shares))} of seed {SEED}")

    def test_rigid_frames_against_pynite(self):
        drawn, shares = frames.Frames(SEED), []
        for _ in range(60):
            problem = drawn.draw(springs=False, shear=False)
            found = self.probe.ask("frame", problem={**problem, "shares": [0.5]})
            moved, ends, pushed, middles = pynite(problem)
            share = max(share_apart(found["displacements"], moved), share_apart(found["end_forces"], ends))
            reactions = [row["force"] + row["moment"] for row in found["reactions"]]
            share = max(share, share_apart(reactions, pushed))
            # PyNite's moments within a member have the other sign about z.
            inner = np.array(found["inner"])[:, 0, :]
            most = np.abs(ends[:, [4, 5, 10, 11]]).max()
            share = max(share, np.abs(inner[:, [5, 4]] * [-1.0, 1.0] - middles).max() / most)
            shares.append(share)
        self.worst(shares, 1e-6, "rigid, PyNite")

    def test_springs_and_shear_against_the_method_of_forces(self):
        drawn, shares = frames.Frames(SEED + 1), []
        for _ in range(150):
            problem = drawn.draw(springs=True, shear=True)
            found = self.probe.ask("frame", problem=problem)
            moved, ends = frames.solve(problem)
            shares.append(max(share_apart(found["displacements"], moved), share_apart(found["end_forces"], ends)))
        self.worst(shares, 1e-8, "springs and shear, method of forces")

    def test_springs_against_stubs_in_pynite(self):
        drawn, shares = frames.Frames(SEED + 2), []
        for _ in range(40):
            problem = drawn.draw(springs=True, shear=False)
            found = self.probe.ask("frame", problem=problem)
            count = len(problem["nodes"])
            lengths = (STUB, STUB / 2, STUB / 4)
            long, half, short = (pynite(with_stubs(problem, length))[0][:count] for length in lengths)
            shares.append(share_apart(found["displacements"], (8 * short - 6 * half + long) / 3))
        self.worst(shares, 1e-4, "springs, stubs in PyNite")

    def test_several_cases_are_those_of_each_alone(self):
        drawn = frames.Frames(SEED + 3)
        for _ in range(10):
            problem = drawn.draw(springs=True, shear=True)
            loads = [{name: problem.pop(name) for name in ("loads", "uniform_loads")}]
            loads.append({"loads": [{"node": len(problem["nodes"]) - 1, "force": [0, 0, -1]}]})
            together = self.probe.ask("frame", problem={**problem, "cases": loads})
            alone = [self.probe.ask("frame", problem={**problem, **case}) for case in loads]
            self.assertEqual(together, alone)

    def test_refused_are_those_without_full_rank(self):
        """Supports drawn at random: the core answers where the reference's matrix can be inverted, else it names a
        node and a way that its null movement really has."""
        drawn, refused, count = frames.Frames(SEED + 4), 0, 200
        for _ in range(count):
            problem = drawn.draw(springs=False, shear=False)
            for row in problem["supports"]:
                row["fixed"] = [drawn.random.random() < 0.6 for _ in range(6)]
            whole, _ = frames.stiffness(problem)
            free = frames.free_rows(problem)
            # Moves counted in mm, turns in 1/100 rad, so that both weigh alike.
            scale = np.array([1.0 if row % 6 < 3 else 0.01 for row in free])
            values, vectors = np.linalg.eigh(whole[np.ix_(free, free)] * np.outer(scale, scale))
            loose = np.flatnonzero(values < 1e-9 * values.max())
            try:
                self.probe.ask("frame", problem=problem)
                self.assertEqual(len(loose), 0, problem)
            except Refused as error:
                refused += 1
                self.assertGreater(len(loose), 0, problem)
                node = int(error.error["where"].removeprefix("problem.nodes[").removesuffix("]"))
                way = WORDS.index(next(words for words in WORDS if words in error.error["why"]))
                moved = np.abs(vectors[free.index(6 * node + way), loose]).max()
                self.assertGreater(moved, 1e-6, error)
        print(f"\nframes, random supports: {refused} of {count} refused")
        self.assertTrue(30 < refused < count - 30)


WORDS = [f"{verb} {axis}" for verb in ("move along", "turn about") for axis in "xyz"]

if __name__ == "__main__":
    unittest.main()
