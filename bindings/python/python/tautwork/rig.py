"""The whole rig from one document."""

from __future__ import annotations

import os
from collections.abc import Mapping
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from ._native import call
from ._native import loss_table as _loss_table
from .result import Result

if TYPE_CHECKING:
    from collections.abc import Callable

    from matplotlib.figure import Figure

__all__ = ["kit_check", "loss_table_text", "plan_text", "report_text", "schema"]


class Table:
    """A titled table of a plan: `head` and `rows` of texts, the `models` and `inputs` behind them."""

    def __init__(self, fields: Result) -> None:
        self.key: str = fields.key
        self.title: str = fields.title
        self.remark: str = fields.remark
        self.head: list[str] = list(fields.head)
        self.rows: list[list[str]] = [list(row) for row in fields.rows]
        self.tick: bool = fields.tick
        self.models: list[str] = [model.function for model in fields.models]
        self.inputs: list[str] = list(fields.inputs)

    def __str__(self) -> str:
        lines = [self.head, *self.rows]
        widths = [max(len(line[c]) for line in lines) for c in range(len(self.head))]
        rule = ["-" * width for width in widths]
        shown = [self.head, rule, *self.rows]
        rows = ["  ".join(cell.ljust(w) for cell, w in zip(row, widths)).rstrip() for row in shown]
        heading = [self.title, self.remark] if self.remark else [self.title]
        return "\n".join([*heading, "", *rows])

    __repr__ = __str__

    def _repr_html_(self) -> str:
        cells = "".join(f"<th>{escape(text)}</th>" for text in self.head)
        rows = "".join(
            "<tr>" + "".join(f"<td>{escape(text)}</td>" for text in row) + "</tr>" for row in self.rows
        )
        caption = f"<b>{escape(self.title)}</b><br>{escape(self.remark)}"
        return f"{caption}<table><thead><tr>{cells}</tr></thead><tbody>{rows}</tbody></table>"


class Plan(Result):
    """A plan: every result as an attribute, `table(key)`, `report()`, `markdown()`, `html()` and `plot()`."""

    __slots__ = ()

    def table(self, key: str) -> Table:
        """The table of this key; an unknown key lists the known ones."""
        for table in self.tables:
            if table.key == key:
                return Table(table)
        known = ", ".join(table.key for table in self.tables)
        raise KeyError(f"no table {key}; there are {known}")

    def report(self) -> str:
        """Cautions, verdict, every table with its models and inputs, and the notes, as plain text."""
        return report_text(plan=self, format="text")

    def markdown(self) -> str:
        """The report as Markdown, without the pictures."""
        return report_text(plan=self, format="markdown")

    def html(self) -> str:
        """The report as one HTML file with the pictures in it, for a phone and for paper."""
        return report_text(plan=self, format="html")

    def kit_check(self, inventory: str | os.PathLike[str]) -> Result:
        """What a CSV of the store covers of the kit; see `rig.kit_check`.

        A path object, or a text of one line, is a path.
        """
        if not isinstance(inventory, str) or "\n" not in inventory:
            inventory = Path(inventory).read_text(encoding="utf-8")
        return kit_check(kit=self.kit, inventory=inventory)

    def plot(self) -> Figure:
        """Path and force of the jump, stiff and soft run, as a matplotlib figure."""
        from matplotlib.figure import Figure

        figure = Figure(figsize=(8, 8), layout="constrained")
        path, force = figure.subplots(2, 1)
        runs = {"jumper": self.jump} | ({"bag": self.bag} if self.bag is not None else {})
        for who, outlook in runs.items():
            for run in ("stiff", "soft"):
                series = outlook[run].series
                style = {"label": f"{who}, {run} run", "linewidth": 1.6 if who == "jumper" else 0.8}
                path.plot(series.x_m, series.z_m, **style)
                force.plot(series.t_s, series.resultant_n / 1e3, **style)
        path.set(xlabel="x along the span, m", ylabel="z up, m", aspect="equal", title=self.rig)
        force.set(xlabel="time since exit, s", ylabel="force on the body, kN")
        path.legend(fontsize="small")
        return figure

    def _repr_html_(self) -> str:
        cautions = "<br>".join(escape(text) for text in self.cautions)
        return f"<p>{cautions}</p><pre>{escape(self.verdict)}</pre>{self.pictures.side_view}"


