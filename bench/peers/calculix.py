"""The two-cone problem on ringtrue's mesh through CalculiX: CAX8R, node-to-surface contact.

usage: calculix.py MESH.json FOLDER -> one JSON object on standard output
"""

import json
import math
import os
import re
import resource
import subprocess
import sys

RADIUS, SECTION, ANGLE, TRAVEL, STEPS = 120.0, 12.0, math.radians(15.0), 9.0, 30
MU, BULK = 1.0, 2000.0
# N/mm^3: normal penalty, and stiffness of the stick before it slips at a coefficient of 1.
PENALTY, STICK = 300.0, 30.0
# A point of contact a side holds nothing. The walls first close by this much, mm, with the middle
# of the section held; then it is let go, sticking, and the grip is taken back while the ring moves
# the first of its steps.
GRIP = 0.02


def wall(first_node, first_element, side):
    """A rigid wall as two-node-thick elements: lines of the deck, and its node numbers."""
    touch = RADIUS + side * 0.5 * SECTION / math.cos(ANGLE)
    along = [-14.0 + 28.0 * k / 8 for k in range(9)]
    nodes, grid = [], {}
    for i, z in enumerate(along):
        for j in range(3):
            if i % 2 == 1 and j == 1:
                continue
            grid[i, j] = first_node + len(nodes)
            nodes.append((touch - z * math.tan(ANGLE) + side * 1.0 * j, z))
    elements = []
    for i in range(0, 8, 2):
        # Corners (r, z) counter-clockwise; the inner face of the wall is its first line of nodes.
        if side > 0:
            corners = [(i, 0), (i, 2), (i + 2, 2), (i + 2, 0)]
        else:
            corners = [(i, 2), (i, 0), (i + 2, 0), (i + 2, 2)]
        ring = corners + corners[:1]
        middles = [((a[0] + b[0]) // 2, (a[1] + b[1]) // 2) for a, b in zip(ring, ring[1:])]
        elements.append([grid[place] for place in corners + middles])
    face = "S4" if side > 0 else "S2"
    text = [f"{first_node + k}, {r:.9f}, {z:.9f}, 0" for k, (r, z) in enumerate(nodes)]
    rows = [", ".join(map(str, [first_element + k] + e)) for k, e in enumerate(elements)]
    return text, rows, [first_node + k for k in range(len(nodes))], face


def deck(mesh):
    nodes = [f"{k + 1}, {r:.12f}, {z:.12f}, 0" for k, (r, z) in enumerate(mesh["nodes"])]
    rubber = [", ".join(str(x) for x in [k + 1] + [n + 1 for n in e])
              for k, e in enumerate(mesh["elements"])]
    start, count = 100001, 100001
    housing = wall(start, count, +1)
    ring = wall(start + 1000, count + 1000, -1)
    sides = {}
    for k, e in enumerate(mesh["elements"]):
        for side in range(4):
            sides[e[side], e[(side + 1) % 4]] = f"{k + 1}, S{side + 1}"
    outline = [sides[edge[0], edge[2]] for edge in mesh["boundary"]]
    lines = ["*NODE, NSET=ALL"] + nodes + housing[0] + ring[0]
    lines += ["*ELEMENT, TYPE=CAX8R, ELSET=RUBBER"] + rubber
    lines += ["*ELEMENT, TYPE=CAX8R, ELSET=HOUSING"] + housing[1]
    lines += ["*ELEMENT, TYPE=CAX8R, ELSET=RING"] + ring[1]
    for name, members in (("NHOUSING", housing[2]), ("NRING", ring[2])):
        lines += [f"*NSET, NSET={name}"] + [f"{n}," for n in members]
    lines += ["*SURFACE, NAME=SOUTLINE, TYPE=ELEMENT"] + outline
    lines += ["*SURFACE, NAME=SHOUSING", f"HOUSING, {housing[3]}"]
    lines += ["*SURFACE, NAME=SRING", f"RING, {ring[3]}"]
    lines += ["*MATERIAL, NAME=MRUBBER", "*HYPERELASTIC, NEO HOOKE",
              f"{0.5 * MU}, {2.0 / BULK}"]
    lines += ["*MATERIAL, NAME=MWALL", "*ELASTIC", "1000., 0.3"]
    lines += ["*SOLID SECTION, ELSET=RUBBER, MATERIAL=MRUBBER"]
    lines += ["*SOLID SECTION, ELSET=HOUSING, MATERIAL=MWALL"]
    lines += ["*SOLID SECTION, ELSET=RING, MATERIAL=MWALL"]
    lines += ["*SURFACE INTERACTION, NAME=TOUCH",
              "*SURFACE BEHAVIOR, PRESSURE-OVERCLOSURE=LINEAR", f"{PENALTY}",
              "*FRICTION", f"1., {STICK}"]
    for master in ("SHOUSING", "SRING"):
        lines += ["*CONTACT PAIR, INTERACTION=TOUCH, TYPE=NODE TO SURFACE", f"SOUTLINE, {master}"]
    middle = min(range(len(mesh["nodes"])),
                 key=lambda k: math.dist(mesh["nodes"][k], (RADIUS, 0.0))) + 1
    first = 1.0 / STEPS

    def step(times, grip, travel, held=()):
        place = ["*BOUNDARY, OP=NEW", f"NHOUSING, 1, 1, {-grip}", "NHOUSING, 2, 2, 0.",
                 f"NRING, 1, 1, {grip}", f"NRING, 2, 2, {travel:.9f}"]
        print_it = ["*NODE PRINT, NSET=NRING, TOTALS=ONLY", "RF", "*END STEP"]
        return ["*STEP, NLGEOM, INC=2000", "*STATIC", times] + place + list(held) + print_it

    lines += step("0.1, 1., 1e-6, 0.5", GRIP, 0.0, [f"{middle}, 1, 2, 0."])
    lines += step(f"{0.1 * first:.9f}, {first:.9f}, 1e-7, {first:.9f}", 0.0, TRAVEL * first)
    lines += step(f"{first:.9f}, {1.0 - first:.9f}, 1e-7, {first:.9f}", 0.0, TRAVEL)
    return "\n".join(lines) + "\n"


def curve_of(text):
    """Travel and axial force per mm at the mean radius: 180 two-degree sectors make the ring."""
    times = re.findall(r"time\s+([0-9.E+-]+)\s*\n\s*\n\s*([0-9.E+-]+)\s+([0-9.E+-]+)", text)
    around = 2.0 * math.pi * RADIUS
    # The first step, to a time of 1, only grips.
    moved = [[float(t) - 1.0, float(z)] for t, _, z in times if float(t) > 1.0 + 1e-9]
    return [[TRAVEL * t, 180.0 * z / around] for t, z in moved]


def main():
    mesh = json.load(open(sys.argv[1]))
    folder = sys.argv[2]
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, "cones.inp"), "w") as out:
        out.write(deck(mesh))
    alone = dict(os.environ, OMP_NUM_THREADS="1", CCX_NPROC_EQUATION_SOLVER="1",
                 CCX_NPROC_STIFFNESS="1", CCX_NPROC_RESULTS="1")
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    ran = subprocess.run(["ccx", "-i", "cones"], cwd=folder, env=alone, text=True,
                         stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    seconds = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    with open(os.path.join(folder, "cones.log"), "w") as out:
        out.write(ran.stdout)
    with open(os.path.join(folder, "cones.sta")) as status:
        rows = [line.split() for line in status if line.split() and line.split()[0].isdigit()]
    with open(os.path.join(folder, "cones.dat")) as results:
        curve = curve_of(results.read())
    print(json.dumps({
        "code": "CalculiX " + subprocess.run(["ccx", "-v"], text=True, capture_output=True)
                .stdout.split()[-1],
        "elements": "CAX8R, node-to-surface contact",
        "seconds": seconds,
        "iterations": sum(int(row[3]) for row in rows),
        "complete": ran.returncode == 0 and bool(curve) and curve[-1][0] > TRAVEL - 1e-6,
        "curve": curve,
    }))


main()
