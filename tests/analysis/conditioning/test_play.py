"""Play in a joint, found in records of worlds made apart from the fit, and not where there is none."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import _read, condition
from dynoan.analysis.conditioning.samples.play import _Path, without_play
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import fit, sweep_of


class TestFound:
    @pytest.mark.parametrize("seed", [4000, 4002, 4003])
    def test_rows_are_left_out_where_the_joint_carries_nothing(self, seed):
        """The cell of these rigs reads zero without load."""
        rows = _read(sweep_of(draw("backlash strong", seed))).rows
        out = rows.count == 0
        assert 0.03 < np.mean(out) < 0.2
        near = np.abs(rows.force) < 0.01 * np.ptp(rows.force)
        assert np.mean(near[out]) > 0.6
        assert np.mean(out[near]) > 0.5

    def test_it_is_said_once_and_names_the_travel(self):
        said = [line for line in condition(sweep_of(draw("backlash strong", 4002))).findings if "has play" in line]
        assert len(said) == 1
        # 0.28 mm in truth; what the shock moves by itself comes on top, what is lost between samples goes off.
        assert "about 0.2 mm:" in said[0]

    def test_the_band_holds_the_valve_behind_the_joint(self):
        record = draw("backlash strong", 1009)
        speeds = np.array([0.02, 0.05, 0.1, 0.2, 0.3])
        v = np.concatenate([-speeds, speeds])
        band = fit(record).damping(v)
        truth = record.truth(v)
        assert np.all((band.low <= truth) & (truth <= band.high))
        assert np.max(np.abs(band.value - truth)) < 0.015 * np.ptp(truth)


class TestNotFound:
    @pytest.mark.parametrize("row", ["clean", "friction none", "presliding strong", "valve yield", "valve late seat"])
    def test_friction_and_steep_starts_are_no_play(self, row):
        rows = _read(sweep_of(draw(row, 4001))).rows
        assert rows.count.all()

    def test_a_force_that_stands_far_from_zero_is_none(self):
        """A shock that sticks stands at gas and friction, while a joint that carries nothing reads zero."""
        rows = _read(sweep_of(draw("backlash strong", 4002))).rows
        assert without_play(rows)[1] is not None
        assert without_play(replace(rows, force=rows.force + 25.0))[1] is None

    def test_rows_must_heap_up_there(self):
        even, many = np.linspace(-50.0, 50.0, 501), np.zeros(60)
        assert not _Path(even, even, np.zeros(501, int)).heaped(0.0, 5.0)
        assert _Path(np.concatenate([even, many]), even, np.zeros(501, int)).heaped(0.0, 5.0)

    def test_nothing_is_looked_for_without_displacement(self):
        rows = _read(sweep_of(draw("backlash strong", 4002))).rows
        assert without_play(replace(rows, displacement=None))[1] is None


def test_no_rows_hold_no_play():
    rows = _read(sweep_of(draw("backlash strong", 4002))).rows
    held = {f.name: getattr(rows, f.name) for f in fields(rows)}
    none = replace(rows, **{k: v[:0] for k, v in held.items() if isinstance(v, np.ndarray)})
    assert without_play(none) == (none, None)
