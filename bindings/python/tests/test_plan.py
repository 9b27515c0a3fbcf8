"""The plan of a rig document as an object with tables, a report and a plot."""

from pathlib import Path

import pytest

import tautwork

DEMO = Path(__file__).parents[3] / "examples" / "kestrel-gap.toml"


@pytest.fixture(scope="module")
def plan() -> tautwork.Plan:
    short = 'response = "stiff and soft"\nhorizon = "8 s"'
    text = DEMO.read_text(encoding="utf-8").replace('response = "stiff and soft"', short)
    return tautwork.plan(text)


def test_results_are_attributes_with_units(plan: tautwork.Plan) -> None:
    assert plan.rig == "Kestrel Gap"
    # Target of the invented demo rig, an independent planar script: 3.4 kN within 10 %.
    assert plan.jump.body_force.extreme.value.to("kN") == pytest.approx(3.4, rel=0.1)
    assert plan.lines[0].rest_length.to("m") == pytest.approx(127.74, rel=1e-4)
    assert len(plan.jump.soft.series.x_m) == len(plan.jump.soft.series.t_s)


def test_tables_and_report_are_for_people(plan: tautwork.Plan) -> None:
    table = plan.table("standing")
    assert table.head[0] == "state" and len(table.rows[0]) == len(table.head)
    assert "Standing tension and sag" in str(table) and "<table>" in table._repr_html_()
    for text in (plan.report(), plan.markdown(), plan.html()):
        assert "calculations, not permission" in text and "swing::outlook" in text
    assert plan.html().startswith("<!doctype html>") and plan.html().count("<svg") == 3
    assert table.tick and "line::solve_bundle" in table.models and "state" in table.inputs
    assert plan._repr_html_().count("<svg") == 1
    with pytest.raises(KeyError, match="there are limits, strength"):
        plan.table("nothing")


def test_the_loss_table_tells_how_far_it_is_and_may_be_stopped() -> None:
    text = DEMO.read_text(encoding="utf-8")
    heard: list[tuple[int, int, str]] = []
    table = tautwork.loss_table(text, progress=lambda *case: heard.append(case))
    total = 3 * len(table.single)
    assert [done for done, _, _ in heard] == list(range(1, total + 1))
    assert {of for _, of, _ in heard} == {total}
    harness = next(c for c in table.components if c.name == "harness tie-in point")
    assert table.single[harness.loss].absent_before.outcome == "falls"
    with pytest.raises(tautwork.ModelError, match="stopped after 2 of") as stopped:
        tautwork.loss_table(text, progress=lambda done, _total, _component: done < 2)
    assert stopped.value.done == 2

    def broken(done: int, total: int, component: str) -> None:
        raise RuntimeError(component)

    with pytest.raises(RuntimeError, match="main"):
        tautwork.loss_table(text, progress=broken)


def test_the_store_is_held_against_the_kit(plan: tautwork.Plan) -> None:
    check = plan.kit_check(DEMO.with_suffix(".kit.csv"))
    assert check.falls_short and check.verdict.endswith("spare 10 mm dynamic.")
    assert {cut.stock for cut in check.cuts} >= {"W1", "D1"}
    with pytest.raises(tautwork.DocumentError) as error:
        plan.kit_check("kind,length\nrope,60\n")
    assert [(m.line, m.path) for m in error.value.mistakes] == [(2, "length")]


def test_the_plot_draws_each_body_in_both_runs(plan: tautwork.Plan, tmp_path: Path) -> None:
    figure = plan.plot()
    assert [len(axes.lines) for axes in figure.axes] == [4, 4]
    figure.savefig(tmp_path / "plan.png")
    assert (tmp_path / "plan.png").stat().st_size > 10_000


def test_a_path_and_a_wrong_document(tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.toml"
    wrong.write_text('name = "wrong"\nrign = 3\n', encoding="utf-8")
    for document in (wrong, str(wrong), wrong.read_text(encoding="utf-8")):
        with pytest.raises(tautwork.DocumentError) as error:
            tautwork.plan(document)
        assert any(m.line == 2 and "ring" in m.message for m in error.value.mistakes)
