"""A pack's code that reads like clicks, "C5/R3", is the pack; clicks of a run before are not this run's."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

TABLE = "Velocity (mm/s),Compression (N),Rebound (N)\n25,200,300\n50,350,520\n100,500,800\n200,650,1000\n"


def sweep_under(lines: str):
    (sweep,) = read_bytes(f"{lines}\n{TABLE}".encode(), "card.csv")
    return sweep


@pytest.mark.parametrize(
    ("line", "pack"),
    [
        ("Valving: C5/R3", "C5/R3"),
        ("Valve code: C15-R21", "C15-R21"),
        ("Valving: 6C 4R", "6C 4R"),
        ("Piston: R12-C8", "R12-C8"),
        ("Pack: C-14 / R-22", "C-14 / R-22"),
        ("Pack: LSC6", "LSC6"),
        ("Shim stack: C8 R6", "C8 R6"),
        ("Shim code: C12/R8", "C12/R8"),
        ("Valving,C5/R3", "C5/R3"),
        ("Ventil: D5/Z3", "D5/Z3"),
        ("Pack C5R3", "C5R3"),
        ("Shock: KR-4 (pack: C5/R3)", "C5/R3"),
    ],
)
def test_a_code_is_the_pack_and_no_clicks(line, pack):
    sweep = sweep_under(line)
    assert (sweep.pack, dict(sweep.clicks)) == (pack, {})
    assert any(f"pack '{pack}' was taken as its code" in w for w in sweep.warnings)
    beside = sweep_under(f"{line}\nClicks: C 6 R 9")
    assert (beside.pack, dict(beside.clicks), beside.warnings) == (pack, {"c": 6, "r": 9}, ())


@pytest.mark.parametrize(
    ("line", "pack", "clicks"),
    [
        ("Pack: C5/R3, clicks C 6 R 9", "C5/R3", {"c": 6, "r": 9}),
        ("Valving: C5/R3 LSC 6 LSR 8", "C5/R3", {"lsc": 6, "lsr": 8}),
        ("Valve code,C15-R21,Clicks,C6 R9", "C15-R21", {"c": 6, "r": 9}),
        ("Pack: gravel C6 R8", "gravel", {"c": 6, "r": 8}),
        ("Pack: gravel 2, LSC 6 LSR 8", "gravel 2", {"lsc": 6, "lsr": 8}),
        ("Valving: C5 R3 clicks", None, {"c": 5, "r": 3}),
    ],
)
def test_clicks_behind_a_pack_are_clicks(line, pack, clicks):
    sweep = sweep_under(line)
    assert (sweep.pack, dict(sweep.clicks), sweep.warnings) == (pack, clicks, ())


@pytest.mark.parametrize(
    "line",
    ["Notes: was C8 R6 before, now stiffer", "Notes: previously C8 R6", "war C8 R6 vorher", "used to be C8 R6"],
)
def test_clicks_that_were_are_not_this_runs(line):
    alone = sweep_under(line)
    assert not alone.clicks
    assert any("is not said to be this run's setting" in w for w in alone.warnings)
    assert dict(sweep_under(f"{line}\nClicks: C 6 R 4").clicks) == {"c": 6, "r": 4}


def test_what_stands_before_those_that_were_is_this_runs():
    assert dict(sweep_under("Clicks: C6 R4 (was C8 R6 before)").clicks) == {"c": 6, "r": 4}
