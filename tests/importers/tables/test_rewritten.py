"""Tables that are rewritten before they are read: speeds or clicks across, fixed width, odd line ends."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD, ReadOptions
from dynoan.reading import read_bytes
from dynoan.units.factors import POUND_FORCE
from importers.tables import read_tables
from importers.tables.across_clicks import with_clicks_named
from importers.tables.across_speeds import with_speeds_down
from tests.importers.making import quick

WAYS = {
    "compression": ("Compression", "Bump", "Druckstufe", "Comp"),
    "rebound": ("Rebound", "Droop", "Zugstufe", "Reb"),
}
SECOND = ["", "Velocity (mm/s),Compression (N),Rebound (N)", "50,100,110", "100,200,220", "200,300,330"]


def read(lines, name="rig.csv", options=None, code="utf-8"):
    return read_bytes(("\n".join(lines) + "\n").encode(code), name, options)


@quick
@given(
    st.lists(st.integers(5, 900), min_size=2, max_size=6, unique=True).map(sorted),
    st.lists(st.integers(0, 24), min_size=1, max_size=4, unique=True),
    st.sampled_from([(";", ","), (",", "."), ("\t", ".")]),
    st.sampled_from(["{} mm/s", "{}mm/s", "@{} mm/s", "v = {} mm/s"]),
    st.integers(0, 3),
)
def test_speeds_across_and_clicks_down_are_a_peak_table_a_click(speeds, clicks, marks, form, word):
    mark, decimal = marks
    force = {
        (k, way): [v + 10 * k + (3.5 if way == "rebound" else 1.5) for v in speeds] for k in clicks for way in WAYS
    }
    lines = ["Forces in N", mark.join(["LSC", "Direction", *(form.format(v) for v in speeds)])]
    lines += [
        mark.join([str(k), WAYS[way][word], *(str(f).replace(".", decimal) for f in fs)])
        for (k, way), fs in force.items()
    ]
    sweeps = read(lines)
    assert [dict(s.clicks) for s in sweeps] == [{"lsc": k} for k in clicks]
    for k, sweep in zip(clicks, sweeps, strict=True):
        for way, turn in (("compression", 1.0), ("rebound", -1.0)):
            mine = turn * sweep.channels["velocity"] > 0
            np.testing.assert_allclose(turn * sweep.channels["velocity"][mine], np.array(speeds) / 1e3)
            np.testing.assert_allclose(turn * sweep.channels["force"][mine], force[k, way])


def test_rows_named_by_shock_and_direction_are_a_sweep_a_shock():
    lines = ["Forces in kgf,50 mm/s,100 mm/s", "FL-81 Bump,10,20", "FL-81 Rebound,15,30", "FR-81 Bump,11,21",
             "FR-81 Rebound,16,31"]  # fmt: skip
    first, second = read(lines)
    assert (first.shock, second.shock) == ("FL-81", "FR-81")
    np.testing.assert_allclose(sorted(second.channels["force"] / 9.80665), [-31, -16, 11, 21])


def test_a_setting_that_stands_in_its_first_row_alone_holds_for_the_rows_below():
    lines = ["C,Way,50 mm/s (N),100 mm/s (N)", "4,Bump,10,20", ",Rebound,15,30", "8,Bump,9,18", ",Rebound,14,28"]
    assert [dict(s.clicks) for s in read(lines)] == [{"c": 4}, {"c": 8}]


def test_a_force_that_is_left_out_is_no_row():
    lines = ["LSC,Way,50 mm/s (N),100 mm/s (N),200 mm/s (N)", "4,Bump,10,20,-", "4,Rebound,15,30,45"]
    (sweep,) = read(lines)
    assert sorted(np.round(sweep.channels["velocity"] * 1e3)) == [-200, -100, -50, 50, 100]


@pytest.mark.parametrize("minus", ["-", "−"])
def test_speeds_below_zero_across_are_rebound(minus):
    head = ",".join(["LSC", *(f"{v} mm/s".replace("-", minus) for v in (-100, -50, 50, 100))])
    first, second = read(["Forces in N", head, "4,-300,-150,100,200", "8,-290,-140,90,180"])
    np.testing.assert_allclose(first.channels["velocity"], [-0.1, -0.05, 0.05, 0.1])
    np.testing.assert_allclose(second.channels["force"], [-290, -140, 90, 180])


def test_bare_speeds_need_a_line_that_speaks_of_them():
    table = ["LSC,Way,50,100,200,400", "4,Bump,10,20,30,40", "4,Rebound,15,30,45,60"]
    (sweep,) = read(["Forces in N; speeds in mm/s", *table])
    assert sweep.channels["velocity"].max() == pytest.approx(0.4)
    assert with_speeds_down(["Forces in N", *table]) is None


@pytest.mark.parametrize(
    "lines",
    [
        ["Velocity,C0 comp,C0 reb", "50,1,2", "100,2,3"],
        ["Direction;Velocity (mm/s);Force (N)", "Compression;13;31.1", "Rebound;13;46.8", "Compression;25;114.0"],
        ["t,x 50 mm/s,F 50 mm/s", "0,1,2", "1,2,3"],
        ["Time (s),Velocity (mm/s),Force (N)", *(f"{i},{i},{i}" for i in range(9))],
        [],
        [""],
    ],
)
def test_other_tables_stay_as_they_are(lines):
    assert with_speeds_down(lines) is None
    assert with_clicks_named(lines) is None


@quick
@given(
    st.lists(st.integers(0, 40), min_size=2, max_size=6, unique=True).map(sorted),
    st.booleans(),
    st.sampled_from([("Compression clicks across", "c", 1), ("Clicks of rebound", "r", -1), ("LSC clicks", "lsc", 1),
                     ("HSR setting", "hsr", -1)]),
    st.sampled_from(["Velocity mm/s", "Speed [mm/s]", ""]),
)  # fmt: skip
def test_bare_clicks_across_are_of_the_adjuster_that_a_line_names(clicks, falling, said, corner):
    title, adjuster, way = said
    clicks = clicks[::-1] if falling else clicks
    lines = [title, "Force in N, velocity in mm/s", ",".join([corner, *map(str, clicks)])]
    lines += [",".join(str(x) for x in (v, *(v + k for k in clicks))) for v in (50, 100, 200)]
    sweeps = read(lines)
    assert [dict(s.clicks) for s in sweeps] == [{adjuster: k} for k in clicks]
    for k, sweep in zip(clicks, sweeps, strict=True):
        np.testing.assert_allclose(way * sweep.channels["velocity"], [0.05, 0.1, 0.2])
        np.testing.assert_allclose(way * sweep.channels["force"], [50 + k, 100 + k, 200 + k])


def test_bare_clicks_of_an_adjuster_that_no_line_names_are_asked_for():
    with pytest.raises(ReadError, match="look like clicks of an adjuster that no line names"):
        read(["Force in N", "Velocity mm/s,2,6,10", "50,1,2,3", "100,2,3,4", "200,3,4,5"])


FIXED = [
    "Geprüft; Dämpfer FL-82",
    "  v mm/s      Druck N      Zug N",
    *(f"{v:8d} {c:>12} {r:>10}" for v, c, r in ((10, "20.5", ""), (50, "100.5", "110.5"), (100, "200.5", "220.5"),
                                                (200, "", "330.5"), (300, "390.5", "440.5"))),
]  # fmt: skip


@pytest.mark.parametrize("code", ["utf-8", "cp1252", "utf-16"])
def test_what_follows_a_fixed_width_table_is_read_too(code):
    first, second = read([*FIXED, *SECOND], "rig.txt", code=code)
    assert (len(first.channels["force"]), len(second.channels["force"])) == (8, 6)
    np.testing.assert_allclose(sorted(second.channels["force"]), [-330, -220, -110, 100, 200, 300])


def test_words_of_a_rewritten_table_keep_their_umlauts():
    lines = ["Größe;Wert", "Dämpfer: FL-83", "Kräfte in N;50 mm/s;100 mm/s", "Druckstufe;10;20", "Zugstufe;15;30"]
    (sweep,) = read(lines, code="cp1252")
    assert sweep.shock == "FL-83"
    assert any("Größe" in line for line in sweep.facts)


def rows(n):
    return [f"{i / 100:.2f},{np.sin(i / 9):.4f},{100 * np.cos(i / 9) + 50:.2f}" for i in range(n)]


@pytest.mark.parametrize("note", ["", "--- paused ---"])
def test_line_ends_that_change_late_in_a_file_lose_no_row(note):
    body = rows(9000)
    head = "\n".join(["Time [s],Position [mm],Force [N]", *body[:8000]]) + "\n"
    tail = "\r".join([*body[8000:8500], *([note] if note else []), *body[8500:]]) + "\r"
    assert len(head) > HEAD
    (table,) = read_tables((head + tail).encode(), "rig.csv", ReadOptions())
    assert table.rows == 9000
    np.testing.assert_allclose(table.values[0], np.arange(9000) / 100)


@pytest.mark.parametrize("bump", ["B", "C", "Bump", "Comp"])
def test_the_unit_of_forces_may_stand_below_the_speeds_across(bump):
    lines = [f"Setting,{bump} @ 1 in/s,{bump} @ 3 in/s,R @ 1 in/s,R @ 3 in/s", "(clicks),lbf,lbf,lbf,lbf",
             "C2 R2,50.2,101.3,77.7,161.1", "C6 R6,36.5,73.7,52.4,108.7"]  # fmt: skip
    first, _ = read_bytes("\n".join(lines).encode(), "rows.csv")
    assert dict(first.clicks) == {"c": 2, "r": 2}
    assert first.channels["force"] / POUND_FORCE == pytest.approx([50.2, 101.3, -77.7, -161.1])


def test_speeds_across_of_an_unknown_direction_are_not_taken_for_names():
    lines = ["Setting,Qx @ 1 in/s,Qx @ 3 in/s,R @ 1 in/s,R @ 3 in/s", *(f"C{n} R2,5,10,7,16" for n in (2, 4, 6))]
    assert with_speeds_down(lines) is None


class TestClicksUnderATitle:
    """A sheet of one direction by its clicks, and the other direction's under its own title."""

    def lines(self, title: str, top: str) -> list[str]:
        return [f"{title};;", f"mm/s;{top}", "50;300;280", "100;600;560"]

    def test_the_one_knob_of_the_direction_is_named_where_clicks_are_spoken_of(self):
        both = [
            *self.lines("Compression [N]", "0 clicks;5 clicks"),
            "",
            *self.lines("Rebound [N]", "0 clicks;5 clicks"),
        ]
        named = with_clicks_named(both)
        assert named is not None
        assert named[1] == "Velocity [mm/s];C 0 compression [N];C 5 compression [N]"
        assert named[6] == "Velocity [mm/s];R 0 rebound [N];R 5 rebound [N]"
        assert with_clicks_named(self.lines("Rebound force by clicks", "0;5")) is not None

    def test_bare_numbers_under_a_direction_are_no_clicks(self):
        assert with_clicks_named(self.lines("Compression [N]", "20;40")) is None
