"""The continuous extension of sixth order of crates/tautwork/src/swing/dop853.rs: prints the table BETWEEN.

Needs mpmath and scipy, whose coefficients of DOP853 it takes. Between its ends a step is read as the cubic through
both ends, and theta^2 (1 - theta)^2 times a sum of the rates of its stages, whose weights are quadratic in theta. The
conditions of sixth order leave one number free for each power; it makes the squares of what is left of the 48
conditions of seventh order, each over its symmetry, least over the step. Trees and conditions: Hairer, Norsett and
Wanner, Solving Ordinary Differential Equations I, II.2 (from memory).
"""

from functools import cache
from itertools import product
from math import factorial

import mpmath as mp
from scipy.integrate._ivp import dop853_coefficients as dop853

mp.mp.dps = 40
STAGES = [0, 5, 6, 7, 8, 9, 10, 11, 12]
POWERS = range(3)
GRID = [mp.mpf(j) / 100 for j in range(101)]
B = [mp.mpf(float(b)) for b in dop853.B] + [mp.mpf(0)]
# Stage 12 is the end of the step: its row are the weights of the step.
A = [[mp.mpf(float(a)) for a in row[:12]] + [mp.mpf(0)] for row in dop853.A[:12]] + [B]


@cache
def trees(order):
    """Rooted trees, each the sorted tuple of the trees at its root."""
    if order == 1:
        return [()]

    def parts(total, most):
        if total == 0:
            yield ()
        for part in range(min(total, most), 0, -1):
            for rest in parts(total - part, part):
                yield (part, *rest)

    found = set()
    for sizes in parts(order - 1, order - 1):
        found.update(tuple(sorted(c)) for c in product(*map(trees, sizes)))
    return sorted(found)


def size(tree):
    return 1 + sum(map(size, tree))


def density(tree):
    return mp.fprod(map(density, tree)) * size(tree)


def symmetry(tree):
    each = (factorial(tree.count(t)) * symmetry(t) ** tree.count(t) for t in set(tree))
    return mp.fprod(each)


@cache
def at_stages(tree):
    all_ = [mp.mpf(1)] * 13
    for t in tree:
        inner = at_stages(t)
        all_ = [a * mp.fdot(row, inner) for a, row in zip(all_, A)]
    return all_


def cubic(theta):
    rest = 1 - theta
    weights = [theta**2 * (3 - 2 * theta) * B[s] for s in STAGES]
    weights[0] += theta * rest**2
    weights[-1] -= theta**2 * rest
    return weights


def between(theta):
    return theta**2 * (1 - theta) ** 2


def weights(table, theta):
    more = [mp.fdot(row, [theta**k for k in POWERS]) for row in table]
    return [c + between(theta) * m for c, m in zip(cubic(theta), more)]


def of(tree):
    return [at_stages(tree)[s] for s in STAGES]


def left(tree, table, theta):
    return mp.fdot(of(tree), weights(table, theta)) - theta ** size(tree) / density(tree)


# Eight rows span all conditions up to the sixth order: powers of the nodes, and nothing of the stages 3 and 4.
nodes = [sum(row) for row in A]
rows = [[nodes[s] ** k for s in STAGES] for k in range(6)] + [[A[s][j] for s in STAGES] for j in (3, 4)]

# The way that they leave free, with one for stage 5.
free = list(mp.lu_solve(mp.matrix([[*r[:1], *r[2:]] for r in rows]), mp.matrix([-r[1] for r in rows])))
free.insert(1, mp.mpf(1))


def particular():
    """A table that meets them with nothing for stage 5: by power of theta, from three places."""
    others = [i for i in range(9) if i != 1]
    values = []
    places = [mp.mpf(1) / 4, mp.mpf(1) / 2, mp.mpf(3) / 4]
    for theta in places:
        want = [theta ** (k + 1) / (k + 1) for k in range(6)] + [0, 0]
        gap = [w - mp.fdot(r, cubic(theta)) for w, r in zip(want, rows)]
        found = mp.lu_solve(mp.matrix([[r[i] for i in others] for r in rows]), mp.matrix(gap) / between(theta))
        values.append(list(found))
    table = [[mp.mpf(0)] * 3 for _ in STAGES]
    vandermonde = mp.matrix([[p**k for k in POWERS] for p in places])
    for n, i in enumerate(others):
        table[i] = list(mp.lu_solve(vandermonde, mp.matrix([v[n] for v in values])))
    return table


def best(table):
    """The free number of each power by least squares over trees and places."""
    seventh = trees(7)
    assert len(seventh) == 48
    push = [mp.fdot(of(t), free) / symmetry(t) for t in seventh]
    push2 = mp.fdot(push, push)
    normal, right = mp.zeros(3, 3), mp.zeros(3, 1)
    for theta in GRID:
        error = [left(t, table, theta) / symmetry(t) for t in seventh]
        for j in POWERS:
            right[j] -= between(theta) * theta**j * mp.fdot(push, error)
            for k in POWERS:
                normal[j, k] += between(theta) ** 2 * theta ** (j + k) * push2
    share = mp.lu_solve(normal, right)
    return [[row[k] + share[k] * f for k in POWERS] for row, f in zip(table, free)]


table = best(particular())
worst = max(abs(left(t, table, theta)) for n in range(1, 7) for t in trees(n) for theta in GRID[::5])
print(f"worst of the conditions up to the sixth order: {mp.nstr(worst, 3)}")
for stage, row in zip(STAGES, table):
    print(stage, *(mp.nstr(x, 17) for x in row))
