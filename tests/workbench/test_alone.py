"""Single runs fitted by themselves: once each, and never another's curve."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.fitting.fit import fit
from dynoan.model.sweep import Source, Sweep
from dynoan.workbench.alone import fitted_alone
from tests.analysis.conditioning_records import FEW, broken_line

V = np.concatenate([-np.array(FEW)[::-1], np.array(FEW)])


def table(factor: float = 1.0) -> Sweep:
    return Sweep(
        "peaks", {"velocity": V, "force": factor * np.array([broken_line(v) for v in V])}, Source("a.csv", "aa")
    )


def test_the_curve_is_the_one_of_a_fit():
    np.testing.assert_array_equal(fitted_alone(table())(V), fit(table())(V))


def test_a_run_is_fitted_once_even_when_it_was_loaded_anew():
    assert fitted_alone(table()) is fitted_alone(table())


def test_what_is_said_of_a_run_changes_nothing_but_its_forces_do():
    """A file read with another unit of force has the same name and the same bytes."""
    assert fitted_alone(replace(table(), clicks={"lsc": 3})) is fitted_alone(table())
    # Nearly twice: the gas force that a table may hold, which nobody stated, is not twice as strong for that.
    np.testing.assert_allclose(fitted_alone(table(2.0))(V), 2 * fitted_alone(table())(V), rtol=0.06)
