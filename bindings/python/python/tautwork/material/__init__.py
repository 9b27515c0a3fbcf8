"""What a rope, webbing or cord does under load, what is left of its strength, what standards ask for."""

from ._cordage import *  # noqa: F403
from ._gear import *  # noqa: F403
from ._strength import *  # noqa: F403
from ._wear import *  # noqa: F403

# Written out, since type checkers read no sums of lists.
__all__ = [  # noqa: F405
    "derated",
    "gear_limits",
    "is_past_table",
    "knot_factors",
    "rated_strength",
    "rating_check",
    "rest_length_factor",
    "rope_recovery",
    "rub_wear",
    "strain",
    "strength_factors",
    "strength_left",
    "tangent_rigidity",
    "tension",
    "viscoelastic_from_en892",
    "weight",
    "wire_rope_bend",
]
