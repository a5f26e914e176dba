"""Every column of numbers of a table is used, or named in the evidence or in a warning."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X, quick

WORDS = ("Comp", "Rebound", "Compressie", "Return", "Bump", "Foo", "Force", "Peak", "Zug", "Target force", "Gas force",
         "Comp min", "Reb avg", "Prev Comp", "Load", "Friction", "Hysteresis", "In", "Out", "Extended")  # fmt: skip
UNITS = (" (N)", " (N)", " (lbf)", "", " (kN)", " (%)", " (mm)", " (V)", " (N/mm)", " @ 4 (N)", " 8")
HEADS = st.builds(str.__add__, st.sampled_from(WORDS) | st.text("abcdefgilmnorstuv", min_size=3, max_size=9),
                  st.sampled_from(UNITS))  # fmt: skip
V = (25, 51, 102, 254, 508)


def lost(heads: list[str], sweeps) -> list[str]:
    """The heads that no sweep speaks of."""
    decisions = [d for s in sweeps for d in s.decisions.values()]
    said = " ".join([*(w for s in sweeps for w in s.warnings), *(d.evidence for d in decisions)])
    named = {name for d in decisions for name in d.column.split(" / ")}
    return [head for head in heads if head not in named and f"'{head}'" not in said]


@quick
@given(st.lists(HEADS, min_size=1, max_size=5, unique_by=str.lower), st.randoms(use_true_random=False))
def test_no_column_of_a_table_of_peaks_vanishes(heads, chance):
    columns = [[round(k * v**chance.uniform(0.4, 1.1) + chance.uniform(1, 50)) for v in V]
               for k in (chance.uniform(2, 20) for _ in heads)]  # fmt: skip
    rows = "\n".join(";".join(map(str, row)) for row in zip(V, *columns, strict=True))
    try:
        sweeps = read_bytes(f"{';'.join(['Speed (mm/s)', *heads])}\n{rows}\n".encode(), "run.csv")
    except ReadError:
        return
    assert lost(heads, sweeps) == []


@quick
@given(st.lists(HEADS, min_size=1, max_size=3, unique_by=str.lower), st.integers(0, 9))
def test_no_column_of_a_trace_vanishes(heads, seed):
    chance = np.random.default_rng(seed)
    more = [chance.normal(100, 20, 1) + chance.normal(0, 5, 800) for _ in heads]
    rows = "\n".join(
        ";".join(f"{x:.3f}" for x in row) for row in zip(T[:800], 1e3 * X[:800], F[:800], *more, strict=True)
    )
    names = ["Time (s)", "Displacement (mm)", "Force [N]", *heads]
    try:
        sweeps = read_bytes(f"{';'.join(names)}\n{rows}\n".encode(), "run.csv")
    except ReadError:
        return
    assert lost(names[2:], sweeps) == []


def test_what_was_measured_under_the_name_of_a_run_is_said_not_to_be_used():
    rows = "\n".join(f"{t:.3f};{1e3 * x:.3f};{f:.1f};{100.3 + 0.013 * k:.3f}"
                     for k, (t, x, f) in enumerate(zip(T[:800], X[:800], F[:800], strict=True)))  # fmt: skip
    [sweep] = read_bytes(f"Time (s);Displacement (mm);Force [N];run (N)\n{rows}\n".encode(), "run.csv")
    assert "not used: 'run (N)'" in sweep.decisions["force"].evidence


@pytest.mark.parametrize("cell", ["well", "about 9", "397?!"])
def test_words_where_a_force_should_be_are_warned_of(cell):
    rows = "\n".join(f"{v};{3 * v};{cell}" for v in V)
    (sweep,) = read_bytes(f"Speed (mm/s);Comp (N);Reb (N)\n{rows}\n".encode(), "run.csv")
    assert f"column 'Reb (N)' holds '{cell}' and the like, no numbers, and was left out" in sweep.warnings


def test_what_is_beside_the_measurement_stands_in_the_evidence():
    rows = "\n".join(f"{k},{v},{3 * v},{-4 * v},{21 + k}" for k, v in enumerate(V))
    (sweep,) = read_bytes(f"No,Speed (mm/s),Comp (N),Reb (N),Humidity (%)\n{rows}\n".encode(), "run.csv")
    assert sweep.decisions["force"].evidence.endswith("; not used: 'No', 'Humidity (%)'")
    assert sweep.warnings == ()


@pytest.mark.parametrize("empty", ["Reb (N)", "Comp (lbf)"])
def test_a_column_without_numbers_is_warned_of_where_its_direction_is_nowhere_else(empty):
    rows = "\n".join(f"{v},{3 * v}," for v in V)
    (sweep,) = read_bytes(f"Speed (mm/s),Comp (N),{empty}\n{rows}\n".encode(), "run.csv")
    said = f"column '{empty}' holds nothing; where it holds formulas, save the file with their values"
    assert (said in sweep.warnings) == (empty == "Reb (N)")
    assert lost([empty], [sweep]) == []
