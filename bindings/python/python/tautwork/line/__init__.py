"""Webbing and rope between points: alone, under loads, in wind, or tied to others at a ring.

x runs along the span from the near anchor, y to the left, z up. Lengths and weights count per rest
length. The stretch of a line is a mapping as in `material`.
"""

from . import _building, _chain, _derivatives, _rings, _rules, _solve, _tables, _tensioning, _vibration, _walk
from ._building import *  # noqa: F403
from ._chain import *  # noqa: F403
from ._derivatives import *  # noqa: F403
from ._rings import *  # noqa: F403
from ._rules import *  # noqa: F403
from ._solve import *  # noqa: F403
from ._tables import *  # noqa: F403
from ._tensioning import *  # noqa: F403
from ._vibration import *  # noqa: F403
from ._walk import *  # noqa: F403

__all__: list[str] = []
__all__ += _building.__all__
__all__ += _chain.__all__
__all__ += _derivatives.__all__
__all__ += _rings.__all__
__all__ += _rules.__all__
__all__ += _solve.__all__
__all__ += _tables.__all__
__all__ += _tensioning.__all__
__all__ += _vibration.__all__
__all__ += _walk.__all__
