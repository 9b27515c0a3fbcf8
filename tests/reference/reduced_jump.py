"""Reference for `swing`: the reduced jump on a ring held by a linear spring, by SciPy.

Integrates Eq. (1) to (6) of the theory page with `scipy.integrate.solve_ivp` (DOP853, 1e-12), each
rope in its own branch, slack or taut, and a fresh start wherever one changes. Needs numpy and scipy;
writes reduced_jump.json beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

SEED = 1996
COUNT = 20
G = 9.81
MIDDLE_S = 6.0
END_S = 12.0


def rates(_, y, rig, taut):
    (x, z, vx, vz), (rx, rz, rvx, rvz), viscous = y[:4], y[4:8], y[8:]
    d = np.hypot(rx - x, rz - z)
    strain = d / rig["rest_m"] - 1.0
    long_n, arm_n, tau = rig["long_n"], rig["arm_n"], rig["relaxation_s"]
    # A slack rope sits at the strain where its two springs cancel.
    own = np.where(taut, strain, arm_n * viscous / (long_n + arm_n))
    pull = np.sum(np.where(taut, long_n * own + arm_n * (own - viscous), 0.0))
    ux, uz = ((rx - x) / d, (rz - z) / d) if pull != 0.0 else (0.0, 0.0)
    wx = vx - rig["wind_m_per_s"]
    drag = rig["drag_kg_per_m"] * np.hypot(wx, vz)
    m, moves, weighs = rig["low_kg"], rig["ring_moves_kg"], rig["ring_weighs_kg"]
    (kx, kz), (ax, az) = rig["k_n_per_m"], rig["spring_m"]
    c = rig["damping_n_s_per_m"]
    ring_x = (kx * (ax - rx) - pull * ux - c * rvx) / moves
    ring_z = (kz * (az - rz) - pull * uz - c * rvz - weighs * G) / moves
    body = [vx, vz, (pull * ux - drag * wx) / m, (pull * uz - drag * vz) / m - G]
    return np.concatenate([body, [rvx, rvz, ring_x, ring_z], (own - viscous) / tau])


def margin(i):
    """Strain of rope i beyond the strain at which it carries nothing."""

    def g(_, y, rig, taut):
        strain = np.hypot(y[4] - y[0], y[5] - y[1]) / rig["rest_m"][i] - 1.0
        arm_n, long_n = rig["arm_n"][i], rig["long_n"][i]
        return strain - arm_n * y[8 + i] / (long_n + arm_n)

    g.terminal = True
    return g


def fly(rig):
    """States in the middle and at the end, first taut time, and number of changes."""
    n = len(rig["rest_m"])
    y = np.concatenate([rig["start_m"], rig["start_m_per_s"], rig["ring_m"], [0.0, 0.0], np.zeros(n)])
    taut = np.zeros(n, bool)
    t, first, changes, states = 0.0, None, 0, []
    for until in (MIDDLE_S, END_S):
        while t < until:
            events = []
            for i in range(n):
                g = margin(i)
                g.direction = -1.0 if taut[i] else 1.0
                events.append(g)
            run = solve_ivp(
                rates, (t, until), y, "DOP853", events=events, args=(rig, taut.copy()),
                rtol=1e-12, atol=1e-12, max_step=0.05,
            )  # fmt: skip
            assert run.success, run.message
            t, y = run.t[-1], run.y[:, -1]
            for i, hits in enumerate(run.t_events):
                if len(hits):
                    taut[i] = not taut[i]
                    changes += 1
                    first = t if first is None else first
        states.append(y.tolist())
    return states, first, changes


def random_rig(rng):
    n = int(rng.integers(1, 4))
    rest = rng.uniform(20.0, 80.0) + rng.uniform(0.0, 1.0, n)
    low = rng.uniform(50.0, 130.0)
    spring = rng.uniform([20.0, -6.0], [70.0, 0.0])
    weighs = rng.uniform(2.0, 10.0)
    k = 10.0 ** rng.uniform([2.3, 2.0], [4.0, 3.3])
    ring = spring - [0.0, weighs * G / k[1]]
    # Inside the reach of the ropes, so that the body falls first.
    far = rng.uniform(0.5, 0.95) * rest.min()
    slope = rng.uniform(-0.2, 0.9)
    return {
        "rest_m": rest,
        "long_n": rng.uniform(6e3, 20e3, n),
        "arm_n": rng.uniform(0.0, 20e3, n),
        "relaxation_s": 10.0 ** rng.uniform(-1.7, 0.0, n),
        "low_kg": low,
        "ring_weighs_kg": weighs,
        "ring_moves_kg": weighs + rng.uniform(0.0, 8.0),
        "damping_n_s_per_m": rng.choice([0.0, 60.0]),
        "drag_kg_per_m": rng.uniform(0.1, 0.6),
        "wind_m_per_s": rng.uniform(-4.0, 4.0),
        "spring_m": spring,
        "k_n_per_m": k,
        "ring_m": ring,
        "start_m": ring + far * np.array([-np.cos(slope), np.sin(slope)]),
        "start_m_per_s": rng.uniform([0.0, 0.0], [3.0, 1.0]),
    }


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for _ in range(COUNT):
        rig = random_rig(rng)
        (middle, end), first, changes = fly(rig)
        plain = {k: v.tolist() if hasattr(v, "tolist") else v for k, v in rig.items()}
        cases.append(
            {**plain, "end_s": END_S, "middle": middle, "end": end, "taut_s": first, "changes": changes}
        )
    out = Path(__file__).with_suffix(".json")
    out.write_text(json.dumps(cases, indent=1) + "\n")


if __name__ == "__main__":
    main()
