"""Reference for the raised frames of `anchor`: 200 seeded frames, by SciPy.

Whether a frame stands: `scipy.optimize.linprog`. Forces: `scipy.optimize.nnls` finds the acting members of
the least complementary energy, numpy solves the conditions of Karush, Kuhn and Tucker for them, and all
their signs are checked. Window of a rope: sides of the cone of the members by `scipy.spatial.ConvexHull`.
Hobble: `scipy.optimize.minimize_scalar` of the friction needed. Loss of the first guy: the same forces
without it, and `scipy.optimize.brentq` for the turning point. Needs numpy and scipy; writes frame.json
beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.optimize import brentq, linprog, minimize_scalar, nnls
from scipy.spatial import ConvexHull

SEED = 20251
COUNT = 200
G = 9.81


def members(case):
    """Unit vectors of force on the head, stiffness, pretension; legs first."""
    head = np.array(case["head_m"])
    feet = np.array(case["legs_m"] + case["guys_m"])
    way = feet - head
    length = np.linalg.norm(way, axis=1)
    toward = way / length[:, None]
    toward[: len(case["legs_m"])] *= -1.0
    ea = np.array([case["leg_ea_n"]] * len(case["legs_m"]) + [case["guy_ea_n"]] * len(case["guys_m"]))
    pretension = np.array([0.0] * len(case["legs_m"]) + case["pretension_n"])
    return toward, ea / length, pretension


def load(case):
    """Force on the head of everything but the rope, and of the rope."""
    others = np.array(case["force_n"]) - [0.0, 0.0, 0.5 * G * case["leg_mass_kg"] * len(case["legs_m"])]
    way = np.array(case["rope_towards_m"]) - case["head_m"]
    return others, case["rope_tension_n"] * way / np.linalg.norm(way)


def stands(toward, p):
    size = np.linalg.norm(p)
    return linprog(np.ones(len(toward)), A_eq=toward.T, b_eq=-p / size, method="highs").status == 0


def forces(toward, k, pretension, p):
    """Least complementary energy sum (f - T0)^2 / 2 k with f >= 0 and balance; forces and displacement."""
    size = max(np.linalg.norm(p), pretension.max())
    soft = 1.0 / np.sqrt(k / k.max())
    weight = 1e5 * soft.max()
    a = np.vstack([weight * toward.T, np.diag(soft)])
    y = np.concatenate([-weight * p, soft * pretension]) / size
    guess, _ = nnls(a, y, maxiter=1000)
    acts = guess > 1e-7
    for _ in range(50):
        b = toward[acts]
        stiffness = (b * k[acts, None]).T @ b
        if np.linalg.cond(stiffness) > 1e9:
            return None
        u = np.linalg.solve(stiffness, p + b.T @ pretension[acts])
        f = pretension - k * (toward @ u)
        if np.all(f[acts] > 0.0) and np.all(f[~acts] <= 0.0):
            return np.where(acts, f, 0.0), u
        acts = f > 0.0
    return None


def window(toward, others, rope):
    """Margin of the rope's direction, or None without sides or with a side out of reach."""
    hull = ConvexHull(np.vstack([np.zeros(3), toward]))
    normals = [-e[:3] for e in hull.equations if abs(e[3]) < 1e-9]
    # The hull's sides through the origin look out of the cone of forces, so into that of loads.
    sides = [-n for n in normals]
    tension = np.linalg.norm(rope)
    margins = []
    for c in sides:
        c = c if np.all(toward @ c <= 1e-9) else -c
        assert np.all(toward @ c <= 1e-9)
        q = -(c @ others) / tension
        if q > 1.0:
            return None
        if q >= -1.0:
            margins.append(np.arccos(q) - np.arccos(np.clip(c @ rope / tension, -1.0, 1.0)))
    return min(margins) if margins else None


def hobble(case, toward, f):
    """Least friction with a loop round all feet, over its tension."""
    feet = np.array(case["legs_m"])
    n = len(feet)
    push = -(toward[:n] * f[:n, None]) - [0.0, 0.0, 0.5 * G * case["leg_mass_kg"]]
    if np.any(push[:, 2] >= 0.0):
        return None
    w = np.zeros((n, 3))
    for i in range(n):
        way = feet[(i + 1) % n] - feet[i]
        way /= np.linalg.norm(way)
        w[i] += way
        w[(i + 1) % n] -= way

    def needed(t):
        r = push + t * w
        if np.any(r[:, 2] >= 0.0):
            return 1e9
        return np.max(np.hypot(r[:, 0], r[:, 1]) / -r[:, 2])

    # One peakless valley; a grid finds it, a bounded search sharpens it.
    most = 2.0 * np.abs(push).max()
    grid = np.linspace(0.0, most, 400)
    best = int(np.argmin([needed(t) for t in grid]))
    low, high = grid[max(best - 1, 0)], grid[min(best + 1, len(grid) - 1)]
    found = minimize_scalar(needed, bounds=(low, high), method="bounded", options={"xatol": 1e-9 * most})
    return [needed(0.0), min(found.fun, needed(0.0))]


