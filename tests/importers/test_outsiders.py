"""What outsiders wrote and was read wrongly, lost or refused: a cause each, in a file of our own."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from importers.stated import facts_of_lines
from tests.importers.making import F, T, X

ROWS = ((50, 202, 417), (100, 260, 627), (150, 293, 758), (200, 321, 857))
BODY = "\n".join(f"{v};{c};{r}" for v, c, r in ROWS)


def one(text: str, name: str = "a.csv"):
    (sweep,) = read_bytes(text.encode(), name)
    return sweep


@pytest.mark.parametrize(
    ("line", "shock"),
    [
        ("home rig v2, shock = MTB-1, 80 SPS load cell", "MTB-1"),
        ("Damper ident.: KX-18", "KX-18"),
        ("Shock under test: PK-1", "PK-1"),
        ("减振器 / Shock: KR-5", "KR-5"),
        ("**Shock:** trial bike", "trial bike"),
        ("Amortecedor dianteiro 18", "dianteiro 18"),
        ("Shock - LF monotube 3", "LF monotube 3"),
        ("RR shock", "RR"),
        ("LF shock - peak force lbs vs in/sec", "LF"),
        ("LR shock 22 clicks reb", "LR"),
        ("SN 5501 click series", "5501"),
    ],
)
def test_names_of_shocks(line, shock):
    assert facts_of_lines([line]).shock == shock


@pytest.mark.parametrize(
    "line",
    ["Shock - 14.06.2025", "shock forces - all of 3", "Damper - LSC 4 LSR 6", "Shock 22 clicks", "rr shock absorber"],
)
def test_what_is_no_name_of_one(line):
    assert facts_of_lines([line]).shock is None


def test_quantities_in_other_words():
    facts = facts_of_lines(["Давление газа;1,2 МПа", "Ход;75 мм", "дата / Date: 17.05.2024"], ",")
    assert (facts.gas_pressure, facts.stroke, facts.date) == (1.2e6, 0.075, "2024-05-17")
    facts = facts_of_lines(["Pressão de nitrogênio\t12 bar", "Gas 75psi   5-17-24   72F"])
    assert facts.gas_pressure == 1.2e6
    assert facts.temperature == pytest.approx(22.22, abs=0.01)


@pytest.mark.parametrize("text", ["LSC 6  R 12  35F", "12F;C6"])
def test_numbers_before_an_f_that_are_no_warmth(text):
    assert facts_of_lines([text]).temperature is None


@pytest.mark.parametrize(
    ("head", "turned"),
    [
        ("Velocity mm/s (+ = extension);Force N (+ = tension)", True),
        ("Velocity mm/s;Force N (+ = tension)", True),
        ("Velocity mm/s (+ = compression);Force N", False),
    ],
)
def test_which_way_counts_positive_in_the_names_of_a_signed_table(head, turned):
    rows = "\n".join(f"{v};{f}" for v, f in ((-200, -361), (-100, -265), (100, 591), (200, 738)))
    sweep = one(f"{head}\n{rows}\n")
    force = dict(zip(sweep.channels["velocity"].round(3), sweep.channels["force"], strict=True))
    assert force == (
        {0.2: 361, 0.1: 265, -0.1: -591, -0.2: -738} if turned else {-0.2: -361, -0.1: -265, 0.1: 591, 0.2: 738}
    )
    assert not any("nothing says" in w for w in sweep.warnings)


def test_a_direction_beside_the_setting_of_the_other_knob():
    names = " | ".join(f"{way} (N), reb {n} clicks" for n in (4, 8) for way in ("Comp", "Reb"))
    head = f"| Speed (mm/s) | {names} |"
    rows = "\n".join(f"| {v} | {c} | {r} | {c - 30} | {r - 90} |" for v, c, r in ROWS)
    first, second = read_bytes(f"{head}\n|---:|---:|---:|---:|---:|\n{rows}\n".encode(), "wiki.md")
    assert (first.clicks, second.clicks) == ({"r": 4}, {"r": 8})
    assert sorted(first.channels["force"]) == sorted([*(c for _, c, _ in ROWS), *(-r for _, _, r in ROWS)])


def test_bare_numbers_under_the_knob_that_they_are_clicks_of():
    head = f"Compression fixed at 6\n;Rebound clicks from full hard\n;0;;4;;8;\nmm/s{3 * ';Comp N;Reb N'}\n"
    rows = "\n".join(f"{v};{c};{r};{c - 10};{r - 20};{c - 20};{r - 40}" for v, c, r in ROWS)
    sweeps = read_bytes(f"{head}{rows}\n".encode(), "a.csv")
    assert [s.clicks for s in sweeps] == [{"c": 6, "r": 0}, {"c": 6, "r": 4}, {"c": 6, "r": 8}]


def test_turns_before_both_directions_are_runs_of_their_own():
    names = ";".join(f"{t} Comp N;{t} Reb N" for t in ("1/2 turn", "1 turn", "1 1/2 turn"))
    rows = "\n".join(f"{v};{c};{r};{c - 10};{r - 20};{c - 20};{r - 40}" for v, c, r in ROWS)
    sweeps = read_bytes(f"Speed mm/s;{names}\n{rows}\n".encode(), "a.csv")
    assert [(s.source.part, s.channels["force"].max()) for s in sweeps] == [
        ("1/2 turn", 321), ("1 turn", 311), ("1 1/2 turn", 301),
    ]  # fmt: skip


def test_lettered_speeds_with_a_row_of_units():
    text = (
        "Peak forces at 25 and 100 mm/s (C = compression, R = rebound)\n"
        "Run,LSC,LSR,C25,C100,R25,R100\n,clicks,clicks,N,N,N,N\n"
        "1,6,6,118,204,-297,-484\n2,12,6,108,188,-297,-484\n"
    )
    sweeps = read_bytes(text.encode(), "a.csv")
    assert [(s.clicks, s.samples) for s in sweeps] == [({"lsc": 6, "lsr": 6}, 4), ({"lsc": 12, "lsr": 6}, 4)]


def test_one_force_in_two_units_with_and_without_its_sign():
    rows = "\n".join(f"{v};{c / 9.80665:.3f};{r / 9.80665:.3f};{c};{-r}" for v, c, r in ROWS)
    sweep = one(f"mm/s;Comp kg;Reb kg;Compression N;Rebound N\n{rows}\n")
    assert sweep.samples == 8
    assert sweep.channels["force"].min() == pytest.approx(-857, rel=1e-3)


def test_units_in_a_title_of_one_against_the_other():
    sweep = one(f"LF shock - peak force lbs vs in/sec\nSpeed;Bump;Rebound\n{BODY}\n")
    assert sweep.channels["velocity"].max() == pytest.approx(200 * 0.0254)
    assert sweep.channels["force"].max() == pytest.approx(321 * 4.4482216)


def test_a_line_of_another_unit_between_the_rows_is_no_note():
    text = (
        "mm/s;Comp (N);Reb (N)\n50;199;353\n100;311;505\n150;388;594\nfrom here on kgf\n200;46.1;67.6\n250;52.1;73.8\n"
    )
    with pytest.raises(ReadError, match="'from here on kgf' between the rows names another unit of force"):
        one(text)
    assert one(text.replace("from here on kgf", "all in N")).samples == 10


def test_a_reply_to_a_mail():
    quoted = "\n".join(f"> {line}" for line in ("Shock: QM-8", "Speed mm/s;Comp N;Reb N", *BODY.splitlines()))
    sweep = one(f"Date: Fri, 17 May 2024 09:12:00 +0200\nSubject: your damper\n\n{quoted}\n\nThanks!\n")
    assert (sweep.shock, sweep.date, sweep.samples) == ("QM-8", "2024-05-17", 8)


def test_a_zero_within_text_tears_its_line_alone():
    rows = [f"{t:.3f},{1e3 * x:.2f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]
    data = "\n".join(["time s,disp mm,force N", *rows[:700], "1.4\0000,", *rows[701:], ""])
    sweep = one(data)
    assert sweep.samples == len(T) - 1
    assert any(w == "1 torn lines were left out, the first is line 702" for w in sweep.warnings)


def test_many_zeros_are_no_text():
    with pytest.raises(ReadError, match="not text"):
        read_bytes(b"time s,force N\n" + b"0.1,2\0\n" * 200, "a.csv", ReadOptions())


def test_samples_that_repeat_each_cycle_are_a_record_and_no_table():
    phase = np.arange(400) / 100 * 2 * np.pi
    rows = "\n".join(f"{0.2 * np.sin(p):.5f}, {600 * np.sin(p) + 40:.2f}" for p in phase)
    sweep = one(f"v (m/s), F (N)\n{rows}\n")
    assert (sweep.layout, sweep.samples) == ("trace", 400)


def test_a_table_run_through_twice_is_a_table():
    speeds = [*range(-300, 0, 20), *range(20, 320, 20)]
    rows = "\n".join(f"{v}, {3 * v + k}" for k in (0, 5) for v in speeds)
    assert one(f"v (mm/s), F (N)\n{rows}\n").layout == "peaks"


def test_settings_in_joined_cells_that_are_not_understood_are_runs_and_said():
    rows = [("LS 6 HS 2 / LS 8 HS 3", 50, 380, 610), ("", 100, 560, 980), ("LS 10 HS 4 / LS 12 HS 5", 50, 300, 450)]
    rows += [("", 100, 500, 800)]
    text = "\n".join(["Setting;Speed;Comp;Reb", ";mm/s;N;N", *(";".join(map(str, row)) for row in rows), ""])
    sweeps = read_bytes(text.encode(), "a.csv")
    assert [(s.clicks, s.samples) for s in sweeps] == [({}, 4), ({}, 4)]
    assert sweeps[0].warnings == ("'LS 6 HS 2 / LS 8 HS 3' is a setting that was not understood: state the clicks",)


def test_gas_over_both_directions_of_one_setting():
    text = "Gas bar;8;;12;\nLSC;6;;6;\nmm/s;Druck N;Zug N;Druck N;Zug N\n50;1;2;3;4\n100;2;3;4;5\n150;3;4;5;6\n"
    assert [(s.gas_pressure, s.clicks) for s in read_bytes(text.encode(), "a.csv")] == [
        (8e5, {"lsc": 6}),
        (1.2e6, {"lsc": 6}),
    ]


def test_a_line_of_cells_between_blanks():
    rows = "50   1   2\n100   2   3\n150   3   4\n"
    sweep = one(f"RL-02   gravel   LSC6 LSR8   31°C   14.6.25\n\nv mm/s   Druck   Zug  [N]\n{rows}", "a.txt")
    assert (sweep.shock, sweep.date, sweep.temperature) == ("RL-02", "2025-06-14", 31.0)


def test_of_two_days_in_a_line_the_one_that_is_the_tests():
    assert facts_of_lines(["Date run: 2025-06-14, printed 2025-06-20"]).date == "2025-06-14"
