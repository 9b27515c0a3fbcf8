"""Reference for the losses of `anchor::AnchorSystem` with a line that pulls, by SciPy.

Systems of one junction of system.json, each under a line of its own: a spring from the junction along the pull, which
carries the pull at the rest before the loss. Rest after the loss of the leg that carries most: `scipy.optimize.minimize`
(BFGS) of the energy of legs and line, sharpened with `root`. Motion: `solve_ivp` (DOP853 at 1e-11).
Needs numpy and scipy; writes system_line.json beside itself.
"""

import json
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import minimize, root

SEED = 612
COUNT = 40
MASS, TIME = 20.0, 0.15

rng = np.random.default_rng(SEED)
source = json.loads(Path(__file__).with_name("system.json").read_text())["rest"]
runs = []
for number, case in enumerate(source):
    fixed, pull = np.array(case["fixed_m"]), np.array(case["pull_n"])
    tension = np.array(case["tension_n"])
    if case["junctions"] != 1 or np.count_nonzero(tension) < 2 or len(runs) == COUNT:
        continue
    ends = fixed[np.array(case["to"]) - 1]
    springs = list(zip(ends, case["rest_m"], case["k_n_per_m"]))

    def force(p, springs):
        """Of the springs on the junction, and the energy they store."""
        total, stored = np.zeros(3), 0.0
        for end, rest, k in springs:
            way = end - p
            size = np.linalg.norm(way)
            stretch = max(size - rest, 0.0)
            total = total + k * stretch * way / size
            stored += 0.5 * k * stretch**2
        return total, stored

    before = root(lambda p: force(p, springs)[0] + pull, np.array([0.0, 0.0, 0.0]), options={"xtol": 1e-14})
    if np.linalg.norm(before.fun) > 1e-6:
        continue
    p0 = before.x
    lost = int(np.argmax(tension))
    k, length = float(10.0 ** rng.uniform(3.5, 5.5)), float(rng.uniform(20.0, 70.0))
    size = np.linalg.norm(pull)
    if size / k > length:
        continue
    line = (p0 + pull / size * length, length - size / k, k)
    left = [s for i, s in enumerate(springs) if i != lost] + [line]
    found = minimize(lambda p: force(p, left)[1], p0, jac=lambda p: -force(p, left)[0], tol=1e-9).x
    after = root(lambda p: force(p, left)[0], found, options={"xtol": 1e-14})
    if np.linalg.norm(after.fun) > 1e-6:
        continue
    tensions = lambda p: [k * max(np.linalg.norm(end - p) - rest, 0.0) for end, rest, k in left]
    motion = solve_ivp(
        lambda _, y: np.concatenate([y[3:], force(y[:3], left)[0] / MASS]), (0.0, TIME),
        np.concatenate([p0, np.zeros(3)]), "DOP853", rtol=1e-11, atol=1e-12, dense_output=True, max_step=TIME / 200,
    )
    peaks = np.max([tensions(motion.sol(t)[:3]) for t in np.linspace(0.0, TIME, 4001)], axis=0)
    runs.append({
        "case": number, "lost": lost, "stiffness_n_per_m": k, "length_m": length, "mass_kg": MASS, "time_s": TIME,
        # Of the legs that are left, in their order; the line last.
        "after_n": [round(float(t), 7) for t in tensions(after.x)], "peak_n": [round(float(t), 5) for t in peaks],
    })
Path(__file__).with_suffix(".json").write_text(json.dumps(runs, separators=(",", ":")) + "\n")
print(len(runs))
