"""The library: what is kept comes back, under every name and edit."""

from __future__ import annotations

import dataclasses
import hashlib
import os
import shutil

import h5py
import numpy as np
import pytest

from dynoan.errors import CallError, LibraryError, LookupFault, QuantityError
from dynoan.library import Library, hdf5, index
from dynoan.model.sweep import Source
from dynoan.model.warned import OF_DATES
from dynoan.workbench import Workbench
from tests.library.made import CAR, made_sweep


@pytest.fixture
def library(tmp_path):
    return Library.create(tmp_path / "library", units="us", team="Kestrel")


def test_a_sweep_comes_back_whole(library):
    sweep, original = made_sweep()
    added = library.add(sweep, original)
    assert added.new
    kept = library.load(added.id)
    for name, values in sweep.channels.items():
        np.testing.assert_array_equal(kept.channels[name], values)
    assert dataclasses.replace(kept, channels={}) == dataclasses.replace(sweep, channels={})
    assert library.original(added.id) == original


def test_a_stated_rod_is_kept_and_outlives_a_correction(library):
    sweep, original = made_sweep()
    added = library.add(dataclasses.replace(sweep, rod=0.014), original)
    assert library.load(added.id).rod == 0.014
    library.edit(added.id, date="2026-01-02")
    assert library.load(added.id).rod == 0.014


def test_missing_samples_and_infinities_survive(library):
    sweep, original = made_sweep()
    force = sweep.channels["force"].copy()
    force[3:5] = np.nan, np.inf
    added = library.add(dataclasses.replace(sweep, channels={"force": force}, temperature=float("nan")), original)
    kept = library.load(added.id)
    np.testing.assert_array_equal(kept.channels["force"], force)
    assert kept.temperature is None


def test_any_hdf5_reader_can_open_a_sweep(library):
    sweep, original = made_sweep()
    sweep = dataclasses.replace(sweep, channels={**sweep.channels, "temperature": np.full(200, 31.5)})
    added = library.add(sweep, original)
    with h5py.File(library.path / "sweeps" / f"{added.id}.h5") as file:
        np.testing.assert_array_equal(file["channels/force"][:], sweep.channels["force"])
        assert {n: d.attrs["units"] for n, d in file["channels"].items()} == {
            "time": "s", "velocity": "m/s", "force": "N", "temperature": "°C"}  # fmt: skip
        assert hashlib.sha256(file["original"][:].tobytes()).hexdigest() == sweep.source.sha256
        assert '"pack": "gravel"' in file.attrs["record"]


def test_channels_packed_by_an_earlier_version_are_read(tmp_path):
    sweep, original = made_sweep(samples=100_000)
    with h5py.File(tmp_path / "packed.h5", "w") as file:
        for name, values in sweep.channels.items():
            file.create_dataset(f"channels/{name}", data=values, chunks=(1 << 16,), compression="lzf", shuffle=True)
        file["original"] = np.frombuffer(original, "u1")
    content = hdf5.from_image((tmp_path / "packed.h5").read_bytes(), "packed.h5")
    assert content.original == original
    for name, values in sweep.channels.items():
        np.testing.assert_array_equal(content.channels[name], values)


def test_the_same_file_twice_adds_nothing(library):
    sweep, original = made_sweep()
    first = library.add(sweep, original)
    again = library.add(dataclasses.replace(sweep, pack="tarmac"), original)
    assert (again.id, again.new) == (first.id, False)
    assert library.load(first.id).pack == "gravel"
    assert len(library.records()) == 1


def test_parts_of_one_file_are_sweeps_of_their_own(library):
    ids = {library.add(*made_sweep(part=part)).id for part in ("", "block 1", "block 2")}
    assert len(ids) == 3 == len(library.records())


