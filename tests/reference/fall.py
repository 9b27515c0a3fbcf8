"""Reference for `fall::arrest_damped`: falls on damped ropes by SciPy's DOP853 at 1e-12.

Standard linear solid (28 linear cases, 8 on a stretch table) and Kelvin-Voigt (12), taut and slack as
separate phases between events; then standard linear solids with devices that slip (8), with a body of
two parts (12), or both. Needs numpy and scipy; writes fall.json beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq, minimize_scalar

SEED = 892
G = 9.81
THRESHOLD_N = 2000.0
# Tension in N over strain, a webbing that stiffens.
TABLE = np.array([[0.0, 0.0], [500.0, 0.02], [2000.0, 0.05], [5000.0, 0.08], [10000.0, 0.11]])


class Table:
    """Monotone cubic of Fritsch and Carlson (1980) in the tension, straight past the last point."""

    def __init__(self, t, e):
        secant = np.diff(e) / np.diff(t)
        slope = np.concatenate([secant[:1], 0.5 * (secant[:-1] + secant[1:]), secant[-1:]])
        for i, s in enumerate(secant):
            r = np.hypot(slope[i] / s, slope[i + 1] / s)
            if r > 3:
                slope[i : i + 2] *= 3 / r
        self.spline = CubicHermiteSpline(t, e, slope)
        self.slope = self.spline.derivative()
        self.last, self.end = t[-1], e[-1]
        # Work per rest length, the integral of T de, from the antiderivative of e by T.
        self.area = self.spline.antiderivative()

    def strain(self, t):
        if t > self.last:
            return float(self.end + self.slope(self.last) * (t - self.last))
        return float(self.spline(t))

    def tension(self, e):
        if e <= 0:
            return 0.0
        if e > self.end:
            return float(self.last + (e - self.end) / self.slope(self.last))
        t = 0.5 * self.last
        low, high = 0.0, self.last
        for _ in range(200):
            miss = float(self.spline(t)) - e
            low, high = (t, high) if miss < 0 else (low, t)
            step = t - miss / float(self.slope(t))
            step = step if low < step < high else 0.5 * (low + high)
            if abs(step - t) < 1e-13 * self.last:
                break
            t = step
        return t

    def energy(self, e):
        t = self.tension(e)
        inside = min(t, self.last)
        area = float(self.area(inside) - self.area(0.0))
        return t * e - area - 0.5 * (t - inside) * (e + self.strain(inside))


def curved(case):
    """As `rope`, for a standard linear solid on the table."""
    length, arm, tau = case["rope_m"], case["arm_n"], case["relaxation_s"]
    table = Table(TABLE[:, 0], TABLE[:, 1])

    def rest(s):
        if s <= 0:
            return 0.0
        return table.strain(brentq(lambda t: t - arm * (s - table.strain(t)), 0, arm * s,
                                   xtol=1e-12, rtol=1e-15))

    def trial(y):
        e = y[0] / length
        return table.tension(e) + arm * (e - y[2])

    def own(y, taut):
        return y[0] / length if taut else rest(y[2])

    def damper(y, taut):
        across = own(y, taut) - y[2]
        return across / tau, length * arm * across**2 / tau

    def stored(y, taut):
        e = own(y, taut)
        return length * (table.energy(e) + 0.5 * arm * (e - y[2]) ** 2)

    return trial, own, damper, stored


def rope(case):
    """Trial tension, rest strain, rate of the damper and loss of a phase; y = depth, speed, s, lost."""
    if case["kind"] == "curved":
        return curved(case)
    length, ea = case["rope_m"], case["ea_n"]
    if case["kind"] == "standard_linear":
        arm, tau = case["arm_n"], case["relaxation_s"]

        def trial(y):
            e = y[0] / length
            return ea * e + arm * (e - y[2])

        def own(y, taut):
            return y[0] / length if taut else arm * y[2] / (ea + arm)

        def damper(y, taut):
            across = own(y, taut) - y[2]
            return across / tau, length * arm * across**2 / tau

        def stored(y, taut):
            e = own(y, taut)
            return 0.5 * length * (ea * e**2 + arm * (e - y[2]) ** 2)
    else:
        theta = case["retardation_s"]

        def trial(y):
            return ea * y[0] / length + theta * ea * y[1] / length

        def own(y, taut):
            return y[0] / length if taut else y[2]

        def damper(y, taut):
            rate = y[1] / length if taut else -y[2] / theta
            return rate, length * theta * ea * rate**2

        def stored(y, taut):
            return 0.5 * length * ea * own(y, taut) ** 2

    return trial, own, damper, stored


def follow(case, memory=0.0):
    """The fall, with the state of the damper that an earlier one has left."""
    trial, own, damper, stored = rope(case)
    m, length, end = case["mass_kg"], case["rope_m"], case["duration_s"]

    def rates(taut):
        def f(_, y):
            s, lost = damper(y, taut)
            return [y[1], G - (trial(y) / m if taut else 0.0), s, lost]

        return f

    t, y, taut, phases = 0.0, np.array([-case["height_m"], 0.0, memory, 0.0]), False, []
    while t < end and len(phases) < 1000:
        if taut:
            def event(_, y):
                return trial(y)
            event.direction = -1
        else:
            def event(_, y):
                return y[0] / length - own(y, False)
            event.direction = 1
        event.terminal = True
        run = solve_ivp(
            rates(taut), (t, end), y, method="DOP853", rtol=1e-12, atol=1e-13,
            events=event, dense_output=True, max_step=end / 400,
        )
        assert run.status >= 0, run.message
        phases.append((taut, run))
        t, y = run.t[-1], run.y[:, -1].copy()
        if run.status == 1:
            taut = not taut
            if case["kind"] == "kelvin_voigt":
                y[2] = y[0] / length
    last_taut = phases[-1][0]

    peak, peak_s, above, lowest, rebound = 0.0, 0.0, 0.0, None, None
    for is_taut, run in phases:
        def force(t):
            return max(trial(run.sol(t)), 0.0) if is_taut else 0.0

        def speed(t):
            return run.sol(t)[1]

        grid = np.unique(np.concatenate([run.t, np.linspace(run.t[0], run.t[-1], 400)]))
        f = np.array([force(t) for t in grid])
        v = np.array([speed(t) for t in grid])
        k = int(f.argmax())
        a, b = grid[max(k - 1, 0)], grid[min(k + 1, len(grid) - 1)]
        best = minimize_scalar(lambda t: -force(t), bounds=(a, b), method="bounded",
                               options={"xatol": 1e-12})
        for when in (grid[k], best.x):
            if force(when) > peak:
                peak, peak_s = force(when), when
        for i in range(len(grid) - 1):
            a, b = grid[i], grid[i + 1]
            over = (f[i] > THRESHOLD_N, f[i + 1] > THRESHOLD_N)
            if all(over):
                above += b - a
            elif any(over):
                cross = brentq(lambda t: force(t) - THRESHOLD_N, a, b, xtol=1e-14)
                above += cross - a if over[0] else b - cross
            if v[i] > 0 >= v[i + 1] and lowest is None:
                when = brentq(speed, a, b, xtol=1e-14)
                lowest = run.sol(when)[0]
            elif v[i] < 0 <= v[i + 1] and lowest is not None and rebound is None:
                when = brentq(speed, a, b, xtol=1e-14)
                rebound = [when, lowest - run.sol(when)[0]]
    return {
        "impact_force_n": peak,
        "impact_s": float(peak_s),
        "extension_m": float(lowest),
        "rebound_s_m": rebound and [float(x) for x in rebound],
        "above_2kn_s": float(above),
        "lost_j": float(y[3]),
        "stored_j": float(stored(y, last_taut)),
        "end_depth_m": float(y[0]),
        "end_speed_m_per_s": float(y[1]),
        "end_damper": float(y[2]),
    }


def follow_parts(case):
    """A linear standard linear solid with devices that slip and a body of two parts.

    y = depth, speed, s, slipped, depth of the soft part, its speed. While a device slips the strain of
    the rope follows from its force, EA e + A (e - s) = F, and what slipped is depth less L e.
    """
    ea, arm, tau, length = case["ea_n"], case["arm_n"], case["relaxation_s"], case["rope_m"]
    body = case.get("body", {"share": 0.0, "stiffness_n_per_m": 0.0, "damping_n_s_per_m": 0.0})
    soft = body["share"] * case["mass_kg"]
    tied = case["mass_kg"] - soft
    ends, devices = 0.0, []
    for force, travel in sorted(case.get("slips", [])):
        ends += travel
        devices.append((force, ends))

    def held(s, force):
        return (force + arm * s) / (ea + arm)

    def strain(y, phase):
        if phase == "slack":
            return arm * y[2] / (ea + arm)
        if phase == "slip":
            return held(y[2], devices[k][0])
        return (y[0] - y[3]) / length

    def tension(y, phase):
        if phase == "slack":
            return 0.0
        e = strain(y, phase)
        return ea * e + arm * (e - y[2])

    def slip_rate(y):
        across = held(y[2], devices[k][0]) - y[2]
        return y[1] - length * arm / (ea + arm) * across / tau

    def rates(phase):
        def f(_, y):
            across = strain(y, phase) - y[2]
            hold = body["stiffness_n_per_m"] * (y[4] - y[0])
            hold += body["damping_n_s_per_m"] * (y[5] - y[1])
            return [y[1], G + (hold - tension(y, phase)) / tied, across / tau,
                    slip_rate(y) if phase == "slip" else 0.0,
                    y[5], G - (hold / soft if soft else 0.0)]
        return f

    def event(g, direction):
        g.terminal, g.direction = True, direction
        return g

    h, end = case["height_m"], case["duration_s"]
    t, y, phase, k, runs = 0.0, np.array([-h, 0.0, 0.0, 0.0, -h, 0.0]), "slack", 0, []
    while t < end and len(runs) < 1000:
        events = {
            "slack": [event(lambda _, y: (y[0] - y[3]) / length - strain(y, "slack"), 1)],
            "taut": [event(lambda _, y: tension(y, "taut"), -1)],
            "slip": [event(lambda _, y: slip_rate(y), -1),
                     event(lambda _, y: y[3] - devices[k][1], 1)],
        }[phase]
        if phase == "taut" and k < len(devices):
            events.append(event(lambda _, y: tension(y, "taut") - devices[k][0], 1))
        run = solve_ivp(rates(phase), (t, end), y, method="DOP853", rtol=1e-12, atol=1e-13,
                        events=events, dense_output=True, max_step=end / 400)
        assert run.status >= 0, run.message
        runs.append((phase, k, run))
        t, y = run.t[-1], run.y[:, -1].copy()
        if run.status == 1:
            second = len(run.t_events) > 1 and len(run.t_events[1]) > 0
            if phase == "slip" and second:
                y[3] = devices[k][1]
                k += 1
            phase = {"slack": "taut", "slip": "taut", "taut": "slip" if second else "slack"}[phase]

    peak, lowest = 0.0, -h
    for phase, k, run in runs:
        grid = np.unique(np.concatenate([run.t, np.linspace(run.t[0], run.t[-1], 400)]))
        for f, best in ((lambda t: tension(run.sol(t), phase), "peak"),
                        (lambda t: run.sol(t)[0], "lowest")):
            at = [f(t) for t in grid]
            n = int(np.argmax(at))
            a, b = grid[max(n - 1, 0)], grid[min(n + 1, len(grid) - 1)]
            top = minimize_scalar(lambda t: -f(t), bounds=(a, b), method="bounded",
                                  options={"xatol": 1e-12})
            value = max(at[n], -top.fun)
            if best == "peak":
                peak = max(peak, value)
            else:
                lowest = max(lowest, value)
    return {
        "impact_force_n": float(peak),
        "extension_m": float(lowest),
        "slipped_m": float(y[3]),
        "end_depth_m": float(y[0]),
        "end_speed_m_per_s": float(y[1]),
        "end_soft_m": float(y[4] - y[0]) if soft else 0.0,
    }


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for n in range(40):
        length = round(float(rng.uniform(2.0, 40.0)), 3)
        case = {
            "mass_kg": round(float(rng.uniform(50.0, 120.0)), 2),
            "rope_m": length,
            "height_m": round(float(length * rng.uniform(0.05, 1.9)), 3),
            "ea_n": round(float(rng.uniform(8e3, 40e3)), 1),
            "duration_s": round(float(rng.uniform(3.0, 10.0)), 2),
        }
        if n < 28:
            case["kind"] = "standard_linear"
            case["arm_n"] = round(float(case["ea_n"] * rng.uniform(0.2, 2.0)), 1)
            case["relaxation_s"] = round(float(10 ** rng.uniform(-1.5, 0.3)), 4)
        else:
            case["kind"] = "kelvin_voigt"
            case["retardation_s"] = round(float(10 ** rng.uniform(-2.0, -0.7)), 4)
        cases.append({**case, **follow(case)})
    for _ in range(8):
        length = round(float(rng.uniform(5.0, 40.0)), 3)
        case = {
            "kind": "curved",
            "mass_kg": round(float(rng.uniform(50.0, 120.0)), 2),
            "rope_m": length,
            "height_m": round(float(length * rng.uniform(0.05, 0.8)), 3),
            "arm_n": round(float(rng.uniform(5e3, 30e3)), 1),
            "relaxation_s": round(float(10 ** rng.uniform(-1.3, 0.3)), 4),
            "duration_s": round(float(rng.uniform(3.0, 6.0)), 2),
        }
        cases.append({**case, **follow(case)})
    parts = []
    for n in range(16):
        length = round(float(rng.uniform(3.0, 20.0)), 3)
        case = {
            "mass_kg": round(float(rng.uniform(60.0, 110.0)), 2),
            "rope_m": length,
            "height_m": round(float(length * rng.uniform(0.2, 1.5)), 3),
            "ea_n": round(float(rng.uniform(8e3, 20e3)), 1),
            "arm_n": round(float(rng.uniform(4e3, 15e3)), 1),
            "relaxation_s": round(float(10 ** rng.uniform(-1.3, 0.0)), 4),
            "duration_s": round(float(rng.uniform(3.0, 8.0)), 2),
        }
        if n % 4 < 2:
            # One that comes to its end, one that does not.
            low, travel = float(rng.uniform(1500, 2500)), float(rng.uniform(0.05, 0.3))
            high = float(rng.uniform(3000, 4500))
            case["slips"] = [[round(high, 1), 20.0], [round(low, 1), round(travel, 3)]]
        if n % 4 > 0:
            case["body"] = {
                "share": round(float(rng.uniform(0.2, 0.7)), 3),
                "stiffness_n_per_m": round(float(rng.uniform(5e3, 5e4)), 1),
                "damping_n_s_per_m": round(float(rng.uniform(50.0, 800.0)), 1),
            }
        parts.append({**case, **follow_parts(case)})
    out = Path(__file__).with_suffix(".json")
    out.write_text(json.dumps({"cases": cases, "parts": parts}, indent=1) + "\n")


if __name__ == "__main__":
    main()
