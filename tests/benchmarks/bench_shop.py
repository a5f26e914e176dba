"""A dyno shop's backlog: 5,000 files added, stopped half-way and taken up again; on a Dask cluster; maps of many packs.

The runs are the demo's, each with another line at its end, so that every one is read and kept as its own. Packs are
the demo's under other names: other sweeps, so that no cache knows them. Times are those of the processor, of all
processes, a file or a pack: the clock's depend on what else the machine does. `python -m tests.benchmarks.run shop`.
"""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import cycle, islice
from pathlib import Path
from typing import Any

from dynoan.library import Library
from tests.benchmarks.bench_scale import DEMO, row

RUNS = sorted((DEMO / "dyno").iterdir())
ADDED = (500, 1_000, 5_000)
SHARED = (250, 500)  #: files that a cluster reads
PACKS = (5, 10, 20)
STOPPED_AT = 0.4  #: of the files, when Ctrl-C comes


def files(folder: Path, count: int) -> list[Path]:
    """So many runs of a shop."""
    folder.mkdir()
    found = []
    for number, path in enumerate(islice(cycle(RUNS), count)):
        found.append(folder / f"{number:05}_{path.name}")
        found[-1].write_bytes(path.read_bytes() + b"\n" * (number // len(RUNS) + 1))
    return found


def call(*arguments: object) -> list[str]:
    """The command line of one call."""
    return [sys.executable, "-m", "dynoan", *map(str, arguments)]


def worked(*arguments: object) -> float:
    """Seconds of all processors that one call takes."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(call(*arguments), capture_output=True, text=True, check=False)
    if done.returncode != 0:
        raise SystemExit(f"{arguments[0]} ended with {done.returncode}: {done.stderr[-500:]}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def kept(library: Path) -> int:
    """How many sweeps a library holds."""
    return sum(1 for _ in (library / "sweeps").glob("*.h5")) if library.exists() else 0


def stopped(runs: Sequence[Path], library: Path) -> tuple[int, int]:
    """Add, with Ctrl-C on the way: the exit code, and how many sweeps are there after it."""
    with subprocess.Popen(call("add", *runs, "--library", library), stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL) as process:  # fmt: skip
        while process.poll() is None and kept(library) < STOPPED_AT * len(runs):
            time.sleep(0.2)
        process.send_signal(signal.SIGINT)
        code = process.wait(600)
    return code, kept(library)


@contextmanager
def cluster(workers: int) -> Iterator[tuple[str, list[subprocess.Popen[bytes]]]]:
    """A scheduler and its workers as processes of their own, as a shop starts them."""
    port = 28786
    address = f"tcp://127.0.0.1:{port}"
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    scheduler = ["distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", str(port), "--no-dashboard"]
    worker = ["distributed.cli.dask_worker", address, "--nthreads", "1", "--no-dashboard"]
    running = [subprocess.Popen([sys.executable, "-m", *one], **quiet) for one in [scheduler] + [worker] * workers]  # type: ignore[call-overload]
    try:
        yield address, running
    finally:
        for process in reversed(running):
            process.terminate()
        for process in running:
            process.wait(60)


def shop(folder: Path, packs: int) -> Path:
    """A library of so many packs, each of the demo's runs of gravel under a name of its own."""
    library = folder / f"packs {packs}"
    gravel = [path for path in RUNS if "_gravel_" in path.name]
    Library.create(library)
    for number in range(packs):
        runs = folder / f"pack {packs} {number}"
        runs.mkdir()
        for path in gravel:
            (runs / path.name.replace("gravel", f"p{number:03}")).write_bytes(path.read_bytes() + b"\n" * (number + 1))
        subprocess.run(call("add", *sorted(runs.iterdir()), "--pack", f"p{number:03}", "--library", library),
                       check=True, capture_output=True)  # fmt: skip
    return library


def used(running: Sequence[subprocess.Popen[bytes]]) -> float:
    """Seconds of the processor that processes and their children took so far."""
    import psutil

    first = [psutil.Process(one.pid) for one in running]
    there = [one for process in first for one in (process, *process.children(recursive=True))]
    return float(sum(sum(one.cpu_times()[:2]) for one in there))


def shared(running: Sequence[subprocess.Popen[bytes]], *arguments: object) -> float:
    """Seconds of all processors that one call takes, those of the cluster among them."""
    before = used(running)
    return worked(*arguments) + used(running) - before


def backlog(folder: Path) -> list[dict[str, Any]]:
    """What adding takes a file; a stop half-way and the rest; what a file that is there already takes."""
    found = []
    for count in ADDED:
        runs, library = files(folder / f"runs {count}", count), folder / f"team {count}"
        if count == ADDED[-1]:
            code, there = stopped(runs, library)
            assert code != 0, code
            assert 0 < there < count, there
            rest = worked("add", *runs, "--library", library)
            assert kept(library) == count
            again = worked("add", *runs, "--library", library)
            found.append(rest / (count - there))
        else:
            found.append(worked("add", *runs, "--library", library) / count)
    what = f"{ADDED[0]}, {ADDED[1]:,}, {ADDED[2]:,} files"
    return [
        row("shop: add on all cores, a file", what, found, 1),
        row(f"shop: the same again, all kept (was stopped at {there:,}, ended with code {code})", f"{ADDED[2]:,} files",
            [again / ADDED[2]], 1),
    ]  # fmt: skip


def rows() -> list[dict[str, Any]]:
    """The rows of the table."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    with tempfile.TemporaryDirectory(prefix="shop-") as scratch:
        folder = Path(scratch)
        found = backlog(folder)
        reads, maps = [], []
        with cluster(2) as (address, running):
            for count in SHARED:
                there = ("--library", folder / f"far {count}", "--cluster", address)
                reads.append(shared(running, "add", *files(folder / f"far runs {count}", count), *there) / count)
            for count in PACKS:
                there = ("--library", shop(folder, count), "--cluster", address)
                maps.append(shared(running, "report", "--out", folder / f"{count}.html", *there) / count)
    sizes = ", ".join(map(str, SHARED)), ", ".join(map(str, PACKS))
    found.append(row("shop: add on a cluster of two, a file", f"{sizes[0]} files", reads, 1))
    found.append(row("shop: curves, maps and report on a cluster of two, a pack", f"{sizes[1]} packs", maps, 1))
    return found
