"""Files made to take all time or memory, given to every command that takes a file: one line, soon, little memory.

Holes stand for 100 GB of disk; a small file may unpack, nest or name without end. What is measured is the processor's
time and the growth of this process's largest memory; what other processes read is bounded where they are started.
"""

from __future__ import annotations

import io
import resource
import time
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import click
import h5py
import numpy as np
import pytest

from dynoan.cli.main import cli
from dynoan.library import Library
from tests.importers.records.hostile import array, element, mat
from tests.library.calling import dynoan, write_run
from tests.library.made import CAR, made_sweep

SPARSE = 100 << 30  #: what a file of holes says it has [bytes]
MANY = 12_000  #: names in a file; what took the square of it, a microsecond a pair, would be far over the limit
MOST_TIME, MOST_MEMORY = 20.0, 300.0  #: [s of the processor], [MB more]
#: commands with the place of a file left open; the texts of a library are read from where they lie
READERS = (
    ("read", "{}"), ("add", "{}"), ("curve", "{}"), ("compare", "{}"), ("match", "run.csv", "{}"), ("identify", "{}"),
    ("travel", "{}"), ("bounce", "{}", "--axle", "front"),
    ("learn", "{}", "--car", "kestrel", "--surface", "loose"), ("launch", "kestrel", "--trace", "{}"),
    ("trial", "run", "start", "--from", "{}"), ("setup", "record", "--from", "{}"), ("report", "{}"),
    ("trackside", "{}"), ("ratio", "{}"), ("choose", "{}"), ("carry", "{}", "kestrel"), ("launch", "{}"),
    ("setup", "record", "{}"), ("setup", "compare", "kestrel", "{}"), ("health", "{}"), ("plan", "{}"),
)  # fmt: skip


def bomb() -> bytes:
    """Two megabytes of a workbook with 1.3 million rows."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as archive:
        archive.writestr("[Content_Types].xml", "")
        with archive.open("xl/worksheets/sheet1.xml", "w") as part:
            for _ in range(130):
                part.write(b"<row><c><v>1</v></c></row>" * 10_000)
    return out.getvalue()


def linked() -> bytes:
    """An HDF5 file whose numbers are links to other files."""
    out = io.BytesIO()
    with h5py.File(out, "w") as file:
        file["force"] = h5py.ExternalLink("/etc/passwd", "/force")
        file["time"] = h5py.SoftLink("/nowhere")
        layout = h5py.VirtualLayout((5,), "f8")
        layout[:] = h5py.VirtualSource("/etc/passwd", "force", (5,))
        file.create_virtual_dataset("velocity", layout)
    return out.getvalue()


FILES: dict[str, Callable[[], bytes]] = {
    "bomb.xlsx": bomb,
    "deep.json": lambda: b"[" * 5_000_000,
    "deep-objects.json": lambda: b'{"a":' * 1_000_000,
    "names.json": lambda: b"{" + b",".join(b'"k%d":[1,2]' % k for k in range(MANY)) + b"}",
    "keys.toml": lambda: b"\n".join(b"%d=1" % k for k in range(MANY)),
    "tables.toml": lambda: b"\n".join(b"[t%d]" % k for k in range(MANY)),
    "runs.toml": lambda: b"[[run]]\n" * MANY,
    "brackets.csv": lambda: b"[" * 100_000 + b",s\n4.5,1\n",
    "numbers.mat": lambda: mat(array(6, (1 << 30, 1 << 30), element(9, bytes(16)))),
    "linked.h5": linked,
    "linked.mat": linked,
    "quotes.csv": lambda: b"Velocity [mm/s],Force [N]\n" + b'"' * 2_000_000,
    "line.csv": lambda: b"Velocity [mm/s],Force [N]\n" + b"1," * 300_000,
    "zeros.csv": lambda: bytes(2_000_000),
}
HOLES = ("holes", "holes.csv", "holes.toml", "holes.json", "holes.xlsx", "holes.ods", "holes.mat", "holes.h5")
ALL = (*FILES, *HOLES)
FEW = ("keys.toml", "holes.toml", "holes.xlsx", "deep.json")  #: for commands behind the same reader as another
#: a command of each way to read: sweeps, logs, results, traces, setups
WHOLE = tuple(
    line for line in READERS if line[0] in ("read", "travel", "trial") or "--trace" in line or "--from" in line
)


@pytest.fixture(scope="module")
def hostile(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    for name, make in FILES.items():
        (folder / name).write_bytes(make())
    for name in HOLES:
        with (folder / name).open("wb") as file:
            file.truncate(SPARSE)
    return folder


@pytest.fixture(scope="module")
def library(tmp_path_factory, hostile) -> Library:
    library = Library.create(tmp_path_factory.mktemp("bounded") / "lib")
    library.add(*made_sweep())
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    write_run(library.path / "run.csv")
    assert dynoan("--library", library.path, "trial", "new", "start", "--a", "soft", "--b", "hard").code == 0
    return library


def spent(words: tuple[object, ...]) -> tuple[int, str, float, float]:
    """Return exit code, error, time [s] and growth of memory [MB] of a command."""
    before, started = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, time.process_time()
    done = dynoan(*words)
    took = time.process_time() - started
    return done.code, done.err, took, (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024


@pytest.mark.parametrize("words", READERS, ids=" ".join)
def test_a_file_made_to_take_all_is_refused_soon_in_one_line(library, hostile, monkeypatch, words):
    monkeypatch.chdir(library.path)
    dynoan(*(w.format("run.csv") for w in words))  # so that what is loaded once is not counted
    for name in ALL if words in WHOLE else FEW:
        code, said, took, grown = spent(tuple(w.format(hostile / name) for w in words))
        assert code == 2, (name, said)
        assert said, name
        assert "\n" not in said.strip(), (name, said)
        assert "fault of the program" not in said, (name, said)
        assert len(said) < 700, (name, said)
        assert took < MOST_TIME, (name, took)
        assert grown < MOST_MEMORY, (name, grown)


def takers(command: click.Command, context: click.Context, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Yield the words of each command that reads a file by an argument or an option of its own."""
    if isinstance(command, click.Group):
        for name in command.list_commands(context):
            inner = command.get_command(context, name)
            yield from takers(inner, click.Context(inner, parent=context, info_name=name), (*path, name))
        return
    for part in command.params:
        if isinstance(part.type, click.Path) and (part.name not in NO_INPUT):
            yield path


NO_INPUT = ("plot", "out", "sheet", "target", "folder", "library")


def test_every_command_that_takes_a_file_is_among_those_tried():
    known = set(takers(cli, click.Context(cli)))
    assert len(known) >= 8
    assert all(any(line[: len(path)] == path for line in READERS) for path in known), known


TEXTS = ("cars", "shocks", "setups", "layouts", "trials")


@pytest.mark.parametrize("folder", TEXTS)
def test_a_text_of_a_library_that_takes_all_is_named_and_the_rest_usable(tmp_path, hostile, folder):
    library = Library.create(tmp_path / "lib")
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    place = library.path / folder
    place.mkdir(exist_ok=True)
    names = ("keys.toml", "runs.toml", "holes.toml")
    for name in names:
        (place / name).symlink_to(hostile / name)
    started = time.process_time()
    done = dynoan("--library", library.path, "check")
    assert time.process_time() - started < len(TEXTS) * MOST_TIME
    assert done.code == 1
    for name in names:
        told = [line for line in (done.out + done.err).splitlines() if f"{folder}/{name}" in line]
        assert told, name
    assert np.isfinite(library.car("kestrel").wheelbase)
