"""Building and striking: states on the way, strokes, release, hardware that gives."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["building_states", "hardware_gives", "soft_release", "tension_by_strokes"]


def building_states(*, stages: Sequence[Mapping[str, Any] | Result]) -> list[Result]:
    """Tensions, sags and lowest points of named stages, one after the other.

    The `rig` of a stage is `{"line": ...}` as for `solve_chain`, `{"going_out": ...}` for a person on
    the main with lines in tow, or `{"ringed": {"lines": ..., "load": ...}}`.

    >>> main = {
    ...     "span": "6 m",
    ...     "rise": "0 m",
    ...     "rest_length": "10 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "1000 MN"},
    ... }
    >>> out = {"main": main, "person": "1 kN", "at": ["5 m"], "trailing": []}
    >>> states = building_states(stages=[{"name": "out", "rig": {"going_out": out}}])
    >>> states[0].lines[0].greatest.show("N", 0)
    '625 N'
    """
    return call("line.building_states", {"stages": stages})


def tension_by_strokes(strokes: Mapping[str, Any] | Result, /) -> Result:
    """The tension of a line stroke by stroke of a tackle, up to the wanted one or the people's pull.

    >>> tackle = {
    ...     "line": {
    ...         "span": "100 m",
    ...         "rise": "0 m",
    ...         "rest_length": "100 m",
    ...         "weight": "0 N/m",
    ...         "stretch": {"axial_rigidity": "100 kN"},
    ...     },
    ...     "end": "near",
    ...     "wanted": "5 kN",
    ...     "throw": "1 m",
    ...     "mechanical_advantage": 5,
    ...     "efficiency": 0.6,
    ...     "people": 2,
    ...     "pull_each": "500 N",
    ... }
    >>> pulled = tension_by_strokes(tackle)
    >>> pulled.outcome, pulled.tension.show("kN", 2)
    ('pull_reached', '3.00 kN')
    """
    return call("line.tension_by_strokes", strokes)


def soft_release(release: Mapping[str, Any] | Result, /) -> Result:
    """Stored energy of a line, and its soft release over a friction device."""
    return call("line.soft_release", release)


def hardware_gives(line: Mapping[str, Any] | Result, /) -> Result:
    """The new rest of a line after a lock has slipped, an absorber torn or a weak spot broken."""
    return call("line.hardware_gives", line)
