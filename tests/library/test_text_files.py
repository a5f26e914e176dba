"""Cars, shocks, layouts and setups: read as they are written, and the same after being written."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from dynoan.errors import QuantityError
from dynoan.library.car_file import car_from_text
from dynoan.library.car_written import car_to_text
from dynoan.library.layout_file import layout_from_text
from dynoan.library.setup_file import car_text_of, setup_from_text, setup_to_text
from dynoan.library.shock_file import shock_from_text
from dynoan.model.car import ROAD_CLASSES, Surface, Target, Targets
from dynoan.model.setup import Setup
from tests.checks import check
from tests.library.made import CAR

FULL = (
    CAR.replace('driven = "rear"', 'driven = "rear"\npitch_inertia = "1150 kg m2"\nwheel_radius = "300 mm"')
    .replace(
        "[rear]",
        '[rear]\ntyre = "210 N/mm"\nbump_travel = "80 mm"\ntrack = "1480 mm"\n'
        'instant_centre = ["1900 mm ahead", "420 mm up"]',
    )
    .replace('mass = "262 kg"', 'mass = "262 kg"\nunsprung = "35 kg"')
    + """
[targets.front]
compression = { low = 0.45, high = 0.25 }
rebound = { curve = [["50 mm/s", 0.7], ["250 mm/s", 0.35]], weight = 2 }
low_velocity = "60 mm/s"
[surfaces.loose]
grip = 0.65
roughness = "C"
[surfaces.ice]
grip = 0.1
roughness = 1e-6
"""
)


def test_a_car_is_read_as_its_file_states():
    car = car_from_text(FULL, "cars/kestrel.toml")
    assert (car.name, car.driven, car.wheelbase, car.cg_height) == ("kestrel", "rear", 2.43, 0.51)
    # 275 lb/in: 0.45359237 kg · 9.80665 m/s² / 0.0254 m, NIST SP 811, appendix B.8
    assert car.corners["fl"].spring == pytest.approx(48159.88, rel=1e-6)
    assert car.corners["rr"].spring == 38_000.0
    assert (car.corners["fr"].unsprung, car.corners["fl"].unsprung) == (35.0, 34.0)
    assert (car.corners["rl"].tyre, car.corners["fl"].tyre) == (210_000.0, None)
    assert car.corners["fl"].clicks == {"lsc": 8, "lsr": 10}
    assert car.instant_centre == pytest.approx((1.9, 0.42))
    assert car.track == {"rear": 1.48}
    assert car.targets["front"] == Targets(
        Target(0.45, 0.25), Target(curve=((0.05, 0.7), (0.25, 0.35)), weight=2.0), low_velocity=0.06)  # fmt: skip
    assert car.surfaces == {"loose": Surface("loose", 0.65, 256e-6), "ice": Surface("ice", 0.1, 1e-6)}


def test_road_classes_are_those_published():
    published = check("r01")  # ISO 8608
    published.holds([ROAD_CLASSES[letter] for letter in published.inputs["class"]])


@pytest.mark.parametrize(
    "text", [CAR, FULL, FULL.replace("1900 mm ahead", "400 mm behind").replace("420 mm up", "30 mm down")]
)
def test_a_written_car_is_the_same_car(text):
    car = car_from_text(text, "cars/kestrel.toml")
    again = car_from_text(car_to_text(car), "cars/kestrel.toml")
    for name, corner in car.corners.items():
        other = again.corners[name]
        assert other.spring == pytest.approx(corner.spring, rel=1e-11)
        assert dataclasses.replace(other, spring=corner.spring) == corner
    assert dataclasses.replace(again, corners=car.corners) == car


@pytest.mark.parametrize(
    "file", sorted((Path(__file__).parents[2] / "fixtures" / "demo" / "cars").glob("*.toml")), ids=str
)
def test_the_demos_cars_are_sound(file):
    assert set(car_from_text(file.read_text(encoding="utf-8"), file.name).corners) == {"fl", "fr", "rl", "rr"}


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('"1900 mm ahead"', '"1900 mm"', "says no way"),
        ('["1900 mm ahead", "420 mm up"]', '["1900 mm ahead"]', "write it like"),
        ("[rear]", '[rear]\nantisquat = "60 %"', "stated twice"),
        ('roughness = "C"', 'roughness = "Z"', "no road class"),
        ("grip = 0.65", "", r"surfaces\.loose\.grip: missing"),
        ("weight = 2", "wieght = 2", "did you mean 'weight'"),
        ('["50 mm/s", 0.7]', "[50, 0.7]", "has no unit"),
        ('["50 mm/s", 0.7]', '["500 mm/s", 0.7]', "speeds do not rise"),
        ("low = 0.45", "low = 45", r"targets\.front\.compression\.low: 45 is outside"),
        ("[targets.front]", "[targets.frnt]", "did you mean 'front'"),
    ],
)
def test_what_is_wrong_in_a_car_is_named_by_its_key(old, new, words):
    assert old in FULL
    with pytest.raises(QuantityError, match=words):
        car_from_text(FULL.replace(old, new), "cars/kestrel.toml")


def test_a_shock_is_read_as_its_file_states():
    text = 'rod = "14 mm"\npiston = "46 mm"\nstroke = "120 mm"\ngas_pressure = "150 psi"\ncounted = "from soft"\n' \
        '[adjusters.lsc]\nclicks = 20\n[adjusters.hsr]\nclicks = 12\ncounted = "from closed"\n'  # fmt: skip
    shock = shock_from_text(text, "shocks/RL-02.toml", "RL-02")
    assert (shock.name, shock.rod_diameter, shock.piston_diameter, shock.stroke) == ("RL-02", 0.014, 0.046, 0.12)
    # 150 lb/in²: 6894.757 Pa each, NIST SP 811, appendix B.8
    assert shock.gas_pressure == pytest.approx(150 * 6894.757, rel=1e-6)
    assert shock.to_closed({"lsc": 5, "hsr": 5}) == {"lsc": 15, "hsr": 5}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[adjusters.lsc]\n", r"adjusters\.lsc\.clicks: missing"),
        ("[adjusters.lsc]\nclicks = 0", r"adjusters\.lsc\.clicks: found 0, wanted a whole number from 1 to 200"),
        ("[adjusters.lsc]\nclicks = 20.5", "wanted a whole number"),
        ('[adjusters.lsc]\nclicks = 20\ncounted = "from open"', 'wanted "from closed" or "from soft"'),
        ("[adjusters.slc]\nclicks = 20", "did you mean 'lsc'"),
        ("[adjusters.c]\nclicks = 9\n[adjusters.hsc]\nclicks = 9", "stands beside hsc, which turns the same"),
        ('rod = "14 in"', "'14 in' is no shock's"),
        ("rod = 14", "has no unit"),
        ("adjusters = 4", "wanted a table"),
    ],
)
def test_what_is_wrong_in_a_shock_is_named_by_its_key(text, words):
    with pytest.raises(QuantityError, match=words) as caught:
        shock_from_text(text, "shocks/x.toml", "x")
    assert str(caught.value).startswith("shocks/x.toml: ")


def test_a_layout_is_read_as_its_file_states():
    text = 'header = ["Pos", "Load"]\npositive = "rebound"\nskip = 3\ndelimiter = ";"\n' \
        'decimal = ","\nrate = "1 kHz"\n' '[columns]\nforce = "Load"\nlsc = "LS"\n[units]\nforce = "lbf"\n'  # fmt: skip
    card = layout_from_text(text, "layouts/rig.toml", "rig")
    assert (card.name, card.header, card.positive, card.skip) == ("rig", ("Pos", "Load"), "rebound", 3)
    assert (card.delimiter, card.decimal, card.rate) == (";", ",", 1000.0)
    assert (card.columns, card.units) == ({"force": "Load", "lsc": "LS"}, {"force": "lbf"})


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "header: missing"), ('header = ["a"]\nheadr = 1', "did you mean 'header'"),
        ('header = ["a"]\n[columns]\nforc = "x"', "did you mean 'force'"), ("header = 3", "wanted a list"),
        ('header = ["a"]\ndelimiter = "x"', "delimiter"), ('header = ["a"]\nrate = "9 kHz"\nskip = -1', "skip"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_layout_is_named_by_its_key(text, words):
    with pytest.raises(QuantityError, match=words):
        layout_from_text(text, "layouts/x.toml", "x")


def made_setup(**facts):
    return Setup(**({"name": "x", "car": car_from_text(FULL, "cars/kestrel.toml"), "date": "2026-05-02"} | facts))


def test_a_written_setup_is_the_same_setup():
    setup = made_setup(surface="loose", temperature=-3.5, result='"P2"', good=False, remarks="a\n[b]\nc = 1",
                       recorded="2026-05-02T10:00:00Z", extra={"tyre pressure": "1.6 bar"})  # fmt: skip
    text = setup_to_text(setup, FULL)
    again = setup_from_text(text, "setups/x.toml", "x")
    assert dataclasses.replace(again, file="", car=setup.car) == setup
    assert dataclasses.replace(again.car, file=setup.car.file) == setup.car
    assert car_text_of(text, "setups/x.toml") == FULL


def test_a_car_comes_back_out_of_a_setup_however_it_was_edited():
    facts = 'setup.date = "2026-05-02"\nsetup.remarks = """\nlonger\n[than one line]\n"""\n'
    for text in (facts + FULL, FULL + '\n[setup]\ndate = "2026-05-02"\n', "# mine\n" + facts + "\n\n" + FULL):
        car = car_from_text(car_text_of(text, "setups/x.toml"), "cars/kestrel.toml")
        assert car.corners["rr"] == car_from_text(FULL, "cars/kestrel.toml").corners["rr"]
        assert car.targets == car_from_text(FULL, "cars/kestrel.toml").targets
