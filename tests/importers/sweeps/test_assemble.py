"""Tables to sweeps: what a table is, which halves belong together, and what is kept of where it came from."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.sweep import Source, Sweep
from importers.sweeps import SourceFile, assemble_sweeps
from importers.sweeps.kind import is_peak_table, is_tabular
from importers.sweeps.pairing import DirectedSweep, paired
from importers.tables import RowBreak
from tests.importers.making import F, T, V, part_of, quick, table_of, trace

FILE = SourceFile("rig.csv", "00ff", "text")
SPEEDS = [50.0, 100.0, 200.0, 300.0]
PEAKS = {"Velocity [mm/s]": SPEEDS, "Comp [N]": [1.0, 2, 3, 4], "Reb [N]": [2.0, 3, 4, 5]}


@quick
@given(st.lists(st.floats(0.001, 2), min_size=2, max_size=20, unique=True), st.sampled_from([1, -1]))
def test_speeds_that_rise_or_fall_steadily_are_a_table(speeds, way):
    assert is_tabular(way * np.sort(speeds))
    assert is_tabular(way * np.sort(speeds)[::-1])
    assert is_tabular(np.r_[np.sort(speeds), -np.sort(speeds)])


@quick
@given(st.lists(st.floats(0.001, 2), min_size=2, max_size=5, unique=True), st.integers(2, 6))
def test_the_same_few_speeds_again_are_a_table(speeds, runs):
    assert is_tabular(np.tile(speeds, runs))


def test_speeds_of_a_motion_are_no_table():
    assert not is_tabular(V[:300])
    assert not is_tabular(np.array([np.nan, np.nan]))


@pytest.mark.parametrize(
    ("columns", "peaks"),
    [
        (PEAKS, True),
        (trace(), False),
        (trace(displacement=None), False),
        ({"Velocity [mm/s]": SPEEDS, "Force [N]": SPEEDS}, True),
        ({"Velocity [mm/s]": SPEEDS, "Force [N]": SPEEDS, "Time [s]": SPEEDS}, False),
        ({"Velocity [mm/s]": SPEEDS, "Force [N]": SPEEDS, "Stroke [mm]": [50.0] * 4}, True),
        ({"Velocity [mm/s]": SPEEDS, "Force [N]": SPEEDS, "Position [mm]": SPEEDS}, False),
        ({"Velocity [mm/s]": V[:300], "Force [N]": F[:300], "Direction": ["Comp"] * 300}, True),
        ({"Velocity [mm/s]": np.arange(1.0, 700), "Force [N]": np.arange(1.0, 700)}, False),
    ],
)
def test_a_part_is_a_peak_table_or_a_trace(columns, peaks):
    assert is_peak_table(part_of(columns)) is peaks


def test_a_sweep_keeps_file_digest_importer_and_facts():
    (sweep,) = assemble_sweeps([table_of(trace(), shared=("Shock: FL-03", "LSC 4 LSR 6", "Operator: one"))], FILE)
    assert sweep.source == Source("rig.csv", "00ff", "text", "")
    assert (sweep.shock, sweep.clicks, sweep.layout) == ("FL-03", {"lsc": 4, "lsr": 6}, "trace")
    assert sweep.facts["Operator"] == "one"
    assert sweep.samples == len(T)


def test_an_own_layout_is_named_as_the_importer():
    (sweep,) = assemble_sweeps([replace(table_of(PEAKS), layout="old rig")], FILE)
    assert sweep.source.importer == "old rig"


def test_several_tables_are_numbered_where_nothing_else_names_them():
    sweeps = assemble_sweeps([table_of(PEAKS), table_of(PEAKS)], FILE)
    assert [s.source.part for s in sweeps] == ["table 1", "table 2"]


def test_a_table_that_holds_no_force_against_motion_is_left_out_and_said():
    summary = replace(table_of({"Run": [1.0, 2], "Temp [C]": [20.0, 30]}), first_line=40)
    (sweep,) = assemble_sweeps([table_of(PEAKS), summary], FILE)
    assert sweep.warnings == ("the table from line 40 on holds no force against motion and was left out",)


def test_no_tables_are_refused():
    with pytest.raises(ReadError, match="no rows of numbers below the header"):
        assemble_sweeps([], FILE)


def test_a_column_of_measurements_read_as_a_key_is_asked_about():
    n = 6003
    columns = {
        "Run": np.repeat(np.arange(n // 3), 3),
        "Velocity [mm/s]": [1.0, 2, 3] * (n // 3),
        "Force [N]": np.ones(n),
    }
    with pytest.raises(ReadError, match="more than 2000 runs in one file"):
        assemble_sweeps([table_of(columns)], FILE)


@pytest.mark.parametrize(("stated", "recorded", "want"), [(("Oil temp: 40 C",), 25.0, 40.0), ((), 25.0, 25.0)])
def test_a_stated_temperature_wins_over_the_first_recorded_one(stated, recorded, want):
    columns = trace() | {"Temp [C]": np.r_[np.nan, np.full(len(T) - 1, recorded)]}
    (sweep,) = assemble_sweeps([table_of(columns, shared=stated)], FILE)
    assert sweep.temperature == want


def test_warnings_are_said_once_each_in_the_order_of_reading():
    (sweep,) = assemble_sweeps([table_of(trace(), shared=("clicks from soft", "counted from soft"), over=2)], FILE)
    assert sweep.warnings == (
        "the file counts clicks from soft; the shock's file must say so too",
        "2 cells say that a sensor was beyond its range; they were left out",
    )


def block(way: str | None, clicks: int = 4, layout="peaks", force=1.0) -> DirectedSweep:
    channels = {"velocity": np.array([0.1, 0.2]), "force": np.array([force, force])}
    return DirectedSweep(Sweep(layout, channels, Source("rig.csv", "00"), clicks={"lsc": clicks}), way)


BLOCKS = st.lists(st.tuples(st.sampled_from(["compression", "rebound", None]), st.integers(1, 2)), max_size=8)


@quick
@given(BLOCKS)
def test_pairing_loses_no_row_and_joins_only_two_halves_of_one_setting(kinds):
    made = [block(way, clicks, force=float(i)) for i, (way, clicks) in enumerate(kinds)]
    out = paired(made)
    assert [f for s in out for f in s.channels["force"][::2]] == [float(i) for i in range(len(made))]
    assert all(s.samples in (2, 4) for s in out)
    joined = [i for i, s in enumerate(out) if s.samples == 4]
    at = np.cumsum([0, *(s.samples // 2 for s in out)])
    for i in joined:
        (one, first), (other, second) = kinds[at[i]], kinds[at[i] + 1]
        assert ({one, other}, first) == ({"compression", "rebound"}, second)


@pytest.mark.parametrize(
    ("first", "second", "sweeps"),
    [
        (block("compression"), block("rebound"), 1),
        (block("rebound"), block("compression"), 1),
        (block("compression"), block("compression"), 2),
        (block("compression"), block(None), 2),
        (block("compression", 4), block("rebound", 5), 2),
        (block("compression", layout="trace"), block("rebound", layout="trace"), 2),
    ],
)
def test_which_halves_belong_together(first, second, sweeps):
    assert len(paired([first, second])) == sweeps


def test_blocks_of_directions_in_one_table_are_one_sweep():
    columns = {"Velocity [mm/s]": SPEEDS * 2, "Force [N]": [1.0, 2, 3, 4, 5, 6, 7, 8]}
    table = table_of(columns, own=("Compression",), breaks=(RowBreak(4, ("Rebound",)),))
    (sweep,) = assemble_sweeps([table], FILE)
    np.testing.assert_allclose(sweep.channels["force"], [1, 2, 3, 4, -5, -6, -7, -8])
    np.testing.assert_allclose(sweep.channels["velocity"], [0.05, 0.1, 0.2, 0.3, -0.05, -0.1, -0.2, -0.3])
