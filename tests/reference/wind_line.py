"""A line of measured stretch in wind that stays across it, in space, for tests/line_reference.rs.

Needs numpy and scipy. Run it and redirect its output to wind_line.json beside it.

Boundary value problem over the rest length s, by scipy.integrate.solve_bvp (collocation):
r' = (1 + e(|T|)) T / |T|, T' = w z - k |u_n| u_n, with u_n the wind across T, r given at both ends.
The stretch curve is a cubic Hermite spline with the slopes that the library states: the mean of the
neighbouring secants, the only secant at the ends. Its table is even enough to need no scaling back.
"""

import json

import numpy as np
from scipy.integrate import solve_bvp
from scipy.interpolate import CubicHermiteSpline

TABLE_N = np.array([0.0, 1000.0, 2500.0, 10000.0])
TABLE_E = np.array([0.0, 0.009, 0.016, 0.04])

secant = np.diff(TABLE_E) / np.diff(TABLE_N)
slope = np.concatenate([[secant[0]], 0.5 * (secant[:-1] + secant[1:]), [secant[-1]]])
assert all((slope[:-1] / secant) ** 2 + (slope[1:] / secant) ** 2 < 9)
strain = CubicHermiteSpline(TABLE_N, TABLE_E, slope)


def solve(far, length, weight, k, wind):
    far, wind = np.array(far), np.array(wind)

    def rates(s, y):
        pull = y[3:]
        size = np.linalg.norm(pull, axis=0)
        t = pull / size
        across = wind[:, None] - t * (wind @ t)
        q = k * np.linalg.norm(across, axis=0) * across
        q[2] -= weight
        return np.vstack([(1.0 + strain(size)) * t, -q])

    def ends(a, b):
        return np.concatenate([a[:3], b[:3] - far])

    s = np.linspace(0.0, length, 401)
    sag = np.sqrt(max(length**2 - far @ far, 0.01 * length) * 3.0 / 8.0)
    line = np.outer(far, s / length)
    line[2] -= sag * 4.0 * (s / length) * (1.0 - s / length)
    guess = np.vstack([line, np.gradient(line, s, axis=1) * 400.0])
    found = solve_bvp(rates, ends, s, guess, tol=1e-10, max_nodes=200_000)
    assert found.success, found.message
    middle = found.sol(0.5 * length)
    return {
        "far_m": far.tolist(),
        "rest_length_m": length,
        "weight_n_per_m": weight,
        "k_kg_per_m2": k,
        "wind_m_per_s": wind.tolist(),
        "pull_near_n": found.sol(0.0)[3:].tolist(),
        "pull_far_n": found.sol(length)[3:].tolist(),
        "middle_m": middle[:3].tolist(),
        "worst_rms_residual": float(found.rms_residuals.max()),
    }


def main():
    # Half the density of air, coefficient 1.2, width 25 mm.
    k = 0.5 * 1.25 * 1.2 * 0.025
    cases = [
        solve([100.0, 0.0, 0.0], 101.0, 0.7, k, [0.0, 15.0, 0.0]),
        solve([100.0, 0.0, 20.0], 104.0, 0.7, k, [6.0, 10.0, 1.0]),
        solve([80.0, 10.0, -30.0], 95.0, 0.7, k, [-8.0, 12.0, 0.0]),
        solve([130.0, 0.0, -3.0], 128.5, 0.6, k, [5.0, 20.0, -2.0]),
        solve([60.0, 0.0, 5.0], 75.0, 0.7, k, [20.0, 5.0, 0.0]),
        solve([20.0, 0.0, -60.0], 66.0, 0.7, k, [0.0, 25.0, 0.0]),
    ]
    print("[")
    print(",\n".join("  " + json.dumps(case) for case in cases))
    print("]")


main()
