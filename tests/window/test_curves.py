"""Curves as somebody turns, and pairs: the same numbers as the command line's."""

import json
import random
import re
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from dynoan.window.working import Work
from tests.window.conftest import DEMO

LAST = 20


def settings(count, seed):
    rng = random.Random(seed)
    for _ in range(count):
        clicks = {name: rng.randint(0, LAST) for name in ("lsc", "hsc", "lsr", "hsr")}
        yield rng.choice(["gravel", "mixed", "tarmac"]), ",".join(f"{k}={v}" for k, v in clicks.items())


def held_against(looked_at, pack, clicks):
    turned = looked_at.get("/curves/data", params={"s": f"{pack}@{clicks}"}).json()["curves"][0]
    told = looked_at.get("/api/predict", params={"pack": pack, "clicks": clicks}).json()["result"]["curves"][0]
    assert turned["table"] == told["table"]
    assert turned["standing"] == told["standing"]
    assert turned["clicks"] == told["clicks"]


@pytest.mark.parametrize(("pack", "clicks"), list(settings(4, seed=1)))
def test_a_turned_curve_is_the_command_lines(looked_at, pack, clicks):
    held_against(looked_at, pack, clicks)


@pytest.mark.thorough
def test_fifty_turned_curves_are_the_command_lines(looked_at):
    for pack, clicks in settings(50, seed=2):
        held_against(looked_at, pack, clicks)


def test_lines_side_by_side_hold_what_the_table_holds(looked_at):
    import numpy as np

    found = looked_at.get("/curves/data", params={"s": ["gravel@lsc=4", "tarmac@lsc=9", "mixed"]}).json()
    assert {row["direction"] for row in found["table"]} == {"compression", "rebound"}
    for row in found["table"]:
        for one, force, low, high, pct, newtons in zip(
            found["curves"], row["force_n"], row["low_n"], row["high_n"], row["difference_pct"], row["difference_n"],
            strict=True,
        ):  # fmt: skip
            line = one["lines"][row["direction"]]
            if row["velocity_m_s"] > line["velocity_m_s"][-1]:  # another's top speed, a hair beyond this one's
                assert row["velocity_m_s"] <= 1.001 * line["velocity_m_s"][-1] + 5e-5
                continue
            assert force == pytest.approx(np.interp(row["velocity_m_s"], line["velocity_m_s"], line["force_n"]))
            assert low <= force <= high
            assert newtons == pytest.approx(force - row["force_n"][0])
            assert pct == pytest.approx(100 * newtons / row["force_n"][0])


def test_differences_are_those_of_compare(looked_at):
    names = ["gravel@lsc=4,hsc=8,lsr=3,hsr=7", "tarmac@lsc=9,hsc=8,lsr=3,hsr=7"]
    mine = looked_at.get("/curves/data", params={"s": names}).json()["table"]
    told = looked_at.get("/api/compare", params={"what": names}).json()["result"]["table"]
    assert [(r["direction"], r["velocity_m_s"], r["force_n"], r["difference_pct"]) for r in mine] == [
        (r["direction"], r["velocity_m_s"], r["force_n"], r["difference_pct"]) for r in told
    ]


def test_what_a_click_takes_off_has_a_minus(looked_at):
    """The page said +8.7 % of a click that takes force off."""
    page = looked_at.get("/curves?s=gravel@lsc=10").text
    rows = page[page.index('id="worth"') :].partition("</table>")[0]
    worth = looked_at.get("/curves/data", params={"s": "gravel@lsc=10"}).json()["curves"][0]["worth"][0]
    assert worth["force_n_per_click"][0] > 0, "softer by it"
    assert f"−{worth['force_pct_per_click'][0]:.1f} %" in rows
    assert f"+{worth['force_pct_per_click'][0]:.1f} %" not in rows


def test_the_page_works_without_scripts(looked_at):
    page = looked_at.get("/curves?s=gravel&c0.lsc=6&c0.hsc=8").text
    assert 'value="6"' in page
    assert "Between: its clicks lie between tested ones" in page
    assert "95 % limits" in page


@pytest.mark.parametrize(
    "evil", ["nopack", "gravel@lsc=99", "gravel@xyz=1", "../etc/passwd", "a" * 5000, "gravel@lsc=", ""]
)
def test_what_is_no_setting_is_told(looked_at, evil):
    answer = looked_at.get("/curves/data", params={"s": evil})
    assert answer.status_code in (202, 400)
    assert looked_at.get("/curves", params={"s": evil}).status_code == 200


def test_two_shocks_are_told_to_be_no_pair_with_what_to_turn(looked_at):
    names = {"a": "shock=RL-03,pack=gravel", "b": "shock=RR-04,pack=gravel"}
    page = looked_at.get("/curves", params={"s": "gravel", **names}).text
    assert "No pair" in page
    assert "turn RL-03" in page.lower() or "Turn RL-03" in page
    told = looked_at.get("/api/match", params={"what": list(names.values())}).json()["result"]
    assert told["verdict"] == "not matched"
    band = told["bands"][-1]
    assert f"{band['difference_pct']:+.0f} %" in page, "no finer than its band"


