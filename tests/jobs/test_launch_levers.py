"""What decides where the driven wheels spin: the foot and the ground before the shocks, each tried alone."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from dynoan.analysis.launch.large.compare import launch_large
from dynoan.jobs.launch import answering as launch
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.levers import Lever, lesser, levers_of
from dynoan.jobs.launch.measure_first import unsure_of
from dynoan.jobs.launch.not_in_file import ground_notes
from dynoan.jobs.report.parts import CarPart
from dynoan.show.pages.launch_table import launch_figures
from dynoan.show.pages.report.car import _launch
from dynoan.show.text import launch_levers
from dynoan.show.text.blocks import Look
from dynoan.show.text.restated import restated
from dynoan.window.launching import drawn
from dynoan.workbench import Workbench
from tests.cli.launch_library import CAR, make

STATED = CAR.replace("grip = 0.65", "grip = 0.65\nsliding_grip = 0.55\nslip_stiffness = 15")
TORQUE = "1300 N m"


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        path = make(tmp_path_factory.mktemp("levers") / "library", patch)
        (path / "cars" / "stated.toml").write_text(STATED)
        yield Workbench.find(path)


def asked(bench, car="kestrel", **drive):
    case = launch.launch_case(bench, bench.library.car(car), "it")
    run = LaunchQuestion.asked(car, time=2.5, rise=0.15, **({"torque": TORQUE} | drive)).run
    return case, run, case.car.surfaces["loose"]


def test_each_lever_is_what_such_a_launch_does(bench):
    """A tenth less grip when sliding, and the foot that is told, asked for by their own doors."""
    case, run, surface = asked(bench, "stated")
    found = levers_of(bench, case, run, surface)
    less = next(one for one in found if "0.50" in one.words)
    foot = next(one for one in found if one.kind == "foot")
    share = float(foot.words.split("foot at ")[1].split(" %")[0]) / 100
    lighter = LaunchQuestion.asked("stated", time=2.5, rise=0.15, torque=share * 1300).run
    figures = [
        launch_large(case.large, of.scene(case, ground), case.damping).metrics["distance_m"]
        for of, ground in ((run, surface), (run, replace(surface, sliding_grip=0.9 * 0.55)), (lighter, surface))
    ]
    assert less.changes["distance_m"] == pytest.approx(figures[1] - figures[0], abs=0.01)
    assert foot.changes["distance_m"] == pytest.approx(figures[2] - figures[0], abs=0.01)
    assert foot.changes["distance_m"] > 0 > less.changes["distance_m"]
    assert foot.torque == pytest.approx(share * 1300, rel=0.01)
    assert foot.to_dict()["what"].endswith(f"at most {foot.torque:.0f} N m at the wheels")
    assert {one.axle for one in found if one.kind == "shocks"} == {"front", "rear"}


def test_where_no_wheel_spins_nothing_is_told(bench):
    assert levers_of(bench, *asked(bench, torque="800 N m")) == ()
    assert levers_of(bench, *asked(bench, torque=None)) == ()  # a force is given, and no wheel slips


def test_a_driver_who_lifts_is_not_told_to_lift(bench):
    case, run, surface = asked(bench, slip=0.5)
    assert {one.kind for one in levers_of(bench, case, run, surface)} == {"ground", "shocks"}


def test_a_foot_has_the_torque_in_the_units_of_who_reads_it():
    foot = Lever("loose", "foot", "foot at 70 %", {"distance_m": 1.2, "wheelspin_s": -0.1}, torque=1000.0)
    (table, _), (us, _) = (launch_levers.blocks([foot], look) for look in (Look(), Look(units="us")))
    assert (table.rows[0][0], us.rows[0][0]) == (
        "foot at 70 %, at most 1000 N m at the wheels", "foot at 70 %, at most 738 lb ft at the wheels",
    )  # fmt: skip


def test_the_sentence_says_which_count():
    ground = Lever("loose", "ground", "grip", {"distance_m": -1.2, "wheelspin_s": 0.1})
    little, much = (
        Lever("loose", "shocks", "clicks", {"distance_m": d, "wheelspin_s": 0.0}, axle="rear") for d in (0.1, 0.9)
    )
    assert lesser([ground, little])
    assert not lesser([ground, much])
    assert "hardly decide how far the car gets: the grip when sliding 1.20 m" in launch_levers.sentence(
        "loose", [ground, little], "metric"
    )
    gone = replace(much, changes={"distance_m": float("nan"), "wheelspin_s": float("nan")})
    assert lesser([ground, little, gone])
    assert "–" in launch_levers.blocks([ground, gone], Look())[0].rows[1]
    assert "the shocks count" in launch_levers.blocks([ground, much], Look())[1].text


def test_wheels_that_no_engine_turns_are_said(bench):
    for torque, said in (("2200 N m", True), ("800 N m", False)):
        found = launch.answer(bench, LaunchQuestion.asked("stated", surface="loose", torque=torque, time=1.0))
        assert any("no gear does that" in text for text in found.warnings) == said
        told = " ".join(restated(text, "us") for text in found.warnings)
        assert bool(re.search(r"spin up to \d{3} mph on loose", told)) == said  # as fast as a car, not as a shock


def test_what_a_tyre_needs_to_come_in_is_said_to_be_left_out_where_a_driver_holds_a_slip(bench):
    for slip, said in ((0.15, True), (None, False)):
        case, run, surface = asked(bench, slip=slip)
        assert any("until its force has come in" in note for note in ground_notes(case, run, surface)) == said


LOADED = "surfaces.loose.load_sensitivity"


def closed(case, surface):
    """The case on a car whose file states the surface so."""
    return replace(case, car=replace(case.car, surfaces=case.car.surfaces | {surface.name: surface}))


def test_that_is_said_too_where_the_torque_is_about_what_the_tyres_hold(bench):
    for torque, said in ((700.0, False), (1000.0, True), (1800.0, False)):
        case, run, surface = asked(bench, torque=torque)
        told = [note for note in ground_notes(case, run, surface) if "rolls until its force" in note]
        assert bool(told) == said, torque
        assert all("about what the tyres hold" in note for note in told)


@pytest.mark.thorough
def test_ground_that_nobody_described_is_unsure_where_wheels_slip(bench):
    """A file that states how the ground holds a spinning wheel closes the band; with a force nothing of it counts."""
    case, run, surface = asked(bench)
    keys = {one.key for one in unsure_of(case, run, surface, []).beside}
    assert {key for key in keys if key.startswith("surfaces")} == {
        "surfaces.loose.sliding_grip", "surfaces.loose.slip_stiffness", LOADED
    }  # fmt: skip
    for car, drive in (("stated", {}), ("kestrel", {"torque": None})):
        case, run, surface = asked(bench, car, **drive)
        keys = [one.key for one in unsure_of(case, run, surface, []).beside if one.key.startswith("surfaces")]
        assert keys == [LOADED]  # the tyre's own; a force that grip limits asks for it too
    unloaded = replace(surface, load_sensitivity=0.08)
    assert LOADED not in [one.key for one in unsure_of(closed(case, unloaded), run, unloaded, []).beside]
    found = launch.answer(bench, LaunchQuestion.asked("kestrel", surface="loose", torque=TORQUE, time=0.5, rise=0.15))
    assert any("states no sliding_grip" in note for note in found.assumptions)
    assert {"wheelspin_s", "distance_m"} <= {one.figure for one in found.measure_first}
    assert found.to_dict()["decides"][0]["kind"] == "ground"


def test_pages_and_window_say_it_too(bench):
    question = LaunchQuestion.asked("stated", surface="loose", torque=TORQUE, time=0.5, rise=0.15)
    found = launch.answer(bench, question)
    said = launch_levers.blocks(found.levers, Look())[1].text
    assert said.startswith("On loose the driven wheels spin")
    assert launch_figures(found, "metric").decides == (said,)
    told, table, *_ = _launch(CarPart(ratio=None, launch=found), "metric")
    assert told.texts == (said,)
    assert said not in table.note
    assert drawn(found, {}, "metric")["decides"] == [said]
