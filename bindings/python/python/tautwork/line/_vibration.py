"""Frequencies and shapes of lines, the bounce of a person, and tension from a timed period."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = [
    "bounce",
    "cable_modes",
    "chain_modes",
    "irvine_caughey",
    "string_modes",
    "tension_from_bounce",
    "tension_from_pluck",
]

Line = Mapping[str, Any] | Result


def string_modes(
    *, length: QuantityLike, tension: QuantityLike, linear_density: QuantityLike, count: int
) -> Result:
    """Natural frequencies of a taut string, the lowest first.

    >>> f = string_modes(length="50 m", tension="1 kN", linear_density="0.1 kg/m", count=3)
    >>> f.frequency_hz.round(6).tolist()
    [1.0, 2.0, 3.0]
    """
    return call(
        "line.string_modes",
        {"length": length, "tension": tension, "linear_density": linear_density, "count": count},
    )


def irvine_caughey(*, lambda_squared: RatioLike, count: int) -> Result:
    """Frequencies ω c sqrt(m / N) / π of a shallow cable with a sag parameter λ².

    The answer has the arrays `symmetric_over_pi`, `antisymmetric_over_pi` (both in the plane of the
    sag) and `out_of_plane_over_pi`.

    >>> irvine_caughey(lambda_squared=0, count=2).symmetric_over_pi.tolist()
    [1.0, 3.0]
    """
    return call("line.irvine_caughey", {"lambda_squared": lambda_squared, "count": count})


def cable_modes(*, line: Line, count: int) -> Result:
    """Frequencies and shapes of an empty line between two anchors, by Irvine and Caughey.

    `line` is as in `solve_elastic`; its sag should be below an eighth of the chord.

    >>> line = {
    ...     "span": "130 m",
    ...     "rise": "-3 m",
    ...     "rest_length": "127.74 m",
    ...     "weight": "0.667 N/m",
    ...     "stretch": {"axial_rigidity": "250 kN"},
    ... }
    >>> modes = cable_modes(line=line, count=2)
    >>> modes.first_in_plane, modes.out_of_plane_hz.round(2).tolist()
    ('symmetric', [1.0, 1.99])
    """
    return call("line.cable_modes", {"line": line, "count": count})


def chain_modes(chain: Mapping[str, Any] | Result, /) -> Result:
    """Modes of a chain of any pieces with masses tied to it, about its exact rest.

    `chain` holds the `chain` as in `solve_chain`, `masses` (one for each load), and, if wanted,
    `segments` (64, at most 200) and `count` (6).

    >>> chain = {
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["101 m", "0 m", "0 m"],
    ...     "pieces": [
    ...         {
    ...             "rest_length": "100 m",
    ...             "weight": "0 N/m",
    ...             "stretch": {"axial_rigidity": "100 kN"},
    ...         }
    ...     ],
    ...     "loads": [{"at": "50 m", "force": ["0 N", "0 N", "0 N"]}],
    ... }
    >>> modes = chain_modes({"chain": chain, "masses": ["10 kg"]})
    >>> round(modes.modes[0].frequency_hz, 4)
    0.3167
    """
    return call("line.chain_modes", chain)


def bounce(*, line: Line, at: QuantityLike, mass: QuantityLike) -> Result:
    """Bounce and sway of a person at rest length `at` from the near end of a line.

    >>> line = {
    ...     "span": "6 m",
    ...     "rise": "0 m",
    ...     "rest_length": "10 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "1000 MN"},
    ... }
    >>> bounce(line=line, at="5 m", mass="80 kg").sway_period.show("s", 3)
    '4.012 s'
    """
    return call("line.bounce", {"line": line, "at": at, "mass": mass})


def tension_from_pluck(pluck: Mapping[str, Any] | Result, /) -> Result:
    """Tension of an empty line from the period of a pluck at its middle; every one that fits.

    >>> pluck = {
    ...     "span": "50 m",
    ...     "rise": "0 m",
    ...     "weight": "0.981 N/m",
    ...     "stretch": {"axial_rigidity": "1000 MN"},
    ...     "plane": "sideways",
    ...     "time": "10 s",
    ...     "periods": 10,
    ...     "time_error": "0.1 s",
    ...     "weight_error": "0 N/m",
    ... }
    >>> read = tension_from_pluck(pluck)
    >>> [(t.chord_tension.show("N", 0), t.error.show("N", 0)) for t in read.tensions]
    [('1000 N', '20 N')]
    """
    return call("line.tension_from_pluck", pluck)


def tension_from_bounce(person: Mapping[str, Any] | Result, /) -> Result:
    """Tension of a line from the period of a person who bounces on it; every one that fits.

    >>> person = {
    ...     "span": "50 m",
    ...     "rise": "0 m",
    ...     "weight": "0.5 N/m",
    ...     "stretch": {"axial_rigidity": "60 kN"},
    ...     "at_share": "50 %",
    ...     "mass": "80 kg",
    ...     "mass_error": "1 kg",
    ...     "time": "20 s",
    ...     "periods": 10,
    ...     "time_error": "0.2 s",
    ... }
    >>> tension_from_bounce(person).string_tension.show("kN", 1)
    '10.0 kN'
    """
    return call("line.tension_from_bounce", person)
