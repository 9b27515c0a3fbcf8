"""The work of benches/frame.rs with SciPy: `linprog` for whether the frame stands, `nnls` for which members
act and a solve for their forces; sides of the window by `ConvexHull`.

Prints the name of each benchmark and the seconds one run takes.
"""

import time

import numpy as np
from scipy.optimize import linprog, nnls
from scipy.spatial import ConvexHull

HEAD = np.array([0.3, 0.0, 3.2])
LEGS = np.array([[-0.5, 1.2, 0.0], [-0.5, -1.2, 0.0]])
GUYS = np.array(
    [[-5.0, 2.0, 0.0], [-5.0, -2.0, 0.0], [4.0, 3.0, 0.0], [4.0, -3.0, 0.0], [-6.0, 0.0, 0.5]]
)
ROPE, TENSION = np.array([6.0, 1.0, -4.0]), 3000.0
LEG_EA, GUY_EA, PRETENSION = 2e7, 3e5, 300.0
# Forces in N, legs first; margin of the rope without the two guys in front.
FORCES = np.array([2582.723484, 1638.961572, 1064.369489, 1071.236455, 0.0, 0.0, 1168.132105])
MARGIN = 0.6013385637


def members(legs, guys):
    way = np.vstack([legs, guys]) - HEAD
    length = np.linalg.norm(way, axis=1)
    toward = way / length[:, None]
    toward[: len(legs)] *= -1.0
    ea = np.repeat([LEG_EA, GUY_EA], [len(legs), len(guys)])
    pretension = np.repeat([0.0, PRETENSION], [len(legs), len(guys)])
    return toward, ea / length, pretension


def rope():
    way = ROPE - HEAD
    return TENSION * way / np.linalg.norm(way)


def frame_forces():
    """Least complementary energy with forces that are not negative, in balance."""
    toward, k, pretension = members(LEGS, GUYS)
    p = rope()
    stands = linprog(np.ones(len(k)), A_eq=toward.T, b_eq=-p / TENSION, method="highs").status == 0
    assert stands
    soft = np.sqrt(k.max() / k)
    weight = 1e5 * soft.max()
    a = np.vstack([weight * toward.T, np.diag(soft)])
    y = np.concatenate([-weight * p, soft * pretension]) / TENSION
    acts = nnls(a, y)[0] > 1e-7
    b = toward[acts]
    u = np.linalg.solve((b * k[acts, None]).T @ b, p + b.T @ pretension[acts])
    return np.where(acts, pretension - k * (toward @ u), 0.0)


def frame_window():
    """Least angle from the rope to a side of the cone of the members."""
    toward, _, _ = members(LEGS, GUYS[[0, 1, 4]])
    direction = rope() / TENSION
    sides = ConvexHull(np.vstack([np.zeros(3), toward])).equations
    sides = sides[np.abs(sides[:, 3]) < 1e-9, :3]
    sides *= -np.sign((sides @ toward.sum(axis=0))[:, None])
    return (np.pi / 2 - np.arccos(np.clip(sides @ direction, -1.0, 1.0))).min()


def seconds(run, times=1000):
    run()
    best = float("inf")
    for _ in range(5):
        start = time.perf_counter()
        for _ in range(times):
            run()
        best = min(best, (time.perf_counter() - start) / times)
    return best


if __name__ == "__main__":
    forces, margin = frame_forces(), frame_window()
    assert np.abs(forces - FORCES).max() < 1e-4, forces
    assert abs(margin - MARGIN) < 1e-6, margin
    print("frame_forces", seconds(frame_forces))
    print("frame_window", seconds(frame_window))
