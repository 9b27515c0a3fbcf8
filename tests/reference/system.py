"""Reference for `anchor::system_rest` and `anchor::break_in_time`, by SciPy.

Rest: `scipy.optimize.minimize` (trust-exact) of the potential energy of tension-only legs between fixed points and
free junctions, sharpened with `scipy.optimize.root` on its gradient. Motion: `solve_ivp` (DOP853 at 1e-11) of the
mass at the junction that is pulled; where there are other junctions, they rest at each instant (`root`).
Needs numpy and scipy; writes system.json beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import minimize, root

SEED = 611
COUNT = 300
MOTIONS = 24


def ends(case, x):
    free = x.reshape(-1, 3)
    points = np.vstack([free, case["fixed_m"]])
    return points[case["from"]], points[case["to"]]


def legs(case, x):
    a, b = ends(case, x)
    way = b - a
    length = np.linalg.norm(way, axis=1)
    return np.maximum(length - case["rest_m"], 0.0), way / length[:, None], length


def energy(x, case, load):
    stretch, _, _ = legs(case, x)
    return 0.5 * np.sum(case["k_n_per_m"] * stretch**2) - load @ x


def gradient(x, case, load):
    stretch, unit, _ = legs(case, x)
    force = (case["k_n_per_m"] * stretch)[:, None] * unit
    sums = np.zeros((case["junctions"] + len(case["fixed_m"]), 3))
    np.add.at(sums, case["from"], -force)
    np.add.at(sums, case["to"], force)
    return sums[: case["junctions"]].ravel() - load


def hessian(x, case, load):
    stretch, unit, length = legs(case, x)
    count = case["junctions"]
    h = np.zeros((3 * count, 3 * count))
    parts = zip(case["from"], case["to"], case["k_n_per_m"], stretch, unit, length)
    for a, b, k, s, u, size in parts:
        if s <= 0.0:
            continue
        along = np.outer(u, u)
        block = k * (along + (np.eye(3) - along) * s / size)
        for i in (a, b):
            for j in (a, b):
                if i < count and j < count:
                    h[3 * i : 3 * i + 3, 3 * j : 3 * j + 3] += block if i == j else -block
    return h


def rest(case, load, start):
    scale = np.linalg.norm(load)
    x = minimize(
        energy, start, (case, load), "trust-exact", gradient, hessian, tol=1e-9 * scale,
        options={"maxiter": 4000},
    ).x
    found = root(gradient, x, (case, load), jac=hessian, options={"xtol": 1e-15})
    if np.linalg.norm(gradient(found.x, case, load)) < np.linalg.norm(gradient(x, case, load)):
        x = found.x
    return x, np.linalg.norm(gradient(x, case, load)) / scale


def some(rng):
    junctions = int(rng.integers(1, 4))
    fixed = np.column_stack([
        rng.uniform(-2, 2, 3 + junctions), rng.uniform(-2, 2, 3 + junctions), rng.uniform(2, 4, 3 + junctions),
    ]).round(4)
    count = len(fixed)
    start, end = [], []
    # Junction 0 is pulled; each junction has two legs to fixed points at least, and one to the first.
    for j in range(junctions):
        for f in rng.choice(count, int(rng.integers(2, 4)), replace=False):
            start.append(j)
            end.append(junctions + int(f))
        if j > 0:
            start.append(0)
            end.append(j)
    near = np.array([[0.0, 0.0, 0.3 * j] for j in range(junctions)])
    case = {
        "junctions": junctions,
        "fixed_m": fixed,
        "from": np.array(start),
        "to": np.array(end),
        "k_n_per_m": (10.0 ** rng.uniform(4, 6, len(start))).round(1),
    }
    points = np.vstack([near, fixed])
    distance = np.linalg.norm(points[case["to"]] - points[case["from"]], axis=1)
    case["rest_m"] = (distance * rng.uniform(0.7, 1.15, len(start))).round(4)
    pull = np.array([rng.uniform(-2, 2), rng.uniform(-2, 2), rng.uniform(-8, -1)]).round(3) * 1000
    return case, near, pull


def plain(case, near, pull):
    keep = {k: (v.tolist() if isinstance(v, np.ndarray) else v) for k, v in case.items()}
    return keep | {"near_m": near.tolist(), "pull_n": pull.tolist()}


def tensions(case, x):
    return case["k_n_per_m"] * legs(case, x)[0]


def motion(case, pull, x, lost, mass, time):
    """Greatest tension of each leg and the place at the end."""
    keep = np.arange(len(case["from"])) != lost
    left = dict(case)
    for key in ("from", "to", "k_n_per_m", "rest_m"):
        left[key] = case[key][keep]
    last = x.copy()

    def settled(p):
        nonlocal last
        if left["junctions"] == 1:
            return np.array(p)
        fun = lambda q: gradient(np.concatenate([p, q]), left, np.zeros_like(x))[3:] / 1e3
        jac = lambda q: hessian(np.concatenate([p, q]), left, None)[3:, 3:] / 1e3
        q = last[3:]
        for _ in range(60):
            g = fun(q)
            if np.linalg.norm(g) < 1e-12:
                break
            step = np.linalg.solve(jac(q) + 1e-9 * np.eye(len(q)), -g)
            size = 1.0
            while size > 1e-6 and np.linalg.norm(fun(q + size * step)) > np.linalg.norm(g):
                size /= 2
            q = q + size * step
        last = np.concatenate([p, q])
        return last

    def rates(_, y):
        full = settled(y[:3])
        force = pull - gradient(full, left, np.zeros_like(x))[:3]
        return np.concatenate([y[3:], force / mass])

    run = solve_ivp(
        rates, (0.0, time), np.concatenate([x[:3], np.zeros(3)]), "DOP853", rtol=1e-11, atol=1e-12,
        dense_output=True, max_step=time / 200,
    )
    peak = np.zeros(len(left["from"]))
    for t in np.linspace(0.0, time, 4001):
        peak = np.maximum(peak, tensions(left, settled(run.sol(t)[:3])))
    return peak.tolist(), run.y[:3, -1].tolist()


rng = np.random.default_rng(SEED)
cases, motions = [], []
while len(cases) < COUNT:
    case, near, pull = some(rng)
    load = np.concatenate([pull, np.zeros(3 * (case["junctions"] - 1))])
    x, residual = rest(case, load, near.ravel())
    if residual > 1e-11:
        continue
    t = tensions(case, x)
    entry = plain(case, near, pull) | {"tension_n": [round(float(v), 9) for v in t]}
    # A junction all of whose legs are slack may be anywhere.
    cases.append(entry)
    few = sum(cases[m["case"]]["junctions"] == case["junctions"] for m in motions) < MOTIONS // 3
    if few and np.count_nonzero(t) >= len(t) - case["junctions"]:
        lost = int(np.argmax(t))
        mass, time = 20.0, 0.15
        peak, end = motion(case, pull, x, lost, mass, time)
        motions.append({"case": len(cases) - 1, "lost": lost, "mass_kg": mass, "time_s": time,
                        "peak_n": [round(v, 6) for v in peak], "end_m": end})
out = {"rest": cases, "motion": motions}
Path(__file__).with_suffix(".json").write_text(json.dumps(out, separators=(",", ":")) + "\n")
