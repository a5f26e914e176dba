"""``dynoan report``: what it is about, what it writes, and what it says when it cannot."""

import re

import numpy as np
import pytest

from dynoan.library import Library
from dynoan.model.car import CORNERS
from dynoan.reading import read_log
from dynoan.show.clock import now_text
from tests.arrows import ROOT
from tests.cli.pages import small_library
from tests.frames import framed
from tests.library.calling import dynoan
from tests.show.pages.test_report import read

pytestmark = pytest.mark.slow
LOG = ROOT / "fixtures" / "demo" / "travel" / "kestrel_loose_run3.csv"


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    return small_library(tmp_path_factory.getbasetemp())


@pytest.fixture(autouse=True)
def _frames(request, monkeypatch):
    """One report is drawn; `tests/show/pages` holds what its pictures show."""
    if request.function is not test_the_whole_library_has_every_part:
        framed(monkeypatch)


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


@pytest.mark.thorough
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
    [(("nothing-like-it",), "car kestrel"), (("--out", "/nowhere/at/all.html", "shock=RR-04"), "there is no folder")],
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
    assert "Nothing logged on the car" not in (library / "report.html").read_text(encoding="utf-8")
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


@pytest.mark.thorough
def test_what_a_log_does_not_say_is_told_as_for_travel(library, tmp_path):
    log, same = tmp_path / "volts.csv", tmp_path / "plain.csv"
    found = read_log(LOG)
    time, *travel = (c.values[:800] for c in (found.named("Time"), *(found.named(f"Shock {c}") for c in CORNERS)))
    pots, named = (f"POT_{n} [V]" for n in range(1, 5)), (f"{c} [mm]" for c in CORNERS)
    for path, names, columns in ((log, pots, [1 + t / 25 for t in travel]), (same, named, travel)):
        np.savetxt(
            path, np.column_stack([time, *columns]), "%.5f", ",", header=",".join(["Time [s]", *names]), comments=""
        )
    to = ["--library", library, "--out", tmp_path / "told.html", "--force", "--no-launch"]
    columns = [f"--corner={corner}=POT_{n}" for n, corner in enumerate(CORNERS, start=1)]
    asked = dynoan("report", "kestrel", "--travel", log, *to)
    assert (asked.code, "say which, such as --corner fl=COLUMN" in asked.err) == (2, True)
    asked = dynoan("report", "kestrel", "--travel", log, *columns, *to)
    assert (asked.code, 'such as --scale "25 mm per V"' in asked.err) == (2, True)
    told, _ = report(library, "kestrel", "--no-launch", "--travel", log, *columns, "--scale", "25 mm per V",
                     "--part", "run=1..3")  # fmt: skip
    plain, _ = report(library, "kestrel", "--no-launch", "--travel", same, "--part", "run=1..3")
    ours, theirs = ([c["parts"]["run"] for c in d.result["travel"][0]["corners"].values()] for d in (told, plain))
    rms = [p["compression"]["rms_m_s"] for p in theirs]
    assert [p["compression"]["rms_m_s"] for p in ours] == pytest.approx(rms, rel=5e-3)


def test_what_is_told_of_logs_is_refused_where_none_is_given(library, tmp_path):
    done = dynoan("report", "kestrel", "--scale", "25 mm per V", "--library", library, "--out", tmp_path / "no.html")
    assert (done.code, "--scale: it tells of logs, and none is given" in done.err) == (2, True)
