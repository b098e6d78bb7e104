"""Times the core beside general-purpose programs on the same work, in one run: `tests/.venv/bin/python tests/reference/ratios.py`.

Only ratios within a run mean something. Reading, writing and building the inputs are in none of the times. What is compared:

- solids: all parts of a chair carved from their plain bodies; manifold (meshes) and OpenCascade (boundary representations)
  do the same unions and differences.
- hidden lines: the edges of a chair from the front, seen and hidden; OpenCascade's exact algorithm on the same solids.
- frame: random frames without springs, built, factorised and solved; PyNite, with numpy's solver below it.
- bars: small orders proven at their least cost; HiGHS on all patterns, CP-SAT on assignments, one thread each.
"""

import json
import random
import statistics
import subprocess
import time

import numpy as np
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRep import BRep_Builder
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakePolygon, BRepBuilderAPI_MakeSolid, BRepBuilderAPI_Sewing
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo
from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain
from OCP.TopoDS import TopoDS, TopoDS_Compound

import frames
import kernel
import test_frame
import test_packing
from probe import ROOT, Probe

CHAIRS = {
    "side chair": {},
    "three-seat bench": {"family": "bench_three", "arms": "posts", "back": "laths", "stretchers": "box"},
}
LAPS = ["cargo", "run", "--quiet", "--release", "--package", "crestrail-tests", "--bin", "measure", "--", "laps"]
# Rounds of what is quick enough to be done more than once.
ROUNDS = 5
FRAMES = 20
ORDERS = 12


class Laps:
    """The core's own times."""

    def __init__(self):
        pipe = subprocess.PIPE
        self._run = subprocess.Popen(LAPS, cwd=ROOT, stdin=pipe, stdout=pipe, encoding="utf-8")

    def seconds(self, lap, **rest):
        self._run.stdin.write(json.dumps({"lap": lap, **rest}) + "\n")
        self._run.stdin.flush()
        return json.loads(self._run.stdout.readline())["ok"]["seconds"]

    def close(self):
        self._run.stdin.close()
        self._run.wait(timeout=60)


def median(work, rounds=ROUNDS):
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        work()
        times.append(time.perf_counter() - began)
    return statistics.median(times)


def tell(work, core, others):
    """A line a program: its time, and how many times the core's it is."""
    print(f"{work:<34} {'the core':<14} {core * 1e3:>10.3f} ms")
    for name, seconds in others:
        print(f"{'':<34} {name:<14} {seconds * 1e3:>10.3f} ms {seconds / core:>9.1f} x")


def occ_solid(faces):
    """A solid with these plane faces, each a list of corners, outside anticlockwise."""
    sewing = BRepBuilderAPI_Sewing(1e-6)
    for corners in faces:
        polygon = BRepBuilderAPI_MakePolygon()
        for corner in corners:
            polygon.Add(gp_Pnt(*map(float, corner)))
        polygon.Close()
        sewing.Add(BRepBuilderAPI_MakeFace(polygon.Wire(), True).Face())
    sewing.Perform()
    solid = BRepBuilderAPI_MakeSolid(TopoDS.Shell(sewing.SewedShape())).Solid()
    joined = ShapeUpgrade_UnifySameDomain(solid, True, True, False)
    joined.Build()
    return joined.Shape()


def occ_body(body):
    """A body of the mesh kernel with its triangles joined to faces."""
    mesh = body.to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3]
    return occ_solid(corners[list(triangle)] for triangle in np.asarray(mesh.tri_verts))


def occ_carved(added, cut):
    body = added[0]
    for other in added[1:]:
        body = BRepAlgoAPI_Fuse(body, other).Shape()
    for other in cut:
        body = BRepAlgoAPI_Cut(body, other).Shape()
    return body


def carving(probe, laps, name, design):
    rows = [row for row in probe.ask("bodies", design=design)["parts"] if not row["part"].endswith("left")]
    bodies = [[[kernel.from_row(body) for body in row[side]] for side in ("added", "cut")] for row in rows]
    shapes = [[[occ_body(body) for body in side] for side in row] for row in bodies]

    def by_manifold():
        for added, cut in bodies:
            whole = kernel.union(added)
            # Its booleans wait until something is asked of their outcome.
            (whole - kernel.union(cut) if cut else whole).num_tri()

    def by_occ():
        for added, cut in shapes:
            occ_carved(added, cut)

    others = [("manifold", median(by_manifold)), ("OpenCascade", median(by_occ, 1))]
    tell(f"solids, {name}, {len(rows)} parts", laps.seconds("carve", design=design), others)


def hiding(probe, laps, name, design):
    rows = probe.ask("solids", design=design)
    compound, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(compound)
    for row in rows:
        builder.Add(compound, occ_body(kernel.from_mesh(row["vertices"], row["faces"])))
    # From the front: the eye looks along -y, as the drawing's first view does.
    projector = HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(0, 1, 0), gp_Dir(-1, 0, 0)))

    def by_occ():
        algorithm = HLRBRep_Algo()
        algorithm.Add(compound, 0)
        algorithm.Projector(projector)
        algorithm.Update()
        algorithm.Hide()

    tell(f"hidden lines, {name}, {len(rows)} parts", laps.seconds("hidden", design=design), [("OpenCascade", median(by_occ, 1))])


def framing(laps):
    drawn = frames.Frames(7)
    problems = [drawn.draw(springs=False, shear=False) for _ in range(FRAMES)]
    members = sum(len(problem["members"]) for problem in problems)
    core = sum(laps.seconds("frame", problem=problem) for problem in problems)
    pynite = median(lambda: [test_frame.pynite(problem) for problem in problems], 1)
    tell(f"frames, {FRAMES} with {members} members", core, [("PyNite", pynite)])


def cutting(probe):
    dice = random.Random(7)
    problems = [test_packing.small_bars(dice) for _ in range(ORDERS)]
    core, others = 0.0, {test_packing.by_patterns: 0.0, test_packing.by_assignment: 0.0}
    proven = {solver: 0 for solver in others}
    for problem in problems:
        core += statistics.median(probe.ask("bars", problem=problem)["seconds"] for _ in range(ROUNDS))
        for solver in others:
            began = time.perf_counter()
            proven[solver] += solver(problem) is not None
            others[solver] += time.perf_counter() - began
    names = {test_packing.by_patterns: "HiGHS", test_packing.by_assignment: "CP-SAT"}
    told = [(f"{names[solver]}, {proven[solver]} of {ORDERS}", seconds) for solver, seconds in others.items()]
    tell(f"bars, {ORDERS} small orders proven", core, told)


def main():
    with Probe() as probe:
        laps = Laps()
        for name, design in CHAIRS.items():
            carving(probe, laps, name, design)
        for name, design in CHAIRS.items():
            hiding(probe, laps, name, design)
        framing(laps)
        cutting(probe)
        laps.close()


if __name__ == "__main__":
    main()