@pytest.fixture
def dropped(window):
    """Three runs of a shock, on the table of files."""
    for path in sorted((DEMO / "dyno").glob("FL-01_*hsc10_lsr10_hsr10*"))[:3]:
        window.put(path.name, path.read_bytes())


@pytest.fixture
def kept(window, dropped):
    """The pack of the first of these runs, kept while maps wait for something slow, and what ends the waiting."""
    release = threading.Event()
    window.desk.works.begin("slow", "Something slow", lambda _: release.wait(300), lane="maps")
    window.post("/files/keep")
    yield window.desk.packs()[0], release
    release.set()


def test_a_pack_that_nobody_has_kept_is_not_awaited(window, dropped):
    assert window.get("/state?pack=gravel&pack=nobody").json()["lacking"] == []


def test_a_page_waits_for_its_own_packs_alone(window, kept):
    """Curves of one pack stood behind the fits of all others."""
    pack, _ = kept
    assert window.get(f"/state?pack={pack}").json()["lacking"] == [pack]
    assert f'data-packs="[&#34;{pack}&#34;]"' in window.get(f"/curves?s={pack}").text
    window.desk.own_bench(Work(0, "", "", print)).click_map(pack)
    assert window.get(f"/state?pack={pack}").json()["lacking"] == []


def test_what_is_awaited_is_answered_once_it_is_there(window, kept, monkeypatch):
    """A page that asked every fifth of a second showed its curves as much later, and took work from what fits them."""
    pack, _ = kept
    monkeypatch.setattr("dynoan.window.pages.HELD", 0.2)
    assert window.get(f"/state?pack={pack}&until=unfitted").json()["unfitted"] == [pack], "nobody is kept waiting long"
    monkeypatch.setattr("dynoan.window.pages.HELD", 300.0)
    asked, looks = threading.Event(), window.desk.packs_not_fitted

    def look(packs):
        asked.set()
        return looks(packs)

    monkeypatch.setattr(window.desk, "packs_not_fitted", look)
    with ThreadPoolExecutor(1) as other:
        told = other.submit(window.get, f"/state?pack={pack}&until=unfitted")
        assert asked.wait(300)
        window.desk.own_bench(Work(0, "", "", print)).fit_curves(pack)
        assert not told.done()
        window.desk.works.steps.made()
        assert told.result(300).json()["unfitted"] == []
        assert told.result().json()["lacking"] == [pack]


def test_tested_curves_are_shown_before_the_clicks_can_be_turned(window, kept):
    """Twenty-two runs take seconds to fit, and the maps as long again: nobody waits for the second to see the first."""
    pack, release = kept
    assert window.get(f"/state?pack={pack}").json()["unfitted"] == [pack]
    assert "Not ready yet" in window.get(f"/curves?s={pack}").text
    bench = window.desk.own_bench(Work(0, "", "", print))
    bench.fit_curves(pack)
    assert window.get(f"/state?pack={pack}").json() | {"works": 0, "stamp": 0} == {
        "lacking": [pack], "unfitted": [], "works": 0, "stamp": 0, "table": "",
    }  # fmt: skip
    page = window.get(f"/curves?s={pack}").text
    assert "These are the curves of tested runs" in page
    told = window.get("/api/curve", params={"what": f"shock=FL-01,pack={pack}"}).json()["result"]["curves"]
    shown = json.loads(re.search(r'id="data">(.*?)</script>', page, re.DOTALL)[1])["found"]["curves"][0]
    assert shown["table"] in [one["table"] for one in told], "the numbers of the command line"
    release.set()
    window.wait()
    assert "These are the curves of tested runs" not in window.get(f"/curves?s={pack}").text


def test_what_was_stopped_is_not_begun_anew_by_the_page_that_needs_it(window, monkeypatch):
    run = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
    begun, held = [], threading.Event()

    def fit(work, packs):
        begun.append(packs)
        held.wait(300)

    monkeypatch.setattr(window.desk, "_fit", fit)
    window.put(run.name, run.read_bytes())
    window.post("/files/keep")
    window.get("/curves")
    (work,) = window.desk.works.under_way()
    assert "Stopped; what was finished until then is kept" in window.post(f"/work/{work.number}/stop?then=/files").text
    held.set()
    window.wait()
    page = window.get("/curves").text
    assert "you stopped it" in page
    assert "data-reload" not in page
    assert len(begun) == 1
    assert "Not ready yet" in window.post("/work/again", {"then": "/curves"}).text
    window.wait()
    assert len(begun) == 2
