"""Clicks written into a car file: every other line stays, and what cannot be changed safely is left alone."""

from __future__ import annotations

import pytest

from dynoan.errors import LibraryError
from dynoan.library.car_edit import CornerSetting, with_settings
from dynoan.library.car_file import car_from_text
from tests.cli.launch_library import CAR

NEW = CornerSetting("gravel", {"lsc": 1, "hsc": 2, "lsr": 3, "hsr": 4})
TEXT = "# our car\n" + CAR.replace(
    'clicks = "lsc=2,hsc=2,lsr=2,hsr=2"', 'clicks = "lsc=2,hsc=2,lsr=2,hsr=2"  # as raced'
)


def written(settings, text=TEXT):
    made, changes = with_settings(text, "cars/kestrel.toml", settings)
    return made, changes, car_from_text(made, "cars/kestrel.toml")


def test_an_axle_that_shares_them_keeps_one_line_with_its_comment():
    made, changes, car = written({"rl": NEW, "rr": NEW})
    assert [(c.table, c.new) for c in changes] == [("rear", 'clicks = "lsc=1,hsc=2,lsr=3,hsr=4"  # as raced')]
    assert car.corners["rr"].clicks == NEW.clicks
    others = [line for line in made.split("\n") if line not in TEXT.split("\n")]
    assert others == ['clicks = "lsc=1,hsc=2,lsr=3,hsr=4"  # as raced']


def test_corners_apart_get_lines_of_their_own():
    other = CornerSetting("mixed", {"lsc": 0, "hsc": 0, "lsr": 0, "hsr": 0})
    made, changes, car = written({"fl": NEW, "fr": other})
    assert {c.table for c in changes} == {"fl", "fr"}
    assert (car.corners["fl"].clicks, car.corners["fr"].pack) == (NEW.clicks, "mixed")
    assert made.startswith("# our car\n")


def test_a_corner_of_its_own_is_changed_too_where_the_axle_is():
    text = TEXT.replace('[rl]\nmass = "241 kg"', '[rl]\nmass = "241 kg"\nclicks = "lsc=0"')
    car = written({"rl": NEW, "rr": NEW}, text)[2]
    assert car.corners["rl"].clicks == car.corners["rr"].clicks == NEW.clicks


def test_the_same_again_changes_nothing():
    once = written({"rl": NEW, "rr": NEW})[0]
    again, changes, _ = written({"rl": NEW, "rr": NEW}, once)
    assert (again, changes) == (once, ())


def test_a_file_of_inline_tables_is_left_alone():
    text = TEXT.replace('[fl]\nmass = "268 kg"\nshock = "FL-01"\n', "").replace(
        "wheelbase =", 'fl = { mass = "268 kg", shock = "FL-01", clicks = "lsc=0" }\nwheelbase ='
    )
    with pytest.raises(Exception, match=r"fl|safely"):
        written({"fl": NEW, "fr": NEW}, text)
    assert issubclass(LibraryError, Exception)
