"""One exception class for each kind of failure; the facts are attributes."""

from __future__ import annotations

from typing import Any


class TautworkError(ValueError):
    """Any failure of a call."""

    def __init__(self, message: str = "", **facts: Any) -> None:
        super().__init__(message)
        self.__dict__.update(facts)


class InvalidInput(TautworkError):
    """An argument is missing, of the wrong type, or outside its range."""

    parameter: str
    value: str | None = None
    allowed: str | None = None


class UnitError(TautworkError):
    """A quantity has no unit, an unknown unit, or one of another kind."""

    parameter: str | None = None
    value: str | None = None


class ModelError(TautworkError):
    """The model has no answer for these inputs."""


class NoConvergence(TautworkError):
    """A solver ran out of its budget; `residual` says how far off it was."""

    residual: Any = None


class DocumentError(TautworkError):
    """A document holds mistakes, listed in `mistakes`."""

    mistakes: list[Any]
