"""Networks of ropes and pulleys."""

from collections.abc import Mapping, Sequence
from typing import Any, Literal

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = [
    "ordinary",
    "ordinary_systems",
    "solve",
    "tackle",
]


def solve(*, system: Result | Mapping[str, Any], load: QuantityLike) -> Result:
    """Solves a pulley system: advantages, forces to raise, hold and lower, tensions, travel.

    A system has `bodies` (name, kind, position), `ropes` (name, from, over, to) and may give the
    direction `haul`; each sheave in `over` says `on` which body it is and its `friction`, a rope grab or progress
    capture also which end of the rope it holds against: `grab`, "start" or "end".

    >>> z = ordinary(system="three_to_one", friction={"law": "fixed", "efficiency": 0.83})
    >>> solve(system=z, load="1 kN").actual_advantage.show("1", 4)
    '2.5189'
    """
    return call("pulley.solve", {"system": system, "load": load})


def ordinary(
    *,
    system: Literal[
        "redirect",
        "two_to_one",
        "three_to_one",
        "four_to_one",
        "five_to_one",
        "six_to_one",
        "nine_to_one",
        "simple_four",
        "six_turned",
        "eight_to_one",
        "complex_three",
        "complex_five",
    ],
    friction: Mapping[str, Any],
) -> Result:
    """An ordinary system with parallel ropes and one kind of sheave, for `solve`.

    >>> len(ordinary(system="nine_to_one", friction={"law": "capstan", "mu": 0.06}).ropes)
    2
    """
    return call("pulley.ordinary", {"system": system, "friction": friction})


def ordinary_systems() -> list[Result]:
    """Every ordinary system: its `sort`, `ideal` advantage, number of `sheaves` and what it is.

    >>> [each.system for each in ordinary_systems() if each.ideal == 5]
    ['five_to_one', 'complex_five']
    """
    return call("pulley.ordinary_systems", {})


def tackle(*, parts: Sequence[int], redirect: bool, friction: Mapping[str, Any]) -> Result:
    """Block-and-tackle stages that haul on one another, from the load to the hand, for `solve`.

    >>> four = tackle(parts=[4], redirect=True, friction={"law": "fixed", "efficiency": 1})
    >>> solve(system=four, load="1 kN").ideal_advantage
    Quantity("4")
    """
    return call("pulley.tackle", {"parts": parts, "redirect": redirect, "friction": friction})
