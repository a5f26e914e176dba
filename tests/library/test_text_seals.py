"""Rot in texts that people edit is named; an edit is an edit."""

from __future__ import annotations

import os
import shutil
import time

import pytest

from dynoan.errors import LibraryError
from dynoan.library import Library
from tests.library.made import CAR

OLD = time.time_ns() - 60 * 10**9


@pytest.fixture
def library(tmp_path):
    """Return a library with a car, read once, whose files are a minute old."""
    library = Library.create(tmp_path / "team")
    car = library.path / "cars" / "kestrel.toml"
    car.write_text(CAR)
    for file in (car, library.path / "dynoan.toml"):
        os.utime(file, ns=(OLD, OLD))
    again = Library(library.path)
    again.car("kestrel")
    return again


def rot(path, old, new):
    """Change a file's content and leave its time of change as it was."""
    status, text = path.stat(), path.read_text()
    assert old in text
    assert len(old) == len(new)
    path.write_text(text.replace(old, new, 1))
    os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns))


def test_a_digit_that_rots_in_a_car_is_named_and_not_reckoned_with(library):
    rot(library.path / "cars" / "kestrel.toml", "2430", "2530")
    with pytest.raises(LibraryError, match=r"^cars/kestrel\.toml: damaged .*save it anew$"):
        library.car("kestrel")
    assert [fault.file for fault in library.check().faults] == ["cars/kestrel.toml"]


def test_the_same_change_as_an_edit_is_read(library):
    path = library.path / "cars" / "kestrel.toml"
    path.write_text(path.read_text().replace("2430", "2530", 1))
    assert library.car("kestrel").wheelbase == pytest.approx(2.53)
    assert library.check().faults == ()


def test_saving_a_damaged_file_anew_accepts_it(library):
    path = library.path / "cars" / "kestrel.toml"
    rot(path, "2430", "2530")
    path.write_text(path.read_text())
    assert library.car("kestrel").wheelbase == pytest.approx(2.53)


def test_the_units_of_the_library_do_not_rot_unnoticed(library):
    rot(library.path / "dynoan.toml", '"metric"', '"us"    ')
    with pytest.raises(LibraryError, match="damaged"):
        Library(library.path)


def test_what_is_remembered_moves_with_the_library(library, tmp_path):
    moved = shutil.move(library.path, tmp_path / "elsewhere")
    assert Library(moved).car("kestrel").wheelbase == pytest.approx(2.43)
    rot(moved / "cars" / "kestrel.toml", "2430", "2530")
    with pytest.raises(LibraryError, match="damaged"):
        Library(moved).car("kestrel")


def test_a_young_file_is_not_remembered_since_its_time_tells_no_two_edits_apart(tmp_path):
    library = Library.create(tmp_path / "team")
    path = library.path / "cars" / "kestrel.toml"
    path.write_text(CAR)
    library.car("kestrel")
    rot(path, "2430", "2530")
    assert library.car("kestrel").wheelbase == pytest.approx(2.53)
