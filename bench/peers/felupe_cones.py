"""The two-cone problem on ringtrue's mesh through FElupe: each of our elements cut into four-node
quadrilaterals with mean dilatation, on the same nodes and one more in each element's middle.

usage: felupe_cones.py MESH.json pardiso|superlu -> one JSON object on standard output
"""

import json
import math
import sys
import time

import felupe as fem
import numpy as np

RADIUS, SECTION, ANGLE, TRAVEL, STEPS = 120.0, 12.0, math.radians(15.0), 9.0, 30
MU, BULK = 1.0, 2000.0
# N/mm^3 on the contact, as for the kept reference curves.
PENALTY = 4000.0


def solver(name):
    if name == "pardiso":
        from pypardiso import spsolve
        return lambda a, b: spsolve(a.tocsr(), b)
    from scipy.sparse.linalg import spsolve
    return spsolve


def quarters(mesh):
    """Points (z, r), FElupe's axisymmetric order, and four quadrilaterals for each element."""
    points = [tuple(p) for p in mesh["nodes"]]
    cells = []
    for e in mesh["elements"]:
        corners, middles = e[:4], e[4:]
        at = np.array([points[n] for n in e])
        # Where the eight-node element's own map puts its middle.
        points.append(tuple(-0.25 * at[:4].sum(axis=0) + 0.5 * at[4:].sum(axis=0)))
        centre = len(points) - 1
        for k in range(4):
            cells.append([corners[k], middles[k], centre, middles[k - 1]])
    # (r, z) counter-clockwise is clockwise in (z, r).
    swapped = np.array(points)[:, ::-1]
    return swapped, np.array(cells)[:, ::-1]


def main():
    mesh = json.load(open(sys.argv[1]))
    direct = solver(sys.argv[2])
    points, cells = quarters(mesh)
    outline = sorted({n for edge in mesh["boundary"] for n in edge})
    started = time.process_time()
    touch = 0.5 * SECTION / math.cos(ANGLE)
    guides = np.array([[0.0, RADIUS + touch], [0.0, RADIUS - touch]])
    full = fem.Mesh(np.vstack([points, guides]), cells, "quad")
    region = fem.RegionQuad(full)
    field = fem.FieldContainer([fem.FieldAxisymmetric(region, dim=2)])
    housing, ring = len(points), len(points) + 1
    rubber = fem.SolidBodyNearlyIncompressible(fem.NeoHooke(mu=MU), field, bulk=BULK)
    # Force per node and mm: pressure times the node's share of the surface of the whole ring.
    spacing = math.pi * SECTION / len(outline)
    penalty = PENALTY * spacing * 2.0 * math.pi * RADIUS
    sin, cos = math.sin(ANGLE), math.cos(ANGLE)
    pairs = []
    for centre, side in ((housing, -1.0), (ring, 1.0)):
        pairs.append(fem.ContactRigidPlane(
            field, outline, centre, normal=[side * sin, side * cos], friction=np.inf,
            multiplier=penalty, multiplier_tangential=penalty))
    items = [rubber, *pairs]
    bounds = {
        "housing": fem.Boundary(field[0], mask=np.arange(full.npoints) == housing),
        "ring": fem.Boundary(field[0], mask=np.arange(full.npoints) == ring),
    }
    total, curve, at = 0, [[0.0, 0.0]], 0.0
    target, step = [TRAVEL * (k + 1) / STEPS for k in range(STEPS)], TRAVEL / STEPS
    around = 2.0 * math.pi * RADIUS
    for goal in target:
        while at < goal - 1e-9:
            aim = min(at + step, goal)
            kept = field[0].values.copy()
            marks = [item.checkpoint() for item in items]
            if at == 0.0:
                # A point of contact a side holds nothing: begin half-way in between.
                field[0].values[: len(points), 0] = 0.5 * aim
            values = np.zeros((1, 2))
            values[0, 0] = aim
            bounds["ring"].update(values)
            dof0, dof1 = fem.dof.partition(field, bounds)
            ext0 = fem.dof.apply(field, bounds, dof0)
            try:
                result = fem.newtonraphson(items=items, dof0=dof0, dof1=dof1, ext0=ext0,
                                           solver=direct, maxiter=12, tol=1e-4, verbose=0)
                total += result.iterations
            except (RuntimeError, ValueError, fem.tools.NewtonConvergenceError):
                total += 12
                field[0].values[:] = kept
                for item, mark in zip(items, marks):
                    item.restore(mark)
                step *= 0.5
                if step < 1e-4:
                    raise
                continue
            at, step = aim, min(2.0 * step, TRAVEL / STEPS)
            dofs = field[0].indices.dof[ring]
            force = -float(pairs[1].results.force.toarray().ravel()[dofs[0]])
        curve.append([at, abs(force) / around])
    print(json.dumps({
        "code": f"FElupe {fem.__version__}, {sys.argv[2]}",
        "elements": "four-node mean dilatation, node-to-plane contact",
        "seconds": time.process_time() - started,
        "iterations": total,
        "complete": True,
        "curve": curve[1:],
    }))


main()
