"""Results whose fields are attributes."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from ._native import Quantity


class Result:
    """The fields of an answer: `result.peak_force` or `result["peak_force"]`.

    A result of one call can be an argument of another.
    """

    __slots__ = ("_fields",)
    _fields: dict[str, Any]

    def __init__(self, fields: Mapping[str, Any]) -> None:
        object.__setattr__(self, "_fields", dict(fields))

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        try:
            return self._fields[name]
        except KeyError:
            known = ", ".join(self._fields)
            raise AttributeError(f"no field {name}; there are {known}") from None

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError("a result cannot be changed; to_dict() gives a copy that can")

    def __getitem__(self, name: str) -> Any:
        return self._fields[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._fields)

    def __len__(self) -> int:
        return len(self._fields)

    def __contains__(self, name: object) -> bool:
        return name in self._fields

    def __dir__(self) -> list[str]:
        return [*self._fields, "to_dict", "to_json"]

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Result):
            return NotImplemented
        return self.to_dict() == other.to_dict()

    __hash__ = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[type[Result], tuple[dict[str, Any]]]:
        return (type(self), (self._fields,))

    def __repr__(self) -> str:
        lines = []
        for name, value in self._fields.items():
            text = _shown(value).replace("\n", "\n  ")
            lines.append(f"  {name}: {text}")
        return "\n".join(["Result", *lines])

    def to_dict(self) -> dict[str, Any]:
        """Plain dicts, lists, numbers and texts; a quantity is text with its unit."""
        return {name: _plain(value) for name, value in self._fields.items()}

    def to_json(self, indent: int | None = None) -> str:
        """The same as JSON."""
        return json.dumps(self.to_dict(), indent=indent, ensure_ascii=False, allow_nan=False)


def _plain(value: Any) -> Any:
    if isinstance(value, Result):
        return value.to_dict()
    if isinstance(value, Quantity):
        return str(value)
    if isinstance(value, list):
        return [_plain(item) for item in value]
    if hasattr(value, "tolist"):
        return value.tolist()
    return value


def _shown(value: Any) -> str:
    if isinstance(value, Quantity):
        return str(value)
    if hasattr(value, "tolist") and len(value) > 6:
        head, tail = value[:3].tolist(), value[-1]
        return f"[{', '.join(map(str, head))}, ... {tail}] ({len(value)} values)"
    if isinstance(value, list) and len(value) > 3:
        return f"[{_shown(value[0])}, ...] ({len(value)} items)"
    if isinstance(value, list):
        return f"[{', '.join(_shown(item) for item in value)}]"
    return str(value) if isinstance(value, str) else repr(value)
