"""Limits of what a library keeps: sweeps that cannot be, markers that could not be read, names that collide."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.errors import CallError, DynoanError, QuantityError
from dynoan.library import Library
from dynoan.library.incoming import sound_sweep
from dynoan.library.names import check_name, file_name, nearest, printable
from dynoan.library.tables import TomlTable
from dynoan.library.toml_text import parse_toml
from tests.library.made import made_sweep

FEW = settings(max_examples=60, deadline=None)
SWEEP = made_sweep()[0]


@pytest.mark.parametrize("clicks", [{"lsc": 6.5}, {"lsc": float("nan")}, {"lsc": -1}, {"lsc": 1000}, {"knob": 6}])
def test_clicks_that_cannot_be_are_refused_and_none_is_rounded(clicks):
    with pytest.raises(QuantityError, match=r"run 0\.csv: .* cannot be; adjusters are lsc, .* 0 to 999"):
        sound_sweep(replace(SWEEP, clicks=clicks))


def test_clicks_out_of_an_array_are_kept_as_whole_numbers():
    kept = sound_sweep(replace(SWEEP, clicks={"lsc": np.int64(6), "lsr": 8.0})).clicks
    assert kept == {"lsc": 6, "lsr": 8}
    assert {type(click) for click in kept.values()} == {int}


@pytest.mark.parametrize("key", ["temperature", "gas_pressure", "stroke", "rate"])
def test_a_figure_that_is_not_finite_is_not_known(key):
    for value in (float("nan"), float("inf"), -np.inf, np.float32("nan")):
        assert getattr(sound_sweep(replace(SWEEP, **{key: value})), key) is None
    assert getattr(sound_sweep(replace(SWEEP, **{key: np.float64(31.5)})), key) == 31.5


@pytest.mark.parametrize(
    "channels",
    [{}, {"velocity": np.zeros(3)}, {"force": np.zeros(0)}, {"force": np.zeros((3, 2))},
     {"force": np.zeros(3), "time": np.zeros(4)}, {"force": np.zeros(3), "../x": np.zeros(3)}],
)  # fmt: skip
def test_channels_that_do_not_go_together_are_refused_with_the_file(channels):
    with pytest.raises(QuantityError, match=r"^run 0\.csv: "):
        sound_sweep(replace(SWEEP, channels=channels))


@FEW
@given(st.text(max_size=600), st.text(max_size=600))
def test_parts_of_one_file_stay_apart_however_long_their_names(one, other):
    long = "block " * 60
    cut = [sound_sweep(replace(SWEEP, source=replace(SWEEP.source, part=p))).source.part
           for p in (one, other, long + one, long + other)]  # fmt: skip
    assert all(len(part) <= 255 for part in cut)
    assert (cut[0] == cut[1]) == (one == other) == (cut[2] == cut[3])


@pytest.mark.parametrize("team", ["Kestrel", "Équipe \"Nord\" 'x'", "チーム", "a\nb", "x" * 200])
def test_a_teams_name_reads_back(tmp_path, team):
    Library.create(tmp_path / "lib", units="us", team=team)
    assert (Library(tmp_path / "lib").team, Library(tmp_path / "lib").units) == (team, "us")


def test_a_teams_name_that_could_not_be_read_again_makes_no_library(tmp_path):
    with pytest.raises(DynoanError, match=r"dynoan\.toml: team: 201 characters, more than 200; shorten it"):
        Library.create(tmp_path / "lib", team="x" * 201)
    assert not (tmp_path / "lib").exists()
    assert Library.create(tmp_path / "lib", team="x").team == "x"


@FEW
@given(st.text(max_size=30))
def test_a_name_that_is_kept_is_seen_and_a_refused_one_is_said_in_what_can_be_seen(name):
    said = ""
    try:
        check_name(name, "pack")
    except CallError as error:
        said = str(error)
    assert said.isprintable()
    assert said or printable(name) == name
    assert printable(printable(name)) == printable(name)


@FEW
@given(st.lists(st.text("aAbB.%/ é~", min_size=1, max_size=4), min_size=2, max_size=2, unique=True))
def test_two_names_are_two_files(names):
    stems = set()
    for name in names:
        try:
            stems.add(file_name(name))
        except CallError:
            return
    assert len(stems) == 2


@FEW
@given(st.text(max_size=20), st.lists(st.text(max_size=8), max_size=5))
def test_what_is_offered_is_one_of_those_known(name, known):
    offer = nearest(name, known)
    assert offer == "" or offer in [f" (did you mean '{k}'?)" for k in known]


VALUES = ["3", "-1", "1.5", "true", '"x"', "[]", "[1]", "{}", "2026-05-02", "nan", "inf", '"\\u001b"', '""', "07:30:00"]


@pytest.mark.parametrize("value", VALUES)
def test_each_kind_of_value_is_what_it_should_be_or_refused_by_file_and_key(value):
    table = TomlTable(parse_toml(f"a.k = {value}", "f.toml")["a"], "f.toml", ("k",), "a")
    asks = {
        "number": (lambda: table.number("k", 0, 10), float), "whole": (lambda: table.whole("k", 0, 10), int),
        "text": (lambda: table.text("k"), str), "flag": (lambda: table.flag("k"), bool),
        "choice": (lambda: table.choice("k", ("x", "y")), str), "texts": (lambda: table.texts("k"), tuple),
        "quantity": (lambda: table.quantity("k", "length"), float), "names": (lambda: table.names("k"), dict),
        "table": (lambda: table.table("k", ()), TomlTable),
    }  # fmt: skip
    understood = set()
    for name, (ask, kind) in asks.items():
        try:
            assert type(ask()) is kind
            understood.add(name)
        except QuantityError as error:
            assert str(error).startswith("f.toml: a.k: ")  # noqa: PT017
            assert str(error).isprintable()  # noqa: PT017
    right = {"3": {"number", "whole"}, "1.5": {"number"}, "true": {"flag"}, '"x"': {"text", "choice"}, "[]": {"texts"},
             "{}": {"names", "table"}, "2026-05-02": {"text"}, '"\\u001b"': {"text"}, '""': {"text"}}  # fmt: skip
    assert understood == right.get(value, set())


@pytest.mark.parametrize(
    ("text", "words"),
    [("a = ", "not valid TOML"), ("a = 1\na = 2", "not valid TOML"), ("a = " + "[" * 5000, "cannot be read as TOML"),
     ("x = 0x" + "f" * 16, "x: a whole number of more than 64 bits"), ("a = " + "9" * 5000, "cannot be read as TOML"),
     ("a = [{b = [99999999999999999999]}]", "a.b: a whole number"), (" " * 1_000_001, "1000001 characters")],
)  # fmt: skip
def test_text_that_is_no_toml_is_one_short_line(text, words):
    with pytest.raises(QuantityError) as caught:
        parse_toml(text, "f.toml")
    assert str(caught.value).startswith("f.toml: ")
    assert words in str(caught.value)
    assert len(str(caught.value)) < 220


def test_the_largest_whole_numbers_of_toml_are_read():
    assert parse_toml("a = 9223372036854775807\nb = -9223372036854775808", "f") == {"a": 2**63 - 1, "b": -(2**63)}


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("ratio = 0,95", "ratio = 0,95 (at line 2); a number has a point in place of the comma, as in 0.95"),
        ('spring = "45 N/mm', 'spring = "45 N/mm (at line 2); a quote is missing: text and quantities stand in quotes'),
        ("spring = 45 N/mm", "Expected newline or end of document"),
    ],
)
def test_a_line_that_is_no_toml_is_told_with_what_to_mend(line, told):
    with pytest.raises(QuantityError) as raised:
        parse_toml(f"# a car\n{line}\n", "cars/x.toml")
    assert str(raised.value).startswith(f"cars/x.toml: not valid TOML: {told}")
