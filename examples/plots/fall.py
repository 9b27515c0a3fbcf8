"""Draws the plots of the page of damped falls: force against time on one rope with what may soften it, and
the peaks of falls one after the other.

Needs the project's Python package and matplotlib. Run it from the root of the repository; it writes
crates/tautwork/src/fall/damped/plots/*.svg.
"""

from pathlib import Path

import matplotlib
import numpy as np

matplotlib.use("svg")
import matplotlib.pyplot as plt  # noqa: E402

from tautwork import fall  # noqa: E402

HERE = Path(__file__).resolve().parents[2] / "crates/tautwork/src/fall/damped/plots"

plt.rcParams |= {
    "figure.figsize": (4.8, 3.3),
    "figure.constrained_layout.use": True,
    "font.size": 12,
    "axes.grid": True,
    "grid.alpha": 0.3,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "svg.fonttype": "none",
    "svg.hashsalt": "fall",
    "savefig.facecolor": "white",
}

# 11 mm dynamic: 8 % static elongation and 8.6 kN in the drop of EN 892 give 9.2 kN that last and an arm
# of 12.7 kN; 0.2 s of relaxation is common practice, no source.
ROPE = {
    "mass": "80 kg",
    "height": "5 m",
    "rope": "10 m",
    "stretch": {"axial_rigidity": "9.2 kN"},
    "damping": {"standard_linear": {"arm": "12.7 kN", "relaxation_time": "0.2 s"}},
    "duration": "4 s",
    "samples": 1201,
}


def force() -> None:
    cases = {
        "lasting stretch only": ("--", {"damping": "none"}),
        "damped": ("-", {}),
        "absorber of 2.5 kN": ("-.", {"slips": [{"force": "2.5 kN", "travel": "1.75 m"}]}),
        "soft body": (
            ":",
            {"body": {"share": 0.5, "stiffness": "15 kN/m", "damping": "400 N·s/m"}},
        ),
    }
    figure, axes = plt.subplots()
    for label, (style, change) in cases.items():
        series = fall.arrest_damped(ROPE | change).series
        axes.plot(series.t_s, np.asarray(series.force_n) / 1e3, style, label=label, lw=2)
    axes.set(xlabel="time after letting go, s", ylabel="force, kN", xlim=(0.9, 4))
    axes.legend(frameon=False, ncols=2, loc="lower center", bbox_to_anchor=(0.5, 1.0), fontsize=11)
    save(figure, "force")


def repeated() -> None:
    figure, axes = plt.subplots()
    slow = {"standard_linear": {"arm": "12.7 kN", "relaxation_time": "1 s"}}
    for style, between in (("o-", "0.2 s"), ("s--", "1 s"), ("^:", "60 s")):
        falls = fall.arrest_repeated(
            {"fall": ROPE | {"damping": slow}, "falls": 5, "between": between}
        )
        peaks = [one.arrest.impact_force.to("kN") for one in falls]
        axes.plot(range(1, 6), peaks, style, label=f"{between} between", lw=2)
    axes.set(xlabel="fall", ylabel="peak force, kN", xticks=range(1, 6))
    axes.legend(frameon=False)
    save(figure, "repeated")


def save(figure, name: str) -> None:
    figure.savefig(HERE / f"{name}.svg", metadata={"Date": None})
    plt.close(figure)


force()
repeated()