def test_ids_that_begin_alike_are_told_apart(library, monkeypatch):
    monkeypatch.setattr(
        "dynoan.library.sweep_shelf._ids", lambda sweep: iter(["aaaaaaaaaa", f"aaaaaaaaaa{sweep.samples:02x}"])
    )
    first, second = library.add(*made_sweep(1, samples=16)), library.add(*made_sweep(2, samples=32))
    assert (first.id, second.id) == ("aaaaaaaaaa", "aaaaaaaaaa20")
    assert library.load("aaaaaaaaaa").samples == 16
    assert library.add(*made_sweep(2, samples=32)) == dataclasses.replace(second, new=False)
    with pytest.raises(LookupFault, match="begins 2 ids"):
        library.load("aaaa")


@pytest.mark.parametrize("wrong", ["", "zz", "../../etc/passwd", "0000", "a" * 10_000, "con", "\u202e"])
def test_an_unknown_id_is_one_line(library, wrong):
    library.add(*made_sweep())
    with pytest.raises(LookupFault, match="no sweep") as caught:
        library.load(wrong)
    assert len(str(caught.value)) < 200
    assert "\u202e" not in str(caught.value)


def test_records_tell_what_a_list_needs(library):
    sweep, original = made_sweep()
    added = library.add(sweep, original)
    (record,) = library.records()
    assert (record.id, record.shock, record.pack, record.clicks) == (added.id, "FL-01", "gravel", {"lsc": 6, "lsr": 8})
    assert (record.layout, record.date, record.temperature, record.gas_pressure) == ("trace", "2026-03-01", 31.5, 8e5)
    assert (record.samples, record.source, record.sha256) == (200, "run 0.csv", sweep.source.sha256)
    assert record.file == f"sweeps/{added.id}.h5"
    assert record == library.record(added.id[:4])


def test_edit_changes_what_is_named_and_keeps_the_rest(library):
    sweep, original = made_sweep()
    sweep_id = library.add(sweep, original).id
    record = library.edit(sweep_id[:5], pack="tarmac", clicks={"lsc": 7}, date="2026-04-02", temperature=20.0)
    assert (record.id, record.pack, record.clicks, record.shock) == (sweep_id, "tarmac", {"lsc": 7}, "FL-01")
    kept = library.load(sweep_id)
    assert (kept.pack, kept.clicks, kept.date, kept.temperature) == ("tarmac", {"lsc": 7}, "2026-04-02", 20.0)
    np.testing.assert_array_equal(kept.channels["force"], sweep.channels["force"])
    assert library.original(sweep_id) == original
    assert library.records() == (record,)
    assert library.check().faults == ()


def test_a_date_given_later_settles_the_warning_that_there_is_none(library):
    sweep, original = made_sweep()
    doubt = (
        f"'05/02/2026' has day and month in an order the file does not tell: no date was taken ({OF_DATES} says which)"
    )
    sweep_id = library.add(dataclasses.replace(sweep, date=None, warnings=(doubt, "another")), original).id
    library.edit(sweep_id, pack="tarmac")
    assert library.load(sweep_id).warnings == (doubt, "another")
    library.edit(sweep_id, date="2026-02-05")
    assert library.load(sweep_id).warnings == ("another",)


def test_edit_with_empty_text_takes_a_fact_away(library):
    sweep_id = library.add(*made_sweep()).id
    record = library.edit(sweep_id, shock="", pack="", clicks={}, date="")
    assert (record.shock, record.pack, record.clicks, record.date) == (None, None, {}, None)


def test_an_edit_of_the_same_size_in_the_same_instant_is_listed(library):
    sweep_id = library.add(*made_sweep()).id
    path = library.path / "sweeps" / f"{sweep_id}.h5"
    for pack in ("aaaaaa", "bbbbbb", "cccccc"):
        before = path.stat()
        library.edit(sweep_id, pack=pack)
        os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
        assert path.stat().st_size == before.st_size
        assert library.records()[0].pack == pack


def test_remove_takes_out_one(library):
    ids = [library.add(*made_sweep(n)).id for n in range(3)]
    library.remove(ids[1])
    assert [r.id for r in library.records()] == sorted([ids[0], ids[2]])
    with pytest.raises(LookupFault):
        library.remove(ids[1])


