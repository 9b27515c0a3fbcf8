"""A chain anywhere along it, and wind on a line."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy.typing as npt

from .._native import Quantity, call
from .._series import plain
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["chain_at", "chain_at_x", "wind_load"]


def chain_at(*, chain: Mapping[str, Any] | Result, s_m: npt.ArrayLike) -> Result:
    """Position, tension, strain and slope of a chain at rest lengths from its near end.

    `chain` is what `solve_chain` takes. The answer has the arrays `s_m`, `x_m`, `y_m`, `z_m`,
    `tension_n`, `tension_x_n`, `tension_y_n`, `tension_z_n` (the vector towards the far end), `strain`
    and `slope_rad`. At a load or joint they are those on the side of the near end.

    >>> webbing = {
    ...     "rest_length": "127.74 m",
    ...     "weight": "0.667 N/m",
    ...     "stretch": {"axial_rigidity": "250 kN"},
    ... }
    >>> chain = {
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["130 m", "0 m", "-3 m"],
    ...     "pieces": [webbing],
    ... }
    >>> chain_at(chain=chain, s_m=[0.0, 60.0]).z_m.round(2).tolist()
    [0.0, -1.72]
    """
    return call("line.chain_at", {"chain": chain, "s_m": plain(s_m)})


def chain_at_x(*, chain: Mapping[str, Any] | Result, x_m: npt.ArrayLike) -> list[Result]:
    """`chain_at` at horizontal positions: for each x, all points of the chain there.

    A slack chain may pass the same x several times; beside the chain there are none.
    """
    return call("line.chain_at_x", {"chain": chain, "x_m": plain(x_m)})


def wind_load(*, gust: Mapping[str, Any], direction: Sequence[QuantityLike]) -> list[Quantity]:
    """Force of a gust on a line per rest length: only the part of the wind across the line acts.

    >>> gust = {
    ...     "drag_coefficient": 1.2,
    ...     "width": "10 mm",
    ...     "air_density": "1.25 kg/m3",
    ...     "velocity": ["0 m/s", "20 m/s", "0 m/s"],
    ... }
    >>> wind_load(gust=gust, direction=["100 m", "0 m", "0 m"])[1].show("N/m", 3)
    '3.000 N/m'
    """
    return call("line.wind_load", {"gust": gust, "direction": direction})
