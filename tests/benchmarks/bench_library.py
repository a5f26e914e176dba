"""Keeping a sweep, listing many, and the command line's start, against plain h5py and plain click.

Peer and ours run in turn in one process; medians of wall time are compared, since waiting for the disk counts here.
The sweep is a rig's: 20,000 rows of time, displacement, velocity and force as its CSV rounds them.
"""

from __future__ import annotations

import hashlib
import itertools
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import h5py
import numpy as np

from dynoan.library import Library, index
from dynoan.library.sweep_file import Kept, encode
from dynoan.model.sweep import Source, Sweep
from tests.benchmarks.measuring import in_turn, row, share
from tests.library.made import made_sweep

ROWS = 20_000
MANY = 10_000
HEAVY = ("numpy", "pandas", "scipy", "matplotlib", "h5py", "numba", "pyarrow", "importlib.metadata")
LOADED = f"""
import sys
from dynoan.cli.main import main
sys.argv = ["dynoan", "--help"]
try:
    main()
except SystemExit:
    pass
print("loaded:", ",".join(name for name in {HEAVY!r} if name in sys.modules))
"""
CLICK = """
import click
@click.group()
def cli(): pass
for n in range(19):
    cli.command(name=f'command{n}', help='Do something.')(click.option('--json', is_flag=True)(lambda json: None))
cli(['--help'])
"""


def rig_sweep(number: int) -> tuple[Sweep, bytes]:
    """A sweep and the CSV it came from."""
    at = np.arange(ROWS) / 1000.0
    random = np.random.default_rng(number)
    speed = np.round(300 * np.cos(10 * at) + random.normal(0, 0.5, ROWS), 2)
    columns = (at, np.round(30 * np.sin(10 * at), 3), speed, np.round(9 * speed + random.normal(0, 8, ROWS), 1))
    lines = (f"{t:.3f},{x:.3f},{v:.2f},{f:.1f}\n" for t, x, v, f in zip(*columns, strict=True))
    original = "".join(lines).encode()
    names = ("time", "displacement", "velocity", "force")
    channels = {n: c * s for n, c, s in zip(names, columns, (1.0, 1e-3, 1e-3, 1.0), strict=True)}
    return Sweep("trace", channels, Source(f"{number}.csv", hashlib.sha256(original).hexdigest(), "text"),
                 shock="FL-01", pack="gravel", clicks={"lsc": 6}), original  # fmt: skip


def keeping(folder: Path) -> Iterator[dict[str, object]]:
    """H1: an add, durable, with the rig's bytes and checksums, against h5py that only writes."""
    runs = [rig_sweep(n) for n in range(16)]
    names = (str(n) for n in itertools.count())

    def ours() -> Iterator[None]:
        library = Library.create(folder / next(names))
        for run in runs:
            library.add(*run)
            yield

    def bare(kind: str, original: bool) -> Iterator[None]:
        for sweep, data in runs:
            with h5py.File(folder / f"{next(names)}.h5", "w") as file:
                for name, values in sweep.channels.items():
                    file.create_dataset(name, data=values.astype(kind), compression="gzip", compression_opts=1)
                if original:
                    file.create_dataset("original", data=np.frombuffer(data, "u1"), compression="gzip",
                                        compression_opts=1)  # fmt: skip
            yield

    for what, kind, original in (("float32 channels alone", "f4", False), ("the same content", "f8", True)):
        mine, theirs = ours(), bare(kind, original)
        times = in_turn(lambda: next(mine), lambda: next(theirs), turns=15)  # noqa: B023
        yield share(f"H1: keep a sweep durably, against h5py gzip 1 of {what}, not synced", f"{ROWS:,} rows", times)


def many_sweeps(folder: Path, count: int) -> Library:
    """A library of many small sweeps, written some time ago."""
    library = Library.create(folder / f"many {count}")
    data = encode(Kept(*made_sweep(0, samples=20), "2026-01-01T00:00:00.000Z"))
    for number in range(count):
        path = library.path / "sweeps" / f"{hashlib.sha256(str(number).encode()).hexdigest()[:10]}.h5"
        path.write_bytes(data)
    time.sleep(index.SETTLED / 1e9 + 0.1)  # what is younger is read again each time
    return library


def listing(folder: Path) -> Iterator[dict[str, object]]:
    """H2: the list, unchanged and with its index deleted, against opening every file with h5py."""
    library = many_sweeps(folder, MANY)

    def anew() -> None:
        shutil.rmtree(library.path / "cache" / "index", ignore_errors=True)
        library.records()

    def opening() -> None:
        for path in (library.path / "sweeps").iterdir():
            with h5py.File(path) as file:
                file.attrs["record"]

    made, known, opened = in_turn(anew, library.records, opening, turns=3)
    yield share("H2: list, unchanged, against opening all with h5py", f"{MANY:,} sweeps", (known, opened))
    yield share("H2: list, index deleted, against opening all with h5py", f"{MANY:,} sweeps", (made, opened))


def starting() -> Iterator[dict[str, object]]:
    """S1, S2: --help in a fresh process, against click with 19 commands; and what it has loaded."""

    def run(*words: str) -> str:
        return subprocess.run([sys.executable, *words], capture_output=True, check=True, text=True).stdout

    times = in_turn(lambda: run("-m", "dynoan", "--help"), lambda: run("-c", CLICK), turns=11)
    yield share("S1: --help, against click with 19 commands", "a process", times)
    loaded = run("-c", LOADED).rpartition("loaded:")[2].strip()
    yield row("S2: heavy modules loaded by --help", f"{len(HEAVY)} looked for", loaded or "none", "none allowed", "")


def rows() -> list[dict[str, object]]:
    """The rows of the benchmark table."""
    with tempfile.TemporaryDirectory() as folder:
        return [*keeping(Path(folder)), *listing(Path(folder)), *starting()]


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows()))
