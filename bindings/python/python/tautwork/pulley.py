"""Rope paths over sheaves: forces to raise, hold and lower a load, with losses, and travel."""

from collections.abc import Mapping, Sequence
from typing import Any, Literal

from ._native import Quantity, call
from .quantity import QuantityLike, RatioLike
from .result import Result

__all__ = [
    "capstan_hold",
    "capstan_ratio",
    "compare_hauls",
    "haul_fails",
    "haul_work",
    "implied_mu",
    "ordinary",
    "solve",
    "tackle",
    "way_back",
]


def solve(*, system: Result | Mapping[str, Any], load: QuantityLike) -> Result:
    """Solves a pulley system: advantages, forces to raise, hold and lower, tensions, travel.

    A system has `bodies` (name, kind, position), `ropes` (name, from, over, to) and may give the
    direction `haul`; each sheave in `over` says `on` which body it is and its `friction`.

    >>> z = ordinary(system="three_to_one", friction={"law": "fixed", "efficiency": 0.83})
    >>> solve(system=z, load="1 kN").actual_advantage.show("1", 4)
    '2.5189'
    """
    return call("pulley.solve", {"system": system, "load": load})


def ordinary(
    *,
    system: Literal[
        "redirect",
        "two_to_one",
        "three_to_one",
        "four_to_one",
        "five_to_one",
        "six_to_one",
        "nine_to_one",
    ],
    friction: Mapping[str, Any],
) -> Result:
    """An ordinary system with parallel ropes and one kind of sheave, for `solve`.

    >>> len(ordinary(system="nine_to_one", friction={"law": "capstan", "mu": 0.06}).ropes)
    2
    """
    return call("pulley.ordinary", {"system": system, "friction": friction})


def tackle(*, parts: Sequence[int], redirect: bool, friction: Mapping[str, Any]) -> Result:
    """Block-and-tackle stages that haul on one another, from the load to the hand, for `solve`.

    >>> four = tackle(parts=[4], redirect=True, friction={"law": "fixed", "efficiency": 1})
    >>> solve(system=four, load="1 kN").ideal_advantage
    Quantity("4")
    """
    return call("pulley.tackle", {"parts": parts, "redirect": redirect, "friction": friction})


def capstan_ratio(*, mu: RatioLike, wrap: QuantityLike) -> Quantity:
    """Ratio of the tensions on both sides of a bar when the rope is about to slide.

    >>> capstan_ratio(mu=0.5, wrap="1 turn").show("1", 2)
    '23.14'
    """
    return call("pulley.capstan_ratio", {"mu": mu, "wrap": wrap})


def capstan_hold(*, load: QuantityLike, mu: RatioLike, wrap: QuantityLike) -> Result:
    """Least and greatest force on the free side that hold a load over a bar.

    >>> capstan_hold(load="981 N", mu=0.3, wrap="90 deg").low.show("N", 0)
    '612 N'
    """
    return call("pulley.capstan_hold", {"load": load, "mu": mu, "wrap": wrap})


def implied_mu(*, ratio: RatioLike, wrap: QuantityLike) -> Quantity:
    """Friction that a measured tension ratio implies, the inverse of `capstan_ratio`.

    >>> implied_mu(ratio=50, wrap="2 turns").show("1", 3)
    '0.311'
    """
    return call("pulley.implied_mu", {"ratio": ratio, "wrap": wrap})


def haul_work(haul: Mapping[str, Any], /) -> Result:
    """Strokes, resets, rope, time and work of a haul with an ordinary system.

    `haul` has the `system` and its `friction` as in `ordinary`, the `load`, the `lift`, the `throw`, `people`,
    `pull_each`, `hand_speed` and `reset_time`; optionally `back_slip`, `line_length`, `line_rigidity` and
    `system_rigidity`.

    >>> haul = {"system": "three_to_one", "friction": {"law": "fixed", "efficiency": 0.83},
    ...         "load": "784.8 N", "lift": "20 m", "throw": "2 m", "people": 2, "pull_each": "200 N",
    ...         "hand_speed": "0.3 m/s", "reset_time": "20 s"}
    >>> work = haul_work(haul)
    >>> work.hand_force.show("N", 0), work.people_needed, work.strokes
    ('312 N', 2, 10)
    """
    return call("pulley.haul_work", haul)


def compare_hauls(*, haul: Mapping[str, Any], systems: Sequence[str]) -> Result:
    """One lift with several systems: `each`, and the `least` that the people can pull.

    >>> haul = {"system": "redirect", "friction": {"law": "fixed", "efficiency": 0.83},
    ...         "load": "784.8 N", "lift": "20 m", "throw": "2 m", "people": 2, "pull_each": "200 N",
    ...         "hand_speed": "0.3 m/s", "reset_time": "20 s"}
    >>> compare_hauls(haul=haul, systems=["redirect", "two_to_one", "three_to_one"]).least
    'three_to_one'
    """
    return call("pulley.compare_hauls", {"haul": haul, "systems": systems})


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
