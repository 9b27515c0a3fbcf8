"""A level line with a ring in its middle, standing in a side wind, for conformance/rig.site.json.

Needs numpy and scipy. Each half is an elastic catenary in space: T' = -p with p = (0, q, -w) for each metre of
rest length, r' = T / EA + T / |T|. By symmetry the pull at the ring is (H, F_y / 2, F_z / 2), F the force on the
ring, and H is where the half reaches the middle of the span.
"""

import numpy as np
from scipy.integrate import quad_vec
from scipy.optimize import brentq

G = 9.81
SPAN, REST, EA = 40.0, 39.9, 10e3 / 0.04
WEIGHT = 0.07 * G
# Half of air density, drag coefficient, width, square of the speed.
WIND = 0.5 * 1.2 * 1.2 * 0.025 * 10.0**2
RING, JUMPER = 1.0, 70.0
DRAG = 0.5 * 1.2 * 0.5 * 10.0**2


def standing(force, wind):
    half, load = 0.5 * REST, np.array([0.0, wind, -WEIGHT])

    def pull(h, s):
        return np.array([h, 0.5 * force[0], 0.5 * force[1]]) + load * (half - s)

    def reach(h):
        def rates(s):
            t = pull(h, s)
            return t / EA + t / np.linalg.norm(t)

        return quad_vec(rates, 0.0, half, epsabs=1e-12, epsrel=1e-13)[0]

    h = brentq(lambda h: reach(h)[0] - 0.5 * SPAN, 1.0, 1e5, xtol=1e-10, rtol=1e-14)
    return reach(h), np.linalg.norm(pull(h, 0.0))


for name, wind, force in [
    ("still air", 0.0, (0.0, -RING * G)),
    ("standing", WIND, (0.0, -RING * G)),
    ("jumper at the ring", WIND, (DRAG, -(RING + JUMPER) * G)),
]:
    ring, tension = standing(force, wind)
    print(f"{name}: ring {ring[0]:.9f} {ring[1]:.9f} {ring[2]:.9f} m, tension at the anchors {tension:.9f} N")
    if wind == 0.0:
        print(f"  from the anchor to the ring {np.linalg.norm(ring):.9f} m")
