"""Tables of handbooks as data and as text."""

from collections.abc import Mapping, Sequence
from typing import Any, Literal

from .._native import call
from ..quantity import QuantityLike, RatioLike
from ..result import Result

__all__ = ["angle_table", "mid_load_table", "sag_table", "table_text"]


def sag_table(
    *,
    cases: Sequence[Mapping[str, Any] | Result],
    listed: Literal["horizontal", "end", "mean"],
) -> list[Result]:
    """Sag, tensions, length and end slope of level lines from the tension that a table lists.

    >>> case = {"span": "20 m", "weight": "5 N/m", "tension": "50 N"}
    >>> sag_table(cases=[case], listed="horizontal")[0].sag.show("m", 3)
    '5.431 m'
    """
    return call("line.sag_table", {"cases": cases, "listed": listed})


def mid_load_table(*, sags_over_span: Sequence[RatioLike], load: QuantityLike) -> list[Result]:
    """Tension of a line without weight with a load in the middle, by its sag under the load.

    >>> rows = mid_load_table(sags_over_span=["5 %", "10 %"], load="1 kN")
    >>> [row.tension.show("kN", 2) for row in rows]
    ['5.02 kN', '2.55 kN']
    """
    return call("line.mid_load_table", {"sags_over_span": sags_over_span, "load": load})


def angle_table(*, included: Sequence[QuantityLike]) -> list[Result]:
    """Factors of two equal legs by the angle between them.

    >>> row = angle_table(included=["120 deg"])[0]
    >>> row.tension_over_load.show("1", 3), row.block_factor.show("1", 3)
    ('1.000', '1.000')
    """
    return call("line.angle_table", {"included": included})


def table_text(
    *,
    table: Mapping[str, Sequence[Mapping[str, Any] | Result]],
    style: Mapping[str, Any] | Result | None = None,
) -> str:
    """A table as Markdown or comma-separated text.

    `table` is one of `{"sag": rows}`, `{"mid_load": rows}`, `{"angle": rows}`. `style` may have
    `format` ("markdown" or "csv"), `length_unit`, `force_unit`, `weight_unit` and `decimals`.

    >>> rows = mid_load_table(sags_over_span=[0.1], load="1 kN")
    >>> print(table_text(table={"mid_load": rows}, style={"format": "csv", "decimals": 2}), end="")
    sag / span,angle (deg),tension / load,horizontal / load,tension (kN)
    0.10,11.3,2.55,2.50,2.55
    """
    return call("line.table_text", {"table": table, "style": style})
