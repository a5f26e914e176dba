"""A clock that starts again at each cycle is one run; one that starts again at another run is not."""

from __future__ import annotations

import numpy as np
import pytest

from tests.importers.making import parts_of

N = 200  #: samples of a cycle


def cycles(count: int, phase: float = 0.0, each: int = 1) -> dict[str, np.ndarray]:
    """A motion whose time starts again after so many cycles each."""
    t = np.arange(count * each * N) / N
    x = np.sin(2 * np.pi * t + phase)
    reset = np.tile(np.arange(each * N) / N, count)
    return {"Time [s]": reset, "Displacement [mm]": x, "Force [N]": np.cos(2 * np.pi * t)}


@pytest.mark.parametrize("phase", [0.0, 1.0, -np.pi / 2])
def test_cycles_that_each_start_the_clock_are_one_run_said_to_be_one(phase):
    (part,) = parts_of(cycles(4, phase))
    np.testing.assert_allclose(part.values[0], np.arange(4 * N) / N, atol=1e-9)
    assert any("each of 4 cycles" in w for w in part.facts.warnings)


def test_a_column_of_cycles_says_it_of_two_and_of_a_last_one_that_is_cut_short():
    columns = cycles(2)
    counted = {"Cycle": np.repeat([1.0, 2.0], N)} | columns
    short = {name: x[: -N // 3] for name, x in counted.items()}
    assert len(parts_of(counted)) == len(parts_of(short)) == 1


@pytest.mark.parametrize(
    "columns",
    [cycles(2), cycles(3, each=3), cycles(4) | {"Displacement [mm]": np.tile(np.linspace(0, 5, N), 4)}],
    ids=["two of one cycle", "runs of three cycles", "a motion that does not go on"],
)
def test_runs_stay_runs(columns):
    assert len(parts_of(columns)) > 1
