"""Times, ratios and force differences of ringtrue and its peers, as a Markdown table.

usage: table.py FOLDER with mesh.json and peer-*.json
"""

import csv
import glob
import json
import os
import sys

FINE = "validation/reference/mechanics/ramp_15deg_noslip.csv"


def reference():
    """Travel and axial force of the kept curve (256 boundary edges), past the first millimetre."""
    with open(FINE) as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        pairs = [(float(r["u_mm"]), float(r["axial_force_ring_N_per_mm"])) for r in rows]
    return [pair for pair in pairs if pair[0] >= 1.0]


def at(curve, travel):
    """Force at a travel, by the parabola through the three nearest steps that lie apart."""
    near = []
    for point in sorted(curve, key=lambda p: abs(p[0] - travel)):
        if all(abs(point[0] - other[0]) > 0.05 for other in near):
            near.append(point)
        if len(near) == 3:
            break
    value = 0.0
    for i, (x, y) in enumerate(near):
        weight = 1.0
        for j, (other, _) in enumerate(near):
            if j != i:
                weight *= (travel - other) / (x - other)
        value += weight * y
    return value


def apart(curve, points):
    """Root mean square and largest relative difference, percent."""
    off = [100.0 * (at(curve, travel) / force - 1.0) for travel, force in points]
    return (sum(x * x for x in off) / len(off)) ** 0.5, max(off, key=abs)


def main():
    folder = sys.argv[1]
    own = json.load(open(os.path.join(folder, "mesh.json")))
    fine = reference()
    with open(os.path.join(folder, "own.txt")) as spent:
        seconds = sum(map(float, spent.read().split())) / len(own["seconds"])
    nodes, elements = len(own["nodes"]), len(own["elements"])
    print(f"{nodes} nodes ({nodes + elements} with the elements' middles), {elements} elements of "
          f"eight or nine nodes, {len(own['boundary'])} boundary edges.\n")
    print("| code | elements | iterations | s | times ringtrue | force against the fine curve: "
          "root mean square, worst | against ringtrue: worst |")
    print("|---|---|--:|--:|--:|--:|--:|")

    def row(name, kind, iterations, spent, curve):
        square, worst = apart(curve, fine)
        _, ours = apart(own["curve"], [(t, at(curve, t)) for t, _ in fine])
        print(f"| {name} | {kind} | {iterations} | {spent:.3g} | {spent / seconds:.1f} | "
              f"{square:.2f} %, {worst:+.2f} % | {-ours:+.2f} % |")

    row("ringtrue", "nine-node mixed, augmented Lagrange", own["newton_iterations"], seconds,
        own["curve"])
    for path in sorted(glob.glob(os.path.join(folder, "peer-*.json"))):
        peer = json.load(open(path))
        name = peer["code"] + ("" if peer["complete"] else " (stopped early)")
        row(name, peer["elements"], peer["iterations"], peer["seconds"], peer["curve"])


main()
