"""`dynoan choose`: the promised keys, the rules, advice in words, and one line for what is wrong."""

from __future__ import annotations

import pytest

from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.cautions import SHORT
from dynoan.model.car import Corner
from tests.cli import corner_library
from tests.cli.corner_library import CAR, SOFT, change, put
from tests.made import made_curve

garage, run = corner_library.garage, corner_library.run
pytestmark = pytest.mark.usefixtures("garage")
EASY = ("--compression-low", "0.4", "--compression-high", "0.3", "--rebound-low", "0.65", "--rebound-high", "0.44")
HARD = ("--compression-low", "2.5", "--compression-high", "0.1")


def test_json_holds_the_promised_keys_best_first(run):
    ran = run("choose", "kestrel", "--axle", "front", "--json")
    assert ran.code == 0
    rows = ran.result["choices"]
    assert len(rows) == 10
    for row in rows:
        assert row["where"] == "front"
        assert set(row) >= {"where", "pack", "clicks", "ratio", "miss", "low", "high", "standing"}
        for what in ("ratio", "low", "high"):
            assert set(row[what]) >= {"compression", "rebound"}
            assert set(row[what]["rebound"]) == {"low", "high"}
    assert rows[0]["miss"] < min(r["miss"] for r in rows) + 0.011  # the nearest of those that hardly miss more
    rows = rows[1:]
    assert [(not r["fits"], round(r["miss"], 3)) for r in rows] == sorted(
        (not r["fits"], round(r["miss"], 3)) for r in rows
    )


def test_what_is_chosen_is_what_ratio_then_says(run, garage):
    best = run("choose", "kestrel", "--axle", "front", "--json").result["choices"][0]
    clicks = ",".join(f"{k}={v}" for k, v in best["clicks"].items())
    put(garage, "cars/set.toml", change('pack = "gravel"\nclicks = "lsc=4,hsc=5,lsr=4,hsr=5"\n[rear]',
                                         f'pack = "{best["pack"]}"\nclicks = "{clicks}"\n[rear]'))  # fmt: skip
    corners = run("ratio", "set", "--json").result["corners"]
    for d in ("compression", "rebound"):
        for at in ("low", "high"):
            mean = (corners["fl"]["ratio"][d][at] + corners["fr"]["ratio"][d][at]) / 2
            assert best["ratio"][d][at] == pytest.approx(mean, rel=1e-9)


def test_people_see_ranking_limits_sensitivity_and_the_cautions_once(run):
    ran = run("choose", "kestrel", *EASY)
    assert ran.code == 0
    for word in (
        "Best for front",
        "Best for rear",
        "clicks counted from closed",
        "one click up",
        "95 % limits",
        "misses by %",
    ):
        assert word in ran.out
    assert ran.out.count(SHORT) == 1


def test_clicks_go_out_as_the_shock_counts(run, garage):
    closed = run("choose", "kestrel", "--corner", "fl", *EASY, "--json").result["choices"][0]
    put(garage, "shocks/FL-01.toml", SOFT)
    put(
        garage,
        "cars/kestrel.toml",
        change('[fl]\nmass = "268 kg"', '[fl]\nclicks = "lsc=6,hsc=5,lsr=6,hsr=5"\nmass = "268 kg"'),
    )
    soft = run("choose", "kestrel", "--corner", "fl", *EASY, "--json").result["choices"][0]
    assert soft["clicks_from_closed"] == closed["clicks"]
    assert soft["clicks"] == {name: 10 - click for name, click in closed["clicks"].items()}
    assert soft["per_click"]["lsc"]["compression"]["low"] == pytest.approx(
        -closed["per_click"]["lsc"]["compression"]["low"]
    )
    assert "clicks counted from soft" in run("choose", "kestrel", "--corner", "fl", *EASY).out


def test_a_shock_with_fewer_clicks_is_never_told_more(run, garage):
    few = "\n".join(f"[adjusters.{name}]\nclicks = 5" for name in ("lsc", "hsc", "lsr", "hsr"))
    put(garage, "shocks/FR-02.toml", few)
    rows = run("choose", "kestrel", "--axle", "front", "--compression-low", "0.1", "--json").result["choices"]
    assert max(click for row in rows for click in row["clicks"].values()) <= 5


