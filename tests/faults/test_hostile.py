"""Files made with ill intent or damaged by accident: named and refused, in bounded time and memory; the rest usable."""

from __future__ import annotations

import hashlib
import json
import os
import random
import resource
import subprocess
import sys
import time
from pathlib import Path

import h5py
import numpy as np
import pytest

from dynoan.errors import DynoanError, LibraryError, QuantityError
from dynoan.library import Library, hdf5, index, sweep_card
from dynoan.library.car_file import car_from_text
from dynoan.library.layout_file import layout_from_text
from dynoan.library.setup_file import setup_from_text
from dynoan.library.shock_file import shock_from_text
from tests.library.made import CAR, made_sweep


@pytest.fixture
def library(tmp_path):
    library = Library.create(tmp_path / "library")
    library.add(*made_sweep(1))
    return library


def sealed(library: Library, image: bytes) -> str:
    """Put an HDF5 image into the library as a sweep whose seal is right, as an attacker would; return its id."""
    sweep_id = library.add(*made_sweep(99)).id
    path = library.path / "sweeps" / f"{sweep_id}.h5"
    data = path.read_bytes()
    body = data[80 : data.index(b"\x89HDF")] + image
    path.write_bytes(b"dynoan sweep 1 " + hashlib.sha256(body).hexdigest().encode() + b"\n" + body)
    return sweep_id


def hdf5_file(tmp_path: Path, make) -> bytes:
    """The bytes of an HDF5 file that `make` fills, beginning from what a sound one holds."""
    sweep, original = made_sweep(99)
    path = tmp_path / "made.h5"
    with h5py.File(path, "w") as file:
        for name, values in sweep.channels.items():
            file[f"channels/{name}"] = values
        file["original"] = np.frombuffer(original, "u1")
        make(file)
    return path.read_bytes()


def soft_link(file):
    del file["channels/force"]
    file["channels/force"] = h5py.SoftLink("/channels/velocity")


def external_link(file):
    with h5py.File(file.filename + ".elsewhere", "w") as other:
        other["x"] = np.zeros(200)
    del file["channels/force"]
    file["channels/force"] = h5py.ExternalLink(file.filename + ".elsewhere", "/x")


def external_storage(file):
    del file["channels/force"]
    elsewhere = Path(file.filename + ".raw")
    elsewhere.write_bytes(bytes(1600))
    file.create_dataset("channels/force", (200,), "<f8", external=[(str(elsewhere), 0, 1600)])


def virtual(file):
    del file["channels/force"]
    layout = h5py.VirtualLayout((10,), "<f8")
    layout[:] = h5py.VirtualSource("/etc/elsewhere.h5", "x", (10,))
    file.create_virtual_dataset("channels/force", layout)


def huge_shape(file):
    del file["channels/force"]
    file.create_dataset("channels/force", (2**40,), "<f8", chunks=(1024,))


def huge_shape_within_count(file):
    del file["channels/force"]
    file.create_dataset("channels/force", (19_000_000,), "<f8", chunks=(1024,), compression="lzf")


def huge_chunk(file):
    del file["channels/force"]
    data = file.create_dataset("channels/force", (200,), "<f8", chunks=(2**26,), maxshape=(None,), compression="lzf")
    data[:] = 1.0


def bomb(file):
    del file["channels/force"]
    file.create_dataset("channels/force", data=np.zeros(5_000_000), chunks=(500_000,), compression="gzip")


def foreign_filter(file):
    del file["channels/force"]
    file.create_dataset("channels/force", data=np.zeros(50), chunks=(50,), scaleoffset=2)


def references(file):
    del file["channels/force"]
    file.create_dataset("channels/force", (3,), dtype=h5py.ref_dtype)


def region_references(file):
    del file["channels/force"]
    file.create_dataset("channels/force", (3,), dtype=h5py.regionref_dtype)


def texts(file):
    del file["channels/force"]
    file["channels/force"] = ["a", "b"]


def ragged(file):
    del file["channels/force"]
    file.create_dataset("channels/force", (3,), dtype=h5py.vlen_dtype(np.float64))


def compound(file):
    del file["channels/force"]
    file["channels/force"] = np.zeros(3, [("a", "<f8"), ("b", "<f8")])


