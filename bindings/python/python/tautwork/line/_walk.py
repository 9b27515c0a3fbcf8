"""A load that stands or rolls on a line."""

from collections.abc import Mapping
from typing import Any, Literal

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["roll", "roll_rests", "stand", "walk_envelope"]


def stand(*, walk: Mapping[str, Any] | Result, place: Mapping[str, Any]) -> list[Result]:
    """The line with someone standing on it: the feet hold the line. One answer for each equilibrium.

    `walk` is a mapping of `near`, `far`, `pieces`, `loads` (as for `solve_chain`) and `weight`; `place`
    is `{"distance": "30 m"}` or `{"fraction": 0.5}`.

    >>> webbing = {
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["130 m", "0 m", "-3 m"],
    ...     "pieces": [
    ...         {
    ...             "rest_length": "127.74 m",
    ...             "weight": "0.667 N/m",
    ...             "stretch": {"axial_rigidity": "250 kN"},
    ...         }
    ...     ],
    ...     "weight": "804 N",
    ... }
    >>> middle = stand(walk=webbing, place={"fraction": 0.5})[0]
    >>> middle.below_chord.show("m", 2), middle.tension_near.show("kN", 2)
    ('5.20 m', '5.32 kN')
    """
    return call("line.stand", {"walk": walk, "place": place})


def roll(
    *, walk: Mapping[str, Any] | Result, place: Mapping[str, Any], friction: QuantityLike | float
) -> Result:
    """The line with a pulley on it, and the least and the largest force along the span that holds it."""
    return call("line.roll", {"walk": walk, "place": place, "friction": friction})


def roll_rests(
    *, walk: Mapping[str, Any] | Result, friction: QuantityLike | float
) -> list[Result]:
    """Where a pulley comes to rest by itself: a range for every place of balance."""
    return call("line.roll_rests", {"walk": walk, "friction": friction})


def walk_envelope(
    *, walk: Mapping[str, Any] | Result, mode: Literal["stands", "rolls"], count: int
) -> Result:
    """The line with the load at many places: arrays of its path, tensions and slopes."""
    return call("line.walk_envelope", {"walk": walk, "mode": mode, "count": count})
