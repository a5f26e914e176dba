"""A shock's friction is one: what one of its tests reads more than the others it has taken from damping."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.assumptions.data import FRICTION_SCATTER
from dynoan.analysis.clickmap.tested.friction import SeenSide, pooled
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve
from tests.made import made_curve

SPEEDS = np.array([0.03, 0.1, 0.3])
DAMPING = np.array([100.0, 200.0, 400.0])


def _row(off: float, sd: float) -> SeenSide:
    """Return a test whose damping is off by so many newtons, and says it may be by `sd`."""
    force, none = DAMPING + off, np.zeros(3)
    return SeenSide(np.log(force), np.full(3, 1e-4), sd / force, none, none, sd)


def _pooled(told: Sequence[tuple[float, float]], states: Sequence[int] | None = None) -> list[SeenSide]:
    """Return tests that read a friction with an error where it is 12 N, what is wrong taken from damping."""
    curves: list[Curve] = [replace(made_curve(), friction=friction, friction_sd=sd) for friction, sd in told]
    rows = [_row(12.0 - friction if friction == friction else 12.0, sd) for friction, sd in told]
    return pooled(rows, curves, states or [0] * len(told))


def _off(row: SeenSide) -> FloatArray:
    return np.asarray(np.exp(row.logs) - DAMPING)


def test_what_one_test_reads_more_than_the_others_goes_back_to_damping_as_far_as_it_may_err():
    *rest, odd = _pooled([(12.0, 1.0)] * 5 + [(22.0, 5.0)])
    assert np.all(np.abs(_off(odd)) < 4.0)  # 10 N before
    assert all(np.all(np.abs(_off(row)) < 0.2) for row in rest)
    assert odd.split * np.exp(odd.logs) == pytest.approx(5.0 * FRICTION_SCATTER / np.hypot(5.0, FRICTION_SCATTER))
    assert np.all(odd.rubbed > rest[0].rubbed)


def test_of_a_test_that_is_sure_of_its_friction_a_run_may_differ_by_so_much():
    *_, odd = _pooled([(12.0, 0.2)] * 5 + [(15.0, 0.2)])
    assert _off(odd) == pytest.approx(-3.0, abs=0.05)


def test_one_test_alone_peak_tables_and_a_shock_after_its_rebuild_are_left_as_they_are():
    nan = float("nan")
    one, table, rebuilt = _pooled([(20.0, 3.0), (nan, nan), (30.0, 3.0)], [0, 0, 1])
    for row, off in ((one, -8.0), (table, 12.0), (rebuilt, -18.0)):
        assert _off(row) == pytest.approx(off)
        assert not np.any(row.rubbed)