def two_dimensions(file):
    del file["channels/force"]
    file["channels/force"] = np.zeros((3, 3))


def a_group_for_numbers(file):
    del file["channels/force"]
    file.create_group("channels/force")


def deep_nesting(file):
    del file["channels/force"]
    file.create_group("channels/force/" + "/".join("a" * 2000))


def a_loop(file):
    del file["channels/force"]
    file["channels/force"] = file["/"]


def many_channels(file):
    for number in range(2000):
        file[f"channels/x{number}"] = [1.0]


def odd_names(file):
    file["channels/..\\evil"] = [1.0]


def a_stranger(file):
    file["payload"] = [1.0]


def no_force(file):
    del file["channels/force"]


def unlike_lengths(file):
    del file["channels/force"]
    file["channels/force"] = np.zeros(7)


def other_original(file):
    del file["original"]
    file["original"] = np.zeros(9, "u1")


def missing_original(file):
    del file["original"]


#: each attack, and the words that say it was refused for what it does
ATTACKS = {
    soft_link: "a link to elsewhere", external_link: "a link to elsewhere", external_storage: "stored in another file",
    virtual: "stored elsewhere", huge_shape: "declares", huge_shape_within_count: "declares", huge_chunk: "too large",
    bomb: "packed in a way", foreign_filter: "packed in a way", references: "right type",
    region_references: "right type", texts: "right type", ragged: "right type", compound: "right type",
    two_dimensions: "not one row", a_group_for_numbers: "holds a group", deep_nesting: "holds a group",
    a_loop: "holds a group", many_channels: "never writes", odd_names: "no name of a channel", a_stranger: "just",
    no_force: "no force", unlike_lengths: "unlike length", other_original: "SHA-256", missing_original: "just",
}  # fmt: skip


def test_numbers_that_go_on_beyond_the_file_are_refused(library, tmp_path):
    def known(file):
        del file["channels/force"]
        file["channels/force"] = np.zeros(12_345)

    image = hdf5_file(tmp_path, known)
    for found, claimed in ((12_345, 19_000_000), (8 * 12_345, 8 * 19_000_000)):  # in the shape, and where it is stored
        assert found.to_bytes(8, "little") in image
        image = image.replace(found.to_bytes(8, "little"), claimed.to_bytes(8, "little"))
    sweep_id = sealed(library, image)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    with pytest.raises(LibraryError, match="cannot be read"):
        library.load(sweep_id)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 64_000, "kB more"


@pytest.mark.parametrize(("attack", "words"), ATTACKS.items(), ids=lambda value: getattr(value, "__name__", ""))
def test_a_hostile_hdf5_file_is_refused_and_the_rest_usable(library, tmp_path, attack, words):
    image = hdf5_file(tmp_path, attack)
    sweep_id = sealed(library, image)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    started = time.process_time()
    with pytest.raises(LibraryError, match=words) as caught:
        library.load(sweep_id)
    assert time.process_time() - started < 20.0
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 64_000, "kB more"
    text = str(caught.value)
    assert text.startswith(f"sweeps/{sweep_id}.h5: ")
    assert len(text) < 300
    assert "\n" not in text
    report = library.check()
    assert [fault.file for fault in report.faults] == [f"sweeps/{sweep_id}.h5"]
    other = next(r.id for r in library.records() if r.id != sweep_id)
    assert library.load(other).samples == 200


def test_what_the_attacks_start_from_is_sound(library, tmp_path):
    """So that each attack is refused for what it does."""
    assert library.load(sealed(library, hdf5_file(tmp_path, lambda file: None))).samples == 200


