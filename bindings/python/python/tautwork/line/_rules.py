"""Rules of thumb beside the exact solution."""

from collections.abc import Mapping
from typing import Any

import numpy.typing as npt

from .._native import call
from .._series import plain
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["rules_chart", "rules_of_thumb"]


def rules_of_thumb(*, line: Mapping[str, Any] | Result, load: QuantityLike) -> list[Result]:
    """What riggers' rules say for a line with a load tied to its middle, what is so, and the error.

    >>> webbing = {
    ...     "span": "130 m",
    ...     "rise": "0 m",
    ...     "rest_length": "127.7 m",
    ...     "weight": "0.667 N/m",
    ...     "stretch": {"axial_rigidity": "250 kN"},
    ... }
    >>> rules = rules_of_thumb(line=webbing, load="800 N")
    >>> [(r.name, r.error.show("%", 1)) for r in rules if r.name == "tension_from_angle"]
    [('tension_from_angle', '-5.1 %')]
    """
    return call("line.rules_of_thumb", {"line": line, "load": load})


def rules_chart(
    *, line: Mapping[str, Any] | Result, standing_n: npt.ArrayLike, load_n: npt.ArrayLike
) -> Result:
    """`rules_of_thumb` over standing tensions and loads: one array of errors for each rule.

    >>> webbing = {
    ...     "span": "130 m",
    ...     "rise": "0 m",
    ...     "rest_length": "127.7 m",
    ...     "weight": "0.667 N/m",
    ...     "stretch": {"axial_rigidity": "250 kN"},
    ... }
    >>> chart = rules_chart(line=webbing, standing_n=[2e3, 8e3], load_n=[100.0, 800.0])
    >>> len(chart.rules)
    8
    """
    return call(
        "line.rules_chart", {"line": line, "standing_n": plain(standing_n), "load_n": plain(load_n)}
    )
