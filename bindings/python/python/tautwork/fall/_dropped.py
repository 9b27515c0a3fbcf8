"""Where a dropped or thrown thing lands."""

from collections.abc import Mapping
from typing import Any

from .._native import call
from ..result import Result

__all__ = ["dropped"]


def dropped(thing: Mapping[str, Any], /) -> Result:
    """Within what radius a dropped or thrown thing lands, and how hard.

    `height`; `speed` with which it may leave in any direction; `wind` for what has a `mass` and a `drag_area`.

    >>> dropped({"height": "90 m", "speed": "3 m/s"}).radius.show("m", 2)
    '12.88 m'
    """
    return call("fall.dropped", thing)
