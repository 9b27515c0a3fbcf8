"""The work of benches/pulley.rs with NumPy: a dense solve for the tension of every part in each sense.

Prints one line for each benchmark: its name and the seconds one run takes.
"""

import math
import time

import numpy as np

ETA_180 = 0.9
W = 1000.0
# Bodies: height and, for those that move, a row of their own. Stops of both ropes of a 6:1 on a 5:1.
HEIGHT = {"anchor": 0.0, "load": -100.0, "hand": -1.0, "block": -99.0}
ROW = {"load": 0, "block": 1}
ROPES = [
    ["load", "anchor", "load", "anchor", "load", "block"],
    ["anchor", "block", "anchor", "block", "anchor", "block", "anchor", "hand"],
]


def axle(wrap):
    c = (1 - ETA_180) / (1 + ETA_180)
    s = math.sin(wrap / 2)
    return 1 / (1 + 2 * c * s * (c * s + math.sqrt(1 - c * c * (1 - s * s))) / (1 - c * c))


def ten_sheaves():
    # Direction of each part, its rope, and the growth of each rope by the travel of each body.
    parts, k, hand = [], np.zeros((2, 2)), np.zeros(2)
    for r, stops in enumerate(ROPES):
        for a, b in zip(stops, stops[1:]):
            up = 1.0 if HEIGHT[b] > HEIGHT[a] else -1.0
            parts.append((r, a, b, up))
            for body, sign in ((b, up), (a, -up)):
                if body in ROW:
                    k[r, ROW[body]] += sign
            if b == "hand":
                hand[r] += 1.0
    travel = np.linalg.solve(k, -hand)
    run = {"load": travel[0], "block": travel[1], "anchor": 0.0}
    n = len(parts)
    answers = []
    for sense in (0, 1, -1):
        a, rhs = np.zeros((n, n)), np.zeros(n)
        rhs[0] = W
        at = 2
        flow = 0.0
        for p, (r, start, end, up) in enumerate(parts):
            if start in ROW:
                a[ROW[start], p] += up
            if end in ROW:
                a[ROW[end], p] -= up
            if p + 1 < n and parts[p + 1][0] == r:
                grows = up * (run.get(end, 0.0) - run[start])
                flow = grows + (flow if p and parts[p - 1][0] == r else 0.0)
                wrap = math.acos(max(-1.0, min(1.0, up * parts[p + 1][3])))
                eta = axle(wrap)
                runs = -flow * sense
                ratio = 1.0 if runs == 0 else (1 / eta if runs > 0 else eta)
                a[at, p], a[at, p + 1] = ratio, -1.0
                at += 1
        tension = np.linalg.solve(a, rhs)
        on = {}
        for p, (_, start, end, up) in enumerate(parts):
            on[start] = on.get(start, 0.0) + up * tension[p]
            on[end] = on.get(end, 0.0) - up * tension[p]
        answers.append((tension, on))
    return travel, answers


def main():
    travel, answers = ten_sheaves()
    assert abs(1 / travel[0] - 30) < 1e-9, travel
    assert abs(answers[0][0][-1] - W / 30) < 1e-9
    # The factors of the reeving: sums of powers of the efficiency.
    e = ETA_180
    held = sum(e**i for i in range(5)) * e * sum(e**i for i in range(6))
    assert abs(answers[1][0][-1] - W / held) < 1e-9
    for _ in range(100):
        ten_sheaves()
    start, runs = time.perf_counter(), 0
    while time.perf_counter() - start < 1.0:
        ten_sheaves()
        runs += 1
    print(f"pulley/ten_sheaves {(time.perf_counter() - start) / runs}")


if __name__ == "__main__":
    main()