def test_many_adds_in_a_batch_share_one_sync_of_the_folder(library, monkeypatch):
    synced = []
    monkeypatch.setattr("dynoan.library.files._sync", lambda folder: synced.append(folder.name))
    with library.batch():
        for number in range(5):
            library.add(*made_sweep(number))
    assert synced == ["sweeps"]
    library.add(*made_sweep(9))
    assert synced == ["sweeps", "sweeps"]


def test_bytes_that_are_not_the_sweeps_are_refused(library):
    sweep, _ = made_sweep()
    with pytest.raises(LibraryError, match="SHA-256"):
        library.add(sweep, b"other bytes")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"shock": "x" * 10_000}, "10000 characters"),
        ({"pack": ""}, "empty name"),
        ({"shock": "FL\x1b[2J"}, r"U\+001B"),
        ({"pack": "level\u202etvarg"}, r"U\+202E"),
        ({"clicks": {"lsc": -1}}, "lsc=-1"),
        ({"clicks": {"lsc": 1000}}, "0 to 999"),
        ({"clicks": {"boost": 3}}, "boost=3"),
        ({"channels": {}}, "force channel"),
        ({"channels": {"force": np.zeros(0)}}, "force channel"),
        ({"channels": {"force": np.zeros(3), "time": np.zeros(2)}}, "as many samples"),
        ({"channels": {"force": np.zeros(3), "../time": np.zeros(3)}}, "named like"),
    ],
)
def test_a_sweep_that_cannot_be_is_refused(library, change, words):
    sweep, original = made_sweep()
    with pytest.raises((CallError, QuantityError), match=words) as caught:
        library.add(dataclasses.replace(sweep, **change), original)
    assert str(caught.value).startswith("run 0.csv: ")
    assert library.records() == ()


def test_path_tricks_in_names_stay_text(library, tmp_path):
    sweep, original = made_sweep(shock="../../evil", pack="/etc/passwd")
    library.add(sweep, original)
    assert library.shocks() == ("../../evil",)
    assert library.packs() == ("/etc/passwd",)
    assert not library.shock("../../evil").stated
    outside = [p for p in tmp_path.rglob("*") if "evil" in p.name or "passwd" in p.name]
    assert outside == []


def test_a_long_file_name_and_many_facts_are_cut_not_refused(library):
    sweep, original = made_sweep()
    long = Source("x" * 5000 + ".csv", sweep.source.sha256, "text", "p" * 5000)
    facts = {f"fact {n}": "y" * 9000 for n in range(900)}
    added = library.add(dataclasses.replace(sweep, source=long, facts=facts), original)
    kept = library.load(added.id)
    assert kept.source.name.endswith("x.csv")
    assert len(kept.source.name) == 255
    assert len(kept.facts) == 500
    assert library.add(dataclasses.replace(sweep, source=long), original).new is False
    other = dataclasses.replace(long, part="p" * 4999)
    assert library.add(dataclasses.replace(sweep, source=other), original).new is True
    assert library.check().faults == ()


def test_a_shock_without_a_file_has_the_adjusters_it_was_tested_at(library):
    library.add(*made_sweep(1, clicks={"lsc": 3, "lsr": 12}))
    library.add(*made_sweep(2, clicks={"lsc": 9}))
    shock = library.shock("FL-01")
    assert {a.name: a.clicks for a in shock.adjusters} == {"lsc": 9, "lsr": 12}
    assert not shock.stated
    (library.path / "shocks" / "FL-01.toml").write_text('[adjusters.lsc]\nclicks = 20\ncounted = "from soft"\n')
    assert library.shock("FL-01").to_closed({"lsc": 3}) == {"lsc": 17}
    assert library.shock("FL-01").stated


