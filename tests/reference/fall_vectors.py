"""Makes the vectors `fall.damped`, `fall.slip`, `fall.redirect` and `fall.leash` by SciPy.

Motions are integrated, roots and integrals are SciPy's: no formula of the core is used. Needs numpy and
scipy; writes into ../conformance.
"""

import json
from pathlib import Path

import fall as motion
import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

G = 9.81
HERE = Path(__file__).parent
SCRIPT = "tests/reference/fall_vectors.py"


def linear(ea_n):
    return {"axial_rigidity": f"{ea_n} N"}


def write(topic, cases):
    out = HERE.parent / "conformance" / f"fall.{topic}.json"
    out.write_text(json.dumps({"model": "fall", "cases": cases}, indent=2) + "\n")


def error(name, call, arguments, parameter, source="valid range"):
    failure = {"kind": "InvalidInput", "parameter": parameter}
    return {"name": name, "source": source, "call": call, "input": arguments, "error": failure}


def damped():
    def fall(case):
        damping = (
            {"standard_linear": {"arm": f"{case['arm_n']} N",
                                 "relaxation_time": f"{case['relaxation_s']} s"}}
            if "arm_n" in case
            else {"kelvin_voigt": {"retardation_time": f"{case['retardation_s']} s"}}
        )
        stretch = linear(case["ea_n"])
        if case["kind"] == "curved":
            stretch = {"table": [[f"{t} N", f"{e * 100:g} %"] for t, e in motion.TABLE if t > 0]}
        return {
            "mass": f"{case['mass_kg']} kg", "height": f"{case['height_m']} m",
            "rope": f"{case['rope_m']} m", "stretch": stretch, "damping": damping,
            "duration": f"{case['duration_s']} s", "thresholds": ["2 kN"], "samples": 2,
        }

    def answer(case, found):
        time, height = found["rebound_s_m"]
        moved = case["mass_kg"] * G * (case["height_m"] + found["end_depth_m"])
        left = 0.5 * case["mass_kg"] * found["end_speed_m_per_s"] ** 2
        return {
            "impact_force": f"{found['impact_force_n']} N",
            "extension": f"{found['extension_m']} m",
            "rebound": {"time": f"{time} s", "height": f"{height} m"},
            "above": [{"force": "2 kN", "time": f"{found['above_2kn_s']} s"}],
            "books": {"fall": f"{moved} J", "lost": f"{found['lost_j']} J",
                      "stored": f"{round(found['stored_j'], 9)} J", "left": f"{left} J"},
            "series": {"t_s": [0.0, case["duration_s"]],
                       "extension_m": [-case["height_m"], found["end_depth_m"]]},
        }

    source = f"SciPy, DOP853 at 1e-12: {SCRIPT}"
    base = {"mass_kg": 80.0, "rope_m": 10.0, "height_m": 8.0, "ea_n": 12e3, "duration_s": 4.0}
    named = {
        "a standard linear solid": {**base, "kind": "standard_linear", "arm_n": 10e3,
                                    "relaxation_s": 0.2},
        "Kelvin and Voigt": {**base, "kind": "kelvin_voigt", "retardation_s": 0.03},
        "a rope that stiffens": {**base, "kind": "curved", "height_m": 3.0, "arm_n": 8e3,
                                 "relaxation_s": 0.3},
    }
    cases = []
    for name, case in named.items():
        case.setdefault("ea_n", 0.0)
        cases.append({"name": name, "source": source, "call": "arrest_damped", "input": fall(case),
                      "expect": answer(case, motion.follow(case)), "rel": 1e-8, "abs": 1e-7})

    # Two falls: between them the slack rope relaxes, s' = (e0 - s) / tau with e0 = A s / (EA + A).
    case = named["a standard linear solid"]
    first = motion.follow(case)
    rate = case["ea_n"] / (case["ea_n"] + case["arm_n"]) / case["relaxation_s"]
    left = solve_ivp(lambda _, s: -rate * s, (0, 0.25), [first["end_damper"]], method="DOP853",
                     rtol=1e-13, atol=1e-18).y[0, -1]
    second = motion.follow(case, left)
    rest = case["arm_n"] / (case["ea_n"] + case["arm_n"]) * left
    cases.append({
        "name": "the second fall remembers the first", "source": source, "call": "arrest_repeated",
        "input": {"fall": fall(case), "falls": 2, "between": "0.25 s"},
        "expect": [
            {"rope": "10 m", "rest_strain": 0.0, "arrest": {
                "impact_force": f"{first['impact_force_n']} N"}},
            {"rope": "10 m", "rest_strain": rest, "arrest": {
                "impact_force": f"{second['impact_force_n']} N",
                "extension": f"{second['extension_m']} m"}},
        ],
        "rel": 1e-8,
    })

    # A knot that tightens, then a device that slips, under a body of two parts.
    parts = {**case, "slips": [[1800.0, 0.15], [3500.0, 10.0]],
             "body": {"share": 0.5, "stiffness_n_per_m": 20e3, "damping_n_s_per_m": 400.0}}
    found = motion.follow_parts(parts)
    cases.append({
        "name": "slip under a body that is not rigid", "source": source, "call": "arrest_damped",
        "input": {**fall(case),
                  "slips": [{"force": f"{f} N", "travel": f"{s} m"} for f, s in parts["slips"]],
                  "body": {"share": 0.5, "stiffness": "20 kN/m", "damping": "400 N·s/m"}},
        "expect": {
            "impact_force": "3500 N", "extension": f"{found['extension_m']} m",
            "slips": [{"slipped": "0.15 m", "energy": "270 J", "at_end": True},
                      {"slipped": f"{found['slipped_m'] - 0.15} m", "at_end": False}],
            "series": {"extension_m": [-case["height_m"], found["end_depth_m"]]}},
        "rel": 1e-8, "abs": 1e-7,
    })

    # Terminal speed 44.35 m/s, five seconds.
    area = 2 * 80 * G / 44.35**2 / 1.25
    falling = {"mass": "80 kg", "height": "500 m", "rope": "500 m", "stretch": linear(20e3),
               "damping": "none", "drag_area": f"{area} m²", "air_density": "1.25 kg/m³",
               "duration": "5 s", "samples": 2}
    cases.append({
        "name": "free fall with drag", "call": "arrest_damped", "input": falling,
        "source": "closed form, u²/g ln cosh(g t/u): 103.604 m and 35.5969 m/s (any textbook of mechanics)",
        "expect": {"drop": "103.604 m", "series": {"speed_m_per_s": [0.0, 35.5969]},
                   "notes": ["still_falling"]}, "rel": 5e-6,
    })
    bad = fall(named["Kelvin and Voigt"])
    cases.append(error("no time to follow", "arrest_damped", {**bad, "duration": "0 s"}, "duration"))
    cases.append(error("no falls", "arrest_repeated",
                       {"fall": bad, "falls": 0, "between": "1 s"}, "falls"))
    write("damped", cases)


