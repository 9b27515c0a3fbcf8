"""How hard a rope stops a fall: on any stretch, on a span, over an edge."""

from collections.abc import Mapping
from typing import Any, Literal

from .._native import Quantity, call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = [
    "arrest",
    "arrest_over_edge",
    "en892_checks",
    "fall_factor",
    "impact_force",
    "implied_axial_rigidity",
    "series_stiffness",
]


def arrest(fall: Mapping[str, Any], /) -> Result:
    """Stop a fall by energy balance on any stretch, with or without a span that gives.

    `fall` has `mass`, `height`, `rope`, `stretch` and optionally `span_stiffness`.

    >>> stopped = arrest({"mass": "80 kg", "height": "0 m", "rope": "10 m",
    ...                   "stretch": {"axial_rigidity": "20 kN"}})
    >>> stopped.impact_force.show("N", 1)
    '1569.6 N'
    """
    return call("fall.arrest", fall)


def arrest_over_edge(*, fall: Mapping[str, Any], edge: Mapping[str, Any]) -> Result:
    """Stop a fall over an edge: `frictionless` and `full_friction`, the truth lies between.

    `fall` as in `arrest`, its rope up to the edge; `edge` has `belay_rope`, `wrap` and `mu`.
    """
    return call("fall.arrest_over_edge", {"fall": fall, "edge": edge})


def en892_checks(
    *, class_: Literal["single", "half", "twin"], figures: Mapping[str, Any]
) -> list[Result]:
    """Check the figures of a dynamic rope against the limits of EN 892.

    `figures` may have `impact_force`, `static_elongation` and `dynamic_elongation`.

    >>> en892_checks(class_="half", figures={"impact_force": "8.6 kN"})[0].within
    False
    """
    return call("fall.en892_checks", {"class": class_, "figures": figures})


def fall_factor(*, height: QuantityLike, rope: QuantityLike) -> Quantity:
    """Fall factor: height fallen over rest length of rope.

    >>> fall_factor(height="4.8 m", rope="2.4 m")
    Quantity("2")
    """
    return call("fall.fall_factor", {"height": height, "rope": rope})


def impact_force(
    *, mass: QuantityLike, fall_factor: RatioLike, axial_rigidity: QuantityLike
) -> Quantity:
    """Peak tension at a rigid mass that a linear rope stops.

    >>> impact_force(mass="80 kg", fall_factor=1.77, axial_rigidity="24.07 kN").show("kN", 2)
    '9.00 kN'
    """
    return call(
        "fall.impact_force",
        {"mass": mass, "fall_factor": fall_factor, "axial_rigidity": axial_rigidity},
    )


def implied_axial_rigidity(
    *, mass: QuantityLike, fall_factor: RatioLike, impact_force: QuantityLike
) -> Quantity:
    """Axial rigidity that a rated impact force implies, the inverse of `impact_force`.

    >>> implied_axial_rigidity(mass="80 kg", fall_factor=1.77, impact_force="9 kN").show("kN", 2)
    '24.07 kN'
    """
    return call(
        "fall.implied_axial_rigidity",
        {"mass": mass, "fall_factor": fall_factor, "impact_force": impact_force},
    )


def series_stiffness(*, rope: QuantityLike, span: QuantityLike) -> Quantity:
    """Stiffness of a rope and a span one after the other.

    >>> series_stiffness(rope="3 kN/m", span="6 kN/m").to("kN/m")
    2.0
    """
    return call("fall.series_stiffness", {"rope": rope, "span": span})
