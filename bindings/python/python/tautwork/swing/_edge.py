"""A rope over an edge of rock."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["rope_on_edge"]


def rope_on_edge(case: Mapping[str, Any], /) -> Result:
    """When a rope touches an edge along a known motion of its ends, how hard, and how far it rubs.

    `case` has the times `t_s`, the paths of `anchor` and `body` as arrays `x_m`, `y_m`, `z_m` (of one value for an
    end that stays), the `tension_n` at the body (one value, or one for each time), the friction `mu` and the `edge`:
    `{"kind": "segment", "from": ..., "to": ...}`, or `{"kind": "corner", "at": ...}` for a corner of a profile.
    Optionally `starts_over`, where the rope lies over the edge from the start, and its `axial_rigidity`, for the
    rope that stretches over the edge.

    >>> anchor = {"x_m": [0], "y_m": [0], "z_m": [4]}
    >>> body = {"x_m": [4, -4], "y_m": [0, 0], "z_m": [-4, -4]}
    >>> rope = rope_on_edge({"t_s": [0, 2], "anchor": anchor, "body": body, "tension_n": [1000], "mu": 0.3,
    ...                      "edge": {"kind": "corner", "at": {"x": "0 m", "z": "0 m"}}})
    >>> rope.first_touch.show("s", 2), rope.force_n.round(1)
    ('1.00 s', array([  0. , 765.4]))
    """
    return call("swing.rope_on_edge", case)
