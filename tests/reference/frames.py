"""Random frames as requests of the probe, and their answer by the method of forces.

Nothing here is taken from the core: a member's flexibility is integrated along it from the forces in its sections, springs
add their own to it, and the inverse is the stiffness. The core starts from stiffnesses in closed form.
"""

import math
import random

import numpy as np

GAUSS = [(0.5 - math.sqrt(0.15), 5 / 18), (0.5, 8 / 18), (0.5 + math.sqrt(0.15), 5 / 18)]
HELD = [True] * 6


class Frames:
    """Random sound frames, always the same ones for one seed."""

    def __init__(self, seed):
        self.random = random.Random(seed)

    def draw(self, springs, shear):
        nodes, pairs = self._net()
        while not all(clear(nodes, *pair) for pair in pairs):
            nodes, pairs = self._net()
        count = len(nodes)
        members = [self._member(nodes, i, j, springs, shear) for i, j in pairs]
        supports = [{"node": 0, "fixed": HELD}]
        for node in range(1, count):
            if self.random.random() < 0.2:
                fixed = [self.random.random() < 0.5 for _ in range(6)]
                supports.append({"node": node, "fixed": fixed})
        return {"nodes": nodes, "members": members, "supports": supports, **self._loads(count, len(members))}

    def _net(self):
        """Nodes, and pairs that meet: a tree and some more, none of them twice."""
        count = self.random.randint(2, 14)
        pairs = {(self.random.randrange(j), j) for j in range(1, count)}
        pairs |= {tuple(sorted(self.random.sample(range(count), 2))) for _ in range(self.random.randint(0, count))}
        return self._nodes(count), sorted(pairs)

    def _nodes(self, count):
        """Half of them on a grid, so that members run along axes too."""
        nodes = []
        while len(nodes) < count:
            node = [self.random.uniform(-400, 400) for _ in range(3)]
            if self.random.random() < 0.5:
                node = [200.0 * round(c / 200) for c in node]
            if all(math.dist(node, other) > 60 for other in nodes):
                nodes.append(node)
        return nodes

    def _member(self, nodes, i, j, springs, shear):
        if self.random.random() < 0.5:
            i, j = j, i
        b, h = self.random.uniform(12, 50), self.random.uniform(12, 70)
        member = {
            "i": i,
            "j": j,
            "e": self.random.uniform(7000, 16000),
            "g": self.random.uniform(400, 1200),
            "area": b * h,
            "iy": h * b**3 / 12,
            "iz": b * h**3 / 12,
            "j_torsion": min(b, h) ** 2 * b * h / 5,
            "up": self._up(np.subtract(nodes[j], nodes[i])),
        }
        if shear:
            member |= {name: b * h * 5 / 6 for name in ("shear_y", "shear_z") if self.random.random() < 0.7}
        if springs:
            member |= {name: self._springs() for name in ("springs_i", "springs_j") if self.random.random() < 0.7}
        return member

    def _up(self, along):
        while True:
            up = [self.random.uniform(-1, 1) for _ in range(3)]
            if np.linalg.norm(np.cross(along, up)) > 0.2 * np.linalg.norm(along):
                return up

    def _springs(self):
        """0.1 to 1000 kN·m/rad, the stiffer half of which is all but rigid."""
        about = [axis for axis in "xyz" if self.random.random() < 0.6]
        return {axis: 10 ** self.random.uniform(5, 9) for axis in about}

    def _loads(self, nodes, members):
        def three(size):
            return [self.random.uniform(-size, size) for _ in range(3)]

        loads = [
            {"node": self.random.randrange(nodes), "force": three(1000), "moment": three(50_000)}
            for _ in range(self.random.randint(1, 4))
        ]
        even = [{"member": self.random.randrange(members), "force": three(3)} for _ in range(self.random.randint(0, 3))]
        return {"loads": loads, "uniform_loads": even}


def clear(nodes, i, j):
    """No other node lies on the line between the two; PyNite would join it to the member."""
    a, b = np.array(nodes[i]), np.array(nodes[j])
    others = [np.array(node) for k, node in enumerate(nodes) if k not in (i, j)]
    ways = [np.linalg.norm(a - c) + np.linalg.norm(c - b) for c in others]
    return all(way > np.linalg.norm(b - a) + 1.0 for way in ways)


