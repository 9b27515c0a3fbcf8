"""Anchors of anchors: shares, directions, losses, and what a jerk breaks."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["break_in_time", "pull_cone", "system_losses", "system_rest"]


def system_rest(system: Mapping[str, Any], /) -> Result:
    """Rest of an anchor system: tension, share and factor of each leg, force on each fixed point.

    `system` has `fixed` points (`name`, `position`, and may have `strength`), `junctions` (`name`,
    `near`), `legs`, and the `pull` on the junction `pull_at`. A leg has `name`, `from`, `to`,
    `rest_length` and its `parts`, each with `name`, and `stiffness` or `strength` or both. The `line`
    that pulls, with `stiffness` and `length`, lets the pull fall after a loss.

    >>> sling = {"name": "sling", "stiffness": "100 kN/m"}
    >>> system = {
    ...     "fixed": [{"name": "bolt", "position": ["0 m", "0 m", "2 m"]}],
    ...     "junctions": [{"name": "master", "near": ["0 m", "0 m", "0 m"]}],
    ...     "legs": [
    ...         {"name": n, "from": "bolt", "to": "master", "rest_length": r, "parts": [sling]}
    ...         for n, r in [("a", "2 m"), ("b", "2 m"), ("backup", "2.5 m")]
    ...     ],
    ...     "pull_at": "master",
    ...     "pull": ["0 N", "0 N", "-1 kN"],
    ... }
    >>> [leg.tension.show("N", 0) for leg in system_rest(system).legs]
    ['500 N', '500 N', '0 N']
    """
    return call("anchor.system_rest", system)


def pull_cone(cone: Mapping[str, Any], /) -> Result:
    """Tensions, shares and factors of a system for a pull from each direction of a cone.

    `cone` has the `system` with the pull in its middle, the `half_angle`, and how many `rings` and
    directions `around` are tried.

    >>> sling = {"name": "sling", "stiffness": "100 kN/m"}
    >>> leg = {"name": "leg", "from": "bolt", "to": "master", "rest_length": "1 m"}
    >>> system = {
    ...     "fixed": [{"name": "bolt", "position": ["0 m", "0 m", "1 m"]}],
    ...     "junctions": [{"name": "master", "near": ["0 m", "0 m", "0 m"]}],
    ...     "legs": [{**leg, "parts": [sling]}],
    ...     "pull_at": "master",
    ...     "pull": ["0 N", "0 N", "-1 kN"],
    ... }
    >>> cone = {"system": system, "half_angle": "30 deg", "rings": 1, "around": 4}
    >>> pull_cone(cone).worst_tension_n.round(3).tolist()
    [1000.0, 1000.0, 1000.0, 1000.0, 1000.0]
    """
    return call("anchor.pull_cone", cone)


def system_losses(*, system: Mapping[str, Any], pairs: bool) -> Result:
    """What the loss of each leg and fixed point, and with `pairs` of each two, leaves.

    `system` is that of `system_rest`.

    >>> sling = {"name": "sling", "stiffness": "100 kN/m", "strength": "22 kN"}
    >>> leg = {"from": "bolt", "to": "master", "rest_length": "1 m", "parts": [sling]}
    >>> system = {
    ...     "fixed": [{"name": "bolt", "position": ["0 m", "0 m", "1 m"]}],
    ...     "junctions": [{"name": "master", "near": ["0 m", "0 m", "0 m"]}],
    ...     "legs": [{"name": "a", **leg}, {"name": "b", **leg}],
    ...     "pull_at": "master",
    ...     "pull": ["0 N", "0 N", "-1 kN"],
    ... }
    >>> [loss.held for loss in system_losses(system=system, pairs=False).single]
    [True, True, False]
    """
    return call("anchor.system_losses", {"system": system, "pairs": pairs})


def break_in_time(input: Mapping[str, Any], /) -> Result:
    """The motion of the mass behind the pull after a loss, and what its jerk breaks.

    `input` has the `system`, the names that are `lost`, the `mass` behind the pull, and the `time`
    to look at.

    >>> sling = {"name": "sling", "stiffness": "100 kN/m"}
    >>> leg = {"from": "bolt", "to": "master", "rest_length": "1 m", "parts": [sling]}
    >>> system = {
    ...     "fixed": [{"name": "bolt", "position": ["0 m", "0 m", "1 m"]}],
    ...     "junctions": [{"name": "master", "near": ["0 m", "0 m", "0 m"]}],
    ...     "legs": [{"name": "a", **leg}, {"name": "b", **leg}],
    ...     "pull_at": "master",
    ...     "pull": ["0 N", "0 N", "-1 kN"],
    ... }
    >>> run = {"system": system, "lost": ["a"], "mass": "10 kg", "time": "0.2 s"}
    >>> break_in_time(run).peaks[1].tension.show("kN", 2)
    '1.50 kN'
    """
    return call("anchor.break_in_time", input)
