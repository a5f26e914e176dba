"""Keeping a sweep, listing many, and the command line's start, against plain h5py and plain click.

Peer and ours run in turn in one process; medians of wall time are compared, since waiting for the disk counts here.
The sweep is a rig's: 20,000 rows of time, displacement, velocity and force as its CSV rounds them.
"""

from __future__ import annotations

import hashlib
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import h5py
import numpy as np

from dynoan.library import Library
from dynoan.library.sweep_file import Kept, encode
from dynoan.model.sweep import Source, Sweep
from tests.library.made import made_sweep

ROWS = 20_000
MANY = (100, 1_000, 10_000)
CLICK = """
import click
@click.group()
def cli(): pass
for n in range(19):
    cli.command(name=f'command{n}', help='Do something.')(click.option('--json', is_flag=True)(lambda json: None))
cli(['--help'])
"""


def medians(*jobs: Callable[[int], object], turns: int) -> list[float]:
    """Run the jobs in turn and return the median time of each. [s]"""
    times: list[list[float]] = [[] for _ in jobs]
    for turn in range(-1, turns):
        for job, taken in zip(jobs, times, strict=True):
            started = time.perf_counter()
            job(turn)
            if turn >= 0:  # the first of each only warms up
                taken.append(time.perf_counter() - started)
    return [statistics.median(taken) for taken in times]


def row(what: str, size: str, times: Sequence[float]) -> dict[str, object]:
    """One row of the table."""
    ours, peer = times
    return {"what": what, "n": size, "ours": f"{ours * 1e3:.2f} ms", "peer": f"{peer * 1e3:.2f} ms",
            "ratio": f"{ours / peer:.3g} x its time"}  # fmt: skip


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
    library = Library.create(folder / "keeping")

    def ours(turn: int) -> None:
        library.add(*runs[turn])

    def bare(turn: int, kind: str = "f4", original: bool = False) -> None:
        with h5py.File(folder / f"bare {turn} {kind}.h5", "w") as file:
            for name, values in runs[turn][0].channels.items():
                file.create_dataset(name, data=values.astype(kind), compression="gzip", compression_opts=1)
            if original:
                file.create_dataset("original", data=np.frombuffer(runs[turn][1], "u1"), compression="gzip",
                                    compression_opts=1)  # fmt: skip

    yield row("keep a sweep, durable, with the rig's bytes, against h5py gzip 1 of float32 channels alone, not synced",
              f"{ROWS} rows", medians(ours, bare, turns=14))  # fmt: skip
    again = Library.create(folder / "again")
    yield row("the same against h5py gzip 1 of the same content, not synced", f"{ROWS} rows",
              medians(lambda turn: again.add(*runs[turn]), lambda turn: bare(turn, "f8", True), turns=14))  # fmt: skip


def many_sweeps(folder: Path, count: int) -> Library:
    """A library of many small sweeps, written some time ago."""
    library = Library.create(folder / f"many {count}")
    data = encode(Kept(*made_sweep(0, samples=20), "2026-01-01T00:00:00.000Z"))
    for number in range(count):
        path = library.path / "sweeps" / f"{hashlib.sha256(str(number).encode()).hexdigest()[:10]}.h5"
        path.write_bytes(data)
        os.utime(path, (1.7e9, 1.7e9))
    return library


def listing(folder: Path) -> Iterator[dict[str, object]]:
    """H2: the list, unchanged and with its index deleted, against opening every file with h5py; and its growth."""
    small = None
    for count in MANY:
        library = many_sweeps(folder, count)

        def unchanged(_turn: int, library: Library = library) -> None:
            library.records()

        def anew(_turn: int, library: Library = library) -> None:
            (library.path / "cache" / "index.json").unlink(missing_ok=True)
            library.records()

        def opening(_turn: int, library: Library = library) -> None:
            for path in (library.path / "sweeps").iterdir():
                with h5py.File(path) as file:
                    file.attrs["record"]

        turns = 5 if count < 5_000 else 1
        known, made, opened = medians(unchanged, anew, opening, turns=turns)
        yield row("list, against opening all with h5py", f"{count} sweeps", (known, opened))
        yield row("list, index deleted, against opening all with h5py", f"{count} sweeps", (made, opened))
        small = small or library
    runs = [made_sweep(n, samples=2000) for n in range(5000, 5041)]
    times = medians(lambda turn: library.add(*runs[turn]), lambda turn: small.add(*runs[turn]), turns=40)
    yield row("add one to a library of 10,000, against one of 100", "2000 rows", times)


def starting() -> Iterator[dict[str, object]]:
    """S1: --help in a fresh process, against click with 19 commands."""

    def run(*words: str) -> None:
        subprocess.run([sys.executable, *words], capture_output=True, check=True)

    yield row("--help, against click with 19 commands", "a process",
              medians(lambda _: run("-m", "dynoan", "--help"), lambda _: run("-c", CLICK), turns=11))  # fmt: skip


def rows() -> list[dict[str, object]]:
    """The rows of the benchmark table."""
    with tempfile.TemporaryDirectory() as folder:
        return [*keeping(Path(folder)), *listing(Path(folder)), *starting()]


if __name__ == "__main__":
    from tests.benchmarks.run import table as markdown

    print(markdown(rows()))
