"""What a function takes where it wants a quantity."""

from __future__ import annotations

from typing import Any, Protocol, TypeAlias, Union

from ._native import Quantity

__all__ = ["Quantity", "QuantityLike", "RatioLike"]


class ForeignQuantity(Protocol):
    """A quantity of another package, such as pint."""

    @property
    def magnitude(self) -> Any: ...
    @property
    def units(self) -> Any: ...


QuantityLike: TypeAlias = Union[str, Quantity, ForeignQuantity]
RatioLike: TypeAlias = Union[str, float, Quantity, ForeignQuantity]
