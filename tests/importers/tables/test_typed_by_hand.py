"""Tables that people type into a message: words and marks between the numbers, notes in cells, brackets for minus."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

V, C, R = (25, 50, 100, 250), (142, 249, 403, 695), (348, 562, 809, 1219)


def one(text: str, name: str = "typed.txt"):
    (sweep,) = read_bytes(text.encode(), name, ReadOptions())
    return sweep


def rows(form: str, head: str = "") -> str:
    return head + "".join(form.format(v=v, c=c, r=r) + "\n" for v, c, r in zip(V, C, R, strict=True))


def holds(sweep, factor: float = 1.0) -> bool:
    """Whether a sweep holds the table above, its forces times a factor."""
    v, f = sweep.channels["velocity"], sweep.channels["force"]
    found = {(round(float(a) * 1e3), round(float(b) / factor)) for a, b in zip(v, f, strict=True)}
    return found == {*zip(V, C, strict=True)} | {(-v, -r) for v, r in zip(V, R, strict=True)}


@pytest.mark.parametrize(
    ("form", "head"),
    [
        ("V={v} mm/s: comp {c} N, reb {r} N", ""),
        ("v={v}mm/s C={c}N R={r}N", ""),
        ("speed: {v} mm/s  bump: {c} N  rebound: {r} N", ""),
        ("at {v} mm/s {c} N bump {r} N rebound", ""),
        ("{v} / {c} / {r}", "mm/s / N comp / N reb\n"),
        ("{v}: {c}/{r}", "(mm/s: comp/reb in N)\n"),
        ("{v} - {c} / {r}", "Speed mm/s - C / R in N\n"),
        ("{v} mm/s -> {c} / {r}", "Speed -> Comp / Reb (N)\n"),
        ("{v} mm/s -> {c} / {r}", "Geschw. -> Druck / Zug (N)\n"),
        ("- {v}: C {c}, R {r}", "Forces in N, speeds in mm/s\n"),
    ],
)
def test_rows_with_words_between_their_numbers(form, head):
    assert holds(one(rows(form, head)))


def test_messages_of_a_chat_are_a_table_of_their_day():
    said = "[14/03/2026, 18:22:{0:02d}] Dyno: "
    lines = [said.format(9) + "FL shock on the rig, LSC 8 LSR 10"]
    lines += [said.format(k) + f"{v}mm/s {c}N comp {r}N reb" for k, (v, c, r) in enumerate(zip(V, C, R, strict=True))]
    sweep = one("\n".join(lines))
    assert holds(sweep)
    assert (sweep.shock, dict(sweep.clicks), sweep.date) == ("FL", {"lsc": 8, "lsr": 10}, "2026-03-14")


def test_words_before_each_number_of_a_long_record():
    t = np.arange(900) / 200
    x, f = -12 * np.cos(8 * t), 200 + 500 * np.sin(8 * t)
    lines = [f"t_ms:{1e3 * a:.0f},pos_mm:{b:.2f},force_N:{c:.1f}" for a, b, c in zip(t, x, f, strict=True)]
    sweep = one("\n".join(lines), "serial.log")
    assert (sweep.samples, sweep.rate) == (900, pytest.approx(200))
    assert sweep.channels["force"].max() == pytest.approx(700, abs=1)


@pytest.mark.parametrize(
    "text",
    [
        "Speed   25   50   100   250   mm/s\nComp   142  249  403  695   N\nReb   348  562  809  1219   N\n",
        "mm/s:  25  50  100  250\nC [N]: 142  249  403  695\nR [N]: 348  562  809  1219\n",
        "Speed (mm/s):25,50,100,250\nComp (N):142,249,403,695\nReb (N):348,562,809,1219\n",
        "Speed; mm/s; 25; 50; 100; 250\nComp; N; 142; 249; 403; 695\nReb; N; 348; 562; 809; 1219\n",
    ],
)
def test_a_quantity_a_line_however_its_values_are_set_apart(text):
    assert holds(one(text))


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_brackets_are_a_minus(mark):
    head = mark.join(["Velocity (mm/s)", "Compression (N)", "Rebound (N)"])
    assert holds(one(rows(mark.join(["{v}", "{c}", "({r})"]), head + "\n"), "books.csv"))


def test_brackets_around_thousands():
    sweep = one(rows('{v},{c},"({r:,})"', "Velocity (mm/s),Compression (N),Rebound (N)\n"), "books.csv")
    assert holds(sweep)


def test_notes_in_cells_cost_no_number_and_are_named():
    lines = ["Speed mm/s,Comp N,Reb N", "25,142,348", "50,249,562 (noisy)", "100,403*,809", "250 (x2),695,~1219"]
    sweep = one("\n".join(lines), "notes.csv")
    assert holds(sweep)
    assert sweep.warnings == (
        "marks beside numbers were left out, the numbers kept: '403*', '~1219'",
        "notes among the numbers were left out: '562 (noisy)', '250 (x2)'",
    )


def test_a_direction_without_a_unit_takes_the_others_and_says_so():
    sweep = one(rows("{v},{c},{r}", "Speed (mm/s),Comp,Reb (N)\n"), "half.csv")
    assert holds(sweep)
    assert sweep.warnings == ("'Comp' has no unit and was taken in N, as 'Reb (N)' beside it is",)


def test_clicks_beside_forces_of_the_other_direction_stay_clicks():
    text = "Comp,Speed (mm/s),Reb (N)\n4,25,348\n4,50,562\n4,100,809\n"
    assert dict(one(text, "half.csv").clicks) == {"c": 4}


def test_clicks_across_both_directions_are_of_the_adjuster_that_was_swept():
    text = "Low speed compression sweep, rebound at 6 clicks\n" + (
        "Speed (mm/s),COMPRESSION (N),,REBOUND (N),\n,0 clicks,8 clicks,0 clicks,8 clicks\n"
        "25,142,120,348,340\n50,249,210,562,550\n100,403,340,809,800\n"
    )
    found = read_bytes(text.encode(), "sweep.csv", ReadOptions())
    assert [dict(s.clicks) for s in found] == [{"r": 6, "lsc": 0}, {"r": 6, "lsc": 8}]
    assert all(s.samples == 6 for s in found)


def test_tables_on_their_side_below_one_another_keep_their_settings():
    blocks = [f"{c};LSC;{k};LSR;6\nv;25;50;100\nC;{k};249;403\nR;348;562;809\n" for c, k in (("FL", 4), ("FR", 8))]
    found = read_bytes(("\n".join(blocks) + "mm/s, N\n").encode(), "sides.csv", ReadOptions())
    assert [(s.shock, dict(s.clicks)) for s in found] == [("FL", {"lsc": 4, "lsr": 6}), ("FR", {"lsc": 8, "lsr": 6})]
    assert [float(s.channels["force"][0]) for s in found] == [4, 8]


def test_rows_of_clicks_over_the_names():
    text = (
        "C clicks,4,4,8,8\nR clicks,6,6,10,10\nSpeed (mm/s),Comp (N),Reb (N),Comp (N),Reb (N)\n"
        "25,142,348,120,300\n50,249,562,210,500\n100,403,809,340,700\n"
    )
    found = read_bytes(text.encode(), "clicks.csv", ReadOptions())
    assert [dict(s.clicks) for s in found] == [{"c": 4, "r": 6}, {"c": 8, "r": 10}]
    assert [float(s.channels["force"].min()) for s in found] == [-809, -700]


@pytest.mark.parametrize(
    "above",
    ["C clicks,4,,8,\nR clicks,6,,10,\n", "C clicks,4,,8\nR clicks,6,,10\n",
     "Run,1,,2,\nC clicks,4,,8,\nR clicks,6,,10,\n"],
)  # fmt: skip
def test_rows_of_clicks_in_joined_cells_over_the_names(above):
    text = above + "Speed (mm/s),Comp (N),Reb (N),Comp (N),Reb (N)\n25,142,348,120,300\n50,249,562,210,500\n"
    found = read_bytes((text + "100,403,809,340,700\n").encode(), "clicks.csv", ReadOptions())
    assert [dict(s.clicks) for s in found] == [{"c": 4, "r": 6}, {"c": 8, "r": 10}]
    assert [float(s.channels["force"].min()) for s in found] == [-809, -700]


def test_one_row_of_clicks_in_joined_cells_names_its_knob():
    text = "Rebound clicks,4,,8,\nSpeed (mm/s),Comp (N),Reb (N),Comp (N),Reb (N)\n25,142,348,120,300\n"
    found = read_bytes((text + "50,249,562,210,500\n100,403,809,340,700\n").encode(), "clicks.csv", ReadOptions())
    assert [dict(s.clicks) for s in found] == [{"r": 4}, {"r": 8}]


def test_a_nameless_column_of_forces_is_named_by_its_number():
    sweep = one("Speed (mm/s),Comp (N),,Reb (N)\n25,142,120,348\n50,249,210,562\n100,403,340,809\n", "half.csv")
    assert sweep.warnings == ("no line names column 3, of numbers beside those of a direction: left out",)


@pytest.mark.parametrize("form", ["{v} mm/s = {c} / {r} N", "{v}ips {c}lb {r}lb"])
def test_two_forces_without_a_word_are_refused(form):
    with pytest.raises(ReadError):
        one(rows(form))


def test_a_direction_over_its_pairs():
    text = "Compression\n" + rows("{v} mm/s: {c} N") + "Rebound\n" + rows("{v} mm/s: {r} N")
    assert holds(one(text))


def test_units_as_labels_of_a_long_record():
    t = np.arange(900) / 200
    x, f = -12 * np.cos(8 * t), 200 + 500 * np.sin(8 * t)
    lines = [f"ms={1e3 * a:.0f} mm={b:.2f} N={c:.1f}" for a, b, c in zip(t, x, f, strict=True)]
    assert one("\n".join(["boot ok", *lines]), "serial.log").samples == 900


def test_one_row_of_clicks_over_the_names():
    head = "LSC,0,6,0,6\nmm/s,Comp N,Comp N,Reb N,Reb N\n"
    found = read_bytes(
        f"{head}25,142,120,348,347\n50,249,210,562,560\n100,403,340,809,805\n".encode(), "c.csv", ReadOptions()
    )
    assert [(dict(s.clicks), float(s.channels["force"].max())) for s in found] == [({"lsc": 0}, 403), ({"lsc": 6}, 340)]


def test_a_note_behind_a_bracket():
    text = "Speed mm/s;Comp N;Reb N\n25;142;(348)\n50;249;(562) ok\n100;403;(809)\n250;695;(1219)\n"
    assert holds(one(text, "books.csv"))


@pytest.mark.parametrize("raised", ["²", "2²0", "③"])
def test_a_raised_figure_in_the_place_of_clicks_is_refused_in_one_line(raised):
    """It is a digit to Unicode and no number to anyone."""
    text = f"Rebound (N)\nClicks \\ mm/s;25;51;102;254\n2;348;540;795;1073\n{raised};320;500;740;990\n"
    with pytest.raises(ReadError, match="mend the line or take it out"):
        read_bytes(text.encode(), "typed.csv", ReadOptions())
