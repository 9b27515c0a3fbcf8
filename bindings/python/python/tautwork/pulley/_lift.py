"""A load that moves on the haul line."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["climb_bounce", "haul_jerk", "lifted_pendulum", "pull_over_lip"]


def haul_jerk(*, mass: QuantityLike, stiffness: QuantityLike, speed: QuantityLike) -> Result:
    """The jerk of a load on a line when its haul starts, stops or changes by `speed`.

    >>> jerk = haul_jerk(mass="100 kg", stiffness="20 kN/m", speed="0.5 m/s")
    >>> jerk.greatest.show("N", 0), jerk.load_factor.show("1", 2)
    ('1688 N', '1.72')
    """
    return call("pulley.haul_jerk", {"mass": mass, "stiffness": stiffness, "speed": speed})


def pull_over_lip(lip: Mapping[str, Any], /) -> Result:
    """The pull that draws a body up over the rock at the lip.

    `lip` has the `mass`, the `slope` of the rock, `body_friction`, the `rope_angle` above the slope,
    `edge_friction` and `edge_turn` of the edge behind.

    >>> pull = pull_over_lip({"mass": "100 kg", "slope": "45 deg", "body_friction": 0.5,
    ...                       "rope_angle": "0 deg", "edge_friction": 0, "edge_turn": "0 deg"})
    >>> pull.at_body.show("N", 0), pull.worst_slope.show("N", 0)
    ('1041 N', '1097 N')
    """
    return call("pulley.pull_over_lip", lip)


def climb_bounce(climb: Mapping[str, Any], /) -> Result:
    """How much a person who climbs in a rhythm bounces on the rope.

    `climb` has the `mass`, the `stiffness` of the rope above, `damping_ratio`, the `period` of the pulls and
    the `amplitude` by which they go up and down about the weight.

    >>> bounce = climb_bounce({"mass": "80 kg", "stiffness": "1 kN/m", "damping_ratio": 0.1,
    ...                        "period": "1000 s", "amplitude": "100 N"})
    >>> bounce.greatest.show("N", 0)
    '885 N'
    """
    return call("pulley.climb_bounce", climb)


def lifted_pendulum(swing: Mapping[str, Any], /) -> Result:
    """The swing of a load that hangs free on a rope that gets shorter.

    `swing` has the length `from` which and `to` which it is drawn up, the `speed` and the `angle` from the
    vertical at which it is let go. The answer has the turns as arrays `turn_s`, `turn_rad`, `turn_length_m`.

    >>> up = lifted_pendulum({"from": "40 m", "to": "10 m", "speed": "0.1 m/s", "angle": "2 deg"})
    >>> up.slow_angle.show("deg", 2), up.widest.show("m", 2)
    ('5.66 deg', '1.40 m')
    """
    return call("pulley.lifted_pendulum", swing)
