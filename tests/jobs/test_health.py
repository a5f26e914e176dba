"""A shock against its own earlier tests as question and answer, at no door."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from dynoan.analysis.conditioning.found.result import Conditioned
from dynoan.analysis.health.assumptions import GAS_SD_UNTOLD
from dynoan.analysis.health.records import Measured
from dynoan.analysis.health.session import Seen, gas_error_untold, state_of, told
from dynoan.errors import CallError, LookupFault
from dynoan.jobs.health import HealthQuestion, answer
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.workbench import Workbench
from tests.cli import pack_library
from tests.made import made_curve

packs = pack_library.packs
LOST = 100 * (0.86 / 1.01 - 1)  #: what the made shock RR-04 lost between its sessions [%]


@pytest.fixture(scope="module")
def bench(packs):
    return Workbench.find(packs / "library")


@pytest.fixture(scope="module")
def weak(bench):
    return answer(bench, HealthQuestion.asked("RR-04"))


def record(gas: float, sd: float = math.nan) -> Conditioned:
    some, none = np.zeros(3), np.zeros(3, dtype=np.int64)
    return Conditioned("made", "trace", some, some, some, none, none, none, gas_force=gas, offset_sd=sd)


def test_a_question_takes_a_date_or_its_text():
    assert HealthQuestion.asked("RR-04", since=date(2026, 1, 31)) == HealthQuestion("RR-04", "2026-01-31")
    assert HealthQuestion.asked("RR-04", since="2026-01-31").since == "2026-01-31"
    with pytest.raises(CallError) as wrong:
        HealthQuestion.asked("RR-04", since="soon")
    assert wrong.value.part == "since"


def test_the_force_it_lost_is_found_with_its_interval(weak):
    assert weak.no
    force = [c for c in weak.health.changes if c.quantity == "force" and (c.speed or 0) > 0.09]
    assert {c.direction for c in force} == {"compression", "rebound"}
    assert all(c.low < LOST < c.high for c in force)
    assert {f.direction for f in weak.health.findings} == {"compression", "rebound"}


def test_dates_before_since_are_another_history(bench):
    with pytest.raises(CallError, match="one date only"):
        answer(bench, HealthQuestion.asked("RR-04", since="2026-01-01"))
    with pytest.raises(LookupFault, match="FL-01, FR-02, RR-04"):
        answer(bench, HealthQuestion.asked("XX-99"))


def test_plain_values_and_rows_tell_the_same(weak):
    found = weak.to_dict()
    assert set(found) == {"what", "verdict", "first", "last", "findings", "changes", "shocks", "trend", "steps"}
    frame = weak.to_frame()
    assert list(frame.columns) == ["quantity", "direction", "velocity_m_s", "change", "low", "high", "unit"]
    for row, change in zip(frame.to_dict("records"), found["changes"], strict=True):
        assert row["change"] == change[f"change_{row['unit']}"]


def test_words_say_what_it_usually_is_and_caution(weak):
    first, table, *rest = presenting.blocks(weak, Look())
    assert first == Paragraph("RR-04, 2026-03-14 against 2025-09-01: changed")
    assert isinstance(table, Table)
    assert len(table.rows) == len(weak.health.changes)
    assert sum("usually: " in b.text for b in rest if isinstance(b, Paragraph)) == 2


def test_the_picture_holds_changes_and_trend(weak):
    drawn = presenting.figure(weak, "us")
    changes, trend, _ = drawn.axes
    assert drawn.get_suptitle() == "RR-04: changed"
    shown = changes.containers[0].lines[0]
    force = [c for c in weak.health.changes if c.direction == "compression"]
    assert shown.get_xdata() == pytest.approx([(c.speed or 0) / 0.0254 for c in force])  # 1 in = 25.4 mm
    assert shown.get_ydata() == pytest.approx([c.value for c in force])
    assert [t.get_text() for t in trend.get_xticklabels()] == ["2025-09-01", "2026-03-14"]


def test_a_gas_force_without_error_gets_the_assumed_one():
    seen = Seen("2026-03-14", ("RR-04", "gravel"), made_curve(), None)
    assert state_of(seen, [told(record(120.0))]).gas.sd == GAS_SD_UNTOLD
    both = state_of(seen, [told(record(120.0)), told(record(130.0, sd=1.0))])
    assert both.gas.value == 125.0
    assert both.gas.sd == pytest.approx(math.sqrt((GAS_SD_UNTOLD**2 + 1.0) / 2))
    assert gas_error_untold([told(record(120.0)), told(record(130.0, sd=1.0)), told(record(math.nan))]) == 1
    assert math.isnan(state_of(seen, [told(record(math.nan))]).gas.value)


def test_the_assumption_is_said(bench, weak, monkeypatch):
    tells = bench.told

    def told_without_error(records):
        return [replace(one, gas=Measured(100.0, math.nan)) for one in tells(records)]

    monkeypatch.setattr(bench, "told", told_without_error)
    said = answer(bench, HealthQuestion.asked("RR-04")).warnings
    assert any("2 of 2 sweeps do not tell the error of their gas force; ±5 N" in text for text in said)
    assert not any("gas force" in text for text in weak.warnings)