def slip():
    """100 kg, 4 m, 2 m of 20 kN; slips at 3 kN over 0.1 m, then at 6 kN: motion with clipped tension."""
    m, h, k = 100.0, 4.0, 20e3 / 2.0
    y, slipped, parts = [0.0, np.sqrt(2 * G * h)], 0.0, []
    # Phases: elastic to 3 kN, slip 0.1 m, elastic to 6 kN, slip to the stop.
    for cap, travel in ((3e3, 0.1), (6e3, np.inf)):
        def hit(_, y):
            return k * (y[0] - slipped) - cap

        hit.terminal = True
        run = solve_ivp(lambda _, y: [y[1], G - k * (y[0] - slipped) / m], (0, 5), y,
                        method="DOP853", rtol=1e-12, atol=1e-13, events=hit)
        y = run.y[:, -1]
        x0 = y[0]

        def stop(_, y):
            return y[1]

        def end(_, y):
            return y[0] - x0 - travel if np.isfinite(travel) else 1.0

        stop.terminal = end.terminal = True
        run = solve_ivp(lambda _, y: [y[1], G - cap / m], (0, 5), y,
                        method="DOP853", rtol=1e-12, atol=1e-13, events=[stop, end])
        y = run.y[:, -1]
        parts.append(y[0] - x0)
        slipped += parts[-1]
    fall = {"mass": "100 kg", "height": "4 m", "rope": "2 m", "stretch": linear(20e3)}
    slips = [{"force": "6 kN", "travel": "2 m"}, {"force": "3 kN", "travel": "10 cm"}]
    cases = [
        {"name": "a knot tightens, then a device slips",
         "source": f"SciPy, motion with the tension held while slipping: {SCRIPT}",
         "call": "arrest_with_slip", "input": {"fall": fall, "slips": slips},
         "expect": {
             "arrest": {"impact_force": "6 kN", "drop": f"{h + y[0]} m"},
             "slips": [
                 {"slipped": f"{parts[1]} m", "energy": f"{6e3 * parts[1]} J", "at_end": False},
                 {"slipped": "0.1 m", "energy": "300 J", "at_end": True}]},
         "rel": 1e-9},
        {"name": "a constant brake on a stiff rope",
         "source": "981 N · 2 m / (4000 N − 981 N), any textbook of mechanics",
         "call": "arrest_with_slip",
         "input": {"fall": {"mass": "100 kg", "height": "2 m", "rope": "1 m",
                            "stretch": linear(1e12)},
                   "slips": [{"force": "4 kN", "travel": "1.75 m"}]},
         "expect": {"slips": [{"slipped": f"{981 * 2 / (4000 - 981)} m"}]}, "rel": 1e-8},
        error("a slip force of zero", "arrest_with_slip",
              {"fall": fall, "slips": [slips[0], {"force": "0 N", "travel": "1 m"}]},
              "slips[1].force"),
    ]
    write("slip", cases)


