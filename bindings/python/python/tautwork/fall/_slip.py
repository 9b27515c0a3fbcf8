"""Falls that a slipping device makes softer."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["arrest_with_slip"]


def arrest_with_slip(*, fall: Mapping[str, Any], slips: Sequence[Mapping[str, Any]]) -> Result:
    """Stop a fall through devices or knots that slip, each with a `force` and a `travel`.

    `fall` as in `arrest`.

    >>> fall = {"mass": "100 kg", "height": "2 m", "rope": "1 m",
    ...         "stretch": {"axial_rigidity": "1e9 N"}}
    >>> stopped = arrest_with_slip(fall=fall, slips=[{"force": "4 kN", "travel": "1.75 m"}])
    >>> stopped.slips[0].slipped.show("m", 2)
    '0.65 m'
    """
    return call("fall.arrest_with_slip", {"fall": fall, "slips": slips})
