"""The work of benches/swing.rs with SciPy: DOP853 at the same tolerance, with the same events and
samples, and Newton on all eight half lines at once in every evaluation.

Prints the name of the benchmark and the seconds one run takes.
"""

import time

import numpy as np
from scipy.integrate import solve_ivp

G = 9.81
# Half lines from an anchor to the ring, near and far of each line.
REST = 0.5 * np.repeat([127.74, 132.4, 133.2, 133.8], 2)
DENSITY = np.repeat([0.068, 0.060, 0.072, 0.072], 2)
W = G * DENSITY
EA = np.repeat([2.5e5, 1.4e5, 3e4, 3e4], 2)
SIDE = np.tile([1.0, -1.0], 4)  # a far half runs backwards in x
ANCHOR_X = np.tile([0.0, 130.0], 4)
ANCHOR_Z = np.tile([0.0, -3.0], 4)

ROPES, ROPE_REST, ROPE_EA, TAU = 2, 72.0, 22e3, 0.02
HALF_ROPES = 0.5 * ROPES * ROPE_REST * 0.066
BODY = 82.0 + HALF_ROPES
RING = 2.5 + HALF_ROPES
DRAG = 0.5 * 1.2 * 0.55
# Body and ring after 20 s at a tolerance of 1e-10: x, z, ring x, ring z.
END = (19.37207671, -65.72742881, 64.79120395, -7.71951209)


def ends(h, v):
    """Distance covered across and down by halves with (H, V) at their anchor, with the three
    derivatives; Irvine, Cable Structures (1981), chapter 1."""
    far = v - W * REST
    t0, t1 = np.hypot(h, v), np.hypot(h, far)
    a = (np.arcsinh(v / h) - np.arcsinh(far / h)) / W
    x = h * REST / EA + h * a
    y = (v - 0.5 * W * REST) * REST / EA + (t0 - t1) / W
    xh = REST / EA + a - (v / t0 - far / t1) / W
    xv = h * (1 / t0 - 1 / t1) / W
    yv = REST / EA + (v / t0 - far / t1) / W
    return x, y, xh, xv, yv


class Lines:
    """The lines at the ring; each solution starts from the last."""

    def __init__(self, ring):
        span, drop = SIDE * (ring[0] - ANCHOR_X), ANCHOR_Z - ring[1]
        chord = np.hypot(span, drop)
        slack = REST > chord
        k = np.sqrt(3 * (np.maximum((REST**2 - drop**2) / span**2, 1.0 + 1e-9) - 1))
        loose = W * span / (2 * k), W / 2 * (drop / np.tanh(k) + REST)
        t = EA * np.maximum(chord - REST, 0.0) / REST + np.cbrt(EA * (W * span / chord * REST) ** 2 / 24)
        tight = t * span / chord, t * drop / chord + W * REST / 2
        self.h = np.where(slack, loose[0], tight[0])
        self.v = np.where(slack, loose[1], tight[1])

    def force(self, rx, rz):
        """Force of all lines on the ring."""
        across, down = SIDE * (rx - ANCHOR_X), ANCHOR_Z - rz
        h, v = self.h, self.v
        for _ in range(60):
            x, y, xh, xv, yv = ends(h, v)
            gx, gy = x - across, y - down
            if max(np.abs(gx).max(), np.abs(gy).max()) < 1e-10:
                break
            det = xh * yv - xv * xv
            dh, dv = (yv * gx - xv * gy) / det, (xh * gy - xv * gx) / det
            share = np.minimum(1.0, 0.9 * h / np.maximum(dh, 1e-300))  # H stays above zero
            h, v = h - share * dh, v - share * dv
        else:
            raise ArithmeticError("the lines did not close")
        self.h, self.v = h, v
        return -np.sum(SIDE * h), np.sum(v - W * REST)


def rest(weight):
    """Ring at rest under a weight, by Newton with a numerical stiffness."""
    p = np.array([65.0, -3.5])
    lines = Lines(p)
    for _ in range(60):
        f = np.array(lines.force(*p)) - [0.0, weight]
        if np.hypot(*f) < 1e-8:
            return lines, p
        d = 1e-5
        fx = (np.array(lines.force(p[0] + d, p[1])) - lines.force(p[0] - d, p[1])) / (2 * d)
        fz = (np.array(lines.force(p[0], p[1] + d)) - lines.force(p[0], p[1] - d)) / (2 * d)
        p = p - np.clip(np.linalg.solve(np.array([fx, fz]).T, f), -1.0, 1.0)
    raise ArithmeticError("no rest")


def reduced_jump(tolerance=1e-8):
    """Both ropes are equal: one viscous strain stands for both."""
    lines, ring = rest(RING * G)
    straight = np.hypot(ring[0] - ANCHOR_X, ring[1] - ANCHOR_Z) >= REST
    moves = RING + np.sum(np.where(straight, DENSITY * REST, 0.0)) / 3

    def rates(_, y, taut):
        x, z, vx, vz, rx, rz, rvx, rvz, viscous = y
        d = np.hypot(rx - x, rz - z)
        own = d / ROPE_REST - 1.0 if taut else 0.5 * viscous
        pull = ROPES * ROPE_EA * (own + (own - viscous)) if taut else 0.0
        ux, uz = pull * (rx - x) / d, pull * (rz - z) / d
        drag = DRAG * np.hypot(vx, vz)
        fx, fz = lines.force(rx, rz)
        return (
            vx, vz, (ux - drag * vx) / BODY, (uz - drag * vz) / BODY - G,
            rvx, rvz, (fx - ux) / moves, (fz - uz - RING * G) / moves,
            (own - viscous) / TAU,
        )  # fmt: skip

    def margin(_, y, taut):
        return np.hypot(y[4] - y[0], y[5] - y[1]) / ROPE_REST - 1.0 - 0.5 * y[8]

    margin.terminal = True
    y = np.array([2.0, -1.0, 1.5, 0.3, *ring, 0.0, 0.0, 0.0])
    t, taut, samples, tensions = 0.0, False, [], []
    grid = np.arange(401) * 0.05
    while t < 20.0:
        margin.direction = -1.0 if taut else 1.0
        run = solve_ivp(
            rates, (t, 20.0), y, "DOP853", t_eval=grid[grid >= t], events=margin, args=(taut,),
            rtol=tolerance, atol=tolerance, max_step=0.1,
        )  # fmt: skip
        assert run.success, run.message
        samples.append(run.y)
        # The tension of each line at its near anchor, as the Rust series has it.
        for rx, rz in run.y[4:6].T:
            lines.force(rx, rz)
            tensions.append(np.hypot(lines.h, lines.v)[::2])
        t, y = (run.t_events[0][0], run.y_events[0][0]) if run.status == 1 else (20.0, run.y[:, -1])
        taut = not taut
    return np.hstack(samples), np.array(tensions)


def seconds(run):
    run()
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        run()
        best = min(best, time.perf_counter() - start)
    return best


if __name__ == "__main__":
    end = reduced_jump()[0][[0, 1, 4, 5], -1]
    assert np.abs(end - END).max() < 1e-4, end
    print("reduced_jump_20s", seconds(reduced_jump))
