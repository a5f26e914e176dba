"""A table cut into the rows of single sweeps: none lost, none in two, each under its own setting."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from importers.parts.by_breaks import _resets, direction_above
from importers.tables import RowBreak
from tests.importers.making import F, T, part_of, parts_of, quick, trace

SPEEDS = [50.0, 100.0, 200.0]


def peaks(runs: int, **keys) -> dict:
    """Rows of several runs, with key columns that hold one value a run."""
    columns = {name: [value for value in values for _ in SPEEDS] for name, values in keys.items()}
    return columns | {"Velocity [mm/s]": SPEEDS * runs, "Force [N]": list(np.arange(3.0 * runs))}


KEYS = st.lists(st.tuples(st.sampled_from(["gravel", "mixed"]), st.integers(0, 3)), min_size=1, max_size=6)


@quick
@given(KEYS)
def test_each_combination_of_keys_is_a_part_in_the_order_of_the_file(keys):
    columns = peaks(len(keys), Pack=[k[0] for k in keys], LSC=[k[1] for k in keys])
    parts = parts_of(columns)
    assert [(p.facts.pack, p.facts.clicks["lsc"]) for p in parts] == list(dict.fromkeys(keys))
    force = [set(p.values[3]) for p in parts]
    assert set().union(*force) == set(columns["Force [N]"])
    assert sum(map(len, force)) == len(columns["Force [N]"])


def test_clicks_of_a_column_win_over_a_line_and_the_user_over_both():
    columns = peaks(2, LSC=[2, 4])
    assert [p.facts.clicks for p in parts_of(columns, shared=("LSC 9 LSR 5",))] == [
        {"lsc": 2, "lsr": 5}, {"lsc": 4, "lsr": 5}]  # fmt: skip
    told = ReadOptions(clicks={"lsc": 7})
    assert {p.facts.clicks["lsc"] for p in parts_of(columns, told)} == {7}


def test_half_clicks_are_refused():
    with pytest.raises(ReadError, match=r"lsc 2.5 is no whole number of clicks"):
        parts_of(peaks(2, LSC=[2.5, 4]))


def test_a_column_that_counts_rows_names_no_runs():
    columns = {"Run": np.arange(len(T))} | trace()
    assert len(parts_of(columns)) == 1


def test_rows_without_a_key_are_of_none_where_a_run_starts_anew():
    parts = parts_of(peaks(2, LSC=[4, np.nan]))
    assert [p.facts.clicks for p in parts] == [{"lsc": 4}, {}]
    assert parts[0].rows == parts[1].rows


@quick
@example([941, 941, 8])
@given(st.lists(st.integers(8, 3000), min_size=1, max_size=5))
def test_time_that_starts_again_starts_a_run(sizes):
    time = np.concatenate([np.arange(n) / 100 for n in sizes])
    columns = {"Time [s]": time, "Displacement [m]": np.sin(time), "Force [N]": np.arange(len(time), dtype=float)}
    parts = parts_of(columns)
    assert [p.rows for p in parts] == sizes
    np.testing.assert_array_equal(np.concatenate([p.values[2] for p in parts]), columns["Force [N]"])


def test_runs_after_one_another_are_labelled_by_their_rows():
    time = np.tile(np.arange(50) / 100, 2)
    first, second = parts_of({"Time [s]": time, "Displacement [m]": np.sin(time), "Force [N]": time})
    assert (first.label, second.label) == ("rows 1 to 50", "rows 51 to 100")


def test_a_clock_that_jumps_back_now_and_then_starts_no_runs():
    time = T.copy()
    time[700] -= 0.01
    assert len(parts_of(trace(time=time))) == 1


def test_time_that_keeps_starting_again_is_no_clock_of_runs():
    time = np.tile(np.arange(4) / 100, 20)
    assert len(parts_of({"Time [s]": time, "Displacement [m]": np.sin(time), "Force [N]": time})) == 1


def stacked(lines, speeds=(*SPEEDS, *SPEEDS)):
    return parts_of({"Velocity [mm/s]": speeds, "Force [N]": [1.0, 2, 3, 4, 5, 6]}, breaks=(RowBreak(3, lines),))


def test_a_line_where_the_speeds_start_again_starts_a_run_and_states_its_facts():
    first, second = stacked(("Block 2", "Gas pressure: 8 bar"))
    assert (first.facts.gas_pressure, second.facts.gas_pressure) == (None, 8e5)
    assert second.label == "Block 2"
    np.testing.assert_array_equal(second.values[1], [4, 5, 6])


def test_a_line_where_the_speeds_run_on_is_a_note():
    (part,) = stacked(("Page 2",), (10, 20, 30, 40, 50, 60))
    assert part.facts.warnings == ("1 line between the rows was taken as a note: 'Page 2'",)


def test_a_line_that_names_a_direction_gives_it_to_the_rows_below():
    first, second = stacked(("Rebound",))
    assert (first.direction, second.direction) == (None, "rebound")


@pytest.mark.parametrize(
    ("lines", "way"),
    [((), None), (("Compression",), "compression"), (("Rebound stroke data",), "rebound"), (("Run 3",), None),
     (("Rebound", "Run 3"), None), (("rebound clicks 8",), None), (("compression and rebound",), None)],
)  # fmt: skip
def test_a_title_is_a_direction_where_it_says_nothing_else(lines, way):
    assert direction_above(lines) == way


def test_each_click_position_of_a_wide_table_is_a_part():
    columns = {"Velocity [mm/s]": SPEEDS}
    columns |= {f"LSC {n} {way} [N]": [n + 1.0] * 3 for n in (0, 8) for way in ("comp", "reb")}
    parts = parts_of(columns)
    assert [p.facts.clicks for p in parts] == [{"lsc": 0}, {"lsc": 8}]
    assert [p.label for p in parts] == ["lsc 0", "lsc 8"]
    assert all(set(p.roles.forces) == {"compression", "rebound"} for p in parts)


def test_two_columns_of_one_click_position_must_say_their_direction():
    columns = {"Velocity [mm/s]": SPEEDS, "LSC 0 A [N]": SPEEDS, "LSC 0 B [N]": SPEEDS}
    with pytest.raises(ReadError, match=r"several columns say .* and not which direction"):
        parts_of(columns)


def test_rows_that_are_numbered_without_a_name_are_named_right():
    lines = ["Velocity [mm/s];Comp [N];Reb [N]", "1;50;100;120", "2;100;200;220", "3;200;300;330"]
    (sweep,) = read_bytes("\n".join(lines).encode(), "rig.csv")
    np.testing.assert_allclose(sweep.channels["velocity"], [0.05, 0.1, 0.2, -0.05, -0.1, -0.2])
    with pytest.raises(ReadError, match="line 2: 4 cells under 3 names; mend the header, or say which is which"):
        read_bytes("\n".join([lines[0], "7;50;100;120", "2;100;200;220"]).encode(), "rig.csv")


def test_columns_without_names_are_asked_for_by_number():
    with pytest.raises(ReadError, match=r"line 2: the columns are named 'a', 'b', 'c', .*--column force=NAME"):
        parts_of({"a": SPEEDS, "b": SPEEDS, "c": SPEEDS}, named=False)


def test_the_user_s_setting_wins_and_the_contradiction_is_said_once():
    told = ReadOptions(shock="RL-09", pack="gravel")
    part = part_of(trace(), told, shared=("Shock: FL-03", "Pack: mixed"))
    assert (part.facts.shock, part.facts.pack) == ("RL-09", "gravel")
    assert part.facts.warnings == (
        "the file says shock FL-03, you say RL-09: you were believed",
        "the file says pack mixed, you say gravel: you were believed",
    )


def test_lines_of_the_table_win_over_those_of_the_file():
    part = part_of(trace(), own=("LSC 4",), shared=("LSC 9", "Shock: FL-03"))
    assert (dict(part.facts.clicks), part.facts.shock) == ({"lsc": 4}, "FL-03")


def test_what_lines_say_is_positive_is_kept_beside_the_facts():
    assert part_of(trace(), shared=("Force: rebound positive",)).said == {"force": "rebound"}


def test_a_part_knows_its_rows_and_its_columns():
    part = part_of({"Velocity [mm/s]": SPEEDS, "Force [N]": SPEEDS, "": F[:3]})
    assert part.rows == 3
    assert part.column_names == "'Velocity [mm/s]', 'Force [N]'"


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("odd", [np.inf, np.nan])
def test_a_time_that_is_no_number_hides_no_run_that_starts_again(odd):
    run = np.arange(40) * 0.01
    time = np.concatenate([run, run, run])
    time[[5, 50]] = odd
    assert _resets(time) == [40, 80]
