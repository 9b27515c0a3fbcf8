"""Reference for `pulley::lifted_pendulum`: a pendulum that gets shorter, by SciPy DOP853 at 1e-12.

Needs numpy and scipy; writes lifted.json beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

G = 9.81
SEED = 31
COUNT = 20


def rates(_, y, speed):
    angle, rate, length = y
    return [rate, (2.0 * speed * rate - G * np.sin(angle)) / length, -speed]


def turn(_, y, speed):
    return y[1]


def case(rng):
    start_m = float(rng.uniform(5.0, 60.0))
    end_m = float(start_m * rng.uniform(0.05, 0.8))
    speed = float(rng.uniform(0.05, 2.0))
    angle = float(rng.uniform(0.02, 1.5))
    time_s = (start_m - end_m) / speed
    # The start is at rest, which is no turn.
    run = solve_ivp(
        rates, (0.0, time_s), [angle, 0.0, start_m], "DOP853", args=(speed,), events=turn,
        rtol=1e-12, atol=1e-13, dense_output=True,
    )
    times = [t for t in run.t_events[0] if t > 1e-6]
    grid = run.sol(np.linspace(0.0, time_s, 200_001))
    return {
        "from_m": start_m,
        "to_m": end_m,
        "speed_m_per_s": speed,
        "angle_rad": angle,
        "turn_s": times,
        "turn_rad": [float(run.sol(t)[0]) for t in times],
        "widest_m": float(np.max(grid[2] * np.abs(np.sin(grid[0])))),
        "load_factor": float(np.max(np.cos(grid[0]) + grid[2] * grid[1] ** 2 / G)),
    }


rng = np.random.default_rng(SEED)
cases = [case(rng) for _ in range(COUNT)]
Path(__file__).with_suffix(".json").write_text(json.dumps(cases) + "\n")
