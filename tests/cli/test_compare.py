"""`dynoan compare`: forces, differences, crossings, coverage, and stand-in settings."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.matching.compare import crossings
from dynoan.model.curve import Curve
from dynoan.model.side import Side
from dynoan.show.text.compare import _marks
from tests.cli import pack_library

packs, run = pack_library.packs, pack_library.run
BOTH = ("gravel@lsc=10,hsc=10,lsr=10,hsr=10", "mixed@lsc=10,hsc=10,lsr=10,hsr=10")


def test_difference_is_of_the_first(run):
    ran = run("--json", "compare", "shock=FL-01,pack=gravel,lsc=10,hsc=10", "shock=FL-01,pack=mixed,lsc=10,hsc=10",
              "--at", "0.1 m/s,0.25 m/s")  # fmt: skip
    assert ran.code == 0
    for row in ran.result["table"]:
        first, second = row["force_n"]
        assert row["difference_pct"][1] == pytest.approx(100 * (second / first - 1))
        assert 15 < row["difference_pct"][1] < 50
    assert {(c["pack"], c["adjuster"]) for c in ran.result["coverage"]} >= {("gravel", "lsc"), ("mixed", "hsc")}


def test_people_and_csv_and_picture(run, packs):
    ran = run(
        "compare", "shock=FL-01,pack=gravel,lsc=10,hsc=10", "shock=FL-01,pack=mixed,lsc=10,hsc=10", "--plot", "c.png"
    )
    assert ran.code == 0
    assert "B against A" in ran.out
    assert (packs / "c.png").stat().st_size > 20_000
    text = run("compare", "shock=FL-01,pack=gravel,lsc=10,hsc=10", "shock=FL-01,pack=mixed,lsc=10,hsc=10", "--csv").out
    assert text.startswith("direction,velocity_m_s,")


def test_each_force_has_the_wider_half_of_its_band_beside_it(run):
    at = ("--at", "0.1 m/s")
    two = ("shock=FL-01,pack=gravel,lsc=10,hsc=10", "shock=FL-01,pack=mixed,lsc=10,hsc=10")
    row = next(line for line in run("compare", *two, *at).out.splitlines() if line.split()[:1] == ["100"])
    cells = [float(cell) for cell in row.replace("±", " ").replace("%", " ").split()]
    curves = run("--json", "compare", *two, *at).result["curves"]
    told = [next(p for p in curve["table"] if p["velocity_m_s"] == 0.1) for curve in curves]
    for one, force, half in zip(told, cells[1:5:2], cells[2:5:2], strict=True):
        assert force == pytest.approx(one["force_n"], abs=0.5)
        assert half == pytest.approx(max(one["high_n"] - one["force_n"], one["force_n"] - one["low_n"]), abs=0.06)
    assert run("compare", *BOTH, *at).out.count("±") == 0  # four curves: a table so wide is hard to look over
    assert run("compare", *BOTH, *at, "-v").out.count("±") == 8


def test_over_time_dates_tell_the_two_apart(run):
    ran = run("--json", "compare", "shock=RR-04,date=2025", "shock=RR-04,date=2026")
    assert [c["what"][-12:] for c in ran.result["curves"]] == ["(2025-09-01)", "(2026-03-14)"]
    assert all(row["difference_pct"][1] < -10 for row in ran.result["table"] if row["velocity_m_s"] > 0.1)


def test_the_same_pack_stands_in_for_itself_and_another_less_well(run):
    ran = run("--json", "compare", "--equal-to", "gravel@lsc=6,hsc=6,lsr=6,hsr=14", "gravel", "mixed")
    assert ran.code == 0
    best = ran.result["equivalents"][0]
    assert best["pack"] == "gravel"
    assert best["clicks"] == {"lsc": 6, "hsc": 6, "lsr": 6, "hsr": 14}
    mixed = [e for e in ran.result["equivalents"] if e["pack"] == "mixed"]
    assert best["worst_difference_pct"] < mixed[0]["worst_difference_pct"]


def test_no_stand_in_is_a_no(run):
    ran = run("compare", "--equal-to", "mixed@lsc=0,hsc=0,lsr=0,hsr=20", "gravel")
    assert ran.code == 1
    assert "no setting stands in for it" in ran.out


def _straight(slope: float, from_zero: float, half: float = 0.0) -> Curve:
    speeds = np.linspace(0, 0.5, 51)
    force = np.where(speeds > 0, from_zero * (1 - np.exp(-speeds / 0.01)) + slope * speeds, 0.0)
    side = Side((), (), speeds, force - half, force + half, 0.5, forces=force)
    return Curve(side, side)


def test_crossings_are_where_the_curves_meet():
    """100 + 1000 v meets 50 + 1250 v at 0.2 m/s."""
    found = crossings([_straight(1000, 100), _straight(1250, 50)])
    assert [c.direction for c in found] == ["compression", "rebound"]
    assert found[0].speed == pytest.approx(0.2, abs=0.002)
    assert (found[0].first, found[0].second) == (0, 1)
    assert crossings([_straight(1000, 100), _straight(1001, 100.1)]) == ()


def test_a_crossing_within_the_bands_is_not_clear():
    """The curves are 75 N apart at 0.5 m/s, less at 10 mm/s: bands of 20 N each leave 28 N in doubt, of 50 N 71 N."""
    assert all(c.clear for c in crossings([_straight(1000, 100, 20), _straight(1250, 50, 20)]))
    assert not any(c.clear for c in crossings([_straight(1000, 100, 50), _straight(1250, 50, 50)]))


def test_curves_of_packs_called_by_letters_are_numbered():
    assert _marks(("RL A lsc=6", "RL mixed lsc=6")) == ["#1", "#2"]
    assert _marks(("RL gravel lsc=6", "RL mixed lsc=6")) == ["A", "B"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("compare",), "two or more"),
        (("compare", "gravel"), "two or more"),
        (("compare", "pack=gravel", "nosuch"), "nosuch"),
    ],
)
def test_wrong_calls(run, words, said):
    if words == ("compare", "gravel"):
        words = ("compare", "shock=FR-02,pack=gravel")
    ran = run(*words)
    assert ran.code == 2
    assert said in ran.err
