"""What comes near what."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["apart_in_flight", "least_apart"]


def least_apart(scene: Mapping[str, Any], /) -> Result:
    """How near things come to each other, and whether a body goes through a loop.

    `scene` has the times `t_s`, `things` and, optionally, pairs of names that are `joined`. A thing has a
    `name`, a `radius` and `points`, each with arrays `x_m`, `y_m` and `z_m` of one value for each time, or of
    one value for a point that stays; `is_loop` makes it a loop that a body may go through.

    >>> body = {"x_m": [-10, 10], "y_m": [0, 0], "z_m": [0, 0]}
    >>> post = [{"x_m": [0], "y_m": [3], "z_m": [z]} for z in (-5, 5)]
    >>> things = [{"name": "body", "radius": "0.5 m", "points": [body]},
    ...           {"name": "post", "radius": "0 m", "points": post}]
    >>> least_apart({"t_s": [0, 2], "things": things}).pairs[0].least.show("m", 2)
    '2.50 m'
    """
    return call("swing.least_apart", scene)


def apart_in_flight(*, jump: Mapping[str, Any], parked: Sequence[Mapping[str, Any]]) -> Result:
    """Least distances between body, jump ropes, lines and parked ropes over a jump.

    `jump` as in `fly`; what is `parked` are things as in `least_apart`. The jump's own things are called
    `body` and as its ropes and lines are. `crossings` lists each loop that the body goes through.
    """
    return call("swing.apart_in_flight", {"jump": jump, "parked": list(parked)})
