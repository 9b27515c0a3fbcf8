"""Questions turned round, and many jumps."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = [
    "envelope",
    "exits_that_clear",
    "highest_exit_for_peak",
    "rope_length_for_lowest",
    "wind_sweep",
]


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
