"""Raised frames."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["frame_forces"]


def frame_forces(frame: Mapping[str, Any], /) -> Result:
    """Forces of a raised frame: legs that push, guys that pull, ropes that leave its head.

    `frame` has `head`, `legs`, and optionally `guys`, `ropes` and a `force`. Legs and guys have
    `name`, `foot` and `axial_rigidity`, ropes `name`, `towards` and `tension`.

    >>> leg = {"axial_rigidity": "10 MN"}
    >>> legs = [
    ...     {"name": "left", "foot": ["0 m", "3 m", "0 m"], **leg},
    ...     {"name": "right", "foot": ["0 m", "-3 m", "0 m"], **leg},
    ... ]
    >>> head, load = ["0 m", "0 m", "4 m"], ["0 N", "0 N", "-1600 N"]
    >>> frame_forces({"head": head, "legs": legs, "force": load}).legs[0].force.show("N", 1)
    '1000.0 N'
    """
    return call("anchor.frame_forces", frame)
