"""Least potential energy of bundles whose ring slides without friction, by SciPy.

Every half line is a row of straight elastic bars with half of each bar's weight at its ends; the ring,
the nodes and the split of every sliding line are the unknowns. Newton's method of
`scipy.optimize.minimize` (trust-exact) on the exact gradient and Hessian finds the least energy for 12 and
24 bars a half; the error falls with the square of the number, so that one extrapolation follows.

Run: python tests/reference/rings.py > tests/reference/rings.json
"""

import json

import numpy as np
from scipy.optimize import minimize

G = 9.81


def energy(u, lines, load, bars):
    """Energy, gradient and Hessian. Unknowns: ring (x, z), splits of the sliding lines, nodes."""
    slides = [i for i, line in enumerate(lines) if line["slides"]]
    value, grad, hess = 0.0, np.zeros(u.size), np.zeros((u.size, u.size))
    value -= load[0] * u[0] + load[1] * u[1]
    grad[:2] -= load
    at = 2 + len(slides)
    for i, line in enumerate(lines):
        total = line["near_length"] + line["far_length"]
        split = 2 + slides.index(i) if line["slides"] else None
        for side in (0, 1):
            near = u[split] if line["slides"] else line["near_length"]
            rest = near if side == 0 else total - near
            sign = 1.0 if side == 0 else -1.0
            anchor = np.array(line["near"] if side == 0 else line["far"])
            inner = [np.arange(at + 2 * k, at + 2 * k + 2) for k in range(bars - 1)]
            at += 2 * (bars - 1)
            index = [None, *inner, np.arange(2)]
            points = [anchor, *(u[i] for i in inner), u[:2]]
            bar, ea, w = rest / bars, line["ea"], line["weight"]
            for a in range(bars):
                p, q = points[a], points[a + 1]
                d = q - p
                length = np.hypot(*d)
                n = d / length
                strain = length / bar - 1.0
                # Elastic energy of the bar, tension only, and the weight of its two halves.
                t = ea * max(strain, 0.0)
                k = ea / bar if strain > 0 else 0.0
                middle = 0.5 * (p[1] + q[1])
                value += 0.5 * t * max(strain, 0.0) * bar + w * bar * middle
                h = k * np.outer(n, n) + t / length * (np.eye(2) - np.outer(n, n))
                ends = [(index[a], -1.0), (index[a + 1], 1.0)]
                for where, s in ends:
                    if where is None:
                        continue
                    grad[where] += s * t * n
                    grad[where[1]] += 0.5 * w * bar
                    for other, r in ends:
                        if other is not None:
                            hess[np.ix_(where, other)] += s * r * h
                if split is not None:
                    # By the length of a bar: dE/db = -(t²/2EA + t) + w middle, db = sign / bars.
                    by = sign / bars
                    c = max(strain, 0.0)
                    grad[split] += by * (-ea * (0.5 * c * c + c) + w * middle)
                    hess[split, split] += by * by * ea * (1 + c) * length / bar**2 * (strain > 0)
                    for where, s in ends:
                        if where is None:
                            continue
                        mixed = -s * by * ea * length / bar**2 * n * (strain > 0)
                        mixed[1] += by * 0.5 * w
                        hess[split, where] += mixed
                        hess[where, split] += mixed
    return value, grad, hess


def rest(lines, load, bars):
    slides = [line for line in lines if line["slides"]]
    span, rise = lines[0]["far"]
    depth = max(0.08 * span, 1.0)
    ring = np.array([0.5 * span, 0.5 * rise - depth])
    u = [*ring, *(line["near_length"] for line in slides)]
    for line in lines:
        for anchor in (line["near"], line["far"]):
            share = np.arange(1, bars)[:, None] / bars
            row = np.array(anchor) * (1 - share) + ring * share
            row[:, 1] -= 0.02 * span * np.sin(np.pi * share[:, 0])
            u.extend(row.ravel())
    u = np.array(u)
    memory = {}

    def at(u):
        key = u.tobytes()
        if key not in memory:
            memory.clear()
            memory[key] = energy(u, lines, np.array(load), bars)
        return memory[key]

    found = minimize(
        lambda u: at(u)[0],
        u,
        jac=lambda u: at(u)[1],
        hess=lambda u: at(u)[2],
        method="trust-exact",
        options={"gtol": 1e-3, "maxiter": 3000, "initial_trust_radius": 1.0, "max_trust_radius": 20.0},
    )
    # Differences of energies drown in rounding near the least: Newton on the gradient ends the search.
    u = found.x
    for _ in range(4):
        _, gradient, hessian = at(u)
        u = u - np.linalg.solve(hessian, gradient)
    gradient, hessian = at(u)[1:]
    assert np.abs(gradient).max() < 1e-7, (found.message, np.abs(gradient).max())
    assert np.linalg.eigvalsh(hessian).min() > 0
    return u[: 2 + len(slides)]


def case(rng, count):
    span, rise = rng.uniform(40, 140), rng.uniform(-6, 6)
    tight = rng.uniform(0.99, 1.03)
    lines = []
    for i in range(count):
        length = np.hypot(span, rise) * (tight + 0.02 * i + rng.uniform(0, 0.01))
        near = length * rng.uniform(0.45, 0.55)
        lines.append({
            "near": [0.0, 0.0],
            "far": [span, rise],
            "near_length": near,
            "far_length": length - near,
            "weight": G * rng.uniform(0.05, 0.08),
            "ea": float(10 ** rng.uniform(4.3, 5.4)),
            # One line at least is tied.
            "slides": bool(i > 0 and rng.random() < 0.7) if count > 1 else True,
        })
    load = [float(rng.uniform(-150, 150)), float(-rng.uniform(800, 5000))]
    return lines, load


def main():
    rng = np.random.default_rng(20)
    cases = []
    for i in range(12):
        lines, load = case(rng, 1 + i % 4)
        coarse, fine = rest(lines, load, 12), rest(lines, load, 24)
        best = fine + (fine - coarse) / 3
        cases.append({
            "lines": lines,
            "load_n": load,
            "ring_m": best[:2].tolist(),
            "near_lengths_m": best[2:].tolist(),
            "change_by_extrapolation_m": float(np.abs(best - fine).max()),
        })
    print(json.dumps({"script": "tests/reference/rings.py", "cases": cases}, indent=1))


main()
