"""Which column is what, and the questions asked where a column could be several things."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from importers.parts.key_columns import cell_clicks
from importers.parts.roles import assign_roles
from tests.importers.making import F, T, V, X, quick, table_of, trace


def roles_of(columns, options=None, **more):
    return assign_roles(table_of(columns, options, **more), "rig.csv")


def named(columns):
    return {channel: column.text for channel, column in columns.items()}


@quick
@given(st.permutations(sorted(trace())))
def test_the_order_of_columns_does_not_matter(order):
    columns = trace()
    roles = roles_of({name: columns[name] for name in order})
    assert named(roles.channels) == {name.split()[0].lower(): name for name in columns}
    assert (roles.forces, roles.speeds, roles.wide, roles.keys) == ({}, {}, (), {})


ROWS = [50.0, 100.0, 200.0]


def test_forces_by_direction_with_a_common_speed():
    roles = roles_of({"Velocity [mm/s]": ROWS, "Comp [N]": ROWS, "Reb [N]": ROWS})
    assert named(roles.forces) == {"compression": "Comp [N]", "rebound": "Reb [N]"}
    assert named(roles.channels) == {"velocity": "Velocity [mm/s]"}


def test_forces_and_speeds_by_direction():
    roles = roles_of({"Comp vel [mm/s]": ROWS, "Comp force [N]": ROWS, "Reb vel [mm/s]": ROWS, "Reb force [N]": ROWS})
    assert named(roles.speeds) == {"compression": "Comp vel [mm/s]", "rebound": "Reb vel [mm/s]"}
    assert named(roles.forces) == {"compression": "Comp force [N]", "rebound": "Reb force [N]"}


def test_a_trace_s_one_force_with_a_direction_counts_positive_in_it():
    columns = trace(force=None) | {"Tension force [N]": F}
    roles = roles_of(columns)
    assert roles.channels["force"].positive == "rebound"
    assert roles.forces == {}


@pytest.mark.parametrize("name", ["Comp", "Compression", "C"])
def test_whole_numbers_under_a_direction_beside_a_force_are_clicks(name):
    roles = roles_of({"Velocity [mm/s]": ROWS * 2, "Force [N]": ROWS * 2, name: [4] * 3 + [8] * 3})
    assert named(roles.keys) == {"c": name}


def test_other_numbers_under_a_direction_are_forces():
    roles = roles_of({"Velocity [mm/s]": ROWS, "Compression": [10.5, 20.5, 30.5], "Rebound": ROWS})
    assert set(roles.forces) == {"compression", "rebound"}


def test_wide_tables_have_a_force_for_each_click():
    roles = roles_of({"Velocity [mm/s]": ROWS, "LSC 0 [N]": ROWS, "LSC 8 [N]": ROWS})
    assert [c.clicks for c in roles.wide] == [{"lsc": 0}, {"lsc": 8}]


def test_bare_click_numbers_need_a_line_that_names_the_adjuster():
    columns = {"Velocity [mm/s]": ROWS, "0": ROWS, "4": ROWS}
    roles = roles_of(columns, shared=("Low speed compression clicks",))
    assert [c.clicks for c in roles.wide] == [{"lsc": 0}, {"lsc": 4}]
    with pytest.raises(ReadError, match="'0', '4' look like clicks of an adjuster that no line names"):
        roles_of(columns)


@pytest.mark.parametrize(
    ("extra", "taken"),
    [("Force set [N]", "Force [N]"), ("Kraft ungefiltert [N]", "Force [N]"), ("CH3 [N]", "Force [N]")],
)
def test_the_measurement_goes_before_goals_and_nameless_channels(extra, taken):
    assert roles_of(trace() | {extra: F * 0.5}).channels["force"].text == taken


def test_one_quantity_in_two_units_is_one_channel():
    roles = roles_of(trace(force=None) | {"Damper force A [N]": F, "Damper force B [lbf]": F / 4.4482216152605})
    assert roles.channels["force"].text == "Damper force A [N]"


def test_two_forces_that_differ_are_a_question():
    with pytest.raises(
        ReadError, match=r"force could be 'Force A .N.', 'Force B .N.'; choose with --column force=NAME"
    ):
        roles_of(trace(force=None) | {"Force A [N]": F, "Force B [N]": 2 * F})


def test_a_clock_beside_a_time_is_not_the_time():
    assert roles_of(trace() | {"Timestamp": T + 1000}).channels["time"].text == "Time [s]"


@pytest.mark.parametrize("wanted", ["Load cell [N]", "load cell", "LOAD_CELL", "4"])
def test_the_user_names_a_column_as_it_stands_or_in_plain_words_or_by_number(wanted):
    columns = {"Time [s]": T, "Travel [m]": X, "Speed [m/s]": V, "Load cell [N]": F, "Force [N]": 2 * F}
    roles = roles_of(columns, ReadOptions(columns={"force": wanted}))
    assert roles.channels["force"].text == "Load cell [N]"


def test_a_named_column_that_is_not_there_is_refused_with_those_that_are():
    with pytest.raises(ReadError, match=r"no column 'Kraft' for force; the file has: Time \[s\], Displacement"):
        roles_of(trace(), ReadOptions(columns={"force": "Kraft"}))


def test_the_user_can_name_directions_and_keys():
    told = ReadOptions(columns={"compression": "a", "rebound": "b", "velocity": "v", "pack": "p"})
    roles = roles_of({"v": ROWS, "a": ROWS, "b": ROWS, "p": ["gravel"] * 3}, told)
    assert named(roles.forces) == {"compression": "a", "rebound": "b"}
    assert named(roles.keys) == {"pack": "p"}


@pytest.mark.parametrize(
    ("name", "cell", "clicks"),
    [("Setting", "C4 R6", {"c": 4, "r": 6}), ("Comp/Reb clicks", "4/6", {"c": 4, "r": 6}),
     ("LSC;LSR", "4 - 6", {"lsc": 4, "lsr": 6}), ("Comp/Reb", "4", {}), ("Setting", "4/6", {}), ("Note", "soft", {})],
)  # fmt: skip
def test_clicks_in_cells(name, cell, clicks):
    assert cell_clicks(name, cell) == clicks


def test_a_column_of_settings_in_words_is_a_key():
    roles = roles_of({"Setting": ["C4 R6"] * 3 + ["C8 R6"] * 3, "Velocity [mm/s]": ROWS * 2, "Force [N]": ROWS * 2})
    assert named(roles.keys) == {"clicks": "Setting"}


def test_words_that_change_where_the_speeds_start_again_group_runs():
    roles = roles_of({"Which": ["one"] * 3 + ["two"] * 3, "Velocity [mm/s]": ROWS * 2, "Force [N]": ROWS * 2})
    assert named(roles.keys) == {"group": "Which"}
    mixed = roles_of({"Which": ["one", "two"] * 3, "Velocity [mm/s]": ROWS * 2, "Force [N]": ROWS * 2})
    assert "group" not in mixed.keys


def test_a_column_without_numbers_is_no_channel():
    columns = trace() | {"Temp [C]": np.full(len(T), np.nan)}
    assert "temperature" in roles_of(columns).channels  # its numbers are missing, not its column


def test_a_named_column_of_a_direction_wins_over_the_others_of_it():
    columns = {"Velocity [mm/s]": ROWS, "Comp at top [N]": ROWS, "Comp at end [N]": ROWS[::-1], "Reb [N]": ROWS}
    with pytest.raises(ReadError, match=r"compression could be 'Comp at .*, 'Comp .*--column compression=NAME"):
        roles_of(columns)
    roles = roles_of(columns, ReadOptions(columns={"compression": "Comp at top [N]"}))
    assert named(roles.forces) == {"compression": "Comp at top [N]", "rebound": "Reb [N]"}


def test_heads_that_stand_twice_are_told_apart():
    table = table_of({"Velocity [mm/s]": ROWS, "Comp [N]": ROWS, "Comp[N]": [2 * r for r in ROWS], "Reb [N]": ROWS})
    same = tuple(replace(c, text="Comp [N]") if c.direction == "compression" else c for c in table.columns)
    with pytest.raises(ReadError, match=r"'Comp \[N\]#1', 'Comp \[N\]#2'"):
        assign_roles(replace(table, columns=same), "rig.csv")
    stated = replace(table, columns=same, options=ReadOptions(columns={"compression": "Comp [N]#2"}))
    assert assign_roles(stated, "rig.csv").forces["compression"].index == 2


@pytest.mark.parametrize("other", [F, 1.2 * F])
def test_numbered_cells_share_a_load_and_are_no_copies_of_one_another(other):
    columns = trace(force=None) | {"Load Cell 1 [N]": F, "Load Cell 2 [N]": other}
    with pytest.raises(ReadError, match="if they share the load, add them up"):
        roles_of(columns)
    assert (
        named(roles_of(trace(force=None) | {"Force [N]": F, "Force [lbf]": F / 4.4482216}).channels)["force"]
        == "Force [N]"
    )


def test_a_measured_force_wins_over_its_limits():
    columns = {"Velocity [mm/s]": ROWS, "Comp LSL [N]": [1.0, 2, 3], "Comp [N]": ROWS, "Comp USL [N]": [9.0, 99, 999]}
    assert named(roles_of(columns | {"Reb [N]": ROWS}).forces) == {"compression": "Comp [N]", "rebound": "Reb [N]"}
