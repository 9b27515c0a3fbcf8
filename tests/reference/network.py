"""Random pulley networks in space, solved with SciPy in a way that shares nothing with the core.

    python tests/reference/network.py > tests/reference/network.json

Travel: the ropes' lengths as a sparse linear system (scipy.sparse.linalg.spsolve). Forces without loss and at
both ends of the range in which the hand holds: linear programmes (scipy.optimize.linprog, HiGHS) over the tension
of every rope part, with the equilibrium of every body that moves as equations and the friction at every sheave
as bounds on the ratio of the tensions beside it, whichever way it might run. No sense of motion goes into the
programmes, so they also check that the core's senses are the right ones.
"""

import json
import math

import numpy as np
from scipy.optimize import linprog, nnls
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import spsolve

WANTED = 200


def unit(v):
    return v / np.linalg.norm(v)


def draw(rng):
    """A network: bodies (name, kind, position, travel) and ropes (stops, efficiencies)."""
    anchors = int(rng.integers(1, 4))
    blocks = int(rng.integers(0, 4))
    bodies = []
    for i in range(anchors):
        bodies.append([f"anchor {i}", "anchor", rng.uniform([-4, -4, 0], [4, 4, 3]), None])
    aim = lambda: rng.normal([0, 0, 1], 0.25)
    bodies.append(["load", "load", rng.uniform([-2, -2, -12], [2, 2, -9]), aim()])
    for i in range(blocks):
        against = rng.random() < 0.3
        travel = aim() * (-1 if against else 1)
        bodies.append([f"block {i}", "moving", rng.uniform([-3, -3, -8], [3, 3, -1]), travel])
    up = rng.random() < 0.5
    bodies.append(["hand", "hand", rng.uniform([-5, -5, 0], [5, 5, 4]) if up
                   else rng.uniform([-5, -5, -15], [5, 5, -13]), None])
    hand = len(bodies) - 1
    ropes = []
    for r in range(blocks + 1):
        n = int(rng.integers(2, 6))
        stops = [int(rng.integers(0, hand))]
        while len(stops) < n:
            s = int(rng.integers(0, hand))
            if s != stops[-1]:
                stops.append(s)
        if r == blocks:
            stops.append(hand)
        ropes.append([stops, rng.uniform(0.6, 1.0, len(stops) - 2)])
    # What is written down is what is solved.
    for body in bodies:
        body[2] = np.round(body[2], 4)
        body[3] = None if body[3] is None else np.round(body[3], 4)
    return bodies, [[stops, np.round(eta, 4)] for stops, eta in ropes]


def parts_of(bodies, ropes):
    parts = []
    for r, (stops, _) in enumerate(ropes):
        for a, b in zip(stops, stops[1:]):
            parts.append((r, a, b, unit(bodies[b][2] - bodies[a][2])))
    return parts


def solve(bodies, ropes):
    moving = [i for i, b in enumerate(bodies) if b[1] in ("load", "moving")]
    hand = len(bodies) - 1
    parts = parts_of(bodies, ropes)
    aim = {i: unit(bodies[i][3]) for i in moving}
    aim[hand] = parts[-1][3]
    k = np.zeros((len(ropes), len(bodies)))
    a_eq = np.zeros((len(moving), len(parts)))
    for p, (r, a, b, u) in enumerate(parts):
        for body, sign in ((b, 1.0), (a, -1.0)):
            if body in aim:
                k[r, body] += sign * u @ aim[body]
            if body in moving:
                a_eq[moving.index(body), p] -= sign * u @ aim[body]
    square = k[:, moving]
    if np.linalg.cond(square) > 1e3:
        return None
    travel = spsolve(csc_matrix(square), -k[:, hand])
    travel = np.atleast_1d(travel)
    load = next(i for i, b in enumerate(bodies) if b[1] == "load")
    v_load = travel[moving.index(load)]
    if v_load < 0.05:
        return None
    # What passes each sheave: one that stands has no sense, and is not compared.
    full = np.zeros(len(bodies))
    full[moving] = travel
    full[hand] = 1.0
    rate = 0.0
    for p, (r, a, b, u) in enumerate(parts):
        if p and parts[p - 1][0] != r:
            rate = 0.0
        run = lambda i: aim[i] * full[i] if i in aim else np.zeros(3)
        rate += u @ (run(b) - run(a))
        last = p + 1 == len(parts) or parts[p + 1][0] != r
        if not last and abs(rate) < 1e-3:
            return None
    b_eq = np.array([1.0 if i == load else 0.0 for i in moving])
    bounds, ideal = [], []
    for p in range(len(parts) - 1):
        r = parts[p][0]
        if parts[p + 1][0] != r:
            continue
        i = p - next(q for q, part in enumerate(parts) if part[0] == r)
        eta = ropes[r][1][i]
        for ahead, behind in ((p, p + 1), (p + 1, p)):
            row = np.zeros(len(parts))
            row[ahead], row[behind] = 1.0, -1.0 / eta
            bounds.append(row)
        row = np.zeros(len(parts))
        row[p], row[p + 1] = 1.0, -1.0
        ideal.append(row)
    cost = np.zeros(len(parts))
    cost[-1] = 1.0
    b_ub = np.zeros(len(bounds))
    a_ub = np.array(bounds) if bounds else None
    b_ub = b_ub if bounds else None
    low = linprog(cost, a_ub, b_ub, a_eq, b_eq, method="highs")
    high = linprog(-cost, a_ub, b_ub, a_eq, b_eq, method="highs")
    equal = np.vstack([a_eq, *ideal]) if ideal else a_eq
    still, left = nnls(equal, np.concatenate([b_eq, np.zeros(len(ideal))]))
    # A rope that carries nothing is a mistake to the core, not a result.
    if left > 1e-9 or still.min() < 1e-6 or low.status or high.status not in (0, 3):
        return None
    return {
        "ideal": 1.0 / v_load,
        "frictionless": float(still[-1]),
        "low": float(low.fun),
        "high": float(-high.fun) if high.status == 0 else None,
    }


def main():
    rng = np.random.default_rng(20260101)
    cases = []
    tried = 0
    while len(cases) < WANTED:
        tried += 1
        bodies, ropes = draw(rng)
        solved = solve(bodies, ropes)
        if solved is None:
            continue
        cases.append({
            "bodies": [
                {"name": b[0], "kind": b[1],
                 "position": b[2].tolist(), "travel": None if b[3] is None else b[3].tolist()}
                for b in bodies
            ],
            "ropes": [{"stops": stops, "efficiency": eta.tolist()}
                      for stops, eta in ropes],
            **solved,
        })
    print(json.dumps({"tried": tried, "cases": cases}))


if __name__ == "__main__":
    main()
