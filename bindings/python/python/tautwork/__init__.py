"""Rigging mechanics with units.

Every function has the module, name and named arguments of the Rust and JavaScript versions. A
quantity goes in as text ("22 kN"), as a `Quantity`, or as a quantity of a package such as pint, and
comes out as a `Quantity`.

Results are calculations, not permission: local codes, manufacturers' instructions and licensed
practice rule.
"""

from . import anchor, fall, line, material, pictures, pulley, rig, swing
from ._native import Quantity
from .errors import (
    DocumentError,
    InvalidInput,
    ModelError,
    NoConvergence,
    TautworkError,
    UnitError,
)
from .result import Result
from .rig import Plan, loss_table, plan

__all__ = [
    "DocumentError",
    "InvalidInput",
    "ModelError",
    "NoConvergence",
    "Plan",
    "Quantity",
    "Result",
    "TautworkError",
    "UnitError",
    "anchor",
    "fall",
    "line",
    "loss_table",
    "material",
    "pictures",
    "plan",
    "pulley",
    "rig",
    "swing",
]