def kit_check(*, kit: Result | Mapping[str, Any], inventory: str) -> Result:
    """Hold an inventory, a CSV text, against the kit of a plan.

    Columns: name, kind, length, count, strength, mass, retired, note; only kind is needed. Raises
    `DocumentError` with every mistake (`line`, `path` is the column, `message`).

    >>> kit = {"pieces": [], "bags": [], "spares_rule": "", "notes": []}
    >>> kit_check(kit=kit, inventory="kind,length\\nrope,60 m\\n").verdict
    'The store covers the kit.'
    """
    return call("rig.kit_check", {"kit": kit, "inventory": inventory})


def plan_text(*, text: str) -> Plan:
    """Read and plan a rig document, TOML or JSON.

    Raises `DocumentError` with every mistake (`line`, `path`, `message`) if the document is wrong.

    >>> try:
    ...     plan_text(text='name = "empty"')
    ... except Exception as error:
    ...     print(type(error).__name__, error.mistakes[0].line)
    DocumentError 1
    """
    answer = call("rig.plan_text", {"text": text})
    return Plan({name: answer[name] for name in answer})


#: What a report shows of a plan.
_SHOWN = ("rig", "note", "verdict", "cautions", "tables", "pictures", "notes")


def report_text(
    *, plan: Result | Mapping[str, Any], format: Literal["text", "markdown", "html"]
) -> str:
    """The report of a plan: cautions, verdict, tables with their models and inputs, notes.

    Names of the document never become markup. HTML is one file that runs no scripts.

    >>> empty = {"side_view": "", "force": ""}
    >>> plan = {"rig": "A | B", "verdict": "Nothing.", "cautions": [], "tables": [], "notes": []}
    >>> report_text(plan={**plan, "pictures": empty}, format="markdown").splitlines()[0]
    '# Plan for A \\\\| B'
    """
    shown = {name: plan[name] for name in _SHOWN if name in plan}
    return call("rig.report_text", {"plan": shown, "format": format})


def loss_table_text(*, text: str, options: Mapping[str, Any] | None = None) -> Result:
    """The loss table of a rig document: every component that can fail, in three ways.

    Each is absent before the jump (`absent_before`), lost at rest (`lost_at_rest`) and lost at the instant at
    which it carries most (`lost_at_worst_instant`). `options` may be `{"pairs": True}`. `loss_table` also tells
    how far it is.

    >>> try:
    ...     loss_table_text(text='name = "empty"')
    ... except Exception as error:
    ...     print(type(error).__name__)
    DocumentError
    """
    return call("rig.loss_table_text", {"text": text, "options": options or {}})


def schema() -> str:
    """JSON Schema of a rig document.

    >>> '"line"' in schema()
    True
    """
    return call("rig.schema", {})


def plan(document: str | os.PathLike[str]) -> Plan:
    """Plan a rig document given as its text or as the path of a file.

    A path object, or a text of one line that does not start with `{`, is a path.
    """
    return plan_text(text=_text(document))


def loss_table(
    document: str | os.PathLike[str],
    *,
    pairs: bool = False,
    progress: Callable[[int, int, str], object] | None = None,
) -> Result:
    """The loss table of a rig document given as its text or as the path of a file; see `loss_table_text`.

    `progress` is called with the number of cases done, of all cases, and the component; when it returns
    `False`, or raises, the table is stopped, which raises `ModelError`, or what it raised.
    """
    return _loss_table(_text(document), pairs, progress)


def _text(document: str | os.PathLike[str]) -> str:
    if isinstance(document, str) and ("\n" in document or document.lstrip().startswith("{")):
        return document
    return Path(document).read_text(encoding="utf-8")

