"""The work of benches/swing.rs with SciPy: DOP853 at the same tolerance in space, with the same events and
samples, and the lines read from the same kind of table, made once: quintic Hermite patches of the
potential by the square of the chord and the height, summed over the lines of each anchor.

Prints the name of each benchmark and the seconds one run takes.
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
# Sizes of the jump, to which errors are relative: lengths, speeds of a fall of one rope length, strain.
SCALE = np.array(([ROPE_REST] * 3 + [(G * ROPE_REST) ** 0.5] * 3) * 2 + [1.0])
# Body and ring after 20 s at a tolerance of 1e-10: x, z, ring x, ring z.
END = (19.37207671, -65.72742881, 64.79120395, -7.71951209)


def ends(h, v, rest=REST, w=W, ea=EA):
    """Distance covered across and down by halves with (H, V) at their anchor, with the three
    derivatives; Irvine, Cable Structures (1981), chapter 1."""
    far = v - w * rest
    t0, t1 = np.hypot(h, v), np.hypot(h, far)
    a = (np.arcsinh(v / h) - np.arcsinh(far / h)) / w
    x = h * rest / ea + h * a
    y = (v - 0.5 * w * rest) * rest / ea + (t0 - t1) / w
    xh = rest / ea + a - (v / t0 - far / t1) / w
    xv = h * (1 / t0 - 1 / t1) / w
    yv = rest / ea + (v / t0 - far / t1) / w
    return x, y, xh, xv, yv


class Lines:
    """The lines at the ring, solved: each solution starts from the last."""

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


def hermite(low, up):
    """Powers of the quintic with value, slope and curvature at both ends of 0 to 1; last axis."""
    (a0, a1, a2), (b0, b1, b2) = np.moveaxis(low, -1, 0), np.moveaxis(up, -1, 0)
    rise = b0 - a0
    return np.stack([
        a0, a1, 0.5 * a2, 10 * rise - 6 * a1 - 4 * b1 - 1.5 * a2 + 0.5 * b2,
        -15 * rise + 8 * a1 + 7 * b1 + 1.5 * a2 - b2, 6 * rise - 3 * (a1 + b1) - 0.5 * (a2 - b2),
    ], -1)  # fmt: skip


def potential(half, q, z):
    """Energy of a half line with its derivatives by the square of the chord and the height of the ring over its
    anchor up to the second, over arrays."""
    c = np.sqrt(q)
    across, down = np.sqrt(q - z * z), -z
    k = across / c
    rest, w, ea = REST[half], W[half], EA[half]
    slack = rest > c
    kk = np.sqrt(3 * (np.maximum((rest**2 - down**2) / across**2, 1.0 + 1e-9) - 1))
    t = ea * np.maximum(c - rest, 0.0) / rest + np.cbrt(ea * (w * k * rest) ** 2 / 24)
    h = np.where(slack, w * across / (2 * kk), t * k)
    v = np.where(slack, w / 2 * (down / np.tanh(kk) + rest), t * down / c + w * rest / 2)
    for _ in range(60):
        x, y, xh, xv, yv = ends(h, v, rest, w, ea)
        gx, gy = x - across, y - down
        if max(np.abs(gx).max(), np.abs(gy).max()) < 1e-11:
            break
        det = xh * yv - xv * xv
        dh, dv = (yv * gx - xv * gy) / det, (xh * gy - xv * gx) / det
        share = np.minimum(1.0, 0.9 * h / np.maximum(dh, 1e-300))  # H stays above zero
        h, v = h - share * dh, v - share * dv
    else:
        raise ArithmeticError("a line did not close")
    x, y, xh, xv, yv = ends(h, v, rest, w, ea)
    det = xh * yv - xv * xv
    aa, ah, zz = yv / det, xv / det, xh / det  # by distance across and height
    far = v - w * rest
    fa, fh = h, -far
    t0, t1 = np.hypot(h, v), np.hypot(h, far)
    length = (v * t0 - far * t1 + h * h * (np.arcsinh(v / h) - np.arcsinh(far / h))) / (2 * w)
    stretch = rest * (h * h + (v * v + v * far + far * far) / 3) / (2 * ea)
    u = h * across + far * down - length - stretch
    a_q, a_z = 0.5 / across, -z / across
    return {
        "u": u,
        "q": fa * a_q,
        "z": fa * a_z + fh,
        "qq": aa * a_q * a_q - fa / (4 * across**3),
        "qz": (aa * a_z + ah) * a_q + fa * z / (2 * across**3),
        "zz": aa * a_z * a_z + 2 * ah * a_z + zz - fa * q / across**3,
    }


class Table:
    """Patches of the sum of the potentials at each of the two anchors."""

    def __init__(self):
        knots = [56.5]
        while knots[-1] < 72.0:  # finest where a line turns from slack to taut
            near = np.sqrt(np.min((knots[-1] - REST) ** 2 + 0.05**2))
            knots.append(knots[-1] + min(0.06 * near, 0.2))
        self.q, self.z0, self.dz = np.array(knots) ** 2, -32.0, 2.0
        z = self.z0 + self.dz * np.arange(24)
        q, z = np.meshgrid(self.q, z, indexing="ij")
        d = 1e-2 * self.dz
        dq = np.diff(self.q)[:, None]
        self.cells = []
        for anchor in (0, 1):
            cells = 0.0
            for half in range(anchor, 8, 2):
                e, low, up = (potential(half, q, z + m * d) for m in (0, -1, 1))
                slope = {key: (up[key] - low[key]) / (2 * d) for key in ("qz", "qq")}
                bend = (up["qq"] - 2 * e["qq"] + low["qq"]) / d**2
                corner = np.stack([
                    np.stack([e["u"], e["z"], e["zz"]], -1),
                    np.stack([e["q"], e["qz"], slope["qz"]], -1),
                    np.stack([e["qq"], slope["qq"], bend], -1),
                ], -2) * self.dz ** np.arange(3)  # fmt: skip
                scale = dq[..., None, None] ** np.arange(3)[:, None]
                low, up = corner[:-1] * scale, corner[1:] * scale
                rows = hermite(np.swapaxes(low, -1, -2), np.swapaxes(up, -1, -2))  # by z, powers of t
                rows = np.swapaxes(rows, -1, -2)
                cells = cells + hermite(rows[:, :-1], rows[:, 1:])
            self.cells.append(cells)
        self.cells = np.array(self.cells)
        self.anchor = np.array([[0.0, 0.0, 0.0], [130.0, 0.0, -3.0]])
        self.pick = np.arange(2)
        self.power = np.arange(6)

    def force(self, ring):
        """Force of all lines on the ring."""
        r = ring - self.anchor
        q, z = (r * r).sum(1), r[:, 2]
        i = np.searchsorted(self.q, q, "right") - 1
        row = (z - self.z0) / self.dz
        j = row.astype(int)
        side = self.q[i + 1] - self.q[i]
        t, w = ((q - self.q[i]) / side)[:, None], (row - j)[:, None]
        cell = self.cells[self.pick, i, j]
        tp, wp = t**self.power, w**self.power
        dt, dw = np.zeros((2, 6)), np.zeros((2, 6))
        dt[:, 1:] = self.power[1:] * tp[:, :-1]
        dw[:, 1:] = self.power[1:] * wp[:, :-1]
        by_q = np.einsum("nij,ni,nj->n", cell, dt, wp) / side
        by_z = np.einsum("nij,ni,nj->n", cell, tp, dw) / self.dz
        force = (-2 * by_q[:, None] * r).sum(0)
        force[2] -= by_z.sum()
        return force


def start():
    """Table, ring at rest and the mass that moves with it."""
    _, ring = rest(RING * G)
    straight = np.hypot(ring[0] - ANCHOR_X, ring[1] - ANCHOR_Z) >= REST
    moves = RING + np.sum(np.where(straight, DENSITY * REST, 0.0)) / 3
    return Table(), ring, moves


def reduced_jump(table, ring, moves, tolerance=1e-8):
    """Both ropes are equal: one viscous strain stands for both."""
    weight = np.array([0.0, 0.0, G])
    ring_weight = RING * weight

    def rates(_, y, taut):
        v, ring_v = y[3:6], y[9:12]
        r = y[6:9] - y[:3]
        d = np.sqrt(r @ r)
        own = d / ROPE_REST - 1.0 if taut else 0.5 * y[12]
        pull = (ROPES * ROPE_EA * (own + (own - y[12])) / d if taut else 0.0) * r
        dy = np.empty(13)
        dy[:3], dy[6:9] = v, ring_v
        dy[3:6] = (pull - DRAG * np.sqrt(v @ v) * v) / BODY - weight
        dy[9:12] = (table.force(y[6:9]) - pull - ring_weight) / moves
        dy[12] = (own - y[12]) / TAU
        return dy

    def margin(_, y, taut):
        r = y[6:9] - y[:3]
        return np.sqrt(r @ r) / ROPE_REST - 1.0 - 0.5 * y[12]

    margin.terminal = True
    y = np.array([2.0, 0.0, -1.0, 1.5, 0.0, 0.3, ring[0], 0.0, ring[1], 0.0, 0.0, 0.0, 0.0])
    t, taut, samples = 0.0, False, []
    grid = np.arange(401) * 0.05
    while t < 20.0:
        margin.direction = -1.0 if taut else 1.0
        run = solve_ivp(
            rates, (t, 20.0), y, "DOP853", t_eval=grid[grid >= t], events=margin, args=(taut,),
            rtol=tolerance, atol=tolerance * SCALE, max_step=0.1,
        )  # fmt: skip
        assert run.success, run.message
        samples.append(run.y)
        t, y = (run.t_events[0][0], run.y_events[0][0]) if run.status == 1 else (20.0, run.y[:, -1])
        taut = not taut
    return np.hstack(samples)


def seconds(run):
    run()
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        run()
        best = min(best, time.perf_counter() - start)
    return best


if __name__ == "__main__":
    parts = start()
    end = reduced_jump(*parts)[[0, 2, 6, 8], -1]
    assert np.abs(end - END).max() < 1e-4, end
    print("reduced_jump_20s", seconds(lambda: reduced_jump(*parts)))
    print("field_table", seconds(Table))
