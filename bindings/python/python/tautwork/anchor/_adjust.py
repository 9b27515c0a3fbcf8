"""Self-adjusting anchors: one loop of cordage through points and the master connector."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["adjusted_cone", "adjusted_loss", "adjusted_rest"]


def adjusted_rest(anchor: Mapping[str, Any], /) -> Result:
    """How the loop shares a pull: evenly without friction, and the band that friction allows.

    `anchor` has two to four `points` (`name`, `position`, and may have a `limiter`: length of each
    strand to its knot), `loop_length`, `axial_rigidity`, whether the master is `captive`, the
    `pull`, and may have the `strength` of a strand, `friction_at_points` and `friction_at_master`.

    >>> anchor = {
    ...     "points": [
    ...         {"name": "left", "position": ["0 m", "0 m", "0 m"]},
    ...         {"name": "right", "position": ["0 m", "0 m", "-0.2 m"]},
    ...     ],
    ...     "loop_length": "3 m",
    ...     "axial_rigidity": "50 kN",
    ...     "friction_at_master": {"law": "fixed", "efficiency": 0.5},
    ...     "captive": True,
    ...     "pull": ["0 N", "0 N", "-3 kN"],
    ... }
    >>> left = adjusted_rest(anchor).points[0]
    >>> [share.show("%", 1) for share in [left.share_low, left.share, left.share_high]]
    ['33.3 %', '50.0 %', '66.7 %']
    """
    return call("anchor.adjusted_rest", anchor)


def adjusted_cone(cone: Mapping[str, Any], /) -> Result:
    """How master point and shares move when the pull swings over a cone.

    `cone` has the `anchor` with the pull in its middle, the `half_angle`, and how many `rings` and
    directions `around` are tried.

    >>> anchor = {
    ...     "points": [
    ...         {"name": "left", "position": ["-0.3 m", "0 m", "0 m"]},
    ...         {"name": "right", "position": ["0.3 m", "0 m", "0 m"]},
    ...     ],
    ...     "loop_length": "2 m",
    ...     "axial_rigidity": "1000 MN",
    ...     "captive": True,
    ...     "pull": ["0 N", "0 N", "-3 kN"],
    ... }
    >>> cone = {"anchor": anchor, "half_angle": "20 deg", "rings": 1, "around": 4}
    >>> adjusted_cone(cone).z_m[:1].round(3).tolist()
    [-0.4]
    """
    return call("anchor.adjusted_cone", cone)


def adjusted_loss(
    *, anchor: Mapping[str, Any], point: str, effective_mass: QuantityLike
) -> Result:
    """Takes a point away: drop, energy and peaks, with the limiter knots and without.

    `anchor` is that of `adjusted_rest`.

    >>> anchor = {
    ...     "points": [
    ...         {"name": "left", "position": ["-0.3 m", "0 m", "0 m"], "limiter": "0.4 m"},
    ...         {"name": "right", "position": ["0.3 m", "0 m", "0 m"], "limiter": "0.4 m"},
    ...     ],
    ...     "loop_length": "2 m",
    ...     "axial_rigidity": "1000 MN",
    ...     "captive": True,
    ...     "pull": ["0 N", "0 N", "-3 kN"],
    ... }
    >>> loss = adjusted_loss(anchor=anchor, point="left", effective_mass="5 kg")
    >>> [d.drop.extension.show("m", 2) for d in [loss.with_knots, loss.without_knots]]
    ['0.20 m', '0.60 m']
    """
    arguments = {"anchor": anchor, "point": point, "effective_mass": effective_mass}
    return call("anchor.adjusted_loss", arguments)
