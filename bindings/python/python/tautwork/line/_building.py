"""Building and striking: the states on the way, strokes, release, hardware that gives."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["building_states", "hardware_gives", "soft_release", "tension_by_strokes"]


def building_states(*, stages: Sequence[Mapping[str, Any] | Result]) -> list[Result]:
    """Tensions, sags and lowest points of named stages, one after the other.

    A stage has `name` and `rig`, one of `{"line": ...}` (a chain), `{"going_out": ...}` (`main`,
    `person`, `at`, `trailing`) and `{"ringed": ...}` (`lines` and `load` as for `solve_bundle`).

    >>> main = {
    ...     "span": "6 m",
    ...     "rise": "0 m",
    ...     "rest_length": "10 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "1000 MN"},
    ... }
    >>> out = {"main": main, "person": "1 kN", "at": ["5 m"], "trailing": []}
    >>> states = building_states(stages=[{"name": "out", "rig": {"going_out": out}}])
    >>> states[0].lowest.show("m", 3), states[0].lines[0].greatest.show("N", 1)
    ('-4.000 m', '625.0 N')
    """
    return call("line.building_states", {"stages": stages})


def tension_by_strokes(strokes: Mapping[str, Any] | Result, /) -> Result:
    """Tension stroke by stroke with a tackle; stops where the pull of the people is reached.

    Fields: `line`, `end`, `wanted`, `throw`, `mechanical_advantage`, `efficiency`, `people`,
    `pull_each`, `back_slip`, `most_strokes`.

    >>> line = {
    ...     "span": "100 m",
    ...     "rise": "0 m",
    ...     "rest_length": "100 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "100 kN"},
    ... }
    >>> tackle = {
    ...     "line": line,
    ...     "end": "near",
    ...     "wanted": "5 kN",
    ...     "throw": "1 m",
    ...     "mechanical_advantage": 5,
    ...     "efficiency": 0.6,
    ...     "people": 2,
    ...     "pull_each": "500 N",
    ... }
    >>> strokes = tension_by_strokes(tackle)
    >>> strokes.outcome, strokes.tension.show("kN", 2)
    ('pull_reached', '3.00 kN')
    """
    return call("line.tension_by_strokes", strokes)


def soft_release(release: Mapping[str, Any] | Result, /) -> Result:
    """Stored energy of a line and its soft release over a friction device.

    Fields: `line`, `end`, `to` (left out: until the line is straight and loose), `capstan_ratio`,
    `samples`.

    >>> line = {
    ...     "span": "101 m",
    ...     "rise": "0 m",
    ...     "rest_length": "100 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "100 kN"},
    ... }
    >>> curve = soft_release({"line": line, "end": "near", "capstan_ratio": 10})
    >>> curve.released.show("J", 1), curve.hand_force.show("N", 1)
    ('500.0 J', '100.0 N')
    """
    return call("line.soft_release", release)


def hardware_gives(giving: Mapping[str, Any] | Result, /) -> Result:
    """The new rest of a line after a lock has slipped, an absorber torn or a weak spot broken.

    Fields: `line` (a chain as for `solve_chain`) and `hardware` with `at` and `kind`, one of
    `{"slips": ...}`, `{"absorbs": ...}` and `{"breaks": ...}`.

    >>> line = {
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["105 m", "0 m", "0 m"],
    ...     "pieces": [
    ...         {
    ...             "rest_length": "100 m",
    ...             "weight": "0 N/m",
    ...             "stretch": {"axial_rigidity": "100 kN"},
    ...         }
    ...     ],
    ... }
    >>> tears = {"at": "0 m", "kind": {"absorbs": {"force": "4 kN", "length": "3 m"}}}
    >>> hardware_gives({"line": line, "hardware": tears}).slip.show("m", 3)
    '0.962 m'
    """
    return call("line.hardware_gives", giving)
