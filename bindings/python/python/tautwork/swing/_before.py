"""Before the jump: the loop of rope, and falls that are not the jump."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["step_off", "waiting"]


def waiting(jump: Mapping[str, Any], /) -> Result:
    """What the loops of rope do to the jumper who waits at the exit.

    `jump` as in `fly`. The answer has the `pull` on the harness, its `level_pull`, the `friction_needed`
    under the feet, the loop of each rope with its lowest point as arrays, and `clearances` to the walls.

    >>> at = lambda x: {"x": x, "z": "0 m"}
    >>> rope = {"name": "rope", "rest_length": "24.1882 m", "linear_density": "509.68 g/m",
    ...         "response": {"model": "pair", "stiff": "1e6 kN", "soft": "1e6 kN"}}
    >>> still = waiting({"mass": "80 kg", "drag_area": "0 m²", "exit": at("20 m"),
    ...                  "fixed_ring": at("0 m"), "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s",
    ...                  "ropes": [rope], "ring_mass": "0 kg", "body_radius": "1 m"})
    >>> still.level_pull.show("N", 1)
    '45.9 N'
    """
    return call("swing.waiting", jump)


def step_off(*, jump: Mapping[str, Any], tether: Mapping[str, Any] | None = None) -> Result:
    """What happens if the jumper leaves the edge without the run: early, and on a tether.

    `jump` as in `fly`; `tether` has its `anchor` and a `rope` as in the jump. The answer has the flight
    `early` and, on the tether, `tethered` with its `flight` and the `least_slack` of the jump ropes.
    """
    return call("swing.step_off", {"jump": jump, "tether": tether})