def test_a_shock_run_at_one_setting_has_the_clicks_of_those_that_carried_its_packs(library):
    library.add(*made_sweep(1, shock="FL-01", pack="gravel", clicks={"lsc": 3}))
    library.add(*made_sweep(2, shock="FR-02", pack="gravel", clicks={"lsc": 9, "lsr": 4}))
    library.add(*made_sweep(3, shock="RL-03", pack="tarmac", clicks={"lsc": 15}))
    for shock in (library.shock("FL-01"), Workbench(library).shock("FL-01")):
        assert {a.name: a.clicks for a in shock.adjusters} == {"lsc": 9, "lsr": 4}
        shock.check({"lsc": 9})
        with pytest.raises(QuantityError, match="those with its packs were tested at: 0 to 9"):
            shock.check({"lsc": 10})
    (library.path / "shocks" / "FR-02.toml").write_text("[adjusters.lsc]\nclicks = 20\n")
    for shock in (library.shock("FL-01"), Workbench(library).shock("FL-01")):
        assert {a.name: a.clicks for a in shock.adjusters} == {"lsc": 20}


def test_a_name_that_is_near_is_offered(library):
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    with pytest.raises(LookupFault, match=r"no car 'Kestrl'.*did you mean 'kestrel'"):
        library.car("Kestrl")
    with pytest.raises(LookupFault, match="no shock 'FL-1' in the library; it has none"):
        library.shock("FL-1")


def test_a_car_may_be_named_by_its_path(library, tmp_path):
    (tmp_path / "other.toml").write_text(CAR)
    assert library.car(str(tmp_path / "other.toml")).name == "other"


def test_the_cache_forgets_nothing_and_trusts_nothing(library):
    assert library.cached("curve", "key") is None
    library.cache("curve", "key", b"\x00data")
    assert library.cached("curve", "key") == b"\x00data"
    assert library.cached("map", "key") is None
    (file,) = (library.path / "cache" / "curve").iterdir()
    file.write_bytes(file.read_bytes()[:-1] + b"b")
    assert library.cached("curve", "key") is None
    with pytest.raises(ValueError, match="no kind"):
        library.cache("../../x", "key", b"")


def test_the_cache_may_be_deleted_at_any_time(library):
    library.add(*made_sweep())
    before = library.records()
    shutil.rmtree(library.path / "cache")
    assert library.records() == before


@pytest.mark.parametrize("content", [b"", b"[]", b"{", b"3", b'{"x.h5":3}', b'{"x.h5":[1,2,3]}', b"[" * 100_000])
def test_a_broken_index_is_made_anew(library, content):
    """Under a right checksum, too: what is believed of it must still be a list of sweeps."""
    library.add(*made_sweep())
    before = library.records()
    library.cache(index.KIND, index.KEY, content)
    assert library.cached(index.KIND, index.KEY) == content
    assert library.records() == before


def test_the_index_of_an_earlier_version_is_not_read_and_goes(library):
    library.add(*made_sweep())
    (library.path / "cache").mkdir(exist_ok=True)
    earlier = library.path / "cache" / "index.json"
    earlier.write_text('{"format":2,"sweeps":{}}')
    assert len(library.records()) == 1
    assert not earlier.exists()


def test_the_index_saves_opening_files(library, monkeypatch):
    ids = [library.add(*made_sweep(n)).id for n in range(4)]
    monkeypatch.setattr(index, "SETTLED", -(10**12))  # as if written some time ago
    before = library.records()
    opened = []
    read = index.read_record
    monkeypatch.setattr(index, "read_record", lambda path: opened.append(path.stem) or read(path))
    assert library.records() == before
    assert opened == []
    os.utime(library.path / "sweeps" / f"{ids[2]}.h5", (1.1e9, 1.1e9))
    assert library.records() == before
    assert opened == [ids[2]]


def test_adding_lists_nothing(library, monkeypatch):
    """One add costs the same however many sweeps there are: it never looks at the others."""
    library.add(*made_sweep(1))
    for name in ("listdir", "scandir"):
        monkeypatch.setattr(os, name, lambda *_: pytest.fail("the folder was listed"))
    assert library.add(*made_sweep(2)).new
    assert not library.add(*made_sweep(2)).new
