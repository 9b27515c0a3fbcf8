"""The contract that every call keeps."""

import copy
import doctest
import importlib
import inspect
import json
import pickle
import pkgutil

import numpy as np
import pint
import pytest

import tautwork
from tautwork import Quantity, Result, TautworkError, _native, fall

CALLS = _native.calls()
MODELS = sorted({name.split(".")[0] for name in CALLS})
DROP = {"fall_factor": 1.77, "axial_rigidity": "24.07 kN"}


@pytest.mark.parametrize("name", CALLS)
def test_every_call_has_a_function_of_the_same_name_and_arguments(name: str) -> None:
    model, call = name.split(".")
    function = getattr(getattr(tautwork, model), call)
    parameters = list(inspect.signature(function).parameters.values())
    if CALLS[name] is None:
        assert parameters[0].kind is inspect.Parameter.POSITIONAL_ONLY
        # A call with a twin for many at once takes the columns of that by name.
        columns = [p.name for p in parameters[1:]]
        assert columns == (CALLS.get(f"{name}_batch") if columns else [])
    else:
        assert [p.name.rstrip("_") for p in parameters] == CALLS[name]
        assert all(p.kind is inspect.Parameter.KEYWORD_ONLY for p in parameters)
    assert inspect.getdoc(function)
    assert call in getattr(tautwork, model).__all__


@pytest.mark.parametrize("model", MODELS)
def test_every_public_function_is_a_call(model: str) -> None:
    module = getattr(tautwork, model)
    assert [name for name in module.__all__ if f"{model}.{name}" not in CALLS] == []
    assert model in tautwork.__all__


MODULES = [m.name for m in pkgutil.walk_packages(tautwork.__path__, "tautwork.")]


@pytest.mark.parametrize("name", MODULES)
def test_examples_of_the_docs(name: str) -> None:
    module = importlib.import_module(name)
    assert doctest.testmod(module).failed == 0


def test_a_quantity_may_be_text_quantity_or_pint() -> None:
    units = pint.UnitRegistry()
    expected = fall.impact_force(mass="80 kg", **DROP)
    for mass in (Quantity("80 kg"), Quantity(80, "kg"), 80 * units.kilogram, np.str_("80 kg")):
        assert fall.impact_force(mass=mass, **DROP) == expected
    for force in (9000 * units.newton, 9 * units.kilonewton):
        fall.implied_axial_rigidity(mass="80 kg", fall_factor=1.77, impact_force=force)
    assert Quantity(72 * units.gram / units.meter) == Quantity("72 g/m")
    assert Quantity(9.81 * units.meter / units.second**2) == Quantity("9.81 m/s²")
    assert Quantity(30 * units.degree) == Quantity("30 deg")
    assert Quantity(0.5 * units.dimensionless) == Quantity("0.5")


def test_a_ratio_may_be_any_plain_number() -> None:
    for factor in (1, 1.0, np.float64(1), np.int64(1), np.float32(1), "1", "100 %"):
        force = fall.impact_force(mass="80 kg", fall_factor=factor, axial_rigidity="20 kN")
        assert force.to("kN") == pytest.approx(6.443, abs=1e-3)


@pytest.mark.parametrize("factor", [float("nan"), float("inf"), None, [], object(), 10**400])
def test_a_bad_number_is_an_error_of_the_library_or_of_its_type(factor: object) -> None:
    with pytest.raises((TautworkError, TypeError, OverflowError)):
        fall.impact_force(mass="80 kg", fall_factor=factor, axial_rigidity="20 kN")


def test_an_endless_argument_is_refused() -> None:
    endless: list[object] = []
    endless.append(endless)
    with pytest.raises(TypeError, match="too deeply"):
        fall.impact_force(mass=endless, **DROP)


def test_an_error_holds_the_facts() -> None:
    with pytest.raises(tautwork.InvalidInput) as caught:
        fall.impact_force(mass="-80 kg", **DROP)
    error = pickle.loads(pickle.dumps(caught.value))
    assert (error.parameter, error.value, error.allowed) == ("mass", "-80 kg", "above zero")
    assert str(error) == "mass is -80 kg; it must be above zero"
    assert isinstance(error, ValueError)


def test_quantity() -> None:
    force = Quantity("22 kN")
    assert (force.value, force.unit, force.kind) == (22.0, "kN", "force")
    assert (str(force), repr(force)) == ("22 kN", 'Quantity("22 kN")')
    assert force.to("N") == 22000.0
    assert force.show("kN", 1) == "22.0 kN"
    assert force == Quantity(22000, "N") != Quantity("22 m")
    assert hash(force) == hash(Quantity(22000, "N"))
    assert len({force, Quantity("22000 N")}) == 1
    assert Quantity("1 kN") < Quantity("2000 N") <= Quantity("2 kN")
    assert copy.deepcopy(force) == pickle.loads(pickle.dumps(force)) == force
    assert force != 22
    with pytest.raises(TypeError, match="no order"):
        assert force < Quantity("1 m")
    for wrong in ("22", "22 bananas", "kN", "nan kN"):
        with pytest.raises(TautworkError):
            Quantity(wrong).to("kN")


def test_result() -> None:
    series = np.linspace(0, 1, 20)
    inner = Result({"peak": Quantity("3.4 kN"), "items": [Quantity("1 m")]})
    result = Result({"jump": inner, "t_s": series, "note": "a", "none": None})
    assert result.jump.peak is result["jump"]["peak"]
    assert result.jump.items == [Quantity("1 m")]
    assert list(result) == ["jump", "t_s", "note", "none"] and len(result) == 4
    assert result.to_dict()["jump"] == {"peak": "3.4 kN", "items": ["1 m"]}
    assert json.loads(result.to_json())["t_s"] == series.tolist()
    assert "peak" in dir(result.jump) and "to_json" in dir(result)
    assert "3.4 kN" in repr(result) and "(20 values)" in repr(result)
    assert pickle.loads(pickle.dumps(result)) == copy.deepcopy(result) == result
    with pytest.raises(AttributeError, match="no field peek; there are peak, items"):
        _ = result.jump.peek
    with pytest.raises(AttributeError, match="cannot be changed"):
        result.note = "b"
