"""One jump, and both ends of its ropes' stretch."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["fly", "outlook"]


def fly(jump: Mapping[str, Any], /) -> Result:
    """Follow a jump with the ropes of one run, stiff or soft, over its whole history.

    `jump` has `mass`, `drag_area`, `exit`, `exit_speed_x`, `exit_speed_z`, `ropes`, `ring_mass`,
    `body_radius`, and `lines` or a `fixed_ring`; optionally `body_length` of a capsule, `stops` of the ring,
    `walls` (profiles or meshes), `wind`, `wind_y`, `fold` (`"neglected"`, `"conservative"`, `"dissipative"`),
    `faults`, `follow` and more: see the theory page of `swing`. A fault is `{"part": {"kind": "rope", "name": ...}, "when": {"kind": "body_peak"}}`;
    other parts are `line`, `near_anchor`, `far_anchor` and `stop`, other times `part_peak` and
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


def outlook(jump: Mapping[str, Any], /) -> Result:
    """Run a jump with stiff and with soft ropes and take each limit from the right run.

    `jump` as in `fly`; the answer has `stiff` and `soft`, `body_force`, `lowest`, `clearances` and
    more, each with the run that gave it.
    """
    return call("swing.outlook", jump)
