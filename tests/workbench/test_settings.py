"""At a tested setting the curve is that of its own runs, pooled, and as sure."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from dynoan.jobs.add import AddQuestion
from dynoan.jobs.add import answer as add
from dynoan.library import Library
from dynoan.workbench import Workbench

DYNO = Path(__file__).parents[2] / "fixtures" / "demo" / "dyno"
MIDDLE = dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), 10)
V = np.array([-0.25, -0.1, -0.05, 0.05, 0.1, 0.25])


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    """One shock, one pack: two runs of the middle and one of another setting."""
    folder = tmp_path_factory.mktemp("settings")
    middle = DYNO / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
    again = Path(shutil.copy(middle, folder / "again.csv"))
    again.write_text(again.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    made = Workbench(Library.create(folder / "lib"))
    add(made, AddQuestion.asked(middle, again, DYNO / "FL-01_gravel_lsc18_hsc10_lsr10_hsr18.csv"))
    return made


def test_predict_at_a_tested_setting_is_the_curve_of_its_runs_and_as_sure(bench):
    map = bench.click_map("gravel")
    (own,) = bench.resolve("shock=FL-01,pack=gravel,lsc=10,hsc=10,lsr=10,hsr=10")
    curve = bench.setting_curve(map, MIDDLE, "FL-01")
    assert curve.standing == "tested"
    np.testing.assert_allclose(curve(V), own.curve(V))
    np.testing.assert_allclose(curve.band(V), own.curve.band(V))


def test_where_the_map_has_a_test_elsewhere_than_it_is_written_the_map_speaks(bench):
    """A test counted from the other end is written at clicks at which it was not."""
    map = bench.click_map("gravel")
    elsewhere = replace(map, tested=tuple(t for t in map.tested if dict(t) != MIDDLE))
    assert bench.setting_curve(elsewhere, MIDDLE, "FL-01").standing != "tested"
