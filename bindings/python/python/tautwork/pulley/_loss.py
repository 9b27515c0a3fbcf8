"""What a turn takes."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["sheave_loss"]


def sheave_loss(*, friction: Mapping[str, Any], wrap: QuantityLike) -> Result:
    """What a pulley, a bar, an edge or rollers take from a rope that turns by `wrap`.

    `friction` has a `law`: `fixed` with `efficiency`, `axle` with `efficiency_180`, `bearing` with `mu` and
    `radius_ratio`, `capstan` with `mu`, `groove` with `mu` and `angle`, `rollers` with `efficiency_180` and `count`.

    >>> pulley = {"law": "axle", "efficiency_180": 0.8}
    >>> sheave_loss(friction=pulley, wrap="180 deg").efficiency.show("1", 2)
    '0.80'
    >>> sheave_loss(friction=pulley, wrap="30 deg").efficiency.show("1", 3)
    '0.944'
    """
    return call("pulley.sheave_loss", {"friction": friction, "wrap": wrap})