@pytest.mark.slow
def test_hdf5_with_flipped_bytes_under_a_right_seal_never_hangs_or_kills(library):
    """In a process of its own with an alarm and a limit on memory: the HDF5 library itself is on trial here."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.faults.fuzz_hdf5", "1", "1500"], capture_output=True, text=True, check=False,
        timeout=120, cwd=Path(__file__).parents[2],
    )  # fmt: skip
    assert done.returncode == 0, done.stderr[-500:]
    assert "1500 images" in done.stdout


def test_every_flipped_bit_is_found(library):
    """One bit anywhere: the seal is over all that follows it, and its own line is checked by its form."""
    (record,) = library.records()
    path = library.path / record.file
    whole = path.read_bytes()
    choose = random.Random(5)
    places = [*range(80), *(choose.randrange(80, len(whole)) for _ in range(120))]
    for place in places:
        data = bytearray(whole)
        data[place] ^= 1 << choose.randrange(8)
        path.write_bytes(data)
        faults = library.check().faults
        assert [f.file for f in faults] == [record.file], f"bit flipped at byte {place}"
        with pytest.raises(LibraryError):
            library.load(record.id)
    path.write_bytes(whole)
    assert library.check().faults == ()


@pytest.mark.parametrize("length", [0, 1, 50, 80, 300, 1023, 1024, 3000, -1])
def test_a_truncated_file_is_named_and_the_rest_usable(library, length):
    sweep_id = library.add(*made_sweep(2)).id
    path = library.path / "sweeps" / f"{sweep_id}.h5"
    path.write_bytes(path.read_bytes()[:length])
    assert [f.file for f in library.check().faults] == [f"sweeps/{sweep_id}.h5"]
    with pytest.raises(LibraryError, match=f"sweeps/{sweep_id}.h5: "):
        library.load(sweep_id)
    assert len([r for r in library.records() if r.id != sweep_id]) == 1
    added = library.add(*made_sweep(2))
    assert (added.id, added.new) == (sweep_id, True), "adding the rig's file again mends it"
    assert library.check().faults == ()


def test_a_later_format_is_refused_by_name_and_version_and_left_alone(library):
    (record,) = library.records()
    path = library.path / record.file
    path.write_bytes(path.read_bytes().replace(b"dynoan sweep 1 ", b"dynoan sweep 7 ", 1))
    before = path.read_bytes()
    words = rf"{record.id}\.h5: format version 7, but dynoan .* reads up to 1: update dynoan"
    for job in (lambda: library.load(record.id), lambda: library.add(*made_sweep(1)),
                lambda: library.edit(record.id, pack="x")):  # fmt: skip
        with pytest.raises(LibraryError, match=words):
            job()
    assert path.read_bytes() == before
    assert library.records() == ()
    assert "format version 7" in library.faults()[0].fault


def test_foreign_files_among_the_sweeps_are_named(library):
    for name, data in (
        ("empty.h5", b""),
        ("text.h5", b"hello"),
        ("notes.txt", b""),
        ("hdf5.h5", b"\x89HDF\r\n\x1a\n" * 99),
    ):
        (library.path / "sweeps" / name).write_bytes(data)
    os.mkfifo(library.path / "sweeps" / "pipe.h5")
    (library.path / "sweeps" / "folder.h5").mkdir()
    (library.path / "sweeps" / "dangling.h5").symlink_to("/nowhere")
    files = {fault.file for fault in library.check().faults}
    names = ("empty.h5", "text.h5", "notes.txt", "hdf5.h5", "pipe.h5", "folder.h5", "dangling.h5")
    assert files == {f"sweeps/{name}" for name in names}
    assert len(library.records()) == 1


def test_a_huge_file_is_refused_unread(library):
    path = library.path / "sweeps" / "aaaaaaaaaa.h5"
    with path.open("wb") as file:
        file.truncate(1 << 40)  # a hole: no disk is used
    started = time.process_time()
    with pytest.raises(LibraryError, match="more than the"):
        library.load("aaaaaaaaaa")
    assert time.process_time() - started < 20.0


@pytest.mark.parametrize("place", ["card", "record"])
@pytest.mark.parametrize(
    "content", ["[" * 30_000, "{}", "null", '{"shock": 3}', '{"clicks": {"lsc": "x"}}', '"' + "x" * 9000, "1e999"]
)
def test_a_hostile_card_or_record_is_refused(library, place, content):
    (record,) = library.records()
    path = library.path / record.file
    data = path.read_bytes()
    lines = data[80 : data.index(b"\x89HDF")].split(b"\n")
    lines[0 if place == "card" else 1] = content.encode()
    block = 512
    while block < 80 + len(b"\n".join(lines[:2])) + 1:
        block *= 2
    body = (b"\n".join(lines[:2]) + b"\n").ljust(block - 80) + data[data.index(b"\x89HDF") :]
    path.write_bytes(b"dynoan sweep 1 " + hashlib.sha256(body).hexdigest().encode() + b"\n" + body)
    assert [f.file for f in library.check().faults] == [record.file]


READERS = {
    "car": lambda text: car_from_text(text, "cars/x.toml"),
    "shock": lambda text: shock_from_text(text, "shocks/x.toml", "x"),
    "layout": lambda text: layout_from_text(text, "layouts/x.toml", "x"),
    "setup": lambda text: setup_from_text(text, "setups/x.toml", "x"),
}
BOMBS = {
    "empty": "", "not TOML": "= = =", "binary": "\x00\x01", "deep lists": "a = " + "[" * 200_000,
    "deep tables": "a = " + "{a=" * 100_000, "dotted key": ".".join("a" * 100_000) + " = 1",
    "dotted key in a table": "x = {" + ".".join("a" * 100_000) + " = 1}",
    "quoted dotted key": ".".join(['"a"'] * 50_000) + " = 1", "dotted header": "[" + ".".join("a" * 100_000) + "]",
    "spaced dotted key": " . ".join("a" * 50_000) + " = 1", "long integer": "a = " + "9" * 500_000,
    "too long": "# " + "x" * 1_000_001, "many keys": "\n".join(f"k{n} = 1" for n in range(50_000)),
    "many tables": "\n".join(f"[t{n}]" for n in range(50_000)), "long key": "k" * 500_000 + " = 1",
    "long name": '[surfaces."' + "x" * 10_000 + '"]\ngrip = 1', "direction marks": '"\u202eevil" = 1',
    "escape": '"\\u001b[2J" = 1', "surrogate": 'a = "\\ud800"', "no end": 'a = "', "duplicate": "a = 1\na = 2",
    "wrong kinds": "wheelbase = []\nadjusters = 3\nheader = 4\nsetup = 5", "date": "wheelbase = 1979-05-27",
    "infinity": "wheelbase = inf", "nan": "wheelbase = nan", "number": "wheelbase = 2430",
}  # fmt: skip


#: reader and bomb; texts of more than a few thousand characters are refused before any reader sees them apart
TRIED = [
    pytest.param(reader, bomb, marks=pytest.mark.thorough if len(text) > 20_000 and reader != "car" else ())
    for bomb, text in BOMBS.items()
    for reader in READERS
]


@pytest.mark.parametrize(("reader", "bomb"), TRIED)
def test_hostile_toml_is_refused_in_one_short_line(reader, bomb):
    if (reader, bomb) == ("shock", "empty"):
        pytest.skip("a shock whose file states nothing is a shock without adjusters")
    started = time.process_time()
    with pytest.raises(DynoanError) as caught:
        READERS[reader](BOMBS[bomb])
    assert time.process_time() - started < 50.0
    text = str(caught.value)
    assert text.startswith(f"{reader}s/x.toml")
    assert len(text) < 600
    assert text.isprintable()


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('mass = "268 kg"', 'mass = "-268 kg"', r"fl\.mass: -268 kg is outside"),
        ('mass = "268 kg"', "mass = 268", r"fl\.mass: '268' has no unit; write it like '268 kg'"),
        ('mass = "268 kg"', 'mass = "268 N/mm"', r"fl\.mass: 'N/mm' is no unit of mass"),
        (
            'mass = "268 kg"',
            "",
            r"fl\.mass: missing; write mass = \"268 kg\" under \[fl\], or axle_mass under \[front\]",
        ),
        ('unsprung = "34 kg"', 'unsprung = "300 kg"', r"unsprung.*not less than the 268 kg"),
        ("spring_ratio = 0.95", "spring_ratio = 9", r"front\.spring_ratio: 9 is outside"),
        ("spring_ratio = 0.95", 'spring_ratio = "0.95 mm"', r"front\.spring_ratio: found '0\.95 mm', wanted a number"),
        ("spring_ratio = 0.95", "sprung_ratio = 0.95", r"sprung_ratio: unknown key \(did you mean 'spring_ratio'\?\)"),
        ('"275 lb/in"', '"275 kg"', r"front\.spring: 'kg' is no unit of stiffness"),
        ('driven = "rear"', 'driven = "left"', r'driven: found \'left\', wanted "front" or "rear" or "all"'),
        ('clicks = "lsc=8,lsr=10"', 'clicks = "lsc=8.5"', r"fl\.clicks: 'lsc=8\.5' is not like lsc=6"),
        ('clicks = "lsc=8,lsr=10"', "clicks = 8", r"fl\.clicks: found 8, wanted text in quotes"),
        ('wheelbase = "2430 mm"', 'wheelbase = "1e400 mm"', "wheelbase"),
        ('wheelbase = "2430 mm"', 'wheelbase = "2,430 mm"', "wheelbase: .* can be read in two ways"),
        ("[rear]", 'antisquat = "60 %"\n[rear]', r"front\.antisquat: belongs in \[rear\], the driven axle"),
    ],
)
def test_nonsense_in_a_car_is_refused_with_the_key_named(old, new, words):
    assert old in CAR
    with pytest.raises(QuantityError, match=words) as caught:
        car_from_text(CAR.replace(old, new), "cars/kestrel.toml")
    assert str(caught.value).startswith("cars/kestrel.toml: ")


def test_toml_that_is_no_text_or_no_file_is_named(library):
    (library.path / "cars" / "latin.toml").write_bytes('wheelbase = "2430 mm" # für\n'.encode("latin-1"))
    os.mkfifo(library.path / "cars" / "pipe.toml")
    (library.path / "cars" / "big.toml").write_text("#" * 1_000_001)
    with pytest.raises(LibraryError, match=r"cars/latin\.toml, line 1: not UTF-8"):
        library.car("latin")
    with pytest.raises(DynoanError, match="pipe"):
        library.car("pipe")
    with pytest.raises(LibraryError, match="1000001 bytes, more than"):
        library.car("big")
    assert {fault.file for fault in library.check().faults} == {f"cars/{n}.toml" for n in ("latin", "pipe", "big")}


@pytest.mark.parametrize(("at", "value"), [(0, ["x"]), (2, "many"), (2, {"lsc": "6"}), (2, {"lsc": True}), (7, None)])
def test_the_index_is_not_believed_where_it_lies(library, at, value):
    """An index is a cache: what it says of a file that has changed, or says in a wrong form, counts for nothing."""
    (record,) = library.records()
    status = (library.path / record.file).stat()
    values = sweep_card.values_of(record)
    values[at] = value
    stamp = [status.st_size, status.st_mtime_ns, status.st_ctime_ns]
    for row in ([*values], [*values, "more"], values[:-1], [values]):
        lie = list(zip([f"{record.id}.h5", *stamp, *row], ["0000000000.h5", 1, 1, 1, *row], strict=True))
        for columns in (lie, lie[:-1], [*lie, []], dict(enumerate(lie)), [column[:1] for column in lie], lie[0], {}):
            library.cache(index.KIND, index.KEY, json.dumps(columns).encode())
            assert library.records() == (record,)


def test_an_index_that_names_a_copy_is_not_believed(library):
    """A copy that a sync tool made is the same sweep: it may not count as a second run."""
    (record,) = library.records()
    copied = library.path / "sweeps" / f"{record.id} (conflicted copy).h5"
    copied.write_bytes((library.path / record.file).read_bytes())
    status = copied.stat()
    row = [copied.name, status.st_size, status.st_mtime_ns, status.st_ctime_ns, *sweep_card.values_of(record)]
    library.cache(index.KIND, index.KEY, json.dumps([[value] for value in row]).encode())
    assert library.records() == (record,)
    assert [fault.file for fault in library.faults()] == [f"sweeps/{copied.name}"]


def test_hdf5_limits_hold_for_what_is_written():
    """What is kept can be read again: a constant channel, which packs tightest, is not taken for a bomb."""
    channels = {"force": np.zeros(3_000_000), "time": np.arange(3_000_000) / 1e3}
    image = hdf5.to_image(hdf5.Content(channels, b""), {"force": "N", "time": "s"}, "{}")
    content = hdf5.from_image(image, "x")
    assert (content.original, len(content.channels["force"])) == (b"", 3_000_000)
