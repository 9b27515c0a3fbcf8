"""The jump, from the last step to rest: forces, path, clearances."""

from collections.abc import Mapping
from typing import Any

from ._native import call
from .quantity import QuantityLike
from .result import Result

__all__ = [
    "envelope",
    "exits_that_clear",
    "fly",
    "fly_full",
    "highest_exit_for_peak",
    "outlook",
    "rope_length_for_lowest",
    "wind_sweep",
]


def fly(jump: Mapping[str, Any], /) -> Result:
    """Follow a jump with the ropes of one run, stiff or soft, over its whole history.

    `jump` has `mass`, `drag_area`, `exit`, `exit_speed_x`, `exit_speed_z`, `ropes`, `ring_mass`,
    `body_radius`, and `lines` or a `fixed_ring`; optionally `stops` of the ring, `walls`, `wind`,
    `wind_y`, `fold` (`"neglected"`, `"conservative"`, `"dissipative"`), `faults`, `follow` and more: see
    the theory page of `swing`. A fault is `{"part": {"kind": "rope", "name": ...}, "when": {"kind": "body_peak"}}`;
    other parts are `line`, `near_anchor` and `far_anchor`, other times `part_peak` and
    `{"kind": "time", "at": ...}`.

    >>> still = {"x": "0 m", "z": "0 m"}
    >>> rope = {"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
    ...         "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}
    >>> flight = fly({"mass": "80 kg", "drag_area": "0 m²", "exit": still, "fixed_ring": still,
    ...               "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ropes": [rope],
    ...               "ring_mass": "0 kg", "body_radius": "1 m", "follow": {"horizon": "4 s"}})
    >>> flight.resultant.value.show("kN", 2)
    '6.44 kN'
    """
    return call("swing.fly", jump)


def fly_full(*, jump: Mapping[str, Any], mesh: Mapping[str, Any]) -> Result:
    """Follow a jump with lines and ropes as rows of masses: waves and snap loads are in it.

    `jump` as in `fly`. `mesh` may have `nodes_per_line`, `nodes_per_rope`, `step_share`, `drift`,
    `most_steps`, `rope_drag_width`, `line_drag_width`, `line_losses` and `slides`, the lines that run
    through the ring: `{"line": ..., "friction": ...}` with stops `from` and `to`; `{}` takes all as they
    come.
    The series of the answer are NumPy arrays.

    >>> still = {"x": "0 m", "z": "0 m"}
    >>> rope = {"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
    ...         "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}
    >>> jump = {"mass": "80 kg", "drag_area": "0 m²", "exit": still, "fixed_ring": still,
    ...         "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ropes": [rope],
    ...         "ring_mass": "0 kg", "body_radius": "1 m", "follow": {"horizon": "4 s"}}
    >>> flight = fly_full(jump=jump, mesh={})
    >>> flight.resultant.value.show("kN", 2)
    '6.44 kN'
    """
    return call("swing.fly_full", {"jump": jump, "mesh": mesh})


def outlook(jump: Mapping[str, Any], /) -> Result:
    """Run a jump with stiff and with soft ropes and take each limit from the right run.

    `jump` as in `fly`; the answer has `stiff` and `soft`, `body_force`, `lowest`, `clearances` and
    more, each with the run that gave it.
    """
    return call("swing.outlook", jump)


def rope_length_for_lowest(*, jump: Mapping[str, Any], lowest: QuantityLike) -> Result:
    """The ropes with which the lowest point of a jump is at a height: the same is added to each.

    >>> still = {"x": "0 m", "z": "0 m"}
    >>> rope = {"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
    ...         "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}
    >>> jump = {"mass": "80 kg", "drag_area": "0 m²", "exit": still, "fixed_ring": still,
    ...         "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ropes": [rope],
    ...         "ring_mass": "0 kg", "body_radius": "1 m", "follow": {"horizon": "4 s"}}
    >>> rope_length_for_lowest(jump=jump, lowest="-10 m").rest_lengths[0].show("m", 2)
    '7.56 m'
    """
    return call("swing.rope_length_for_lowest", {"jump": jump, "lowest": lowest})


def highest_exit_for_peak(*, jump: Mapping[str, Any], peak: QuantityLike) -> Result:
    """The highest exit, straight above or below, whose peak force on the body is at most `peak`."""
    return call("swing.highest_exit_for_peak", {"jump": jump, "peak": peak})


def exits_that_clear(
    *, jump: Mapping[str, Any], to: Mapping[str, Any], required: QuantityLike, count: int
) -> Result:
    """Where along a straight edge, from the exit to `to`, the clearance to every wall holds.

    `count` places are flown; `holds` lists the stretches, the arrays `clearance_m` and `peak_n` go with
    `x_m`, `y_m` and `z_m`.
    """
    given = {"jump": jump, "to": to, "required": required, "count": count}
    return call("swing.exits_that_clear", given)


def wind_sweep(*, jump: Mapping[str, Any], winds: Mapping[str, Any]) -> Result:
    """What winds of one direction do: drift, lowest point, peak, and the largest wind for each wall.

    `winds` has `most`, `count`, `along`, `left` and `required`.
    """
    return call("swing.wind_sweep", {"jump": jump, "winds": winds})


def envelope(*, jump: Mapping[str, Any], spread: Mapping[str, Any]) -> Result:
    """Fly a jump many times, each a little different.

    `spread` has `count`, `seed` and the half widths `mass`, `rope_stiffness`, `drag_area`,
    `exit_speed`, `wind` and `exit_y`. Arrays with one value for each jump, and bounds over time.
    """
    return call("swing.envelope", {"jump": jump, "spread": spread})