def test_a_shock_never_tested_with_the_pack_is_told(run):
    """The made-up maps rest on FL-01 alone."""
    ran = run("choose", "kestrel", "--axle", "front", "--packs", "gravel")
    assert "front: FR-02 was never tested with pack gravel: taken for the mean shock" in ran.out
    assert "never tested" not in run("choose", "kestrel", "--corner", "fl", "--packs", "gravel").out


def test_nothing_fits_is_exit_1_with_advice(run):
    ran = run("choose", "kestrel", "--axle", "front", *HARD)
    assert ran.code == 1
    assert "nothing at hand keeps every ratio within 10 %" in ran.out
    assert "is the most there is" in ran.out
    assert "what would fit: a pack like" in ran.out
    result = run("choose", "kestrel", "--axle", "front", *HARD, "--json").result
    assert not result["fits"]
    assert result["advice"]


def test_a_spring_that_would_fit_does(run, garage):
    """Targets no click reaches, all in the same proportion too high: a softer spring is the answer, and holds."""
    wanted = corner_ratios(Corner("fl", 268, 34, 45e3, 0.95, 0.92), made_curve("mixed", 0, 0, 0, 0)).secants()
    words = [w for (d, at), b in wanted.items() for w in (f"--{d}-{at}", f"{1.25 * b.value:.4f}")]
    ran = run("choose", "kestrel", "--corner", "fl", *words)
    assert ran.code == 1
    line = next(line for line in ran.out.splitlines() if ": what would fit: springs of about" in line)
    rate = float(line.split("about ")[1].split(" N/mm")[0])
    assert 25 < rate < 45
    put(garage, "cars/softer.toml", change('spring = "45 N/mm"', f'spring = "{rate:.1f} N/mm"'))
    assert run("choose", "softer", "--corner", "fl", *words, "--tolerance", "11 %").code == 0


def test_limits_of_the_search_that_stand_in_the_way_are_named(run):
    ran = run("choose", "kestrel", "--corner", "fl", *EASY, "--within", "0")
    assert ran.code == 1
    assert "Without --within there is a fit" in ran.out
    rows = run("choose", "kestrel", "--corner", "fl", *EASY, "--within", "0", "--json").result["choices"]
    assert [row["clicks"] for row in rows] == [{"lsc": 4, "hsc": 5, "lsr": 4, "hsr": 5}]


@pytest.mark.thorough
def test_each_pack_once_gives_the_axles_different_packs(run):
    rows = run("choose", "kestrel", "--once", *EASY, "--json", "--count", "3").result["choices"]
    for rank in (1, 2, 3):
        packs = [row["pack"] for row in rows if row["rank"] == rank]
        assert sorted(packs) == ["gravel", "mixed"]


def test_corners_apart(run):
    rows = run("choose", "kestrel", "--per-corner", "--axle", "front", "--json", "--count", "2").result["choices"]
    assert [row["where"] for row in rows] == ["fl", "fr", "fl", "fr"]
    assert rows[0]["pack"] == rows[1]["pack"]


def test_like_another_car_finds_its_clicks(run, garage):
    put(garage, "cars/model.toml", change("lsc=4,hsc=5,lsr=4,hsr=5", "lsc=7,hsc=2,lsr=6,hsr=3"))
    rows = run("choose", "kestrel", "--like", "model", "--json", "--count", "1").result["choices"]
    assert [row["where"] for row in rows] == ["front", "rear"]
    for row in rows:
        assert row["clicks"] == {"lsc": 7, "hsc": 2, "lsr": 6, "hsr": 3}
        assert row["miss"] < 1e-3


def test_a_curve_of_ratios_as_target(run, garage):
    curve = 'rebound = { curve = [["30 mm/s", 0.7], ["100 mm/s", 0.55], ["300 mm/s", 0.43]] }'
    put(garage, "cars/curve.toml", change("rebound = { low = 0.65, high = 0.45 }", curve))
    best = run("choose", "curve", "--axle", "front", "--json", "--count", "1").result["choices"][0]
    speeds = {w["velocity_m_s"] for w in best["wanted"] if w["direction"] == "rebound"}
    assert sorted(speeds) == pytest.approx([0.03, 0.1, 0.3])


