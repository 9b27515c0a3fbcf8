"""Rated strength, and what knots, bends, splices, sewn ends, water and age leave of it."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = [
    "derated",
    "knot_factors",
    "rated_strength",
    "strength_factors",
    "strength_left",
    "wire_rope_bend",
]


def derated(
    *,
    breaking_strength: QuantityLike,
    at_place: Sequence[Mapping[str, Any] | Result],
    everywhere: Sequence[Mapping[str, Any] | Result],
) -> Result:
    """Strength left at one place: breaking strength times the factors that act there.

    A factor is a mapping of `kind`, `name`, `low`, `high` and `source`.

    >>> eight = knot_factors()[0]
    >>> derated(breaking_strength="22 kN", at_place=[eight], everywhere=[]).low.show("kN", 1)
    '14.5 kN'
    """
    return call(
        "material.derated",
        {"breaking_strength": breaking_strength, "at_place": at_place, "everywhere": everywhere},
    )


def knot_factors() -> list[Result]:
    """Published fractions of the strength that knots leave, as ranges with their sources.

    >>> knot_factors()[0].name
    'figure-eight loop'
    """
    return call("material.knot_factors", {})


def strength_factors() -> list[Result]:
    """Factors of knots, splices, sewn ends, water, age and bends, as ranges with their sources.

    >>> next(factor for factor in strength_factors() if factor.kind == "sewn").source
    'common practice, no source'
    """
    return call("material.strength_factors", {})


def wire_rope_bend(*, bend_ratio: RatioLike) -> Result:
    """What a bend leaves of wire rope, for the diameter of the bend over that of the rope.

    >>> wire_rope_bend(bend_ratio=1.5).low.show("%", 1)
    '57.5 %'
    """
    return call("material.wire_rope_bend", {"bend_ratio": bend_ratio})


def rated_strength(rating: Mapping[str, Any], /) -> Result:
    """The breaking strength that a rating stands for, as a range.

    `rating` has one of the keys `minimum` (with `strength`), `three_sigma` (`mean`, `deviation`),
    `working_load_limit` (`limit`, `factor`).

    >>> strength = rated_strength({"three_sigma": {"mean": "25 kN", "deviation": "1 kN"}})
    >>> strength.low.show("kN", 0), strength.high.show("kN", 0)
    ('22 kN', '28 kN')
    """
    return call("material.rated_strength", rating)


def strength_left(case: Mapping[str, Any], /) -> Result:
    """What is left of a rated strength at one place, with the sources of its factors.

    `case` has the `rating` of `rated_strength`, and may have factors `at_place` and `everywhere`.

    >>> rating = {"working_load_limit": {"limit": "4 kN", "factor": 5}}
    >>> left = strength_left({"rating": rating, "at_place": [knot_factors()[0]]})
    >>> left.low.show("kN", 1), left.high.show("kN", 1)
    ('13.2 kN', '16.0 kN')
    """
    return call("material.strength_left", case)
