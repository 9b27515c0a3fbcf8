"""Rope around what does not turn."""

from collections.abc import Mapping
from typing import Any

from .._native import Quantity, call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = ["capstan_hold", "capstan_ratio", "implied_mu", "over_edges"]


def capstan_ratio(*, mu: RatioLike, wrap: QuantityLike) -> Quantity:
    """Ratio of the tensions on both sides of a bar when the rope is about to slide.

    >>> capstan_ratio(mu=0.5, wrap="1 turn").show("1", 2)
    '23.14'
    """
    return call("pulley.capstan_ratio", {"mu": mu, "wrap": wrap})


def capstan_hold(*, load: QuantityLike, mu: RatioLike, wrap: QuantityLike) -> Result:
    """Least and greatest force on the free side that hold a load over a bar.

    >>> capstan_hold(load="981 N", mu=0.3, wrap="90 deg").low.show("N", 0)
    '612 N'
    """
    return call("pulley.capstan_hold", {"load": load, "mu": mu, "wrap": wrap})


def implied_mu(*, ratio: RatioLike, wrap: QuantityLike) -> Quantity:
    """Friction that a measured tension ratio implies, the inverse of `capstan_ratio`.

    >>> implied_mu(ratio=50, wrap="2 turns").show("1", 3)
    '0.311'
    """
    return call("pulley.implied_mu", {"ratio": ratio, "wrap": wrap})


def over_edges(rope: Mapping[str, Any], /) -> Result:
    """What holds and raises a load by a rope over edges in space, what each edge carries, heat per metre.

    `rope` has the `load`, the places `from` and `to`, and `edges` with `name`, `at`, `friction` and optionally whole
    `turns`.

    >>> bar = {"name": "bar", "at": ["0 m", "0 m", "0 m"], "friction": {"law": "capstan", "mu": 0.3}}
    >>> rope = {"load": "981 N", "from": ["0 m", "0 m", "-10 m"], "edges": [bar], "to": ["5 m", "0 m", "0 m"]}
    >>> hold = over_edges(rope).hold
    >>> hold.low.show("N", 0), hold.high.show("N", 0)
    ('612 N', '1572 N')
    """
    return call("pulley.over_edges", rope)
