"""Drawing a line in, what changes its tension afterwards, and how much cordage to bring."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["change_line", "lengths_to_bring", "load_cell_reading", "pull_in"]


def pull_in(pull: Mapping[str, Any] | Result, /) -> Result:
    """Tension, sag and energy of a line while it is drawn in from slack.

    Fields: `line` (as for `solve_elastic`, in the wanted state), `from_length`, `end` (`"near"` or
    `"far"`), `samples`.

    >>> line = {
    ...     "span": "101 m",
    ...     "rise": "0 m",
    ...     "rest_length": "100 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "100 kN"},
    ... }
    >>> curve = pull_in({"line": line, "from_length": "103 m", "end": "near"})
    >>> curve.work.show("J", 1), round(float(curve.tension_near_n[-1]), 3)
    ('500.0 J', 1000.0)
    """
    return call("line.pull_in", pull)


def change_line(*, line: Mapping[str, Any] | Result, changes: Mapping[str, Any] | Result) -> Result:
    """Tension and sag after anchors have moved and cordage has become warmer, wet or longer.

    `line` is a chain as for `solve_chain`; `changes` has `near_moves`, `far_moves` and `condition`
    (as for `material.rest_length_factor`).

    >>> line = {
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["101 m", "0 m", "0 m"],
    ...     "pieces": [
    ...         {
    ...             "rest_length": "100 m",
    ...             "weight": "0 N/m",
    ...             "stretch": {"axial_rigidity": "100 kN"},
    ...         }
    ...     ],
    ... }
    >>> gives = change_line(line=line, changes={"far_moves": ["-0.5 m", "0 m", "0 m"]})
    >>> gives.tension_change.show("N", 1)
    '-500.0 N'
    """
    return call("line.change_line", {"line": line, "changes": changes})


def load_cell_reading(
    *, line: Mapping[str, Any] | Result, cell: Mapping[str, Any] | Result
) -> Result:
    """Tension that a load cell in series sees.

    `line` is a chain as for `solve_chain`; `cell` has `at`, `length`, `mass` and `axial_rigidity`. The
    line gets longer by the cell.

    >>> line = {
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["101.2 m", "0 m", "0 m"],
    ...     "pieces": [
    ...         {
    ...             "rest_length": "100 m",
    ...             "weight": "0 N/m",
    ...             "stretch": {"axial_rigidity": "100 kN"},
    ...         }
    ...     ],
    ... }
    >>> cell = {"at": "0 m", "length": "0.2 m", "mass": "0 kg"}
    >>> load_cell_reading(line=line, cell=cell).reading.show("kN", 3)
    '1.000 kN'
    """
    return call("line.load_cell_reading", {"line": line, "cell": cell})


def lengths_to_bring(*, lines: Sequence[Mapping[str, Any] | Result]) -> Result:
    """Webbing and rope to cut for each line, with the items of its length.

    A line has `name`, `rest_length`, and what it needs of `near_tail`, `far_tail`, `wraps`, `knots`,
    `bedding_in`, `marking_error` and `linear_density`.

    >>> boulder = {"name": "boulder", "circumference": "3 m", "turns": 2}
    >>> main = {"name": "main", "rest_length": "102 m", "far_tail": "5 m", "wraps": [boulder]}
    >>> lengths_to_bring(lines=[main]).total.show("m", 1)
    '113.0 m'
    """
    return call("line.lengths_to_bring", {"lines": lines})
