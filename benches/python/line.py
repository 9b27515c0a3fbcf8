"""The work of benches/line.rs with SciPy, to the same closure.

Prints one line for each benchmark: its name and the seconds one run takes.
"""

import math
import time

import numba
import numpy as np
from scipy.optimize import root

from tautwork import line

G = 9.81


def ends(h, v, l, w, ea):
    """Horizontal and downward distance covered by lines with (H, V) at their near end, with the three
    derivatives; Irvine, Cable Structures (1981), chapter 1."""
    far = v - w * l
    t0, t1 = np.hypot(h, v), np.hypot(h, far)
    a = (np.arcsinh(v / h) - np.arcsinh(far / h)) / w
    x = h * l / ea + h * a
    y = (v - 0.5 * w * l) * l / ea + (t0 - t1) / w
    xh = l / ea + a - (v / t0 - far / t1) / w
    xv = h * (1 / t0 - 1 / t1) / w
    yv = l / ea + (v / t0 - far / t1) / w
    return x, y, xh, xv, yv


def guess(span, drop, l, w, ea):
    """Near enough for a solver: a small sag for a taut line, the catenary for a slack one."""
    chord = np.hypot(span, drop)
    if l > chord:
        k = np.sqrt(3 * ((l * l - drop * drop) / span**2 - 1))
        return w * span / (2 * k), w / 2 * (drop / np.tanh(k) + l)
    bow = (w * span / chord * l) ** 2 / 24
    t = ea * (chord - l) / l + np.cbrt(ea * bow)
    return t * span / chord, t * drop / chord + w * l / 2


def elastic_cold():
    span, drop, l, w, ea = 130.0, 3.0, 127.74, 0.068 * G, 2.5e5

    def f(u):
        x, y, xh, xv, yv = ends(u[0], u[1], l, w, ea)
        return np.array([x - span, y - drop]), np.array([[xh, xv], [xv, yv]])

    found = root(f, guess(span, drop, l, w, ea), jac=True, tol=1e-13)
    assert np.hypot(*found.fun) < 1e-10 * span
    return found.x


@numba.njit
def compiled(span, drop, l, w, ea):
    """The iteration of `elastic_cold`, compiled."""
    chord = math.hypot(span, drop)
    bow = (w * span / chord * l) ** 2 / 24
    t = ea * (chord - l) / l + (ea * bow) ** (1 / 3)
    h, v = t * span / chord, t * drop / chord + w * l / 2
    for _ in range(50):
        far = v - w * l
        t0, t1 = math.hypot(h, v), math.hypot(h, far)
        a = (math.asinh(v / h) - math.asinh(far / h)) / w
        gx = h * l / ea + h * a - span
        gy = (v - 0.5 * w * l) * l / ea + (t0 - t1) / w - drop
        if math.hypot(gx, gy) < 1e-13 * chord:
            break
        xh = l / ea + a - (v / t0 - far / t1) / w
        xv = h * (1 / t0 - 1 / t1) / w
        yv = l / ea + (v / t0 - far / t1) / w
        d = xh * yv - xv * xv
        h -= (yv * gx - xv * gy) / d
        v -= (xh * gy - xv * gx) / d
    return h


@numba.njit
def compiled_many(n):
    total = 0.0
    for i in range(n):
        total += compiled(130.0, 3.0, 127.74 + 1e-9 * (i % 7), 0.068 * G, 2.5e5)
    return total


MANY = 126.0 + 3e-6 * np.arange(1_000_000)


def elastic_batch():
    """The library from Python: what the arrays and the call cost."""
    return line.solve_elastic(
        span_m=130.0,
        rise_m=-3.0,
        rest_length_m=MANY,
        weight_n_per_m=0.068 * G,
        axial_rigidity_n=2.5e5,
    )


REST = 0.5 * np.repeat([127.74, 132.4, 133.2, 133.8], 2)
WEIGHT = G * np.repeat([0.068, 0.060, 0.072, 0.072], 2)
EA = np.repeat([2.5e5, 1.4e5, 3e4, 3e4], 2)
SIDE = np.tile([1.0, -1.0], 4)  # a far half runs backwards in x
ANCHOR_X = np.tile([0.0, 130.0], 4)
ANCHOR_DROP = np.tile([0.0, 3.0], 4)


def balance(u, load):
    """Closure of eight halves and balance of the ring, for x, drop, eight H, eight V; with derivatives.
    Forces count in kN so that all parts are of one size."""
    ring_x, ring_drop = u[0], u[1]
    h, v = 1e3 * u[2:10], 1e3 * u[10:18]
    x, y, xh, xv, yv = ends(h, v, REST, WEIGHT, EA)
    far = v - WEIGHT * REST
    f = np.empty(18)
    f[:8] = x - SIDE * (ring_x - ANCHOR_X)
    f[8:16] = y - (ring_drop - ANCHOR_DROP)
    f[16] = np.sum(SIDE * h) / 1e3
    f[17] = (np.sum(far) - -load) / 1e3
    j = np.zeros((18, 18))
    i = np.arange(8)
    j[i, 0], j[i, 2 + i], j[i, 10 + i] = -SIDE, 1e3 * xh, 1e3 * xv
    j[8 + i, 1], j[8 + i, 2 + i], j[8 + i, 10 + i] = -1.0, 1e3 * xv, 1e3 * yv
    j[16, 2:10], j[17, 10:18] = SIDE, 1.0
    return f, j


def bundle_sweep():
    ring = np.array([65.0, 8.0])
    start = [
        guess(s * (ring[0] - ax), ring[1] - ad, l, w, ea)
        for s, ax, ad, l, w, ea in zip(SIDE, ANCHOR_X, ANCHOR_DROP, REST, WEIGHT, EA)
    ]
    h, v = np.array(start).T / 1e3
    u = np.concatenate([ring, h, v])
    for i in range(1, 25):
        found = root(balance, u, args=(-250.0 * i,), jac=True, tol=1e-12)
        assert np.abs(found.fun[:16]).max() < 1e-8 and np.abs(found.fun[16:]).max() < 1e-8, found
        u = found.x
    return u


def seconds(run):
    run()
    best = float("inf")
    for _ in range(5):
        n, start = 0, time.perf_counter()
        while time.perf_counter() - start < 0.3:
            run()
            n += 1
        best = min(best, (time.perf_counter() - start) / n)
    return best


if __name__ == "__main__":
    print("line/elastic_cold", seconds(elastic_cold))
    print("line/elastic_cold_compiled", seconds(lambda: compiled_many(100_000)) / 100_000)
    print("line/elastic_batch_1e6", seconds(elastic_batch))
    sweep = seconds(bundle_sweep)
    print("line/bundle_sweep_24_loads", sweep)
    print("line/bundle_sweep_24_loads_as_arrays", sweep)
