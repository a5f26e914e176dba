"""Cars and shocks as text: what is written reads back, units do not matter, and hostile text is one line."""

from __future__ import annotations

import dataclasses
import time

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from dynoan.errors import QuantityError
from dynoan.library.car_file import car_from_data, car_from_text
from dynoan.library.car_written import car_to_text
from dynoan.library.shock_file import shock_from_text
from dynoan.model.car import Car, Corner, Surface, Target, Targets
from dynoan.model.car_check import check_car
from dynoan.model.shock import ADJUSTERS
from tests.library.made import CAR

FEW = settings(max_examples=50, deadline=None)
LINES = "".join(map(chr, (0x0A, 0x0D, 0x85, 0x2028)))
WORDS = st.text(st.characters(codec="utf-8") | st.sampled_from(f"\"'\\#=[]{LINES}"), min_size=1, max_size=20)


def among(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


def corners(name: str) -> st.SearchStrategy[Corner]:
    return st.builds(
        Corner, st.just(name), among(150, 600), among(5, 60), among(2e4, 1e5), among(0.5, 1.3), among(0.5, 1.3),
        st.none() | among(1e5, 4e5), st.none() | among(0.01, 0.3), st.none() | among(0.01, 0.3),
        st.none() | among(0, 5e3), st.none() | WORDS, st.none() | WORDS,
        st.dictionaries(st.sampled_from(list(ADJUSTERS)), st.integers(0, 99), max_size=4),
    )  # fmt: skip


RATIOS = among(0.05, 2.0)
TARGET = st.builds(
    Target, st.none() | RATIOS, st.none() | RATIOS,
    st.lists(st.tuples(among(0.01, 2.0), RATIOS), max_size=4, unique_by=lambda p: round(p[0], 6)).map(
        lambda pairs: tuple(sorted(pairs))),
    among(0, 10),
)  # fmt: skip
TARGETS = st.builds(Targets, TARGET, TARGET, among(0.01, 0.09), among(0.1, 1.0))
CARS = st.builds(
    Car, st.just("kestrel"), st.tuples(*map(corners, ("fl", "fr", "rl", "rr"))).map(lambda c: {x.name: x for x in c}),
    st.none() | among(2, 4), st.none() | among(0.3, 1), st.sampled_from([None, "front", "rear", "all"]),
    st.none() | among(100, 5e3), st.none(), st.none() | st.tuples(among(-9, 9), among(-2, 2)),
    st.dictionaries(st.sampled_from(["front", "rear"]), TARGETS),
    st.dictionaries(WORDS, among(0.1, 2), max_size=2).map(lambda d: {k: Surface(k, g, g / 10) for k, g in d.items()}),
    st.dictionaries(st.sampled_from(["front", "rear"]), among(1, 2)), st.none() | among(50, 2e3),
    st.none() | among(0.2, 0.5), st.none() | among(0, 1), st.just("cars/kestrel.toml"),
)  # fmt: skip


def flat(value: object) -> object:
    """As nested plain values, for a comparison with a tolerance."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {f.name: flat(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {k: flat(v) for k, v in value.items()}
    return [flat(v) for v in value] if isinstance(value, tuple) else value


def leaves(value: object, path: str = "") -> dict[str, object]:
    """Every plain value by its path."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else None
    if items is None:
        return {path: value}
    found: dict[str, object] = {f"{path}#": len(value)}  # type: ignore[arg-type]
    for key, part in items:
        found |= leaves(part, f"{path}.{key}")
    return found


def alike(one: Car, other: Car, rel: float) -> None:
    """Fail, naming the place, where two cars are not the same but for the last digits."""
    first, second = leaves(flat(one)), leaves(flat(other))
    assert first.keys() == second.keys()
    for path, value in first.items():
        assert second[path] == (pytest.approx(value, rel=rel) if isinstance(value, float) else value), path


@FEW
@given(CARS)
def test_any_sound_car_that_is_written_reads_back_the_same(car):
    assume(not check_car(car))
    alike(car, car_from_text(car_to_text(car), "cars/kestrel.toml"), rel=1e-10)


METRIC = CAR.replace('"275 lb/in"', '"48.159879692780996 N/mm"')
# 0.0254 m, 0.3048 m and 0.45359237 kg exactly: international yard and pound agreement, 1959
US = {
    '"2430 mm"': '"95.66929133858268 in"', '"510 mm"': '"1.673228346456693 ft"', '"34 kg"': '"74.957169142858377 lb"',
    '"48.159879692780996 N/mm"': '"275 lb/in"', '"268 kg"': '"590.83886265547191 lbs"',
}  # fmt: skip


@pytest.mark.parametrize("old", US)
def test_a_car_is_the_same_in_whatever_unit_it_is_stated(old):
    assert old in METRIC
    alike(car_from_text(METRIC, "c.toml"), car_from_text(METRIC.replace(old, US[old]), "c.toml"), rel=1e-12)


HUGE = "1" + "0" * 400
HOSTILE = {
    "nan": "nan", "inf": "-inf", "text": '"lots"', "empty": '""', "no unit": "12", "true": "true", "list": "[]",
    "table": "{}", "date": "2026-05-02", "negative": '"-2430 mm"', "huge": '"1e999 mm"', "huge number": HUGE,
    "hex": "0x" + "f" * 5000, "wide": '"２４３０"', "steering": '"\\u001b[2J"', "long": '"' + "9" * 5000 + ' x"',
}  # fmt: skip
KEYS = {
    "wheelbase": '"2430 mm"', "driven": '"rear"', "front.unsprung": '"34 kg"', "front.spring_ratio": "0.95",
    "fl.mass": '"268 kg"', "fl.clicks": '"lsc=8,lsr=10"',
}  # fmt: skip


@pytest.mark.parametrize("text", ["9" * 50_000, "9" + " " * 50_000 + "x", "9 e" * 20_000])
def test_a_value_of_any_length_is_refused_at_once(text):
    begun = time.process_time()
    with pytest.raises(QuantityError, match="wheelbase"):
        car_from_text(CAR.replace("2430 mm", text), "cars/kestrel.toml")
    assert time.process_time() - begun < 1.0


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("value", HOSTILE.values(), ids=HOSTILE)
def test_a_value_that_cannot_be_is_one_short_line_with_file_and_key(key, value):
    text = CAR.replace(f"{key.split('.')[-1]} = {KEYS[key]}", f"{key.split('.')[-1]} = {value}")
    assert text != CAR
    if key == "fl.clicks" and value == '""':
        assert car_from_text(text, "cars/kestrel.toml").corners["fl"].clicks == {}
        return
    with pytest.raises(QuantityError) as caught:
        car_from_text(text, "cars/kestrel.toml")
    said = str(caught.value)
    assert said.startswith("cars/kestrel.toml: ")
    assert key.split(".")[-1] in said
    assert said.isprintable()
    assert len(said) < 250


@pytest.mark.parametrize("number", [HUGE, "nan", "inf", "true", '"0.3"', "0x" + "f" * 5000])
def test_a_wanted_ratio_that_cannot_be_is_named(number):
    text = CAR + f'[targets.front]\nrebound = {{ curve = [["50 mm/s", {number}]] }}\n'
    with pytest.raises(QuantityError, match=r"cars/kestrel\.toml: targets\.front\.rebound\.curve"):
        car_from_text(text, "cars/kestrel.toml")


@pytest.mark.parametrize(
    ("key", "value"),
    [("front_drive", '"600 %"'), ("front_drive", "-0.1"), ("wheel_radius", '"300 m"'), ("wheel_radius", '"-300 mm"'),
     ("wheel_radius", '"0 mm"')],
)  # fmt: skip
def test_a_drive_that_cannot_be_is_named(key, value):
    with pytest.raises(QuantityError, match=rf"cars/kestrel\.toml: {key}: .* is outside"):
        car_from_text(f"{key} = {value}\n{CAR}", "cars/kestrel.toml")


def test_a_corners_key_at_the_top_is_told_where_it_stands():
    with pytest.raises(QuantityError, match=r"\[fl\], or under \[front\] and \[rear\]") as error:
        car_from_text('mass = "1200 kg"\n', "cars/x.toml")
    assert "cars/x.toml" in str(error.value)


@pytest.mark.parametrize("value", ['"-2 N/mm"', '"2000 N/mm"'])
def test_a_gas_rate_that_cannot_be_is_named(value):
    with pytest.raises(QuantityError, match=r"cars/kestrel\.toml: fl\.gas_rate: .* is outside"):
        car_from_text(CAR.replace("[fl]", f"[fl]\ngas_rate = {value}"), "cars/kestrel.toml")


@pytest.mark.parametrize("line", ["# \x85" + "." * 80, "# " + "." * 80, '# say "' + "a." * 60, "# it's" + " ." * 60])
def test_dots_in_a_remark_are_no_key(line):
    assert car_from_text(f"{line}\n{CAR}{line}\n", "c.toml") == car_from_text(CAR, "c.toml")


@pytest.mark.parametrize(
    "line", ["a" + ".a" * 50 + " = 1", "x = {" + "a." * 50 + "a = 1}", '"\\"#"' + ".a" * 50 + " = 1"]
)
def test_a_key_of_very_many_parts_is_still_refused(line):
    with pytest.raises(QuantityError, match=r"c\.toml, line 1: a key of over 20 parts"):
        car_from_text(line, "c.toml")


@FEW
@given(st.text(max_size=60), st.integers(0, len(CAR)))
def test_any_text_put_anywhere_into_a_car_is_read_or_refused_in_one_line(text, place):
    said = ""
    try:
        car_from_text(CAR[:place] + text + CAR[place:], "cars/kestrel.toml")
    except QuantityError as error:
        said = str(error)
    assert said.isprintable()
    assert not said or said.startswith("cars/kestrel.toml")


SIZES = {"rod": "14 mm", "piston": "46 mm", "stroke": "120 mm", "gas_pressure": "10 bar"}


@pytest.mark.parametrize("key", SIZES)
@pytest.mark.parametrize("value", HOSTILE.values(), ids=HOSTILE)
def test_a_size_that_no_shock_has_is_one_short_line_with_file_and_key(key, value):
    with pytest.raises(QuantityError) as caught:
        shock_from_text(f"{key} = {value}", "shocks/RL-02.toml", "RL-02")
    said = str(caught.value)
    assert said.startswith("shocks/RL-02.toml: ")
    assert key in said
    assert said.isprintable()
    assert len(said) < 250


@FEW
@given(st.sets(st.sampled_from(list(ADJUSTERS)), min_size=1))
def test_adjusters_that_turn_the_same_are_refused_and_no_others(names):
    text = "".join(f"[adjusters.{name}]\nclicks = 20\n" for name in names)
    acts = {"lsc": "c", "hsc": "C", "lsr": "r", "hsr": "R", "c": "cC", "r": "rR", "cr": "cCrR"}
    turned = "".join(acts[name] for name in names)
    if len(set(turned)) == len(turned):
        assert {a.name for a in shock_from_text(text, "s.toml", "s").adjusters} == names
    elif names == {"c", "r", "cr"} or names in ({"c", "cr"}, {"r", "cr"}):
        with pytest.raises(QuantityError, match=r"s\.toml: adjusters\."):
            shock_from_text(text, "s.toml", "s")
    else:
        with pytest.raises(QuantityError, match="turns the same"):
            shock_from_text(text, "s.toml", "s")


@pytest.mark.parametrize(
    ("key", "place"),
    [("track", r"under \[front\] and \[rear\]"), ("torque", r"under \[links\], .* or under \[engine\]"),
     ("grip", r"under a surface, such as \[surfaces.loose\]"), ("unsprung", r"under a corner, such as \[fl\]"),
     ("holes", r"under \[links\]")],
)  # fmt: skip
def test_a_key_at_the_top_that_stands_in_a_table_is_told_in_which(key, place):
    with pytest.raises(QuantityError, match=f"at the top of the file: it stands {place}"):
        car_from_data({key: "1"}, "cars/made.toml", "made")
