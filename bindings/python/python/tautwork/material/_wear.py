"""What rubbing uses up, and how long a rope takes to get its length back."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["rope_recovery", "rub_wear"]


def rope_recovery(rope: Mapping[str, Any], /) -> Result:
    """How long a rope must hang without tension before the next jump.

    `solid` as from `viscoelastic_from_en892`, `strain` of its damper when let go, strain that may be `left`.

    >>> solid = {"long_term": "10 kN", "arm": "10 kN", "relaxation_time": "1 s"}
    >>> rope_recovery({"solid": solid, "strain": "10 %", "left": "1 %"}).time.show("s", 3)
    '3.219 s'
    """
    return call("material.rope_recovery", rope)


def rub_wear(case: Mapping[str, Any], /) -> Result:
    """How much a rub wears: `contact_n` and `travel_m` at each sample.

    With `retire_at`, the rigger's force times travel, and what was `done` before, the jumps that are left.

    >>> case = {"contact_n": [2000, 2000], "travel_m": [0, 0.05], "retire_at": "0.25 kJ"}
    >>> rub_wear(case).jumps_left
    2
    """
    return call("material.rub_wear", case)