def redirect():
    """80 kg, 4 m, 2 m of 20 kN, edges 3 m / 90 deg / 0.2 and 5 m / 60 deg / 0.3."""
    w, ea = 80 * G, 20e3

    def ends(friction):
        r1 = np.exp(friction * 0.2 * np.pi / 2)
        r2 = r1 * np.exp(friction * 0.3 * np.pi / 3)

        def miss(f):
            parts = ((2.0, 1.0), (3.0, r1), (5.0, r2))
            x = sum(l * f / r / ea for l, r in parts)
            taken = sum(quad(lambda t: t * l / (r * ea), 0, f)[0] for l, r in parts)
            return taken - w * (4.0 + x)

        f = brentq(miss, w, 1e5, xtol=1e-10, rtol=1e-14)

        def load(a, b, wrap):
            """Sum of two pulls, a half turn less the wrap apart."""
            return np.hypot(a + b * np.cos(np.pi - wrap), b * np.sin(np.pi - wrap))

        loads = [load(f, f / r1, np.pi / 2), load(f / r1, f / r2, np.pi / 3)]
        return {"arrest": {"impact_force": f"{f} N"}, "belay_force": f"{f / r2} N",
                "edge_loads": [f"{n} N" for n in loads], "belay_slip": "0 m"}

    fall = {"mass": "80 kg", "height": "4 m", "rope": "2 m", "stretch": linear(ea)}
    edges = [{"belay_rope": "3 m", "wrap": "90 deg", "mu": 0.2},
             {"belay_rope": "5 m", "wrap": "60 deg", "mu": 0.3}]

    def miss(x):
        return 1000 * x**2 + 1500 * max(x - 0.4, 0) ** 2 - w * (3 + x)

    x = brentq(miss, 0.5, 10, xtol=1e-13, rtol=1e-14)
    ropes = [{"rope": "10 m", "stretch": linear(20e3)},
             {"rope": "10 m", "stretch": linear(30e3), "slack": "40 cm"}]
    both = 2000 * x + 3000 * (x - 0.4)
    cases = [
        {"name": "two edges", "source": f"SciPy, root of the work of each part: {SCRIPT}",
         "call": "arrest_over_edges", "input": {"fall": fall, "edges": edges},
         "expect": {"frictionless": ends(0.0), "full_friction": ends(1.0)}, "rel": 1e-9},
        {"name": "a second rope with slack", "source": f"SciPy, root of two springs: {SCRIPT}",
         "call": "arrest_shared",
         "input": {"mass": "80 kg", "height": "3 m", "ropes": ropes},
         "expect": {"impact_force": f"{both} N", "drop": f"{3 + x} m",
                    "ropes": [{"tension": f"{2000 * x} N", "share": 2000 * x / both},
                              {"tension": f"{3000 * (x - 0.4)} N"}]}, "rel": 1e-9},
        {"name": "two equal ropes are one of twice the rigidity",
         "source": "springs side by side: W + sqrt(W² + 2 W · 40 kN · 0.3), in doubles",
         "call": "arrest_shared",
         "input": {"mass": "80 kg", "height": "3 m", "ropes": [ropes[0], ropes[0]]},
         "expect": {"impact_force": f"{w + np.sqrt(w * w + 2 * w * 40e3 * 0.3)} N"}, "rel": 1e-9},
        error("friction below zero", "arrest_over_edges",
              {"fall": fall, "edges": [edges[0], {**edges[1], "mu": -0.1}]}, "edges[1].mu"),
        error("no rope", "arrest_shared", {"mass": "80 kg", "height": "3 m", "ropes": []}, "ropes"),
    ]
    write("redirect", cases)


