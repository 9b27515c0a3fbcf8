"""The single ropes of benches/swing_full.rs with MuJoCo: point masses on two slides each, joined by
tendons that pull beyond their rest length and not below it.

Prints the name of each benchmark and the seconds one run takes. The step is the largest of a few at
which the body ends as near to the converged place as the Rust run does.
"""

import time

import mujoco
import numpy as np

G, EA, DENSITY, REST, MASS, EXIT = 9.81, 22e3, 0.066, 72.0, 82.0, 60.0
# Body after 4 s from steps that are eight times shorter than those of the Rust run.
END = {100: (48.095780, -69.118584), 400: (48.095902, -69.118755)}
NEAR = 5e-4
STEPS = (4e-4, 2e-4, 1e-4, 5e-5)


def hanging(n):
    """Points of a rope of n masses at rest between ring and body: Newton on the pull at the ring."""
    length, weight = REST / (n + 1), DENSITY * REST / (n + 1) * G
    pull = np.array([20.0, -0.5 * weight * n])
    for _ in range(100):
        t = pull + np.outer(np.arange(n + 1), [0.0, weight])
        size = np.hypot(*t.T)[:, None]
        r = length * (t / size + t / EA)
        off = r.sum(0) - [EXIT, 0.0]
        if np.hypot(*off) < 1e-10:
            return np.cumsum(r, 0)
        u = t / size
        flexibility = sum(
            length * ((np.eye(2) - np.outer(a, a)) / s + np.eye(2) / EA) for a, s in zip(u, size[:, 0])
        )
        step = np.linalg.solve(flexibility, off)
        pull = pull - step * min(1.0, 5.0 / np.hypot(*step))
    raise ArithmeticError("the rope did not close")


def model(n, step):
    length = REST / (n + 1)
    mass = DENSITY * length
    slides = '<joint type="slide" axis="1 0 0"/><joint type="slide" axis="0 0 1"/>'
    bodies, tendons, last = [], [], "ring"
    for i, (x, z) in enumerate(hanging(n)):
        kg = MASS + 0.5 * mass if i == n else mass
        bodies.append(
            f'<body pos="{x:.17g} 0 {z:.17g}">{slides}<inertial pos="0 0 0" mass="{kg!r}" diaginertia="1 1 1"/>'
            f'<site name="s{i}"/></body>'
        )
        tendons.append(
            f'<spatial stiffness="{EA / length!r}" springlength="0 {length!r}">'
            f'<site site="{last}"/><site site="s{i}"/></spatial>'
        )
        last = f"s{i}"
    return mujoco.MjModel.from_xml_string(
        f'<mujoco><option timestep="{step!r}" gravity="0 0 -{G}" jacobian="sparse" integrator="Euler">'
        f'<flag contact="disable" constraint="disable"/></option><worldbody><site name="ring"/>'
        f"{''.join(bodies)}</worldbody><tendon>{''.join(tendons)}</tendon></mujoco>"
    )


def fly(m):
    """Body after 4 s, relative to its start, and the time it took."""
    data = mujoco.MjData(m)
    # Velocities lag places by half a step, as in a leapfrog.
    mujoco.mj_forward(m, data)
    data.qvel[:] = -0.5 * m.opt.timestep * data.qacc
    start = time.perf_counter()
    mujoco.mj_step(m, data, nstep=round(4.0 / m.opt.timestep))
    return data.qpos[-2:].copy(), time.perf_counter() - start


if __name__ == "__main__":
    mujoco.set_mju_user_warning(lambda _: None)  # too long a step is told by its NaN below
    for n, end in END.items():
        for step in STEPS:
            place, seconds = fly(model(n, step))
            off = np.hypot(*(place + [EXIT, 0.0] - end))
            if off < NEAR:
                break
        else:
            raise ArithmeticError(f"no step comes within {NEAR} m: off by {off}")
        print(f"{n} masses: step {step * 1e3} ms, off by {off:.1e} m, {seconds / 4:.3f} s a second")
        print(f"full_rope_4s/{n}", seconds)
