"""A rope over an edge of rock, or over the edges of a mesh."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["mesh_edges", "rope_on_edge", "rope_on_mesh"]


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


def mesh_edges(*, mesh: Mapping[str, Any], least_fold: QuantityLike) -> list[Result]:
    """Every edge of a mesh that folds by at least an angle, and every rim.

    `mesh` as in `terrain_facts`; its triangles turn to the left as seen from the air. Each edge says how its triangles
    `meet`: `"ridge"`, `"valley"`, `"rim"` where only one ends, `"unclear"`.

    >>> cliff = "v -3 0 0\\nv 0 0 0\\nv 0 2 0\\nv -3 2 0\\nv 0 0 -9\\nv 0 2 -9\\nf 1 2 3 4\\nf 2 5 6 3"
    >>> edges = mesh_edges(mesh={"obj": cliff, "scale": "1 m", "up": "z"}, least_fold="20 deg")
    >>> [edge.fold.show("deg", 0) for edge in edges if edge.meet == "ridge"]
    ['90 deg']
    """
    return call("swing.mesh_edges", {"mesh": mesh, "least_fold": least_fold})


def rope_on_mesh(case: Mapping[str, Any], /) -> Result:
    """Every edge of a mesh that a rope comes to lie over, each as if it were the only one.

    `case` as in `rope_on_edge` without `edge` and `starts_over`, with the `mesh` and the `least_fold` of edges that
    are looked at; optionally `valleys`, for a file whose triangles turn the other way. Answers the edges `touched`,
    the one pressed hardest first, and those that are `unclear`.

    >>> block = "v -3 -2 0\\nv 0 -2 0\\nv 0 2 0\\nv -3 2 0\\nv 0 -2 -9\\nv 0 2 -9\\nf 1 2 3 4\\nf 2 5 6 3"
    >>> anchor = {"x_m": [-2], "y_m": [0], "z_m": [0.5]}
    >>> body = {"x_m": [4, 0.5], "y_m": [0, 0], "z_m": [1, -4]}
    >>> on = rope_on_mesh({"t_s": [0, 2], "anchor": anchor, "body": body, "tension_n": [1000], "mu": 0.3,
    ...                    "mesh": {"obj": block, "scale": "1 m", "up": "z"}, "least_fold": "20 deg"})
    >>> len(on.touched), on.touched[0].edge.meet
    (1, 'ridge')
    """
    return call("swing.rope_on_mesh", case)
