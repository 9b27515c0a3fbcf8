"""Raised frames."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["buckling", "frame_forces", "frame_lift", "frame_window", "lose_guy"]


def frame_forces(frame: Mapping[str, Any], /) -> Result:
    """Forces of a raised frame: legs that push, guys that pull, footings, hobble.

    `frame` has `head`, `legs`, and optionally `guys`, `ropes`, `pulleys`, a `force` and a `hobble`.
    Legs and guys have `name`, `foot` and `axial_rigidity`; a leg may have `mass`, a `pole` (see
    `buckling`) and a `ground_normal`, a guy `pretension` and `strength`. Ropes have `name`,
    `towards` and `tension`; pulleys `name`, the points `load` and `haul` of both parts, `tension`
    and `behind`. A hobble has the names of the legs `round` which it goes and may have `friction`.

    >>> leg = {"axial_rigidity": "10 MN"}
    >>> legs = [
    ...     {"name": "left", "foot": ["0 m", "3 m", "0 m"], **leg},
    ...     {"name": "right", "foot": ["0 m", "-3 m", "0 m"], **leg},
    ... ]
    >>> head, load = ["0 m", "0 m", "4 m"], ["0 N", "0 N", "-1600 N"]
    >>> frame_forces({"head": head, "legs": legs, "force": load}).legs[0].force.show("N", 1)
    '1000.0 N'
    """
    return call("anchor.frame_forces", frame)


def frame_window(*, frame: Mapping[str, Any], rope: str) -> Result:
    """In which directions a rope or the load's part of a pulley may pull: the sides of this window.

    `frame` as in `frame_forces`. The answer has `stands`, the `margin` by which the rope may turn any
    way, and the `sides`, nearest first, with the members that each is `carried_by`.

    >>> foot = [("a", "2 m", "0 m"), ("b", "-1 m", "1.7 m"), ("c", "-1 m", "-1.7 m")]
    >>> legs = [{"name": n, "foot": [x, y, "0 m"], "axial_rigidity": "10 MN"} for n, x, y in foot]
    >>> load = {"name": "load", "towards": ["0 m", "0 m", "0 m"], "tension": "1 kN"}
    >>> tripod = {"head": ["0 m", "0 m", "3 m"], "legs": legs, "ropes": [load]}
    >>> window = frame_window(frame=tripod, rope="load")
    >>> window.margin.show("°", 1), window.sides[0].carried_by
    ('18.2 °', ['a', 'b'])
    """
    return call("anchor.frame_window", {"frame": frame, "rope": rope})


def frame_lift(
    *, frame: Mapping[str, Any], rope: str, places: Sequence[Mapping[str, Any]]
) -> Result:
    """The frame at each place of a lift: the resultant, the margin, the worst of each leg and guy.

    `frame` as in `frame_forces`; a place has the point of the `load` to which the rope or the load's
    part of the pulley leads, and the `tension` there.

    >>> leg = {"name": "mast", "foot": ["0 m", "0 m", "0 m"], "axial_rigidity": "10 MN"}
    >>> guy = {"name": "back", "foot": ["-3 m", "0 m", "0 m"], "axial_rigidity": "300 kN"}
    >>> rope = {"name": "rope", "towards": ["9 m", "0 m", "-9 m"], "tension": "1 kN"}
    >>> frame = {"head": ["0 m", "0 m", "3 m"], "legs": [leg], "guys": [guy], "ropes": [rope]}
    >>> places = [{"load": [x, "0 m", "-9 m"], "tension": "1 kN"} for x in ["9 m", "0 m"]]
    >>> lift = frame_lift(frame=frame, rope="rope", places=places)
    >>> lift.guys[0].force.show("N", 1), lift.guys[0].idle_at
    ('848.5 N', [1])
    """
    return call("anchor.frame_lift", {"frame": frame, "rope": rope, "places": places})


def lose_guy(*, frame: Mapping[str, Any], guy: str) -> Result:
    """Cuts a guy: the frame falls, with the force that starts it, or stands again after peaks.

    `frame` as in `frame_forces`. The `after` of the answer has either `falls` or `stands`.

    >>> leg = {"name": "mast", "foot": ["0 m", "0 m", "0 m"], "axial_rigidity": "10 MN"}
    >>> guy = {"foot": ["-3 m", "0 m", "0 m"], "axial_rigidity": "300 kN"}
    >>> frame = {
    ...     "head": ["0 m", "0 m", "3 m"],
    ...     "legs": [leg],
    ...     "guys": [{"name": "back", **guy}, {"name": "spare", **guy}],
    ...     "force": ["1 kN", "0 N", "0 N"],
    ... }
    >>> loss = lose_guy(frame=frame, guy="spare")
    >>> loss.after["stands"].peaks[1].force.show("N", 0)
    '2121 N'
    """
    return call("anchor.lose_guy", {"frame": frame, "guy": guy})


def buckling(*, pole: Mapping[str, Any], length: QuantityLike) -> Result:
    """Compression that a pole can take: Euler's load, crushing, and the capacity of a real column.

    `pole` has `section` (`{"round": {"diameter": ...}}`, `{"cone": {"thick": ..., "thin": ...}}` or
    `{"tube": {"outer": ..., "wall": ...}}`), `material` (`"softwood"`, `"aluminium"`, `"steel"` or
    `{"own": {...}}`) and may have an `effective_length_factor`.

    >>> tube = {"tube": {"outer": "50 mm", "wall": "4 mm"}}
    >>> leg = buckling(pole={"section": tube, "material": "aluminium"}, length="3 m")
    >>> leg.euler_low.show("kN", 1), leg.capacity_low.show("kN", 1)
    ('11.8 kN', '10.9 kN')
    """
    return call("anchor.buckling", {"pole": pole, "length": length})
