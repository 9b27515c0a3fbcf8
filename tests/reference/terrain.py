"""Distances and crossings of seeded meshes, by brute force in NumPy.

The least distance of a segment and a triangle is a quadratic programme over a prism: share of the segment in
0 to 1, point in the triangle. Every face of the prism (2 ends and the inside, times 3 corners, 3 sides and the
inside) gives a least squares problem; the least of those whose answer lies in its face is exact. No region is
told from another, no tree is used. A crossing is the answer of a system of three equations.

Run: python tests/reference/terrain.py > tests/reference/terrain.json
"""

import json

import numpy as np


def inside(x):
    return np.all((x >= -1e-13) & (x <= 1 + 1e-13), axis=-1)


def least(columns, right):
    """Least squares of `columns @ x = right` for many triangles at once."""
    if columns.shape[-1] == 0:
        return np.zeros((len(right), 0)), np.linalg.norm(right, axis=-1)
    x = np.einsum("nij,nj->ni", np.linalg.pinv(columns), right)
    return x, np.linalg.norm(right - np.einsum("nij,nj->ni", columns, x), axis=-1)


def distance(triangles, p, q):
    """Least distance of the segment p q to all triangles; p = q is a point."""
    a, b, c = (triangles[:, i] for i in range(3))
    best = np.inf
    d = np.broadcast_to(q - p, a.shape)
    for free, start in ((True, p), (False, p), (False, q)):
        if free and np.array_equal(p, q):
            continue
        along = [-d] if free else []
        # Corners, sides, the face.
        faces = [(o, []) for o in (a, b, c)]
        faces += [(a, [b - a]), (b, [c - b]), (c, [a - c])]
        faces += [(a, [b - a, c - a])]
        for origin, sides in faces:
            columns = np.stack([*sides, *along], axis=-1) if sides or along else np.zeros((len(a), 3, 0))
            x, away = least(columns, start - origin)
            ok = inside(x)
            if len(sides) == 2:
                ok &= x[:, 0] + x[:, 1] <= 1 + 1e-13
            if ok.any():
                best = min(best, away[ok].min())
    return float(best)


def crossing(triangles, p, q):
    """First share of the path p q at which it meets a triangle; None if it meets none."""
    a, b, c = (triangles[:, i] for i in range(3))
    columns = np.stack([np.broadcast_to(q - p, a.shape), a - b, a - c], axis=-1)
    x = np.linalg.solve(columns, (a - p)[..., None])[..., 0]
    ok = inside(x) & (x[:, 1] + x[:, 2] <= 1)
    return float(x[ok, 0].min()) if ok.any() else None


def ground(rng, n=7):
    """A bent and folded sheet over a grid."""
    grid = np.array([[i, j, 0.0] for i in range(n) for j in range(n)])
    grid += rng.uniform(-0.6, 0.6, grid.shape)
    grid[:, 2] += 2 * np.sin(grid[:, 0]) * np.cos(0.7 * grid[:, 1])
    at = lambda i, j: i * n + j
    cells = [(i, j) for i in range(n - 1) for j in range(n - 1)]
    faces = [f for i, j in cells for f in ((at(i, j), at(i + 1, j), at(i + 1, j + 1)),
                                           (at(i, j), at(i + 1, j + 1), at(i, j + 1)))]
    return grid, faces


def soup(rng, n=60):
    """Triangles that have nothing to do with each other."""
    return rng.uniform(-4, 8, (3 * n, 3)), [(3 * k, 3 * k + 1, 3 * k + 2) for k in range(n)]


def case(seed, build):
    rng = np.random.default_rng(seed)
    vertices, faces = build(rng)
    vertices = np.round(vertices, 4)
    triangles = vertices[np.array(faces)]
    low, high = vertices.min(axis=0) - 1, vertices.max(axis=0) + 1
    points = np.round(rng.uniform(low, high, (25, 3)), 3)
    segments = np.round(rng.uniform(low, high, (25, 2, 3)), 3)
    # Half of them short, as the pieces of a path are.
    segments[::2, 1] = np.round(segments[::2, 0] + 0.1 * (segments[::2, 1] - segments[::2, 0]), 3)
    rows = [f"v {x:.4f} {y:.4f} {z:.4f}" for x, y, z in vertices]
    rows += ["f " + " ".join(str(i + 1) for i in face) for face in faces]
    return {
        "obj": "\n".join(rows),
        "points_m": points.tolist(),
        "point_away_m": [distance(triangles, p, p) for p in points],
        "segments_m": segments.tolist(),
        "segment_away_m": [distance(triangles, p, q) for p, q in segments],
        "first_crossing": [crossing(triangles, p, q) for p, q in segments],
    }


CASES = [case(seed, build) for seed in (1, 2, 3) for build in (ground, soup)]
print(json.dumps({"numpy": np.__version__, "cases": CASES}, separators=(",", ":")))
