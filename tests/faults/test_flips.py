"""One flipped bit anywhere: the same answer, or the file is named; never another answer without a word."""

from __future__ import annotations

import os
import shutil
import time

import pytest

from dynoan.library import Library, caching, index, soundness
from tests.faults import flipping
from tests.faults.flipping import Told, flip, flip_many, make, tell
from tests.library.made import made_sweep


@pytest.fixture(scope="module")
def warm(tmp_path_factory):
    return make(tmp_path_factory.mktemp("flips") / "team")


@pytest.fixture
def folder(warm, tmp_path):
    return shutil.copytree(warm, tmp_path / "team")


@pytest.mark.slow
@pytest.mark.parametrize("count", [40, pytest.param(200, marks=pytest.mark.thorough)])
def test_flips_change_no_answer_without_a_word(folder, count):
    seen = flip_many(folder, count)
    assert sum(seen.values()) == count
    assert min(seen.values()) > 6, "both must happen, or the flips hit nothing that counts"


def test_an_answer_that_changes_unnamed_is_seen(folder, monkeypatch):
    told = iter(range(1000))
    monkeypatch.setattr(flipping, "tell", lambda _folder: Told(next(told)))
    with pytest.raises(AssertionError, match="no word of it"):
        flip_many(folder, 1)


@pytest.mark.parametrize("kept", [True, False], ids=["with caches", "without"])
def test_a_damaged_sweep_is_named_whether_its_curve_is_cached_or_not(folder, kept):
    sweep = next((folder / "sweeps").glob("*.h5"))
    flip(sweep, 8 * (sweep.stat().st_size // 2), quietly=True)
    if not kept:
        shutil.rmtree(folder / "cache")
    told = tell(folder)
    assert told.answer is None
    assert told.words[-1].startswith(f"sweeps/{sweep.name}: damaged (its checksum does not match)")


def test_two_caches_in_each_others_place_are_not_believed(folder):
    right = tell(folder)
    one, other = sorted((folder / "cache" / "curve").glob("*.bin"))[:2]
    first, second = one.read_bytes(), other.read_bytes()
    assert first != second
    one.write_bytes(second)
    other.write_bytes(first)
    assert [f.file for f in Library(folder).check().faults] == [f"cache/curve/{p.name}" for p in (one, other)]
    assert tell(folder).answer == right.answer
    assert one.read_bytes() == first, "made anew"


def test_check_names_a_damaged_cache_and_says_what_to_do(folder):
    assert Library(folder).check().faults == ()
    for path in sorted((folder / "cache").rglob("*.bin")):
        if path.parent.name == "dropped":  # what lies on the window's table is no cache: the window names it
            continue
        before = path.read_bytes()
        flip(path, 8 * len(before) - 1, quietly=True)
        library = Library(folder)
        if path.read_bytes() == before:  # opening needed it, and made it anew
            continue
        (fault,) = library.check().faults
        assert fault.file == str(path.relative_to(folder))
        assert "delete it" in fault.fault
        path.write_bytes(before)


def test_every_bit_of_a_card_is_sealed(tmp_path):
    """What a list shows comes from the card alone: no bit of it may change what is listed."""
    library = Library.create(tmp_path / "library")
    path = library.path / "sweeps" / f"{library.add(*made_sweep()).id}.h5"
    whole = path.read_bytes()
    (right,) = library.records()
    first = whole.index(b"\n") + 1
    for bit in range(8 * first, 8 * whole.index(b"\n", first) + 8, 7):
        flip(path, bit, quietly=False)
        assert library.records() == ()
        assert library.faults()[0].file == f"sweeps/{path.name}"
        path.write_bytes(whole)
    assert library.records() == (right,)


def test_a_card_without_a_seal_as_earlier_versions_wrote_it_is_read_and_held(tmp_path, monkeypatch):
    library = Library.create(tmp_path / "library")
    with monkeypatch.context() as patch:
        patch.setattr("dynoan.library.sweep_file._sealed", lambda card: card)
        path = library.path / "sweeps" / f"{library.add(*made_sweep()).id}.h5"
    assert b'"seal"' not in path.read_bytes()
    assert library.records()[0].pack == "gravel"
    assert library.check().faults == ()
    path.write_bytes(path.read_bytes().replace(b'"gravel"', b'"gravdl"', 1))
    assert library.records() == ()
    assert "checksum" in library.faults()[0].fault


@pytest.mark.parametrize("content", [b"", b"[" * 100_000, b'{"a": 3}', b"[[1]]", b"7", b"\xff"])
def test_what_is_remembered_of_whole_files_may_hold_anything(folder, content):
    right = tell(folder)
    Library(folder).cache(soundness.KIND, soundness.KEY, content)
    assert tell(folder).answer == right.answer


@pytest.mark.parametrize("what", ["pipe", "folder", "link to a device", "huge"])
def test_no_cache_is_believed_or_waited_for_that_is_no_plain_file(folder, what, monkeypatch):

    right = tell(folder)
    path = next((folder / "cache" / "curve").glob("*.bin"))
    path.unlink()
    if what == "pipe":
        os.mkfifo(path)
    elif what == "folder":
        path.mkdir()
    elif what == "huge":
        path.write_bytes(b"x" * 5000)
        monkeypatch.setattr(caching, "MAX_CACHED", 100)
    else:
        path.symlink_to("/dev/zero")
    assert tell(folder).answer == right.answer


def test_old_temporaries_among_the_caches_go_and_young_ones_stay(folder):

    old, young = folder / "cache" / "curve" / ".tmp-1-a", folder / "cache" / "map" / ".tmp-2-b"
    for path in (old, young):
        path.write_bytes(b"half")
    os.utime(old, (time.time() - 7200,) * 2)
    Library(folder).cache("curve", "any", b"x")
    assert not old.exists()
    assert young.exists()


def test_a_result_too_large_is_not_kept(tmp_path, monkeypatch):
    monkeypatch.setattr(caching, "MAX_CACHED", 10)
    caching.cache(tmp_path, "curve", "a", b"x" * 11)
    assert not (tmp_path / "curve").exists()
    caching.cache(tmp_path, "curve", "a", b"x" * 10)
    assert caching.cached(tmp_path, "curve", "a") == b"x" * 10


def test_a_cache_of_another_kind_key_or_format_is_not_believed(tmp_path):
    caching.cache(tmp_path, "curve", "a", b"one")
    caching.cache(tmp_path, "map", "a", b"two")
    shutil.copy(next((tmp_path / "curve").iterdir()), next((tmp_path / "map").iterdir()))
    assert caching.cached(tmp_path, "map", "a") is None
    path = next((tmp_path / "curve").iterdir())
    path.write_bytes(path.read_bytes().replace(b"cache 2", b"cache 3"))
    assert caching.cached(tmp_path, "curve", "a") is None
    assert list(caching.damaged(tmp_path)) == [f"map/{next((tmp_path / 'map').iterdir()).name}"]


def test_the_index_lists_nothing_it_was_not_asked_to_remember(tmp_path):
    assert index.scan(tmp_path / "none", tmp_path / "cache").records == ()
