"""A fall on a leash from a tensioned line."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["leash_fall"]


def leash_fall(fall: Mapping[str, Any], /) -> Result:
    """Catch a walker on a leash from a line, by energy of leash and line together.

    `fall` has `line` as in `line.solve_chain`, `at`, `mass`, `leash`, `leash_stretch`,
    `tie_in_above` and optionally `body_below`.

    >>> piece = {"rest_length": "99 m", "weight": "0.7 N/m", "stretch": {"axial_rigidity": "100 kN"}}
    >>> line = {"near": ["0 m"] * 3, "far": ["100 m", "0 m", "0 m"], "pieces": [piece]}
    >>> caught = leash_fall({"line": line, "at": "49.5 m", "mass": "80 kg", "leash": "5 m",
    ...                      "leash_stretch": {"axial_rigidity": "30 kN"}, "tie_in_above": "1 m"})
    >>> caught.tension_near > caught.standing_tension_near
    True
    """
    return call("fall.leash_fall", fall)
