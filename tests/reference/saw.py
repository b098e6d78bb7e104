"""Checks plans of bars, boards and planks from the problem and the answer alone; knows nothing of how they were found."""

from shapely import affinity
from shapely.geometry import Polygon, box

# Lengths come in hundredths of a millimetre inside the core; this is well below one.
TINY = 1e-6


class Wrong(AssertionError):
    """A plan that cannot be sawn or does not make what was asked."""


def need(holds, *told):
    if not holds:
        raise Wrong(*told)


def trims(problem):
    trim = problem.get("trim", 0)
    return (trim.get("end", 0), trim.get("edge", 0)) if isinstance(trim, dict) else (trim, trim)


def count_and_cost(problem, kind, rows, made, asked, answer):
    """Stock limits, demand, cost and bound; `rows` are (stock, times), `made` how many of each piece."""
    used = [0] * len(problem[kind])
    for stock, times in rows:
        need(times >= 1, "times", times)
        used[stock] += times
    for n, stock in zip(used, problem[kind]):
        need(n <= stock.get("count", n), "more stock than there is", n, stock)
    for n, missing, piece in zip(made, answer["missing"], asked):
        need(n + missing == piece["count"] and missing >= 0, "made and missing", n, missing, piece)
    cost = sum(n * stock["price"] for n, stock in zip(used, problem[kind]))
    need(cost == answer["cost"], "cost", cost, answer["cost"])
    need(0 <= answer["bound"] <= cost, "bound", answer["bound"], cost)


def check_bars(problem, answer):
    end, _ = trims(problem)
    made = [0] * len(problem["pieces"])
    for row in answer["patterns"]:
        lengths = [problem["pieces"][p]["length"] for p in row["pieces"]]
        room = problem["bars"][row["bar"]]["length"] - 2 * end
        used = sum(lengths) + problem["kerf"] * (len(lengths) - 1)
        need(lengths and used <= room + TINY, "too long", used, room)
        need(abs(max(room - used - problem["kerf"], 0) - row["offcut"]) < 0.02 * (len(lengths) + 2), "offcut", row)
        for p in row["pieces"]:
            made[p] += row["times"]
    rows = [(row["bar"], row["times"]) for row in answer["patterns"]]
    count_and_cost(problem, "bars", rows, made, problem["pieces"], answer)


def check_boards(problem, answer):
    (end, edge), kerf = trims(problem), problem["kerf"]
    made = [0] * len(problem["pieces"])
    for row in answer["boards"]:
        board, rectangles = problem["boards"][row["board"]], []
        for p in row["pieces"]:
            piece = problem["pieces"][p["piece"]]
            made[p["piece"]] += row["times"]
            size, own = (p["length"], p["width"]), (piece["length"], piece["width"])
            need(size == own or (size == own[::-1] and not piece.get("grain", True)), "size or grain", p, piece)
            need(p["x"] >= end - TINY and p["x"] + size[0] <= board["length"] - end + TINY, "ends", p)
            need(p["y"] >= edge - TINY and p["y"] + size[1] <= board["width"] - edge + TINY, "edges", p)
            rectangles.append((p["x"], p["y"], p["x"] + size[0], p["y"] + size[1]))
        need(rectangles, "an empty board")
        need(can_be_parted(rectangles, kerf), "no cut goes right through", rectangles)
        saw_in_order(row, rectangles, kerf, board, end, edge)
    rows = [(row["board"], row["times"]) for row in answer["boards"]]
    count_and_cost(problem, "boards", rows, made, problem["pieces"], answer)


def can_be_parted(rectangles, kerf):
    """Whether cuts that go right through part all rectangles, a kerf lost at each."""
    if len(rectangles) < 2:
        return True
    for axis in (0, 1):
        ordered = sorted(rectangles, key=lambda r: r[axis])
        reach = ordered[0][axis + 2]
        for i in range(1, len(ordered)):
            if ordered[i][axis] >= reach + kerf - TINY:
                return can_be_parted(ordered[:i], kerf) and can_be_parted(ordered[i:], kerf)
            reach = max(reach, ordered[i][axis + 2])
    return False


def saw_in_order(row, rectangles, kerf, board, end, edge):
    """Makes the cuts one after another on the trimmed board; at the end each part holds at most one piece,
    and each piece is bounded by cuts or rims."""
    parts = [(end, edge, board["length"] - end, board["width"] - edge)]
    for cut in row["cuts"]:
        axis = 0 if cut["way"] == "across" else 1
        other = 1 - axis

        def spans(part):
            inside = part[axis] - TINY <= cut["at"] <= part[axis + 2] + TINY
            return inside and abs(part[other] - cut["from"]) < 0.02 and abs(part[other + 2] - cut["to"]) < 0.02

        part = next((p for p in parts if spans(p)), None)
        need(part is not None, "a cut that goes through no part", cut, parts)
        parts.remove(part)
        low, high = list(part), list(part)
        low[axis + 2], high[axis] = cut["at"], cut["at"] + kerf
        parts += [tuple(p) for p in (low, high) if p[axis + 2] > p[axis] + TINY]
    for x0, y0, x1, y1 in rectangles:
        # Sizes are rounded up to hundredths, so a part may be larger by a little.
        fits = [p for p in parts if abs(p[0] - x0) < 0.02 and abs(p[1] - y0) < 0.02 and p[2] >= x1 - 0.02 and p[3] >= y1 - 0.02]
        need(len(fits) == 1, "no part for a piece", (x0, y0, x1, y1), parts)
        need(abs(fits[0][2] - x1) < 0.02 and abs(fits[0][3] - y1) < 0.02, "a piece not cut to size", fits, (x0, y0, x1, y1))


def placed(problem, piece):
    outline = Polygon(problem["shapes"][piece["shape"]]["outline"])
    turned = affinity.rotate(outline, piece["turn"], origin=(0, 0))
    return affinity.translate(turned, piece["x"], piece["y"])


def check_planks(problem, answer):
    (end, edge), kerf = trims(problem), problem["kerf"]
    made = [0] * len(problem["shapes"])
    for row in answer["planks"]:
        plank = problem["planks"][row["plank"]]
        bed = box(end, edge, plank["length"] - end, plank["width"] - edge).buffer(1e-4)
        need(row["pieces"], "an empty plank")
        outlines = [placed(problem, p) for p in row["pieces"]]
        for piece, outline in zip(row["pieces"], outlines):
            made[piece["shape"]] += row["times"]
            shape = problem["shapes"][piece["shape"]]
            off = min(abs((piece["turn"] - turn + 180) % 360 - 180) for turn in shape["turns"])
            need(off <= shape.get("tilt", 0) + TINY, "turn", piece, shape["turns"])
            need(bed.contains(outline), "off the plank", piece, outline.bounds)
        for i, a in enumerate(outlines):
            for b in outlines[:i]:
                if kerf > 0:
                    need(a.distance(b) >= kerf - 1e-3, "nearer than the kerf", a.distance(b))
                else:
                    need(a.intersection(b).area < 1e-4 * min(a.area, b.area), "overlap", a.intersection(b).area)
    rows = [(row["plank"], row["times"]) for row in answer["planks"]]
    count_and_cost(problem, "planks", rows, made, problem["shapes"], answer)
