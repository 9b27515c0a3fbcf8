"""Lines and ropes as rows of masses."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["fly_full"]


def fly_full(*, jump: Mapping[str, Any], mesh: Mapping[str, Any]) -> Result:
    """Follow a jump with lines and ropes as rows of masses: waves and snap loads are in it.

    `jump` as in `fly`. `mesh` may have `nodes_per_line`, `nodes_per_rope`, `step_share`, `drift`,
    `most_steps`, `rope_drag_width`, `line_drag_width`, `line_losses` and `slides`, the lines that run
    through the ring: `{"line": ..., "friction": ...}` with stops `from` and `to`; `{}` takes all as they
    come. The series of the answer are NumPy arrays.

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
