"""What a rope, webbing or cord does under load: stretch, weight, condition.

A stretch is a mapping with one of the keys `axial_rigidity`, `elongation` with `at`, `table`,
`en892_static_elongation`, `en892_impact_force`, `en1891_elongation`.
"""

from collections.abc import Mapping
from typing import Any

from .._native import Quantity, call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = [
    "is_past_table",
    "rest_length_factor",
    "strain",
    "tangent_rigidity",
    "tension",
    "viscoelastic_from_en892",
    "weight",
]


def rest_length_factor(*, condition: Mapping[str, Any] | Result) -> Quantity:
    """Rest length now over the rest length before a change of temperature, water, creep and set.

    A condition is a mapping of `temperature_change`, `expansion`, `wet_change`, `creep` and
    `permanent_set`; what is left out has not changed.

    >>> wet = {"temperature_change": "20 K", "expansion": "100 ppm/K", "wet_change": "-1 %"}
    >>> rest_length_factor(condition=wet).show("1", 5)
    '0.99198'
    """
    return call("material.rest_length_factor", {"condition": condition})


def strain(*, stretch: Mapping[str, Any], tension: QuantityLike) -> Quantity:
    """Strain on the rest length at a tension.

    >>> strain(stretch={"axial_rigidity": "250 kN"}, tension="10 kN").to("%")
    4.0
    """
    return call("material.strain", {"stretch": stretch, "tension": tension})


def tension(*, stretch: Mapping[str, Any], strain: RatioLike) -> Quantity:
    """Tension at a strain, the inverse of `strain`.

    >>> tension(stretch={"en1891_elongation": "3.3 %"}, strain="3.3 %").show("N", 0)
    '981 N'
    """
    return call("material.tension", {"stretch": stretch, "strain": strain})


def tangent_rigidity(*, stretch: Mapping[str, Any], tension: QuantityLike) -> Quantity:
    """Axial rigidity for a small change about a tension.

    >>> table = {"table": [["2 kN", "1.2 %"], ["10 kN", "4 %"]]}
    >>> tangent_rigidity(stretch=table, tension="11 kN").show("kN", 1)
    '285.7 kN'
    """
    return call("material.tangent_rigidity", {"stretch": stretch, "tension": tension})


def is_past_table(*, stretch: Mapping[str, Any], tension: QuantityLike) -> bool:
    """Whether a tension is past the last point of a table, where the curve goes on straight.

    >>> is_past_table(stretch={"table": [["10 kN", "4 %"]]}, tension="11 kN")
    True
    """
    return call("material.is_past_table", {"stretch": stretch, "tension": tension})


def viscoelastic_from_en892(
    *, static_elongation: RatioLike, impact_force: QuantityLike, relaxation_time: QuantityLike
) -> Result:
    """Standard linear solid of a dynamic rope from its two EN 892 figures.

    >>> rope = viscoelastic_from_en892(
    ...     static_elongation="8 %", impact_force="8.6 kN", relaxation_time="0.1 s"
    ... )
    >>> rope.long_term.show("kN", 1)
    '9.2 kN'
    """
    return call(
        "material.viscoelastic_from_en892",
        {
            "static_elongation": static_elongation,
            "impact_force": impact_force,
            "relaxation_time": relaxation_time,
        },
    )


def weight(*, cordage: Mapping[str, Any]) -> Quantity:
    """Weight per rest length of cordage.

    >>> rope = {
    ...     "name": "11 mm low stretch",
    ...     "linear_density": "72 g/m",
    ...     "stretch": {"en1891_elongation": "3.3 %"},
    ...     "breaking_strength": "27 kN",
    ... }
    >>> weight(cordage=rope).show("N/m", 3)
    '0.706 N/m'
    """
    return call("material.weight", {"cordage": cordage})
