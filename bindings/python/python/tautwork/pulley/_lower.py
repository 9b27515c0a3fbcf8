"""Lowering by hand."""

from collections.abc import Mapping
from typing import Any

from .._native import Quantity, call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = ["lowering", "wrap_to_hold"]


def lowering(plan: Mapping[str, Any], /) -> Result:
    """Whether hands hold a load that is lowered through turns, how much they could, and what each is asked for.

    `plan` has the `load` and the `steps` from it to the tail of the rope: `{"step": "turn", "name", "friction",
    "wrap"}` and `{"step": "hand", "name", "grip"}`.

    >>> bollard = {"step": "turn", "name": "bollard", "friction": {"law": "capstan", "mu": 0.3}, "wrap": "2 turns"}
    >>> hand = {"step": "hand", "name": "one", "grip": "200 N"}
    >>> answer = lowering({"load": "2 kN", "steps": [bollard, hand]})
    >>> answer.holds, answer.steps[1].arrives.show("N", 0), answer.holds_up_to.show("kN", 1)
    (True, '46 N', '8.7 kN')
    """
    return call("pulley.lowering", plan)


def wrap_to_hold(*, load: QuantityLike, hand: QuantityLike, mu: RatioLike) -> Quantity:
    """Wrap on a device with which a hand holds a load.

    >>> wrap_to_hold(load="784.8 N", hand="100 N", mu=0.25).show("turns", 2)
    '1.31 turns'
    """
    return call("pulley.wrap_to_hold", {"load": load, "hand": hand, "mu": mu})
