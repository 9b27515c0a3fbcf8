"""Elastic catenaries and their inverse to 50 digits, for tests/line_reference.rs.

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


def figures(span, rise, l, w, ea, near):
    """Forces and lengths, by Newton from (log H, V)."""
    f = lambda lh, v: [a - b for a, b in zip(ends(exp(lh), v, l, w, ea), (span, -rise))]
    lh, v = findroot(f, near, tol=mpf("1e-80"), maxsteps=200)
    h = exp(lh)
    return {
        "h_n": h,
        "v_near_n": v,
        "tension_near_n": hypot(h, v),
        "tension_far_n": hypot(h, v - w * l),
        "stretched_length_m": l + integral_of_tension(h, v, l, w) / ea,
        "sag_below_chord_m": below_chord(h, v, l, w, ea, span, rise),
    }


def conditioning(f, inputs, scales):
    """Change of each figure, over its scale, for a relative change of the inputs: summed over them."""
    d = mpf("1e-20")
    at = f(*inputs)
    sums = {key: mpf(0) for key in scales}
    for i in range(len(inputs)):
        moved = [x * (1 + d) if i == j else x for j, x in enumerate(inputs)]
        for key, x in f(*moved).items():
            sums[key] += abs(x - at[key]) / (d * scales[key])
    return {key: float(x) for key, x in sums.items()}


def inverse(span, rise, l, w, ea, near, tension):
    """The rest length for a tension (a double) at the near end, if the line is on its taut side."""
    lh, v = near

    def of(span, rise, w, ea, tension):
        f = lambda lh, v, l: [
            *(a - b for a, b in zip(ends(exp(lh), v, l, w, ea), (span, -rise))),
            hypot(exp(lh), v) / tension - 1,
        ]
        return {"rest_length_m": findroot(f, (lh, v, l), tol=mpf("1e-80"), maxsteps=200)[2]}

    inputs = (span, rise, w, ea, tension)
    found = of(*inputs)["rest_length_m"]
    return {
        "tension_n": float(tension),
        "rest_length_m": float(found),
        "conditioning": conditioning(of, inputs, {"rest_length_m": found})["rest_length_m"],
    }


def main():
    seeded = random.Random(1892)
    cases = []
    while len(cases) < 200:
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
        inputs = span, rise, l, w, ea = tuple(mpf(x) for x in given.values())
        h, v = solve(span, rise, l, w, ea)
        near = (log(h), v)
        x, y = ends(h, v, l, w, ea)
        assert hypot(x - span, y + rise) < mpf("1e-38") * chord
        found = figures(*inputs, near)
        t = found["tension_near_n"]
        scales = {"h_n": t, "v_near_n": t, "tension_near_n": t, "stretched_length_m": l}
        scales |= {"tension_far_n": found["tension_far_n"], "sag_below_chord_m": l}
        case = given | {k: float(x) for k, x in found.items()}
        case["conditioning"] = conditioning(lambda *i: figures(*i, near), inputs, scales)
        # Taut: a shorter line pulls harder.
        shorter = figures(span, rise, l * (1 - mpf("1e-12")), w, ea, near)["tension_near_n"]
        taut = shorter > t * (1 + mpf("1e-13"))
        case["inverse"] = inverse(*inputs, near, mpf(float(t))) if taut else None
        cases.append(case)
    print("[")
    print(",\n".join("  " + json.dumps(case) for case in cases))
    print("]")


if __name__ == "__main__":
    main()
