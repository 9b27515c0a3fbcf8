"""Pictures of a jump: path and force, and an animation. Needs matplotlib."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from ._native import Quantity
from .result import Result

if TYPE_CHECKING:
    from matplotlib.animation import FuncAnimation
    from matplotlib.figure import Figure

__all__ = ["animate", "plot"]


def plot(flights: Mapping[str, Result]) -> Figure:
    """Path from the side, path from above and force against time of flights, each with a name.

    Takes answers of `swing.fly` and `swing.fly_full`. The view from above is left out for flights that stay
    in the plane of the span.

    >>> still = {"x": "0 m", "z": "0 m"}
    >>> rope = {"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
    ...         "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}
    >>> from tautwork import swing
    >>> flight = swing.fly({"mass": "80 kg", "drag_area": "0 m²", "exit": still, "fixed_ring": still,
    ...                     "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ropes": [rope],
    ...                     "ring_mass": "0 kg", "body_radius": "1 m", "follow": {"horizon": "4 s"}})
    >>> [axes.get_ylabel() for axes in plot({"drop": flight}).axes]
    ['z up, m', 'force on the body, kN']
    """
    from matplotlib.figure import Figure

    aside = any(np.ptp(flight.series.y_m) > 0.01 for flight in flights.values())
    figure = Figure(figsize=(8, 11 if aside else 8), layout="constrained")
    rows = figure.subplots(3 if aside else 2, 1)
    path, force = rows[0], rows[-1]
    for name, flight in flights.items():
        series = flight.series
        (line,) = path.plot(series.x_m, series.z_m, linewidth=1.4, label=name)
        path.plot(series.ring_x_m, series.ring_z_m, color=line.get_color(), linewidth=0.8)
        force.plot(series.t_s, series.resultant_n / 1e3, linewidth=1.4, label=name)
        if aside:
            rows[1].plot(series.x_m, series.y_m, linewidth=1.4)
    path.set(xlabel="x along the span, m", ylabel="z up, m", aspect="equal")
    if aside:
        rows[1].set(xlabel="x along the span, m", ylabel="y to the left, m", aspect="equal")
    force.set(xlabel="time since exit, s", ylabel="force on the body, kN")
    path.legend(fontsize="small")
    return figure


def animate(flight: Result, *, jump: Mapping[str, Any] | None = None, every: int = 1) -> FuncAnimation:
    """The flight from the side, as it happens: body, ring and ropes, drawn straight.

    With the `jump` of the flight its lines and walls are drawn too. Each `every`-th sample is a picture;
    the pictures last as long as they stand for. `animation.to_jshtml()` shows it in a notebook.

    >>> still = {"x": "0 m", "z": "0 m"}
    >>> rope = {"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
    ...         "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}
    >>> from tautwork import swing
    >>> flight = swing.fly({"mass": "80 kg", "drag_area": "0 m²", "exit": still, "fixed_ring": still,
    ...                     "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ropes": [rope],
    ...                     "ring_mass": "0 kg", "body_radius": "1 m", "follow": {"horizon": "1 s"}})
    >>> moving = animate(flight, every=5)
    >>> len(moving.to_jshtml()) > 1000
    True
    """
    from matplotlib.animation import FuncAnimation
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    series = flight.series
    figure = Figure(figsize=(8, 6), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.subplots()
    for wall in (jump or {}).get("walls", []):
        corners = [(_metres(point, "x"), _metres(point, "z")) for point in wall["points"]]
        axes.plot(*zip(*corners, strict=True), color="0.5", linewidth=2)
    lines = []
    for line in (jump or {}).get("lines", []):
        ends = [(_metres(line[end], "x"), _metres(line[end], "z")) for end in ("near", "far")]
        lines.append((ends, axes.plot([], [], color="tab:blue", linewidth=0.8)[0]))
    axes.plot(series.x_m, series.z_m, color="0.8", linewidth=0.8)
    (ropes,) = axes.plot([], [], color="tab:orange", linewidth=1.4)
    (body,) = axes.plot([], [], "o", color="tab:red")
    time = axes.text(0.98, 0.03, "", transform=axes.transAxes, horizontalalignment="right")
    axes.set(xlabel="x along the span, m", ylabel="z up, m", aspect="equal")

    def draw(frame: int) -> list[Any]:
        ring = (series.ring_x_m[frame], series.ring_z_m[frame])
        at = (series.x_m[frame], series.z_m[frame])
        ropes.set_data(*zip(ring, at, strict=True))
        body.set_data([at[0]], [at[1]])
        for (near, far), artist in lines:
            artist.set_data(*zip(near, ring, far, strict=True))
        force = series.resultant_n[frame] / 1e3
        time.set_text(f"{series.t_s[frame]:.2f} s, {force:.2f} kN")
        return [ropes, body, time, *(artist for _, artist in lines)]

    frames = range(0, len(series.t_s), every)
    spacing_ms = 1e3 * every * float(series.t_s[1] - series.t_s[0]) if len(series.t_s) > 1 else 100
    return FuncAnimation(figure, draw, frames=frames, interval=spacing_ms, blit=True)


def _metres(point: Mapping[str, Any], axis: str) -> float:
    value = point[axis]
    return (value if isinstance(value, Quantity) else Quantity(value)).to("m")
