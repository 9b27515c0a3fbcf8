"""Draws the plots of the page of lines: the profile of a loaded line, its tension, and how four lines at
a ring begin to carry.

Needs the project's Python package and matplotlib. Run it from the root of the repository; it writes
crates/tautwork/src/line/plots/*.svg.
"""

from pathlib import Path

import matplotlib
import numpy as np

matplotlib.use("svg")
import matplotlib.pyplot as plt  # noqa: E402

from tautwork import line  # noqa: E402

HERE = Path(__file__).resolve().parents[2] / "crates/tautwork/src/line/plots"
GRAVITY = 9.81

plt.rcParams |= {
    "figure.figsize": (4.8, 3.3),
    "figure.constrained_layout.use": True,
    "font.size": 12,
    "axes.grid": True,
    "grid.alpha": 0.3,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "svg.fonttype": "none",
    "svg.hashsalt": "line",
    "savefig.facecolor": "white",
}

# Kestrel Gap: the main line of the demo rig, 130 m across, the far anchor 3 m lower.
NEAR, FAR = ["0 m", "0 m", "0 m"], ["130 m", "0 m", "-3 m"]
MAIN = {
    "rest_length": "127.74 m",
    "weight": f"{0.068 * GRAVITY} N/m",
    "stretch": {"elongation": "4 %", "at": "10 kN"},
}
LOADS = {"empty": 0.0, "82 kg at 40 m": 82 * GRAVITY}


def chain(load_n: float):
    loads = [{"at": "40 m", "force": ["0 N", "0 N", f"{-load_n} N"]}]
    return line.solve_chain(
        {"near": NEAR, "far": FAR, "pieces": [MAIN], "loads": loads, "samples": 201}
    )


def along(name: str, ylabel: str, column) -> None:
    figure, axes = plt.subplots()
    for style, (label, load_n) in zip(("--", "-"), LOADS.items()):
        profile = chain(load_n).profile
        axes.plot(profile.x_m, column(profile), style, label=label, lw=2)
    axes.set(xlabel="distance from the near anchor, m", ylabel=ylabel)
    axes.legend(frameon=False)
    save(figure, name)


def engagement() -> None:
    rows = {
        "main": (128.07, 0.068, "4 %", "10 kN"),
        "backup": (132.4, 0.060, "7.1 %", "10 kN"),
        "rope 1": (133.2, 0.072, "3.3 %", "981 N"),
        "rope 2": (133.8, 0.072, "3.3 %", "981 N"),
    }
    lines = [
        {
            "name": name,
            "near": NEAR,
            "far": FAR,
            "near_length": f"{rest / 2} m",
            "far_length": f"{rest / 2} m",
            "weight": f"{mass * GRAVITY} N/m",
            "stretch": {"elongation": strain, "at": at},
        }
        for name, (rest, mass, strain, at) in rows.items()
    ]
    load_n = np.linspace(100.0, 10_000.0, 100)
    loads = [["0 N", "0 N", f"{-n} N"] for n in load_n]
    swept = line.sweep_bundle(lines=lines, loads=loads)
    begins = line.bundle_engagement(lines=lines, up_to="10 kN")
    figure, axes = plt.subplots()
    for i, (name, style) in enumerate(zip(rows, ("-", "--", "-.", ":"))):
        tension_kn = [step.lines[i].tension_near.to("kN") for step in swept]
        (curve,) = axes.plot(load_n / 1e3, tension_kn, style, label=name, lw=2)
        at = begins[i].load
        if at is not None and at.to("kN") > 0:
            here = at.to("kN")
            axes.plot(here, np.interp(here, load_n / 1e3, tension_kn), "o", color=curve.get_color())
    axes.set_yscale("log")
    axes.set(xlabel="load on the ring, kN", ylabel="tension at the near anchor, kN")
    axes.legend(frameon=False, ncols=2, loc="lower center", bbox_to_anchor=(0.5, 1.0), fontsize=11)
    save(figure, "engagement")


def save(figure, name: str) -> None:
    figure.savefig(HERE / f"{name}.svg", metadata={"Date": None})
    plt.close(figure)


along("profile", "height, m", lambda p: p.z_m)
along("tension", "tension, kN", lambda p: p.tension_n / 1e3)
engagement()
