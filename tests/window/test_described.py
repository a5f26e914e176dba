"""A car's numbers that nobody has to type: its file among those dropped, or an example that says it is one."""

import pytest

from dynoan.jobs import trackside
from dynoan.jobs.report.gathering import Gatherer
from dynoan.window.example_car import example_values
from tests.window.conftest import DEMO

CAR, SHOCK = DEMO / "cars" / "kestrel.toml", DEMO / "shocks" / "FL-01.toml"
RUN = min((DEMO / "dyno").iterdir())


def test_files_of_a_car_and_a_shock_are_kept_with_the_others_and_taken_back_with_them(window):
    for path in (CAR, SHOCK):
        window.put(path.name, path.read_bytes())
    page = window.get("/files").text
    assert "This describes the car <bdi>kestrel</bdi>: kept, it is in the library as it stands here." in page
    assert "2 files looked at, 2 can be kept" in page
    assert "Kept: car kestrel, shock FL-01." in window.post("/files/keep").text
    assert window.desk.library.car_text("kestrel") == CAR.read_text(encoding="utf-8")
    assert window.desk.dropped.files() == []
    window.post("/undo")
    assert window.desk.library.cars() == ()


def test_a_car_of_that_name_is_not_written_over(window):
    window.put(CAR.name, CAR.read_bytes())
    window.post("/files/keep")
    window.put(CAR.name, CAR.read_bytes().replace(b"268 kg", b"270 kg"))
    assert "the library has a car kestrel that says something else" in window.post("/files/keep").text
    assert "268 kg" in window.desk.library.car_text("kestrel")


def test_a_car_file_that_is_wrong_says_what(window):
    window.put(CAR.name, CAR.read_bytes().replace(b"268 kg", b"268"))
    page = window.get("/files").text
    assert "This describes the car" in page
    assert "268" in page.split('class="fault">')[1].split("</p>")[0]
    assert "1 file looked at, 0 can be kept" in page


def test_shocks_of_one_text_are_as_many_as_there_are_names(window):
    for name in ("FL-01", "FR-02", "RL-03"):
        window.put(f"{name}.toml", SHOCK.read_bytes())
    window.put("run.csv", RUN.read_bytes())
    window.put("the same run.csv", RUN.read_bytes())
    assert len(window.desk.dropped.files()) == 4
    window.post("/files/keep")
    assert window.desk.library.shocks() == ("FL-01", "FR-02", "RL-03")


@pytest.mark.parametrize(("units", "spring"), [("metric", "45"), ("us", "257")])
def test_example_numbers_are_those_the_form_names(units, spring):
    values = example_values(units, ["tarmac"], ["FL-01"])
    assert values["front.spring"] == spring
    assert (values["rear.pack"], values["fl.shock"]) == ("tarmac", "FL-01")


def test_an_example_car_says_so_until_its_numbers_are_somebodys(demo):
    for name in demo.desk.library.cars():
        (demo.desk.path / "cars" / f"{name}.toml").unlink()
    assert "Begin with an example car" in demo.get("/car").text
    page = demo.post("/car/example").text
    assert "These are example numbers, no real car&#39;s" in page or "These are example numbers, no real car's" in page
    assert "Damping ratios now" in page
    with demo.desk.bench() as bench:
        told = trackside.answer(bench, trackside.TracksideQuestion.asked("example", packs="tarmac", launch=False))
        assert told.example
        assert Gatherer(bench, launch=False).car("example").example
    assert "These are example numbers" not in demo.post("/car/own", {"car": "example"}).text
    demo.post("/undo")
    assert "These are example numbers" in demo.get("/car").text
