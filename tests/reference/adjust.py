"""Reference for `anchor::adjusted_rest`, by SciPy.

Without friction: `minimize` of the energy of a loop through points and a master connector, sharpened with `root`; the
tension of the loop at a place by `brentq` on its length. With friction: the least and the greatest share of each point by
`minimize` (SLSQP) over the place of the master and all tensions at once, under balance, length, and the limits of each
turn, from several starts; each start that ends within the limits counts.
Needs numpy and scipy; writes adjust.json beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.optimize import brentq, minimize, root

SEED = 29
COUNT = 120
STARTS = 12


def legs(case, p):
    way = np.array(case["at_m"]) - p
    d = np.linalg.norm(way, axis=1)
    return d, way / d[:, None]


def tensions(case, p):
    """Tension of the loop and of a strand to each point, by the length of the loop."""
    d, _ = legs(case, p)
    b, ea, size = np.array(case["knot_m"]), case["ea_n"], case["loop_m"]
    rest = lambda t: 2 * np.sum(np.maximum(d / (1 + t / ea), b)) - size
    if rest(0.0) <= 0.0:
        return 0.0, np.zeros(len(d))
    high = ea
    while rest(high) > 0.0:
        high *= 2
    t = brentq(rest, 0.0, high, xtol=1e-300, rtol=8.9e-16)
    at_knot = ea * np.maximum(d / np.where(b > 0, b, 1.0) - 1, 0.0)
    return t, np.where(d / (1 + t / ea) < b, np.minimum(at_knot, t), t)


def energy(p, case, pull):
    d, _ = legs(case, p)
    t, strand = tensions(case, p)
    ea, b = case["ea_n"], np.array(case["knot_m"])
    # A strand of length l without tension stores t² l / (2 EA).
    lengths = np.maximum(d / (1 + t / ea), b)
    return np.sum(strand**2 * lengths / ea) - pull @ p


def unbalanced(p, case, pull):
    _, u = legs(case, p)
    _, strand = tensions(case, p)
    return (2 * strand) @ u + pull


def even(case, pull):
    size = np.linalg.norm(pull)
    start = np.mean(case["at_m"], axis=0) + pull / size * case["loop_m"] / 4
    p = minimize(energy, start, (case, pull), "Nelder-Mead", options={"xatol": 1e-7, "fatol": 1e-10, "maxiter": 4000}).x
    for _ in range(3):
        found = root(unbalanced, p, (case, pull), options={"xtol": 1e-15}).x
        if np.linalg.norm(unbalanced(found, case, pull)) < np.linalg.norm(unbalanced(p, case, pull)):
            p = found
    return p, np.linalg.norm(unbalanced(p, case, pull)) / size


def limits(case, u):
    n = len(u)
    master = [np.pi - np.arccos(np.clip(u[i] @ u[(i + 1) % n], -1, 1)) for i in range(n)]
    return np.array([[case["mu_points"] * np.pi, case["mu_master"] * w] for w in master]).ravel()


def band(case, pull, p, t, rng):
    """Least and greatest share of each point; strand 2 i and 2 i + 1 lead to point i."""
    size, n = np.linalg.norm(pull), len(case["at_m"])
    way, scale = pull / size, case["loop_m"]
    twice = np.repeat(np.arange(n), 2)

    def split(x):
        d, u = legs(case, x[:3] * scale)
        return d / scale, u, np.exp(x[3:])

    def balance(x):
        d, u, s = split(x)
        length = np.sum(d[twice] / (1 + s * size / case["ea_n"])) - 1
        return np.append(s @ u[twice] + way, length)

    def turns(x):
        _, u, _ = split(x)
        step, c = np.roll(x[3:], -1) - x[3:], limits(case, u)
        return np.concatenate([c - step, c + step])

    def share(x, i, sign):
        _, u, s = split(x)
        return sign * (s[2 * i] + s[2 * i + 1]) * (u[i] @ way)

    low, high = np.full(n, np.inf), np.full(n, -np.inf)
    for i in range(n):
        for sign in (1, -1):
            for attempt in range(STARTS):
                x = np.append(p / scale, np.full(2 * n, np.log(t / size)))
                x = x + rng.normal(0, 0.05, len(x)) * (attempt > 0)
                found = minimize(
                    share, x, (i, sign), "SLSQP",
                    constraints=[{"type": "eq", "fun": balance}, {"type": "ineq", "fun": turns}],
                    options={"ftol": 1e-13, "maxiter": 500},
                )
                y = found.x
                if np.abs(balance(y)).max() < 1e-8 and turns(y).min() > -1e-8:
                    value = -share(y, i, 1)
                    low[i], high[i] = min(low[i], value), max(high[i], value)
    return low, high


def some(rng, i):
    n = 2 + i % 3
    at = np.column_stack([rng.uniform(-1, 1, n), rng.uniform(-1, 1, n), rng.uniform(0, 0.6, n)]).round(4)
    around = sum(np.linalg.norm(at[k] - at[k - 1]) for k in range(n))
    loop = round(float(rng.uniform(1.3, 3.0) * around + 0.5), 4)
    tilt, turn = rng.uniform(0, 0.6), rng.uniform(0, 2 * np.pi)
    way = np.array([np.sin(tilt) * np.cos(turn), np.sin(tilt) * np.sin(turn), -np.cos(tilt)])
    pull = (way * rng.uniform(1e3, 8e3)).round(2)
    knots = [0.0] * n
    if i % 4 == 3:
        knots = [round(float(rng.uniform(0.2, 0.95) * loop / (2 * n)), 4) for _ in range(n)]
    mu = [0.0, 0.0] if i % 4 == 3 else [round(float(rng.uniform(0.02, 0.3)), 3) for _ in range(2)]
    case = {"at_m": at.tolist(), "knot_m": knots, "loop_m": loop,
            "ea_n": round(float(10.0 ** rng.uniform(4.3, 6)), 1), "mu_points": mu[0], "mu_master": mu[1]}
    return case, pull


rng = np.random.default_rng(SEED)
cases = []
i = 0
while len(cases) < COUNT:
    case, pull = some(rng, i)
    p, residual = even(case, pull)
    if residual > 1e-10:
        continue
    i += 1
    t, strand = tensions(case, p)
    _, u = legs(case, p)
    size = np.linalg.norm(pull)
    shares = -2 * strand * (u @ pull) / size**2
    entry = case | {"pull_n": pull.tolist(), "master_m": p.tolist(), "tension_n": t, "share": shares.tolist()}
    if case["mu_master"] > 0:
        low, high = band(case, pull, p, t, np.random.default_rng(i))
        entry |= {"low": low.tolist(), "high": high.tolist()}
    cases.append(entry)
Path(__file__).with_suffix(".json").write_text(json.dumps(cases, separators=(",", ":")) + "\n")
