"""`dynoan carry`: what keeps the ratios, what is lost, in one table."""

from __future__ import annotations

import pytest

from dynoan.cautions import SHORT
from tests.cli import corner_library
from tests.cli.corner_library import SOFT, change, put

garage, run = corner_library.garage, corner_library.run
pytestmark = pytest.mark.usefixtures("garage")


@pytest.fixture
def stiffer(garage):
    put(garage, "cars/stiffer.toml", change('spring = "45 N/mm"', 'spring = "52 N/mm"'))


@pytest.mark.usefixtures("stiffer")
def test_a_stiffer_front_spring(run):
    ran = run("carry", "kestrel", "stiffer", "--json")
    assert ran.code == 0
    front, rear = ran.result["carried"]
    assert (front["where"], rear["where"]) == ("front", "rear")
    assert rear["clicks"] == {"lsc": 4, "hsc": 5, "lsr": 4, "hsr": 5}
    assert sum(front["clicks"].values()) < 18
    fl = front["corners"]["fl"]
    assert fl["force_factor"] == pytest.approx((52 / 45) ** 0.5)
    for d in ("compression", "rebound"):
        for at in ("low", "high"):
            assert fl["untouched"][d][at] == pytest.approx(fl["before"][d][at] * (45 / 52) ** 0.5)
            assert abs(fl["lost_pct"][d][at]) < 4
            assert fl["low"][d][at] < fl["ratio"][d][at] < fl["high"][d][at]


@pytest.mark.usefixtures("stiffer")
def test_people_see_one_table_and_the_cautions_once(run):
    ran = run("carry", "kestrel", "stiffer")
    for word in ("front left", "untouched", "off %", "clicks counted from closed", "takes 7 % more force"):
        assert word in ran.out
    assert ran.out.count(SHORT) == 1


def test_sides_that_need_other_forces_are_told_in_one_breath(run, garage):
    """Two shares of one kind, or more here and less there; never a share "and" the same."""
    for mass, said in (("282 kg", "takes 0 and 4 % more force of"), ("242 kg", "takes 0 and 4 % less force of")):
        put(garage, "cars/other.toml", change('mass = "262 kg"', f'mass = "{mass}"'))
        assert said in " ".join(run("carry", "kestrel", "other").out.split())


def test_the_mark_of_cases_speaks_of_what_the_job_rests_on(run):
    ran = run("carry", "kestrel", "--what", "front.spring=70 N/mm")
    assert "* differs from the first by more than damping curves leave open." in ran.out


def test_same_car_keeps_everything(run):
    for carried in run("carry", "kestrel", "kestrel", "--json").result["carried"]:
        assert carried["clicks"] == {"lsc": 4, "hsc": 5, "lsr": 4, "hsr": 5}
        assert carried["miss"] < 1e-9


def test_a_shock_that_counts_the_other_way(run, garage):
    put(garage, "shocks/NEW-5.toml", SOFT)
    text = change('shock = "FL-01"', 'shock = "NEW-5"')
    put(
        garage,
        "cars/new.toml",
        change('[fr]\nmass = "262 kg"\nshock = "FR-02"', '[fr]\nmass = "262 kg"\nshock = "NEW-5"', text),
    )
    front = run("carry", "kestrel", "new", "--json").result["carried"][0]
    assert front["clicks"] == {"lsc": 6, "hsc": 5, "lsr": 6, "hsr": 5}


def test_what_cannot_be_kept_is_exit_1(run, garage):
    put(garage, "cars/heavy.toml", change('spring = "45 N/mm"', 'spring = "260 N/mm"'))
    ran = run("carry", "kestrel", "heavy")
    assert ran.code == 1
    assert "stands at the stiff end" in ran.out
    assert "not every ratio is kept" in ran.out


@pytest.mark.usefixtures("stiffer")
def test_corners_apart_and_another_pack(run):
    rows = run("carry", "kestrel", "stiffer", "--per-corner", "--packs", "mixed", "--json").result["carried"]
    assert [row["where"] for row in rows] == ["fl", "fr", "rl", "rr"]
    assert {row["pack"] for row in rows} == {"mixed"}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["kestrel", "nobody"], "nobody"),
        (["kestrel"], "name the car after the change"),
        (["kestrel", "kestrel", "--packs", "x"], "holds no pack 'x'"),
        (["kestrel", "kestrel", "--low", "1000"], "must lie below"),
    ],
)
def test_a_wrong_call_is_one_line(run, words, told):
    ran = run("carry", *words)
    assert ran.code == 2
    assert told in ran.err
    assert len(ran.err.splitlines()) == 1


def test_a_car_without_pack_is_told(run, garage):
    put(garage, "cars/bare.toml", change('pack = "gravel"\n', ""))
    ran = run("carry", "bare", "kestrel")
    assert ran.code == 2
    assert "pack" in ran.err
