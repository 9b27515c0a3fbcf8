"""Limits of published standards, and ratings that cannot be right."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["gear_limits", "rating_check"]


def gear_limits() -> list[Result]:
    """Limits of published standards, each with its edition and how sure the record is.

    >>> sling = next(limit for limit in gear_limits() if limit.key == "en566")
    >>> sling.force.show("kN", 0), sling.certainty
    ('22 kN', 'memory')
    """
    return call("material.gear_limits", {})


def rating_check(rating: Mapping[str, Any], /) -> Result:
    """Whether the rating of a piece of gear is plausible for its kind.

    `rating` has `kind` and `strength`, and may name one `limit`; accessory cord may have a
    `diameter`. No findings are no permission.

    >>> check = rating_check({"kind": "sewn_sling", "strength": "22 kgf"})
    >>> [finding.rule for finding in check.findings]
    ['below_minimum', 'unit_slip']
    >>> check.findings[1].would_be.show("kN", 0)
    '22 kN'
    """
    return call("material.rating_check", rating)
