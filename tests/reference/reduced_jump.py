"""Reference for `swing`: the reduced jump on a ring held by a linear spring, by SciPy.

Integrates Eq. (1) to (6) of the theory page in space with `scipy.integrate.DOP853` at 1e-12, each rope in
its own branch, slack or taut, and a fresh start wherever one changes, which is looked for at least every
2 ms. (`solve_ivp` with events may leave a rope that just grazes its limit in the wrong branch.) Each rig
is flown again from a start moved by 1e-7 m: where the difference grows more than a thousandfold, the rig
is chaotic, and no state of its end is compared. Needs numpy and scipy; writes reduced_jump.json beside
itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.integrate import DOP853
from scipy.optimize import brentq

SEED = 1996
COUNT = 100
G = 9.81
MIDDLE_S = 6.0
END_S = 12.0
MOVED_M = 1e-7
GROWTH = 1e3
LOOK_S = 0.002


def distance(y):
    return np.sqrt(np.sum((y[6:9] - y[:3]) ** 2))


def rates(y, rig, taut):
    p, v, ring, ring_v, viscous = y[:3], y[3:6], y[6:9], y[9:12], y[12:]
    d = distance(y)
    strain = d / rig["rest_m"] - 1.0
    long_n, arm_n, tau = rig["long_n"], rig["arm_n"], rig["relaxation_s"]
    # A slack rope sits at the strain where its two springs cancel.
    own = np.where(taut, strain, arm_n * viscous / (long_n + arm_n))
    size = np.sum(np.where(taut, long_n * own + arm_n * (own - viscous), 0.0))
    pull = size * (ring - p) / d if size != 0.0 else np.zeros(3)
    w = v - rig["wind_m_per_s"]
    drag = rig["drag_kg_per_m"] * np.sqrt(w @ w) * w
    weight = np.array([0.0, 0.0, G])
    ring_a = rig["k_n_per_m"] * (rig["spring_m"] - ring) - pull - rig["damping_n_s_per_m"] * ring_v
    ring_a = (ring_a - rig["ring_weighs_kg"] * weight) / rig["ring_moves_kg"]
    return np.concatenate([v, (pull - drag) / rig["low_kg"] - weight, ring_v, ring_a, (own - viscous) / tau])


def margins(y, rig):
    """Strain of each rope beyond the strain at which it carries nothing."""
    return distance(y) / rig["rest_m"] - 1.0 - rig["arm_n"] * y[12:] / (rig["long_n"] + rig["arm_n"])


def change(step, before, wrong, rig):
    """The first time in a step at which one of the ropes whose state is wrong at its end changes."""
    times = []
    for i in np.flatnonzero(wrong):
        end = margins(step(step.t), rig)[i]
        # Rounding may have put the start on the far side already, where a rope just grazes.
        past = before[i] * end >= 0.0
        times.append((step.t_old if past else brentq(lambda t: margins(step(t), rig)[i], step.t_old, step.t, xtol=1e-15), i))
    return min(times)


def fly(rig, moved_m=0.0):
    """States in the middle and at the end, first taut time, and number of changes."""
    y = np.concatenate([rig["start_m"], rig["start_m_per_s"], rig["ring_m"], np.zeros(3 + len(rig["rest_m"]))])
    y[0] += moved_m
    taut = margins(y, rig) > 0.0
    t, first, changes, states = 0.0, None, 0, []
    for until in (MIDDLE_S, END_S):
        while t < until:
            run = DOP853(lambda _, y: rates(y, rig, taut), t, y, until, max_step=LOOK_S, rtol=1e-12, atol=1e-12)
            while run.status == "running":
                before = margins(run.y, rig)
                run.step()
                assert run.status != "failed"
                wrong = (margins(run.y, rig) > 0.0) != taut
                if wrong.any():
                    break
            t, y = run.t, run.y
            if wrong.any():
                step = run.dense_output()
                t, i = change(step, before, wrong, rig)
                y = step(t)
                taut[i] = not taut[i]
                changes += 1
                first = t if first is None else first
        states.append(y)
    return states, first, changes


def random_rig(rng):
    n = int(rng.integers(1, 4))
    rest = rng.uniform(20.0, 80.0) + rng.uniform(0.0, 1.0, n)
    low = rng.uniform(50.0, 130.0)
    spring = rng.uniform([20.0, -3.0, -6.0], [70.0, 3.0, 0.0])
    weighs = rng.uniform(2.0, 10.0)
    k = 10.0 ** rng.uniform([2.3, 1.5, 2.0], [4.0, 2.5, 3.3])
    ring = spring - [0.0, 0.0, weighs * G / k[2]]
    # Inside the reach of the ropes, so that the body falls first.
    far = rng.uniform(0.5, 0.95) * rest.min()
    slope, aside = rng.uniform(-0.2, 0.9), rng.uniform(-0.3, 0.3)
    away = np.array([-np.cos(slope) * np.cos(aside), np.cos(slope) * np.sin(aside), np.sin(slope)])
    rig = {
        "rest_m": rest,
        "long_n": rng.uniform(6e3, 20e3, n),
        "arm_n": rng.uniform(0.0, 20e3, n),
        "relaxation_s": 10.0 ** rng.uniform(-1.7, 0.0, n),
        "low_kg": low,
        "ring_weighs_kg": weighs,
        "ring_moves_kg": weighs + rng.uniform(0.0, 8.0),
        "damping_n_s_per_m": rng.choice([0.0, 60.0]),
        "drag_kg_per_m": rng.uniform(0.1, 0.6),
        "wind_m_per_s": rng.uniform([-4.0, -4.0, 0.0], [4.0, 4.0, 0.0]),
        "spring_m": spring,
        "k_n_per_m": k,
        "ring_m": ring,
        "start_m": ring + far * away,
        "start_m_per_s": rng.uniform([0.0, -1.0, 0.0], [3.0, 1.0, 1.0]),
    }
    # Short numbers keep the file small; both sides start from the rounded ones.
    return {key: np.round(value, 6) for key, value in rig.items()}


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for _ in range(COUNT):
        rig = random_rig(rng)
        (middle, end), first, changes = fly(rig)
        (_, moved), _, _ = fly(rig, MOVED_M)
        growth = np.abs(moved[:12] - end[:12]).max() / MOVED_M
        plain = {k: v.tolist() for k, v in rig.items()}
        out = {"middle": np.round(middle, 11).tolist(), "end": np.round(end, 11).tolist()}
        cases.append({**plain, **out, "taut_s": round(first, 11), "changes": changes, "growth": round(growth, 3)})
        print(len(cases), changes, growth, flush=True)
    out = Path(__file__).with_suffix(".json")
    rows = ",\n".join(json.dumps(case) for case in cases)
    out.write_text(f'{{"end_s": {END_S}, "chaotic": {GROWTH}, "rigs": [\n{rows}\n]}}\n')


if __name__ == "__main__":
    main()