def test_proportions_fill_in_what_is_not_said(run):
    some = ("--axle", "front", "--compression-low", "0.4", "--rebound-compression", "1.6", "--json", "--count", "1")
    wanted = run("choose", "kestrel", *some).result["choices"][0]["wanted"]
    assert {(w["direction"], round(w["wanted"], 6)) for w in wanted} == {("compression", 0.4), ("rebound", 0.64)}
    rows = run("choose", "kestrel", "--front-rear", "0.8", "--json", "--count", "1").result["choices"]
    rear = next(row for row in rows if row["where"] == "rear")
    assert {round(w["wanted"], 6) for w in rear["wanted"] if w["direction"] == "rebound"} == {0.8125, 0.5625}


def test_an_axle_without_targets_is_left_out(run):
    rows = run("choose", "kestrel", "--json").result["choices"]
    assert {row["where"] for row in rows} == {"front"}


def test_plot(run, tmp_path):
    ran = run("choose", "kestrel", *EASY, "--plot", "choose.png")
    assert (tmp_path / "choose.png").stat().st_size > 10_000
    assert "picture: choose.png" in ran.err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["kestrel", "--corner", "fl", "--axle", "front"], "--corner stands alone"),
        (["kestrel", "--packs", "gravle"], "holds no pack 'gravle'; it holds gravel, mixed"),
        (["kestrel", "--compression-low", "45"], "--compression-low: 45 is no damping ratio"),
        (["kestrel", "--tolerance", "150 %"], "--tolerance"),
        (["kestrel", "--tolerance", "3 kg"], "ratio"),
        (["kestrel", "--like", "nothing"], "no setup and no car 'nothing'; it holds kestrel"),
        (["kestrel", "--like", "kestrel", "--rebound-low", "0.5"], "leave out the other targets"),
        (["kestrel", "--rebound-compression", "1.5"], "both directions have targets"),
        (["kestrel", "--once", *EASY, "--packs", "gravel"], "2 axles but 1 packs"),
        (["kestrel", "--packs", "mixed", "--within", "2"], "no pack may be used"),
        (["kestrel", "--within", "-1"], "--within"),
        (["kestrel", "--low", "400"], "must lie below"),
        (["kestrel", "--low", "0.4"], "has no unit"),
    ],
)
def test_a_wrong_call_is_one_line(run, words, told):
    ran = run("choose", *words)
    assert ran.code == 2, ran.out
    assert told in ran.err
    assert len(ran.err.splitlines()) == 1


def test_no_targets_at_all(run, garage):
    put(garage, "cars/bare.toml", CAR[: CAR.index("[targets.front]")])
    ran = run("choose", "bare", "--json")
    assert ran.code == 1
    assert {row["where"] for row in ran.result["choices"]} == {"front", "rear"}
    for axle in ("front", "rear"):
        best = next(row for row in ran.result["choices"] if row["where"] == axle)
        wanted = {(w["direction"], w["velocity_m_s"]): f"{w['wanted']:.2f}" for w in best["wanted"]}
        (said,) = [line for line in ran.result["advice"] if line.startswith(f"{axle}: the car's file has no targets")]
        assert (
            f"a start was proposed: compression {wanted['compression', 0.05]} low and "
            f"{wanted['compression', 0.25]} high, rebound {wanted['rebound', 0.05]} and {wanted['rebound', 0.25]}. "
        ) in said
        assert said.endswith(f"Put them under [targets.{axle}] to keep or change them.")


def test_who_asks_for_fewer_is_told_the_first_of_more(run):
    for words in ((), EASY, HARD):
        more = run("choose", "kestrel", *words, "--json").result["choices"]
        for count in (1, 3):
            fewer = run("choose", "kestrel", *words, "--json", "--count", str(count)).result["choices"]
            assert fewer == [row for row in more if row["rank"] <= count]
