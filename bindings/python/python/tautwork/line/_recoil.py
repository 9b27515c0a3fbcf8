"""A line that breaks."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["recoil"]


def recoil(line: Mapping[str, Any], /) -> Result:
    """Energy, speed and reach of a line that breaks under tension.

    >>> line = {"tension": "10 kN", "rest_length": "100 m", "linear_density": "64 g/m"}
    >>> recoil({**line, "stretch": {"axial_rigidity": "250 kN"}}).energy.show("kJ", 1)
    '20.0 kJ'
    """
    return call("line.recoil", line)
