"""Terrain as profiles and meshes, and distances along a motion that is known."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["clearance_history", "rope_clearance_history", "terrain_facts"]


def terrain_facts(mesh: Mapping[str, Any], /) -> Result:
    """Size and place of a mesh, to see that scale, up axis and placing are right.

    `mesh` has the content of one file as `obj` (text), `stl` (text) or `stl_binary` (bytes), the `scale`, which is
    the length of one unit of the file, and the axis that is `up`, `"y"` or `"z"`; optionally the `origin` of the file
    in the frame of the span and its `turn` about the vertical.

    >>> square = "v 0 0 0\\nv 2 0 0\\nv 2 2 0\\nv 0 2 0\\nf 1 2 3 4"
    >>> facts = terrain_facts({"obj": square, "scale": "10 ft", "up": "z"})
    >>> facts.triangles, facts.high.x.show("m", 3)
    (2, '6.096 m')
    """
    return call("swing.terrain_facts", mesh)


def clearance_history(case: Mapping[str, Any], /) -> Result:
    """Distance of a body from walls along a path: at each sample, and the nearest approach.

    `case` has the `walls`, each with a `name` and the `points` of a profile or a `mesh` as in `terrain_facts`, the
    times `t_s`, the path of the `body`, where its ropes are tied, as arrays `x_m`, `y_m`, `z_m`, and its `radius`;
    optionally the `length` of a capsule that hangs from there, a path `towards` such as that of the ring, away from
    which it hangs, and the `rope_length` below which that rope is slack and the capsule upright.

    >>> post = {"name": "post", "points": [{"x": "3 m", "z": "-4 m"}, {"x": "3 m", "z": "-9 m"}]}
    >>> fall = {"x_m": [0, 0], "y_m": [0, 0], "z_m": [0, -8]}
    >>> case = {"walls": [post], "t_s": [0, 2], "body": fall, "radius": "0.5 m"}
    >>> clearance_history(case).walls[0].clearance_m
    array([4.5, 2.5])
    """
    return call("swing.clearance_history", case)


def rope_clearance_history(case: Mapping[str, Any], /) -> Result:
    """Distance of ropes from walls along a motion: at each sample, and the nearest approach.

    `case` has `walls` and `t_s` as in `clearance_history`, and `ropes`: each with a `name`, a `radius` and its
    `points`, ring and body or more on the way, as arrays `x_m`, `y_m`, `z_m` of one value for each time, or of one
    value for a point that stays.

    >>> nose = {"name": "nose", "points": [{"x": "9 m", "z": "-5 m"}, {"x": "2 m", "z": "-5 m"}]}
    >>> ring = {"x_m": [0], "y_m": [0], "z_m": [0]}
    >>> body = {"x_m": [0, -6], "y_m": [0, 0], "z_m": [-10, -8]}
    >>> rope = {"name": "rope", "radius": "0 m", "points": [ring, body]}
    >>> past = rope_clearance_history({"walls": [nose], "t_s": [0, 1], "ropes": [rope]})
    >>> past.ropes[0].walls[0].least.show("m", 2)
    '2.00 m'
    """
    return call("swing.rope_clearance_history", case)