def axes(problem, member):
    """Local x, y, z as rows, and the length."""
    x = np.subtract(problem["nodes"][member["j"]], problem["nodes"][member["i"]])
    length = np.linalg.norm(x)
    z = np.cross(x, member["up"])
    x, z = x / length, z / np.linalg.norm(z)
    return np.array([x, np.cross(z, x), z]), length


def section_forces(length, x):
    """N, Vy, Vz, T, My, Mz at x from the six forces at the end j of a member held at i."""
    arm = length - x
    forces = np.eye(6)
    forces[4, 2] = -arm
    forces[5, 1] = arm
    return forces


def section_forces_of_load(length, x, load):
    """Likewise from an even local load."""
    arm = length - x
    qx, qy, qz = load
    return np.array([qx * arm, qy * arm, qz * arm, 0, -qz * arm**2 / 2, qy * arm**2 / 2])


def soft(springs):
    return np.diag([0, 0, 0] + [1 / springs[axis] if axis in springs else 0.0 for axis in "xyz"])


class Flexible:
    """One member: its stiffness and the forces by its own load with both ends held, both local."""

    def __init__(self, problem, index):
        member = problem["members"][index]
        turn, length = axes(problem, member)
        self.turn = np.kron(np.eye(4), turn)
        loads = [row["force"] for row in problem["uniform_loads"] if row["member"] == index]
        load = turn @ np.sum(loads, axis=0) if loads else np.zeros(3)
        e, g = member["e"], member["g"]
        shear = [1 / (g * member[name]) if name in member else 0.0 for name in ("shear_y", "shear_z")]
        soft_section = np.diag([
            1 / (e * member["area"]), *shear,
            1 / (g * member["j_torsion"]), 1 / (e * member["iy"]), 1 / (e * member["iz"]),
        ])
        # Where the member gives: along its length, and in its springs.
        places = [(at * length, weight * length * soft_section) for at, weight in GAUSS]
        places += [(0, soft(member.get("springs_i", {}))), (length, soft(member.get("springs_j", {})))]
        flexibility, moved = np.zeros((6, 6)), np.zeros(6)
        for x, give in places:
            b = section_forces(length, x)
            flexibility += b.T @ give @ b
            moved += b.T @ give @ section_forces_of_load(length, x, load)
        stiff = np.linalg.inv(flexibility)
        to_i = section_forces(length, 0)
        self.stiffness = np.block([[to_i @ stiff @ to_i.T, -to_i @ stiff], [-stiff @ to_i.T, stiff]])
        at_j = -stiff @ moved
        at_i = -to_i @ at_j - section_forces_of_load(length, 0, load)
        self.held = np.concatenate([at_i, at_j])


def stiffness(problem):
    """The whole matrix before supports, and the members."""
    members = [Flexible(problem, index) for index in range(len(problem["members"]))]
    whole = np.zeros((6 * len(problem["nodes"]),) * 2)
    for row, member in zip(problem["members"], members):
        at = rows_of(row)
        whole[np.ix_(at, at)] += member.turn.T @ member.stiffness @ member.turn
    return whole, members


def rows_of(member):
    return [6 * member[end] + k for end in ("i", "j") for k in range(6)]


def free_rows(problem):
    held = {6 * row["node"] + k for row in problem["supports"] for k in range(6) if row["fixed"][k]}
    return [row for row in range(6 * len(problem["nodes"])) if row not in held]


def solve(problem):
    """Displacements and end forces."""
    whole, members = stiffness(problem)
    side = np.zeros(len(whole))
    for load in problem["loads"]:
        side[6 * load["node"] : 6 * load["node"] + 6] += load["force"] + load["moment"]
    for row, member in zip(problem["members"], members):
        side[rows_of(row)] -= member.turn.T @ member.held
    free = free_rows(problem)
    moved = np.zeros(len(whole))
    moved[free] = np.linalg.solve(whole[np.ix_(free, free)], side[free])
    ends = [m.stiffness @ m.turn @ moved[rows_of(row)] + m.held for row, m in zip(problem["members"], members)]
    return moved.reshape(-1, 6), np.array(ends)
