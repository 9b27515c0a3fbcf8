"""Elastic catenaries to 50 digits, for tests/reference.rs.

Needs mpmath. Run it and redirect its output to elastic_catenary.json beside it.

The equations are those of Irvine, Cable Structures (1981), chapter 1 (from memory), in horizontal and
vertical force at the near end: an asinh form, not the one the library uses.
"""

import json
import random

from mpmath import mp, mpf, asinh, hypot, findroot, sqrt, sinh, tanh, exp, log

mp.dps = 50


def ends(h, v, l, w, ea):
    """Horizontal and downward distance of the far end."""
    far = v - w * l
    x = h * l / ea + h / w * (asinh(v / h) - asinh(far / h))
    y = (v * l - w * l * l / 2) / ea + (hypot(h, v) - hypot(h, far)) / w
    return x, y


def start(span, drop, l, w, ea):
    """Near enough for Newton: the rigid catenary of a slack line, a straight spring with the cubic of
    a small sag for a taut one."""
    chord = hypot(span, drop)
    if l > chord * mpf("1.01"):
        target = sqrt(l * l - drop * drop) / span
        low, high = mpf("1e-6"), mpf(60)
        for _ in range(200):
            mid = (low + high) / 2
            low, high = (mid, high) if sinh(mid) / mid < target else (low, mid)
        return w * span / (2 * low), w / 2 * (drop / tanh(low) + l)
    excess = (chord - l) / l
    bow = (w * span / chord * l) ** 2 / 24
    low, high = mpf("1e-12"), ea * max(excess, 0) + (ea * bow) ** (mpf(1) / 3) + 1
    for _ in range(200):
        mid = (low + high) / 2
        low, high = (mid, high) if mid**3 / ea - excess * mid**2 < bow else (low, mid)
    return low * span / chord, low * drop / chord + w * l / 2


def solve(span, rise, l, w, ea):
    h, v = start(span, -rise, l, w, ea)
    # The logarithm of H keeps it above zero.
    f = lambda lh, v: [a - b for a, b in zip(ends(exp(lh), v, l, w, ea), (span, -rise))]
    lh, v = findroot(f, (log(h), v), tol=mpf("1e-80"), maxsteps=200)
    return exp(lh), v


def integral_of_tension(h, v, l, w):
    g = lambda u: (u * hypot(h, u) + h * h * asinh(u / h)) / 2
    return (g(v) - g(v - w * l)) / w


def below_chord(h, v, l, w, ea, span, rise):
    slope = -rise / span
    s = min(max((v - h * slope) / w, mpf(0)), l)
    if s == 0:
        return mpf(0)
    x, y = ends(h, v, s, w, ea)
    return y - slope * x


def main():
    seeded = random.Random(1892)
    cases = []
    while len(cases) < 60:
        chord = seeded.choice([5.0, 30.0, 130.0, 400.0])
        angle = seeded.uniform(-1.45, 1.45)
        ratio = seeded.choice([0.6, 0.95, 0.99, 0.9999, 1.0, 1.0001, 1.01, 1.1, 1.6, 2.0])
        given = {
            "span_m": round(chord * float(mp.cos(angle)), 3),
            "rise_m": round(chord * float(mp.sin(angle)), 3),
            "rest_length_m": round(chord * ratio, 4),
            "weight_n_per_m": seeded.choice([0.05, 0.7, 5.0, 60.0]),
            "axial_rigidity_n": seeded.choice([1e2, 9.2e3, 2.5e5, 7e7, 1e10]),
        }
        # Doubles are exact binary numbers: take them as they are.
        span, rise, l, w, ea = (mpf(x) for x in given.values())
        h, v = solve(span, rise, l, w, ea)
        x, y = ends(h, v, l, w, ea)
        assert hypot(x - span, y + rise) < mpf("1e-38") * chord
        far = v - w * l
        given["h_n"] = h
        given["v_near_n"] = v
        given["tension_near_n"] = hypot(h, v)
        given["tension_far_n"] = hypot(h, far)
        given["stretched_length_m"] = l + integral_of_tension(h, v, l, w) / ea
        given["sag_below_chord_m"] = below_chord(h, v, l, w, ea, span, rise)
        cases.append({k: float(x) for k, x in given.items()})
    print("[")
    print(",\n".join("  " + json.dumps(case) for case in cases))
    print("]")


main()