def leash():
    """Level elastic catenary of 100 m; 80 kg on a leash of 30 kN with its ring at mid-span."""
    q, span, w = 0.7, 50.0, 80 * G

    def case(name, ea, rest, leash_m):
        half = rest / 2

        def line(p):
            v = q * half + p / 2
            u = v - q * half

            def across(h):
                return h * half / ea + h / q * (np.arcsinh(v / h) - np.arcsinh(u / h)) - span

            h = brentq(across, 10.0, 1e5, xtol=1e-11, rtol=1e-15)
            sag = half / ea * (v - q * half / 2) + h / q * (np.hypot(1, v / h) - np.hypot(1, u / h))
            return sag, np.hypot(h, v)

        free_sag = line(0.0)[0]

        def y(p):
            return line(p)[0] - free_sag

        def stretch(p):
            return leash_m * p / 30e3

        stand = y(w)
        free = 1.0 + leash_m - stand
        start = 0.0 if free >= 0 else brentq(lambda p: y(p) + stretch(p) + free, 0, w, xtol=1e-12)

        def taken(f):
            area = quad(y, 0, f, epsabs=1e-9, epsrel=1e-12, limit=200)[0]
            return f * y(f) - area + 0.5 * f * stretch(f)

        def miss(f):
            drop = max(free, 0) + y(f) + stretch(f) - y(start) - stretch(start)
            return taken(f) - taken(start) - w * drop

        f = brentq(miss, w, 2e4, xtol=1e-9, rtol=1e-14)
        chain = {"near": ["0 m"] * 3, "far": ["100 m", "0 m", "0 m"],
                 "pieces": [{"rest_length": f"{rest} m", "weight": f"{q} N/m",
                             "stretch": linear(ea)}]}
        lowest = y(f) - stand + leash_m + stretch(f) + 1.0
        return {
            "name": name, "source": f"SciPy, elastic catenary and its work: {SCRIPT}",
            "call": "leash_fall",
            "input": {"line": chain, "at": f"{half} m", "mass": "80 kg", "leash": f"{leash_m} m",
                      "leash_stretch": linear(30e3), "tie_in_above": "1 m", "body_below": "1 m"},
            "expect": {
                "leash_force": f"{f} N", "free_fall": f"{max(free, 0.0)} m",
                "start_force": f"{start} N", "ring_depth": f"{y(f)} m",
                "standing_depth": f"{stand} m", "tension_near": f"{line(f)[1]} N",
                "standing_tension_near": f"{line(w)[1]} N", "lowest_below_line": f"{lowest} m"},
            "rel": 1e-7,
        }

    fall = case("a tight line", 100e3, 97.0, 5.0)
    cases = [
        fall,
        case("a soft line whose ring the leash holds back", 60e3, 99.0, 4.0),
        error("a tie-in above the leash", "leash_fall", {**fall["input"], "tie_in_above": "6 m"},
              "tie_in_above"),
    ]
    write("leash", cases)


if __name__ == "__main__":
    damped()
    slip()
    redirect()
    leash()
