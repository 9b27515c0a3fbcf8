"""Legs to a master point, the loss of a leg, and the factors of leg angles."""

from collections.abc import Mapping
from typing import Any

from .._native import Quantity, call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["equilibrium", "lose_leg", "sling_factor", "v_angle_factor"]


def equilibrium(anchor: Mapping[str, Any], /) -> Result:
    """Rest of a free master point: its position, tension and share of each leg.

    `anchor` has `legs` and the `pull` (x, y, z). A leg has `name`, `fixing` (x, y, z),
    `rest_length`, `stiffness` or `axial_rigidity`, and may give its `strength`.

    >>> legs = [
    ...     {"name": n, "fixing": ["0 m", "0 m", r], "rest_length": r, "axial_rigidity": "20 kN"}
    ...     for n, r in [("a", "0.5 m"), ("b", "1 m"), ("c", "1 m")]
    ... ]
    >>> rest = equilibrium({"legs": legs, "pull": ["0 N", "0 N", "-2 kN"]})
    >>> [leg.share.show("%", 1) for leg in rest.legs]
    ['50.0 %', '25.0 %', '25.0 %']
    """
    return call("anchor.equilibrium", anchor)


def lose_leg(*, anchor: Mapping[str, Any], leg: str, effective_mass: QuantityLike) -> Result:
    """Cuts a leg: new rest, extension, energy released, and the peaks of the legs that are left.

    `anchor` has the `legs` and the `pull` of `equilibrium`.

    >>> leg = {"fixing": ["0 m", "0 m", "1 m"], "rest_length": "1 m", "stiffness": "100 kN/m"}
    >>> legs = [{"name": "a", **leg}, {"name": "b", **leg}]
    >>> anchor = {"legs": legs, "pull": ["0 N", "0 N", "-1 kN"]}
    >>> lose_leg(anchor=anchor, leg="b", effective_mass="5 kg").peaks[0].tension.show("kN", 2)
    '1.50 kN'
    """
    arguments = {"anchor": anchor, "leg": leg, "effective_mass": effective_mass}
    return call("anchor.lose_leg", arguments)


def v_angle_factor(*, v_angle: QuantityLike) -> Quantity:
    """Tension of each of two equal legs over the pull, for the angle between them.

    >>> v_angle_factor(v_angle="120 deg").show("1", 3)
    '1.000'
    """
    return call("anchor.v_angle_factor", {"v_angle": v_angle})


def sling_factor(*, angle: QuantityLike) -> Quantity:
    """Tension of a sling leg over the vertical load on it, for its angle above the horizontal.

    >>> sling_factor(angle="30 deg").show("1", 3)
    '2.000'
    """
    return call("anchor.sling_factor", {"angle": angle})
