"""Finding, making and refusing a library's folder."""

from __future__ import annotations

import pytest

from dynoan.errors import LibraryError, LookupFault, QuantityError
from dynoan.library import Library


def test_it_is_found_upward_as_git_finds_its_own(tmp_path, monkeypatch):
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    Library.create(tmp_path / "library", units="us", team="Kestrel")
    below = tmp_path / "library" / "setups" / "deep"
    below.mkdir()
    monkeypatch.chdir(below)
    found = Library.find()
    assert (found.path, found.units, found.team) == (tmp_path / "library", "us", "Kestrel")


def test_what_is_given_wins_over_the_environment_over_the_folder(tmp_path, monkeypatch):
    for name in ("given", "named", "here"):
        Library.create(tmp_path / name, team=name)
    monkeypatch.chdir(tmp_path / "here")
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    assert Library.find().team == "here"
    monkeypatch.setenv("DYNOAN_LIBRARY", str(tmp_path / "named"))
    assert Library.find().team == "named"
    assert Library.find(tmp_path / "given").team == "given"


def test_no_library_says_how_to_make_one(tmp_path, monkeypatch):
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    monkeypatch.chdir(tmp_path)
    with pytest.raises(LookupFault, match="of a new or an empty folder with: dynoan add FILE --library NEW"):
        Library.find()
    with pytest.raises(LookupFault, match="no such folder"):
        Library.find(tmp_path / "gone")
    with pytest.raises(LookupFault, match=r"it has no dynoan\.toml"):
        Library.find(tmp_path)


def test_only_a_new_or_empty_folder_becomes_one(tmp_path):
    (tmp_path / "empty").mkdir()
    Library.create(tmp_path / "empty")
    Library.create(tmp_path / "new" / "deep")
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "holiday.jpg").write_bytes(b"x")
    for taken in ("full", "empty"):
        with pytest.raises(LibraryError, match="not empty"):
            Library.create(tmp_path / taken)
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(LibraryError, match="a file, not a folder"):
        Library.create(tmp_path / "file")


def test_making_that_was_cut_short_can_be_done_again(tmp_path):
    (tmp_path / "library" / "sweeps").mkdir(parents=True)
    (tmp_path / "library" / ".tmp-1-abc").write_bytes(b"half")
    assert Library.open_or_create(tmp_path / "library").records() == ()


@pytest.mark.parametrize(
    ("text", "error", "words"),
    [
        ("format = 2\nnovelty = true\n", LibraryError, r"format version 2, but dynoan .* reads up to 1: update dynoan"),
        ("units = 'us'\n", QuantityError, "format: missing"),
        ("format = 1\nunits = 'imperial'\n", QuantityError, 'units: found .*wanted "metric" or "us"'),
        ("format = 1\ntaem = 'x'\n", QuantityError, "taem: unknown key .did you mean 'team'"),
        ("format = ", QuantityError, "not valid TOML"),
        ("format = true", QuantityError, "whole number"),
    ],
)
def test_a_marker_that_is_wrong_or_later_is_named(tmp_path, text, error, words):
    (tmp_path / "dynoan.toml").write_text(text)
    with pytest.raises(error, match=words) as caught:
        Library.find(tmp_path)
    assert "dynoan.toml" in str(caught.value)
