"""Exact first derivatives of lines and chains."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["chain_derivatives", "elastic_derivatives"]


def elastic_derivatives(line: Mapping[str, Any] | Result, /) -> Result:
    """Exact derivatives of the figures of `solve_elastic` by every input.

    The answer has `tension_near`, `tension_far`, `h`, `sag_below_chord` and `stretched_length`, each with
    one number for each input, whose name ends with its unit. By the axial rigidity it is `None` for a
    curve; `by_strain_scale_n` and `by_strain_scale_m` are by a factor on the strain.

    >>> line = {
    ...     "span": "101 m",
    ...     "rise": "0 m",
    ...     "rest_length": "100 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "100 kN"},
    ... }
    >>> d = elastic_derivatives(line).tension_near
    >>> round(d.by_span_n_per_m, 6), round(d.by_rest_length_n_per_m, 6)
    (1000.0, -1010.0)
    """
    return call("line.elastic_derivatives", line)


def chain_derivatives(chain: Mapping[str, Any] | Result, /) -> Result:
    """Exact derivatives of the figures of `solve_chain` by its loads, pieces and anchors.

    >>> chain = {
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["6 m", "0 m", "0 m"],
    ...     "pieces": [
    ...         {
    ...             "rest_length": "10 m",
    ...             "weight": "0 N/m",
    ...             "stretch": {"axial_rigidity": "1000 MN"},
    ...         }
    ...     ],
    ...     "loads": [{"at": "5 m", "force": ["0 N", "0 N", "-1 kN"]}],
    ... }
    >>> chain_derivatives(chain).tension_near.by_load_z.round(4).tolist()
    [-0.625]
    """
    return call("line.chain_derivatives", chain)
