"""``dynoan report``: what it is about, what it writes, and what it says when it cannot."""

import re

import pytest

from dynoan.library import Library
from dynoan.show.clock import now_text
from tests.arrows import ROOT
from tests.cli.pages import small_library
from tests.library.calling import dynoan
from tests.show.pages.test_report import read

pytestmark = pytest.mark.slow
LOG = ROOT / "fixtures" / "demo" / "travel" / "kestrel_loose_run3.csv"


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    return small_library(tmp_path_factory.getbasetemp())


def report(library, *words):
    out = library / "report.html"
    done = dynoan("report", *words, "--out", out, "--library", library, "--json")
    assert done.code == 0, done.err
    return done, read(out.read_text(encoding="utf-8"))


def test_the_whole_library_has_every_part(library):
    done, page = report(library, "--no-launch")
    result = done.result
    assert result["packs"] == ["gravel", "mixed"]
    assert set(result["cars"]) == {"kestrel", "kestrel-winter"}
    assert result["bytes"] == (library / "report.html").stat().st_size < 5_000_000
    assert {"glance", "pairs", "packs", "runs", "how", "cautions"} <= set(page.ids)
    assert len(page.tables[f"{result['runs']} runs, clicks as each shock's file counts them"]) == result["runs"] + 1


def test_its_ratios_are_those_of_the_ratio_command(library):
    _, page = report(library, "kestrel", "--no-launch")
    corners = dynoan("ratio", "kestrel", "--library", library, "--json").result["corners"]
    rows = next(r for c, r in page.tables.items() if c.startswith("Damping ratios"))[1:]
    names = {"front left": "fl", "front right": "fr", "rear left": "rl", "rear right": "rr"}
    for row in rows:
        ratio = corners[names[row[0]]]["ratio"][row[1]]
        assert float(row[2].split()[0]) == pytest.approx(ratio["low"], abs=0.0051)
        assert float(row[5].split()[0]) == pytest.approx(ratio["high"], abs=0.0051)


def test_pairs_are_shocks_in_one_pack_and_setting(library):
    done, _ = report(library, "gravel")
    pairs = done.result["pairs"]
    assert {frozenset(p["shocks"]) for p in pairs} >= {frozenset(("RL-03", "RR-04")), frozenset(("FL-01", "FR-02"))}
    rear = next(p for p in pairs if set(p["shocks"]) == {"RL-03", "RR-04"})
    what = [f"shock={s},pack=gravel," + ",".join(f"{a}={c}" for a, c in rear["clicks"].items()) for s in rear["shocks"]]
    assert rear["verdict"] == dynoan("match", *what, "--library", library, "--json").result["verdict"]
    assert done.result["cars"] == []


def test_a_shock_has_its_own_section(library):
    done, page = report(library, "shock=RR-04")
    assert done.result["shocks"] == ["RR-04"]
    rows = page.tables["Tested settings of shock RR-04"][1:]
    assert rows
    assert {row[1] for row in rows} == {"gravel"}


@pytest.mark.parametrize(
    ("words", "said"),
    [(("nothing-like-it",), "car kestrel"), (("--out", "/nowhere/at/all.html", "mixed"), "cannot be written")],
)
def test_what_cannot_be_done_is_one_line_that_helps(library, words, said):
    done = dynoan("report", *words, "--library", library)
    assert done.code == 2
    assert said in done.err
    assert "\n" not in done.err


def test_an_empty_library_says_what_to_do(tmp_path):
    Library.create(tmp_path / "empty")
    done = dynoan("report", "--library", tmp_path / "empty")
    assert done.code == 2
    assert "dynoan add" in done.err


def test_a_name_of_two_kinds_must_be_told_apart(library):
    (library / "cars" / "gravel.toml").write_text((library / "cars" / "kestrel.toml").read_text("utf-8"), "utf-8")
    try:
        done = dynoan("report", "gravel", "--library", library)
        assert (done.code, "write car=gravel" in done.err) == (2, True)
        assert report(library, "car=gravel", "--no-launch")[0].result["cars"] == ["gravel"]
    finally:
        (library / "cars" / "gravel.toml").unlink()


def test_the_clock_is_in_words():
    import datetime

    assert now_text(datetime.datetime(2026, 3, 4, 5, 6)) == "4 March 2026, 05:06"
    assert re.fullmatch(r"\d+ \w+ \d{4}, \d\d:\d\d", now_text())


def test_what_was_logged_on_the_car_has_its_own_part(library):
    done, page = report(library, "kestrel", "--no-launch", "--travel", LOG)
    shown = dynoan("travel", LOG, "--car", "kestrel", "--library", library, "--json").result
    assert done.result["travel"][0]["corners"] == shown["corners"]
    assert "travel-1" in page.ids
    first, *rows = page.tables["Speeds at the shock"]
    assert len(rows) == 2 * sum(len(c["parts"]) for c in shown["corners"].values())
    assert all(row[0] and row[1] for row in rows), "a row on paper names its shock and its part"
    peak = next(i for i, head in enumerate(first) if head.startswith("Peak"))
    top = shown["corners"]["fl"]["parts"]["all"]["compression"]["peak_m_s"]
    assert rows[0][peak] == f"{1000 * top:.0f}"


def test_travel_of_no_one_car_is_asked_about(library):
    done = dynoan("report", "--travel", LOG, "--library", library, "--out", library / "no.html")
    assert done.code == 2
    assert "name the car the report is about (the library has kestrel, kestrel-winter)" in done.err
    assert not (library / "no.html").exists()


def test_a_log_that_needs_more_told_is_refused_in_words_that_a_report_can_follow(library):
    dyno = ROOT / "fixtures" / "demo" / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
    done = dynoan("report", "kestrel", "--travel", dyno, "--library", library, "--out", library / "no.html")
    assert done.code == 2
    assert "no column names a corner" in done.err
    assert "such as 'Time [s]' and 'Shock FL [mm]'; name them so" in done.err
    assert "--corner" not in done.err
