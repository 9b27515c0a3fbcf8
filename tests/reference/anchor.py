"""Reference for `anchor::equilibrium`: rest of a free knot on tension-only springs, by SciPy.

Minimises the potential energy with `scipy.optimize.minimize` (trust-exact) and sharpens the result
with `scipy.optimize.root` on its gradient. Needs numpy and scipy; writes anchor.json beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.optimize import minimize, root

SEED = 20250
COUNT = 32


def parts(p, legs):
    """Stretch, unit vector from knot to fixing, and length of each leg."""
    way = legs["fixing_m"] - p
    length = np.linalg.norm(way, axis=1)
    stretch = np.maximum(length - legs["rest_m"], 0.0)
    return stretch, way / length[:, None], length


def energy(p, legs, pull):
    stretch, _, _ = parts(p, legs)
    return 0.5 * np.sum(legs["k_n_per_m"] * stretch**2) - pull @ p


def gradient(p, legs, pull):
    stretch, unit, _ = parts(p, legs)
    return -(legs["k_n_per_m"] * stretch) @ unit - pull


def hessian(p, legs, pull):
    stretch, unit, length = parts(p, legs)
    h = np.zeros((3, 3))
    for k, s, u, length_m in zip(legs["k_n_per_m"], stretch, unit, length):
        if s > 0.0:
            along = np.outer(u, u)
            h += k * (along + (np.eye(3) - along) * s / length_m)
    return h


def solve(legs, pull):
    args = (legs, pull)
    start = legs["fixing_m"].mean(axis=0) + 3.0 * pull / np.linalg.norm(pull)
    best = minimize(energy, start, args, "trust-exact", gradient, hessian, options={"gtol": 1e-6})
    sharp = root(gradient, best.x, args, jac=hessian, options={"xtol": 1e-15})
    assert np.linalg.norm(gradient(sharp.x, *args)) < 1e-10 * np.linalg.norm(pull), sharp
    return sharp.x


def random_case(rng):
    n = int(rng.integers(1, 6))
    rest = rng.uniform(0.4, 3.0, n)
    legs = {
        "fixing_m": rng.uniform([-2.0, -2.0, -0.5], [2.0, 2.0, 0.5], (n, 3)),
        "rest_m": rest,
        # Soft dynamic cord to stiff low-stretch slings.
        "k_n_per_m": 10.0 ** rng.uniform(3.7, 6.0, n) / rest,
    }
    pull = rng.normal(size=3) * [1.0, 1.0, 0.5] - [0.0, 0.0, 1.5]
    return legs, pull * rng.uniform(200.0, 8000.0)


def straight_case():
    """Two legs in one line, pulled across it: the cubic law."""
    legs = {
        "fixing_m": np.array([[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]]),
        "rest_m": np.array([1.0, 1.0]),
        "k_n_per_m": np.array([5e4, 5e4]),
    }
    return legs, np.array([0.0, 0.0, -100.0])


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for legs, pull in [*(random_case(rng) for _ in range(COUNT)), straight_case()]:
        p = solve(legs, pull)
        stretch, unit, _ = parts(p, legs)
        tension = legs["k_n_per_m"] * stretch
        cases.append(
            {
                **{key: value.tolist() for key, value in legs.items()},
                "pull_n": pull.tolist(),
                "master_point_m": p.tolist(),
                "tension_n": tension.tolist(),
                "share": (-tension * (unit @ pull) / (pull @ pull)).tolist(),
            }
        )
    out = Path(__file__).with_suffix(".json")
    out.write_text(json.dumps(cases, indent=1) + "\n")


if __name__ == "__main__":
    main()
