"""Pictures of systems."""

from collections.abc import Mapping
from typing import Any, Literal

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["diagram"]


def diagram(
    *,
    system: Result | Mapping[str, Any],
    load: QuantityLike,
    shown: Literal["raising", "lowering", "held"],
) -> str:
    """A picture of a system as SVG: every rope part with its force, every body with what it carries.

    >>> from tautwork.pulley import ordinary
    >>> z = ordinary(system="three_to_one", friction={"law": "fixed", "efficiency": 0.83})
    >>> diagram(system=z, load="1 kN", shown="raising")[:4]
    '<svg'
    """
    return call("pulley.diagram", {"system": system, "load": load, "shown": shown})
