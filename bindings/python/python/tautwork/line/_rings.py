"""Rings that slide on lines, with friction and stops."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..quantity import QuantityLike
from ..result import Result

__all__ = ["ring_losses", "solve_rings", "sweep_rings"]

Vector = Sequence[QuantityLike]


def solve_rings(*, lines: Sequence[Mapping[str, Any] | Result], load: Vector) -> Result:
    """Where a ring rests that slides on some of its lines, and the range that friction leaves it.

    Each line is a mapping of `line` (as for `solve_bundle`) and `hold`: `"tied"`, or
    `{"slides": {"friction": ..., "from": ..., "to": ...}}` with the stops as rest lengths.

    >>> loop = {
    ...     "name": "loop",
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["6 m", "0 m", "0 m"],
    ...     "near_length": "4.5 m",
    ...     "far_length": "5.5 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "1000 MN"},
    ... }
    >>> free = {"line": loop, "hold": {"slides": {"friction": 0}}}
    >>> here = solve_rings(lines=[free], load=["0 N", "0 N", "-1 kN"]).here
    >>> here.bundle.ring[0].show("m", 3), here.bundle.ring[2].show("m", 3)
    ('3.000 m', '-4.000 m')
    """
    return call("line.solve_rings", {"lines": lines, "load": load})


def sweep_rings(
    *, lines: Sequence[Mapping[str, Any] | Result], loads: Sequence[Vector]
) -> list[Result]:
    """`solve_rings` for one load after the other: the ring slides from where the last load left it."""
    return call("line.sweep_rings", {"lines": lines, "loads": loads})


def ring_losses(*, lines: Sequence[Mapping[str, Any] | Result], load: Vector) -> Result:
    """What the loss of each line does: the rest of the ring and of the others when motion has died."""
    return call("line.ring_losses", {"lines": lines, "load": load})
