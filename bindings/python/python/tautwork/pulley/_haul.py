"""A haul, stroke by stroke."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["compare_hauls", "haul_work"]


def haul_work(haul: Mapping[str, Any], /) -> Result:
    """Strokes, resets, rope, time and work of a haul.

    `haul` has the `system`: an ordinary one by its name, with its `friction` as in `ordinary`, or one of one's own as
    `{"name": ..., "system": ...}` with the `system` as in `solve` and without `friction`. Then the `load`, the `lift`, the `throw`, `people`,
    `pull_each`, `hand_speed` and `reset_time`; optionally `back_slip`, `line_length`, `line_rigidity` and
    `system_rigidity`.

    >>> haul = {"system": "three_to_one", "friction": {"law": "fixed", "efficiency": 0.83},
    ...         "load": "784.8 N", "lift": "20 m", "throw": "2 m", "people": 2, "pull_each": "200 N",
    ...         "hand_speed": "0.3 m/s", "reset_time": "20 s"}
    >>> work = haul_work(haul)
    >>> work.hand_force.show("N", 0), work.people_needed, work.strokes
    ('312 N', 2, 10)
    """
    return call("pulley.haul_work", haul)


def compare_hauls(*, haul: Mapping[str, Any], systems: Sequence[str | Mapping[str, Any]]) -> Result:
    """One lift with several systems, each as in `haul_work`: `each`, and the name of the `least` that the people can pull.

    >>> haul = {"system": "redirect", "friction": {"law": "fixed", "efficiency": 0.83},
    ...         "load": "784.8 N", "lift": "20 m", "throw": "2 m", "people": 2, "pull_each": "200 N",
    ...         "hand_speed": "0.3 m/s", "reset_time": "20 s"}
    >>> compare_hauls(haul=haul, systems=["redirect", "two_to_one", "three_to_one"]).least
    'three_to_one'
    """
    return call("pulley.compare_hauls", {"haul": haul, "systems": systems})
