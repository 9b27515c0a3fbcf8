"""Equilibrium of lines, nets and bundles, and the lengths that give a tension or a sag."""

from collections.abc import Mapping, Sequence
from typing import Any, Literal

import numpy as np
import numpy.typing as npt

from .. import _native
from .._native import Quantity, call
from .._series import plain
from ..quantity import QuantityLike
from ..result import Result

__all__ = [
    "bundle_engagement",
    "bundle_rest_length_for_tension",
    "catenary",
    "catenary_from_sag",
    "rest_length_for_mid_load_sag",
    "rest_length_for_sag",
    "rest_length_for_tension",
    "solve_bundle",
    "solve_chain",
    "solve_elastic",
    "solve_elastic_batch",
    "solve_net",
    "sweep_bundle",
    "sweep_bundle_batch",
]

Series = npt.ArrayLike
Vector = Sequence[QuantityLike]


def catenary(
    *, span: QuantityLike, rise: QuantityLike, rest_length: QuantityLike, weight: QuantityLike
) -> Result:
    """A hanging line that does not stretch.

    >>> catenary(span="20 m", rise="0 m", rest_length="24.1882 m", weight="5 N/m").h.show("N", 1)
    '45.9 N'
    """
    return call(
        "line.catenary",
        {"span": span, "rise": rise, "rest_length": rest_length, "weight": weight},
    )


def catenary_from_sag(
    *, span: QuantityLike, rise: QuantityLike, sag_below_chord: QuantityLike, weight: QuantityLike
) -> Result:
    """The line that does not stretch with a given largest vertical distance below its chord.

    >>> c = catenary_from_sag(span="20 m", rise="0 m", sag_below_chord="6 m", weight="5 N/m")
    >>> c.rest_length.show("m", 2)
    '24.19 m'
    """
    return call(
        "line.catenary_from_sag",
        {"span": span, "rise": rise, "sag_below_chord": sag_below_chord, "weight": weight},
    )


def solve_elastic(
    line: Mapping[str, Any] | Result | None = None,
    /,
    *,
    span_m: Series | None = None,
    rise_m: Series | None = None,
    rest_length_m: Series | None = None,
    weight_n_per_m: Series | None = None,
    axial_rigidity_n: Series | None = None,
) -> Result:
    """Tension, length and sag of one line, or of many linear lines at once.

    One line is a mapping of `span`, `rise`, `rest_length`, `weight` and `stretch`; the answer has
    quantities. Many are arrays or numbers with the unit in the name; the answer has arrays, as of
    `solve_elastic_batch`.

    >>> line = {
    ...     "span": "130 m",
    ...     "rise": "-3 m",
    ...     "rest_length": "127.74 m",
    ...     "weight": "0.667 N/m",
    ...     "stretch": {"axial_rigidity": "250 kN"},
    ... }
    >>> solve_elastic(line).tension_near.show("kN", 2)
    '4.50 kN'
    >>> many = solve_elastic(
    ...     span_m=[101.0, 100.5],
    ...     rise_m=0.0,
    ...     rest_length_m=100.0,
    ...     weight_n_per_m=0.0,
    ...     axial_rigidity_n=1e5,
    ... )
    >>> many.tension_near_n.round(6).tolist()
    [1000.0, 500.0]
    """
    series = {
        "span_m": span_m,
        "rise_m": rise_m,
        "rest_length_m": rest_length_m,
        "weight_n_per_m": weight_n_per_m,
        "axial_rigidity_n": axial_rigidity_n,
    }
    given = {name: column for name, column in series.items() if column is not None}
    if line is None:
        return solve_elastic_batch(**given)
    if given:
        raise TypeError("solve_elastic takes one line, or arrays by name, not both")
    return call("line.solve_elastic", line)


def solve_elastic_batch(
    *,
    span_m: Series,
    rise_m: Series,
    rest_length_m: Series,
    weight_n_per_m: Series,
    axial_rigidity_n: Series,
) -> Result:
    """Many linear lines at once, without the interpreter lock. A single value serves all lines.

    The answer has the arrays `h_n`, `v_near_n` (upward pull of the near anchor on the line),
    `tension_near_n`, `tension_far_n`, `stretched_length_m`, `sag_below_chord_m` and `residual_m`.

    >>> import numpy as np
    >>> rest = np.linspace(126.0, 129.0, 4)
    >>> lines = solve_elastic_batch(
    ...     span_m=130.0,
    ...     rise_m=-3.0,
    ...     rest_length_m=rest,
    ...     weight_n_per_m=0.667,
    ...     axial_rigidity_n=250e3,
    ... )
    >>> (lines.tension_near_n / 1e3).round(1).tolist()
    [8.0, 6.0, 4.0, 2.0]
    """
    given = (span_m, rise_m, rest_length_m, weight_n_per_m, axial_rigidity_n)
    columns = [np.atleast_1d(np.ascontiguousarray(column, dtype=np.float64)) for column in given]
    return _native.solve_elastic_batch(*columns)


def rest_length_for_tension(
    *, line: Mapping[str, Any] | Result, tension: QuantityLike, end: Literal["near", "far"]
) -> Quantity:
    """Rest length at which a line stands with a wanted tension at one end, on the taut side.

    >>> line = {
    ...     "span": "130 m",
    ...     "rise": "-3 m",
    ...     "rest_length": "130 m",
    ...     "weight": "0.667 N/m",
    ...     "stretch": {"axial_rigidity": "250 kN"},
    ... }
    >>> rest_length_for_tension(line=line, tension="4.5 kN", end="near").show("m", 2)
    '127.74 m'
    """
    return call("line.rest_length_for_tension", {"line": line, "tension": tension, "end": end})


