"""The way back to the lip."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["haul_fails", "way_back"]


def way_back(way: Mapping[str, Any], /) -> Result:
    """The way of a jumper who is drawn in to the lip, place by place.

    `way` has the `lines` that hold the ring (as in `line.solve_bundle`; none for a ring that does not move),
    `ring_mass`, jump `ropes` (`name`, `rest_length`, `weight`, `stretch`), `mass`, the places `ring`, `body`,
    `pulley` and `lip`, `lip_friction`, `haul_weight`, `haul_stretch`, `body_radius` and `steps`; optionally
    `walls`. The answer has arrays from far out to the lip: `rope_out_m`, `pull_n`, `behind_lip_n`, `x_m`,
    `z_m`, `jump_ropes_n`, `clearance_m` and more, and the `greatest` pull, the `work`, and where the jump ropes
    go slack.

    >>> stiff = {"axial_rigidity": "1e6 kN"}
    >>> rope = {"name": "rope", "rest_length": "50 m", "weight": "0 N/m", "stretch": stiff}
    >>> at = lambda x, z: [f"{x} m", "0 m", f"{z} m"]
    >>> places = way_back({"lines": [], "ring_mass": "0 kg", "ropes": [rope], "mass": "100 kg",
    ...                    "ring": at(0, 0), "body": at(0, -50), "pulley": at(-44, 0.5), "lip": at(-40, 0),
    ...                    "lip_friction": 0, "haul_weight": "0 N/m", "haul_stretch": stiff,
    ...                    "body_radius": "0.9 m", "steps": 30})
    >>> places.greatest.show("N", 0), float(places.x_m[-1].round(1))
    ('981 N', -40.0)
    """
    return call("pulley.way_back", way)


def haul_fails(*, jump: Mapping[str, Any], way: Result | Mapping[str, Any], at: int) -> Result:
    """The haul rope fails at the place `at` of a way: the jumper swings out again from rest.

    `jump` is that of `swing.fly` that brought them there; the answer has the `outlook` of the second swing.
    """
    return call("pulley.haul_fails", {"jump": jump, "way": way, "at": at})
