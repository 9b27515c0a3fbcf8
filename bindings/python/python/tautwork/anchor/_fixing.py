"""Bolts in tension and shear, natural anchors, slings in hitches."""

from collections.abc import Mapping, Sequence
from typing import Any

from .._native import Quantity, call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = [
    "block_hold",
    "bolt_group",
    "bolt_use",
    "choke_angle_factor",
    "hitch_strength",
    "interaction_rules",
    "sling_mode_factor",
    "tree_stress",
    "wire_rope_sling_limit",
]


def interaction_rules() -> list[Result]:
    """Every rule for tension and shear at once, with its formula and its source.

    >>> [rule.rule for rule in interaction_rules()][4:]
    ['tri_linear', 'en1993_1_8', 'aisc_j3_7']
    """
    return call("anchor.interaction_rules", {})


def bolt_use(
    *,
    limits: Mapping[str, Any],
    axis: Sequence[float],
    force: Sequence[QuantityLike],
) -> Result:
    """Tension, shear and utilisation of a bolt, whose axis points out of the rock, under a force.

    `limits` has the resistances `tension` and `shear`, the `rule`, and may have `reductions`, each
    with `name`, `tension` and `shear` in (0, 1].

    >>> limits = {"tension": "15 kN", "shear": "25 kN", "rule": "linear"}
    >>> bolt = bolt_use(limits=limits, axis=[1, 0, 0], force=["3 kN", "0 kN", "-5 kN"])
    >>> bolt.utilisation.show("%", 0)
    '40 %'
    """
    return call("anchor.bolt_use", {"limits": limits, "axis": axis, "force": force})


def bolt_group(group: Mapping[str, Any], /) -> Result:
    """What bolts under a rigid plate carry: shear and torsion, tension and bending.

    `group` has `bolts`, `normal` (x, y, z out of the rock), `pull` and `pull_at`, and may have
    `bearing` points, each with `position` and `stiffness`. A bolt has `name`, `position`,
    `axial_stiffness`, `shear_stiffness` and may have the `limits` of `bolt_use`.

    >>> stiff = {"axial_stiffness": "50 kN/m", "shear_stiffness": "50 kN/m"}
    >>> bolts = [{"name": x, "position": [x, "0 m", "0 m"], **stiff} for x in ["1 m", "-1 m"]]
    >>> group = {
    ...     "bolts": bolts,
    ...     "normal": [0, 0, 1],
    ...     "pull": ["0 N", "0 N", "1 kN"],
    ...     "pull_at": ["0.5 m", "0 m", "0 m"],
    ... }
    >>> [bolt.tension.show("N", 0) for bolt in bolt_group(group).bolts]
    ['750 N', '250 N']
    """
    return call("anchor.bolt_group", group)


def block_hold(block: Mapping[str, Any], /) -> Result:
    """At what pull a boulder or block on sloping ground slides or tips, and which comes first.

    `block` has `mass`, `friction`, `slope`, `center_behind_edge`, `center_height`, `pull`,
    `pull_angle`, `pull_height` and `pull_behind_edge`.

    >>> block = {
    ...     "mass": "2000 kg", "friction": 0.5, "slope": "0 deg",
    ...     "center_behind_edge": "0.5 m", "center_height": "0.5 m",
    ...     "pull": "4 kN", "pull_angle": "0 deg",
    ...     "pull_height": "0.2 m", "pull_behind_edge": "0 m",
    ... }
    >>> hold = block_hold(block)
    >>> hold.first, hold.sliding.show("kN", 2)
    ('sliding', '9.81 kN')
    """
    return call("anchor.block_hold", block)


def tree_stress(trunk: Mapping[str, Any], /) -> Result:
    """Stress at the foot of a trunk from a sling, against the strength that the user gives.

    `trunk` has `diameter`, `sling_height`, `pull`, `pull_angle` and `strength`.

    >>> trunk = {
    ...     "diameter": "0.2 m", "sling_height": "1 m", "pull": "10 kN",
    ...     "pull_angle": "0 deg", "strength": "30 MPa",
    ... }
    >>> tree_stress(trunk).bending.show("MPa", 2)
    '12.73 MPa'
    """
    return call("anchor.tree_stress", trunk)


def choke_angle_factor(*, choke_angle: QuantityLike) -> Quantity:
    """Part of its rating as a choker that a sling keeps at an angle of choke.

    >>> choke_angle_factor(choke_angle="100 deg").show("%", 0)
    '87 %'
    """
    return call("anchor.choke_angle_factor", {"choke_angle": choke_angle})


def sling_mode_factor(*, mode: str, angle_from_vertical: QuantityLike) -> Result:
    """Factor of a sling's mode of use by EN 13414-1 and EN 1492, beside what statics gives.

    >>> sling_mode_factor(mode="two_legs", angle_from_vertical="30 deg").factor.show("1", 1)
    '1.4'
    """
    return call(
        "anchor.sling_mode_factor", {"mode": mode, "angle_from_vertical": angle_from_vertical}
    )


def wire_rope_sling_limit(
    *,
    diameter: QuantityLike,
    rope_grade: QuantityLike,
    termination: RatioLike,
    mode_factor: RatioLike,
) -> Quantity:
    """Greatest mass that a wire rope sling with a steel core lifts by EN 13414-1.

    >>> wire_rope_sling_limit(
    ...     diameter="16 mm", rope_grade="1770 MPa", termination=0.9, mode_factor=1
    ... ).show("kg", 0)
    '2960 kg'
    """
    return call(
        "anchor.wire_rope_sling_limit",
        {
            "diameter": diameter,
            "rope_grade": rope_grade,
            "termination": termination,
            "mode_factor": mode_factor,
        },
    )


def hitch_strength(hitch: Mapping[str, Any], /) -> Result:
    """Strength range of a sling in a hitch, with every factor and its source.

    `hitch` has `form`, `strength` of one straight part and may have `factors`. A form is
    `"straight"` or a mapping with one of the keys `choker`, `basket`, `girth`, `wrap`.

    >>> basket = {"form": {"basket": {"v_angle": "60 deg"}}, "strength": "22 kN"}
    >>> hitch_strength(basket).low.show("kN", 1)
    '38.1 kN'
    """
    return call("anchor.hitch_strength", hitch)
