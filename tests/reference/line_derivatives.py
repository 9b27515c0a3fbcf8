"""Derivatives of elastic catenaries to 50 digits, for tests/line_derivatives.rs.

Needs mpmath. Run it and redirect its output to line_derivatives.json beside it.

The figures are solved from the asinh equations of elastic_catenary.py; their derivatives are central
differences with a step of 1e-16 of each input, at 50 digits good to 30.
"""

import json
from pathlib import Path

from mpmath import hypot, mp, mpf

import elastic_catenary as line

mp.dps = 50

NAMES = ["span_m", "rise_m", "rest_length_m", "weight_n_per_m", "axial_rigidity_n"]


def figures(span, rise, l, w, ea):
    h, v = line.solve(span, rise, l, w, ea)
    return {
        "tension_near": hypot(h, v),
        "tension_far": hypot(h, v - w * l),
        "h": h,
        "sag_below_chord": line.below_chord(h, v, l, w, ea, span, rise),
        "stretched_length": l + line.integral_of_tension(h, v, l, w) / ea,
    }


def main():
    cases = json.loads(Path(__file__).with_name("elastic_catenary.json").read_text())
    out = []
    for case in cases[::3]:
        inputs = [mpf(case[name]) for name in NAMES]
        derived = {}
        for i, name in enumerate(NAMES):
            step = mpf("1e-16") * max(abs(inputs[i]), 1)
            up, down = list(inputs), list(inputs)
            up[i] += step
            down[i] -= step
            high, low = figures(*up), figures(*down)
            derived[name] = {k: float((high[k] - low[k]) / (2 * step)) for k in high}
        out.append({**{name: case[name] for name in NAMES}, "by": derived})
    print(json.dumps(out, indent=1))


if __name__ == "__main__":
    main()
