"""Falls over several edges and on several ropes."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["arrest_over_edges", "arrest_shared"]


def arrest_over_edges(case: Mapping[str, Any], /) -> Result:
    """Stop a fall over any number of edges: `frictionless` and `full_friction`, the truth between.

    `case` has `fall` (its rope up to the first edge), `edges` from the mass to the belay, each with
    `belay_rope`, `wrap` and `mu`, and optionally `belay` with the `force` and `travel` of its slip.
    """
    return call("fall.arrest_over_edges", case)


def arrest_shared(fall: Mapping[str, Any], /) -> Result:
    """Stop a fall on several ropes side by side.

    `fall` has `mass`, `height` and `ropes`, each with `rope`, `stretch` and optionally `slack`.

    >>> ropes = [{"rope": "10 m", "stretch": {"axial_rigidity": ea}} for ea in ("10 kN", "30 kN")]
    >>> stopped = arrest_shared({"mass": "80 kg", "height": "0 m", "ropes": ropes})
    >>> stopped.ropes[1].tension.show("N", 1)
    '1177.2 N'
    """
    return call("fall.arrest_shared", fall)
