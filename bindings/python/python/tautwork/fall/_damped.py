"""Falls on a damped rope, in time and one after the other."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["arrest_damped", "arrest_repeated"]


def arrest_damped(fall: Mapping[str, Any], /) -> Result:
    """Follow a fall on a damped rope in time: force, rebound, time above forces, energy books.

    `fall` has `mass`, `height`, `rope`, `stretch`, `damping`, `duration` and optionally `slips` as in
    `arrest_with_slip`, `body` (`share`, `stiffness`, `damping`), `drag_area`, `air_density`,
    `thresholds` and `samples`; `damping` is `"none"`, `{"standard_linear": {"arm",
    "relaxation_time"}}` or `{"kelvin_voigt": {"retardation_time"}}`. The `series` has `t_s`, `force_n`,
    `extension_m` and `speed_m_per_s`.

    >>> fall = {"mass": "80 kg", "height": "0 m", "rope": "10 m", "duration": "2 s",
    ...         "stretch": {"axial_rigidity": "20 kN"}, "damping": "none"}
    >>> arrest_damped(fall).impact_force.show("N", 1)
    '1569.6 N'
    """
    return call("fall.arrest_damped", fall)


def arrest_repeated(falls: Mapping[str, Any], /) -> list[Result]:
    """Follow falls one after the other on the same rope, which remembers the last.

    `falls` has `fall` as in `arrest_damped`, `falls` (how many), `between` and optionally
    `set_per_fall` and `stiffening_per_fall`.
    """
    return call("fall.arrest_repeated", falls)
