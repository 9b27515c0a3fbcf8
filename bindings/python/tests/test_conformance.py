"""Runs tests/conformance/*.json; see the README there."""

import json
import keyword
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import tautwork
from tautwork import Quantity, Result, _native

FOLDER = Path(__file__).parents[3] / "tests" / "conformance"
CASES = [
    pytest.param(file["model"], case, id=f"{file['model']}::{case['call']}: {case['name']}")
    for path in sorted(FOLDER.glob("*.json"))
    for file in [json.loads(path.read_text(encoding="utf-8"))]
    for case in file["cases"]
]


@pytest.mark.parametrize(("model", "case"), CASES)
def test_conformance(model: str, case: dict[str, Any]) -> None:
    if "error" in case:
        with pytest.raises(tautwork.TautworkError) as caught:
            run(model, case)
        facts = {"kind": type(caught.value).__name__, **vars(caught.value)}
        compare(case["error"], Result(facts), case, "error")
    else:
        compare(case["expect"], run(model, case), case, "answer")


def run(model: str, case: dict[str, Any]) -> Any:
    function = getattr(getattr(tautwork, model), case["call"])
    if _native.calls()[f"{model}.{case['call']}"] is None:
        return function(case["input"])
    # An argument whose name is a word of Python has a "_" behind it.
    named = {name + "_" * keyword.iskeyword(name): value for name, value in case["input"].items()}
    try:
        return function(**named)
    except TypeError as wrong:
        # Python itself refuses arguments that a signature lacks.
        raise tautwork.InvalidInput(str(wrong)) from wrong


def compare(expected: Any, actual: Any, case: dict[str, Any], path: str) -> None:
    """Whether `actual` holds all that `expected` names, numbers within the tolerance."""
    wrong = f"{path}: expected {expected!r}, got {actual!r}"
    abs_tol = case.get("abs", 0.0)
    if isinstance(actual, Quantity):
        wanted = Quantity(str(expected)).to(actual.unit)
        try:
            tolerance = Quantity(abs_tol).to(actual.unit) if isinstance(abs_tol, str) else 0.0
        except tautwork.UnitError:
            tolerance = 0.0
        assert close(wanted, actual.value, case, tolerance), wrong
    elif isinstance(expected, dict):
        assert isinstance(actual, Result), wrong
        for key, value in expected.items():
            assert key in actual, f"{path}.{key} is absent"
            compare(value, actual[key], case, f"{path}.{key}")
    elif isinstance(expected, list):
        assert isinstance(actual, list | np.ndarray) and len(actual) == len(expected), wrong
        for i, (e, a) in enumerate(zip(expected, actual, strict=True)):
            compare(e, a, case, f"{path}[{i}]")
    elif isinstance(expected, int | float) and not isinstance(expected, bool):
        assert isinstance(actual, int | float) and not isinstance(actual, bool), wrong
        tolerance = abs_tol if isinstance(abs_tol, int | float) else 0.0
        assert close(float(expected), float(actual), case, tolerance), wrong
    else:
        assert type(expected) is type(actual) and expected == actual, wrong


def close(expected: float, actual: float, case: dict[str, Any], abs_tol: float) -> bool:
    rel = case.get("rel", 1e-12)
    return math.isfinite(actual) and abs(actual - expected) <= max(rel * abs(expected), abs_tol)
