"""Names as file names: safe on every system, and the same name again afterwards."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import CallError
from dynoan.library.names import LONGEST, file_name, known_here, name_of, nearest, printable

FORBIDDEN = set('/\\:*?"<>|\0')


@pytest.mark.parametrize("name", ["FL-01", "Kestrel 2026", "Rücklauf_3", "ショック", "a.b", "v(2)"])
def test_usual_names_stay_as_they_are(name):
    assert file_name(name) == name


@pytest.mark.parametrize(
    "name",
    ["../x", "..", ".", "/etc/passwd", "C:\\x", "a/b", "con", "NUL", "com1.toml", "aux.", "lpt9", "x.", " x", "x ",
     "%41", ".hidden", "a:b", "what?", "COM²"],
)  # fmt: skip
def test_tricks_become_harmless_and_come_back(name):
    stem = file_name(name)
    assert not set(stem) & FORBIDDEN
    assert not stem.startswith((".", " "))
    assert not stem.endswith((".", " "))
    assert stem.split(".")[0].lower() not in {"con", "nul", "aux", "com1", "lpt9", "com²"}
    assert name_of(stem) == name


@pytest.mark.parametrize(
    "name", ["", "  ", "x" * 101, "x" * 10_000, "a\u202eb", "a\0b", "a\nb", "\ud800", "a\u200bb", "界" * 99]
)
def test_names_that_cannot_be_seen_or_kept_are_refused(name):
    with pytest.raises(CallError) as caught:
        file_name(name, "car")
    text = str(caught.value)
    assert text.startswith("car: ")
    assert len(text) < 200
    assert text.isprintable()


@given(st.text(min_size=1, max_size=LONGEST))
def test_any_name_is_refused_or_comes_back(name):
    try:
        stem = file_name(name)
    except CallError:
        return
    assert name_of(stem) == unicodedata.normalize("NFC", name)
    assert not set(stem) & FORBIDDEN
    assert stem not in (".", "..")
    assert len(stem.encode()) <= 200


def test_a_screen_shows_codes_in_place_of_what_could_steer_it():
    assert printable("a\x1b[2Jb\u202ec") == "a\\u001b[2Jb\\u202ec"


def test_of_many_names_the_near_ones_are_listed_and_of_few_all():
    many = [
        "wheelbase",
        "cg_height",
        "driven",
        "pitch_inertia",
        "roll_inertia",
        "wheel_radius",
        "links",
        "front",
        "rear",
    ]
    assert known_here("whelbase", many) == "", "it is offered already"
    assert known_here("rim_radius_mm", many) == "known here: wheel_radius and 8 more"
    assert known_here("zz", many) == f"known here: {', '.join(many[:8])} and 1 more"
    assert known_here("zz", many[:2]) == "known here: wheelbase, cg_height"


def test_the_nearest_name_is_offered_only_when_near():
    assert nearest("sprung_ratio", ["spring_ratio", "mass"]) == " (did you mean 'spring_ratio'?)"
    assert nearest("zzz", ["spring_ratio", "mass"]) == ""