def loss(case, toward, k, pretension, p, u):
    """Peaks without the first guy, none if the frame falls, False if a mechanism is left."""
    gone = len(case["legs_m"])
    left = np.arange(len(k)) != gone
    toward, k, pretension = toward[left], k[left], pretension[left]
    if not stands(toward, p):
        return []
    after = forces(toward, k, pretension, p)
    if after is None:
        return False
    new, v = after

    def pull(x):
        return np.maximum(pretension - k * (toward @ x), 0.0)

    def energy(s):
        x = u + s * (v - u)
        return np.sum(pull(x) ** 2 / (2.0 * k)) - p @ x

    if energy(0.0) - energy(1.0) < 1e-9 * np.linalg.norm(p):
        return False
    s = brentq(lambda s: energy(s) - energy(0.0), 1.0, 50.0, xtol=1e-14, rtol=1e-14)
    return np.maximum(pull(u), pull(u + s * (v - u))).tolist()


def some(rng):
    turn = rng.uniform(0.0, 2.0 * np.pi)
    height = rng.uniform(2.0, 6.0)
    feet, guys = rng.integers(1, 5), rng.integers(0, 7)

    def around(n, radius):
        angle = turn + 2.0 * np.pi * (np.arange(n) + rng.uniform(-0.3, 0.3, n)) / n
        r = rng.uniform(*radius, n)
        z = rng.uniform(-0.4, 0.4, n)
        return np.round(np.stack([r * np.cos(angle), r * np.sin(angle), z], 1), 3).tolist()

    head = [rng.uniform(-0.3, 0.3), rng.uniform(-0.3, 0.3), height]
    return {
        "head_m": np.round(head, 3).tolist(),
        "legs_m": around(feet, (0.4, 2.5)),
        "guys_m": around(guys, (3.0, 9.0)),
        "leg_ea_n": round(10.0 ** rng.uniform(6.0, 7.5)),
        "guy_ea_n": round(10.0 ** rng.uniform(4.5, 6.0)),
        "leg_mass_kg": round(rng.choice([0.0, rng.uniform(5.0, 40.0)]), 2),
        "pretension_n": np.round(rng.choice([0.0, 1.0]) * rng.uniform(0.0, 600.0, guys), 1).tolist(),
        "force_n": np.round(rng.choice([0.0, 1.0]) * rng.uniform(-500.0, 500.0, 3), 1).tolist(),
        "rope_towards_m": np.round(head + rng.normal(size=3) * 4.0 - [0.0, 0.0, 6.0], 3).tolist(),
        "rope_tension_n": round(rng.uniform(300.0, 5000.0), 1),
    }


def solved(case):
    toward, k, pretension = members(case)
    others, rope = load(case)
    p = others + rope
    case["stands"] = bool(stands(toward, p))
    if len(k) >= 3 and np.linalg.matrix_rank(toward, tol=1e-6) == 3:
        margin = window(toward, others, rope)
        case["margin_rad"] = margin
        # A case on the edge would say nothing.
        if margin is not None and abs(margin) < 1e-6:
            return None
    if not case["stands"]:
        return case
    found = forces(toward, k, pretension, p)
    if found is None:
        return None
    f, u = found
    case["force_found_n"], case["u_m"] = f.tolist(), u.tolist()
    if len(case["legs_m"]) > 1:
        case["hobble"] = hobble(case, toward, f)
    if case["guys_m"]:
        peaks = loss(case, toward, k, pretension, p, u)
        if peaks is not False:
            case["peaks_n"] = peaks
    return case


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    while len(cases) < COUNT:
        case = solved(some(rng))
        # Three of four stand.
        falling = sum(not c["stands"] for c in cases)
        if case is not None and (case["stands"] or falling < COUNT // 4):
            cases.append(case)
    Path(__file__).with_suffix(".json").write_text(json.dumps(cases, separators=(",", ":")) + "\n")


if __name__ == "__main__":
    main()