def rest_length_for_sag(
    *, line: Mapping[str, Any] | Result, sag_below_chord: QuantityLike
) -> Quantity:
    """Rest length at which a line hangs with a wanted sag below its chord."""
    return call("line.rest_length_for_sag", {"line": line, "sag_below_chord": sag_below_chord})


def rest_length_for_mid_load_sag(
    *, line: Mapping[str, Any] | Result, load: QuantityLike, sag_below_chord: QuantityLike
) -> Quantity:
    """Rest length at which a load tied to the middle of a line hangs a wanted distance below its chord."""
    return call(
        "line.rest_length_for_mid_load_sag",
        {"line": line, "load": load, "sag_below_chord": sag_below_chord},
    )


def solve_chain(chain: Mapping[str, Any] | Result, /) -> Result:
    """A line of any number of pieces with any number of loads tied to it, in space.

    >>> zero, down = "0 N", "-1 kN"
    >>> solved = solve_chain({
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["6 m", "0 m", "0 m"],
    ...     "pieces": [{
    ...         "rest_length": "10 m",
    ...         "weight": "0 N/m",
    ...         "stretch": {"axial_rigidity": "1000000 MN"},
    ...     }],
    ...     "loads": [{"at": "5 m", "force": [zero, zero, down]}],
    ... })
    >>> solved.loads[0].below_chord.show("m", 3), solved.tension_near.show("N", 0)
    ('4.000 m', '625 N')
    """
    return call("line.solve_chain", chain)


def solve_net(net: Mapping[str, Any] | Result, /) -> Result:
    """Where the free points of a net of lines come to rest, and what its lines carry."""
    return call("line.solve_net", net)


def solve_bundle(*, lines: Sequence[Mapping[str, Any] | Result], load: Vector) -> Result:
    """Where the ring of a bundle rests under a load, and what each line carries.

    >>> def line(name, rigidity):
    ...     return {
    ...         "name": name,
    ...         "near": ["0 m", "0 m", "0 m"],
    ...         "far": ["100 m", "0 m", "0 m"],
    ...         "near_length": "50 m",
    ...         "far_length": "50 m",
    ...         "weight": "0 N/m",
    ...         "stretch": {"axial_rigidity": rigidity},
    ...     }
    >>> both = [line("main", "300 kN"), line("backup", "100 kN")]
    >>> solved = solve_bundle(lines=both, load=["0 N", "0 N", "-2 kN"])
    >>> solved.lines[0].share.show("%", 1)
    '75.0 %'
    """
    return call("line.solve_bundle", {"lines": lines, "load": load})


def sweep_bundle(
    *, lines: Sequence[Mapping[str, Any] | Result], loads: Sequence[Vector]
) -> list[Result]:
    """`solve_bundle` for one load after the other, each from the state of the last."""
    return call("line.sweep_bundle", {"lines": lines, "loads": loads})


def sweep_bundle_batch(
    *,
    lines: Sequence[Mapping[str, Any] | Result],
    load_x_n: Series,
    load_y_n: Series,
    load_z_n: Series,
) -> Result:
    """`sweep_bundle` for many loads: arrays of the ring's place, and of tensions and shares by line.

    A single value serves all loads. Steps in one direction cost least.

    >>> import numpy as np
    >>> main = {
    ...     "name": "main",
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["100 m", "0 m", "0 m"],
    ...     "near_length": "50 m",
    ...     "far_length": "50 m",
    ...     "weight": "0.7 N/m",
    ...     "stretch": {"axial_rigidity": "250 kN"},
    ... }
    >>> loads = -np.linspace(1e3, 4e3, 4)
    >>> swept = sweep_bundle_batch(lines=[main], load_x_n=0, load_y_n=0, load_z_n=loads)
    >>> swept.ring_z_m.round(1).tolist()
    [-8.1, -10.2, -11.6, -12.8]
    """
    loads = {"load_x_n": plain(load_x_n), "load_y_n": plain(load_y_n), "load_z_n": plain(load_z_n)}
    return call("line.sweep_bundle_batch", {"lines": lines, **loads})


def bundle_engagement(
    *, lines: Sequence[Mapping[str, Any] | Result], up_to: QuantityLike
) -> list[Result]:
    """The downward load at which each line of a bundle begins to carry."""
    return call("line.bundle_engagement", {"lines": lines, "up_to": up_to})


def bundle_rest_length_for_tension(
    *,
    lines: Sequence[Mapping[str, Any] | Result],
    line: str,
    tension: QuantityLike,
    end: Literal["near", "far"],
    load: Vector,
) -> Quantity:
    """Rest length at which a line of a bundle has a wanted tension at one end, all lines being on.

    >>> main = {
    ...     "name": "main",
    ...     "near": ["0 m", "0 m", "0 m"],
    ...     "far": ["101 m", "0 m", "0 m"],
    ...     "near_length": "50.2 m",
    ...     "far_length": "50.2 m",
    ...     "weight": "0 N/m",
    ...     "stretch": {"axial_rigidity": "100 kN"},
    ... }
    >>> calm = ["0 N", "0 N", "0 N"]
    >>> bundle_rest_length_for_tension(
    ...     lines=[main], line="main", tension="1 kN", end="near", load=calm
    ... ).show("m", 3)
    '100.000 m'
    """
    return call(
        "line.bundle_rest_length_for_tension",
        {"lines": lines, "line": line, "tension": tension, "end": end, "load": load},
    )
