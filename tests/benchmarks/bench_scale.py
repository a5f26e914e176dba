"""A season of a dyno shop: 100,000 sweeps of 300 shocks listed, filtered, opened; what a sweep costs as there are more.

The large library holds one run's file many times over, cut to 64 rows, with another name, shock, pack and clicks each,
sealed anew: such files are listed, checked and read as any other. Steps of ten show the slope. Real runs are added by
`dynoan add`: the demo's files with another line each, so that every one is read and kept as its own. Times are the
processor's, of all processes: the clock's depend on what else the machine does.
"""

from __future__ import annotations

import hashlib
import itertools
import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import httpx

from dynoan.jobs import sweeps
from dynoan.library import Library, index
from dynoan.library.sweep_file import _sealed, decode, encode
from dynoan.reading import read
from dynoan.window.grid import grid_of
from dynoan.workbench import Workbench
from tests.benchmarks.bench_window import window

DEMO = Path(__file__).parents[2] / "fixtures" / "demo"
RUN = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
STEPS = (1_000, 10_000, 100_000)
SHOCKS, PACKS = 300, 300
ADDED = (50, 100, 200)


def _template() -> bytes:
    """A small sweep file, its seal left out."""
    with tempfile.TemporaryDirectory() as folder:
        library = Library.create(Path(folder) / "one")
        library.add(read(RUN)[0], RUN.read_bytes())
        (first,) = (library.path / "sweeps").glob("*.h5")
        kept = decode(first.read_bytes(), first.name)
    small = {name: values[:64] for name, values in kept.sweep.channels.items()}
    return encode(replace(kept, sweep=replace(kept.sweep, channels=small), original=b"x"))


def shop(folder: Path, count: int) -> Library:
    """A library of so many sweeps of 300 shocks, of which each pack has its share."""
    library = Library.create(folder)
    whole = _template()
    text, image = whole[80 : (at := whole.index(b"\x89HDF"))].rstrip(), whole[at:]
    card, record = (json.loads(line) for line in text.split(b"\n"))
    card.pop("seal")
    for number in range(count):
        which = number * SHOCKS // count
        turn = number % 441
        said = {"shock": f"S-{which:03}", "pack": f"pack {which * PACKS // SHOCKS:03}",
                "clicks": {"lsc": turn % 21, "hsc": 10, "lsr": turn // 21, "hsr": 10},
                "part": str(number)}  # fmt: skip
        line = _sealed(json.dumps(card | said, separators=(",", ":")))
        body = f"{line}\n{json.dumps(_into(record, said))}\n".encode().ljust(at - 80) + image
        seal = hashlib.sha256(body).hexdigest()
        path = library.path / "sweeps" / f"{number:010x}.h5"
        path.write_bytes(b"dynoan sweep 1 %s\n" % seal.encode() + body)
    time.sleep(index.SETTLED / 1e9 + 0.1)
    return library


def _into(record: dict[str, Any], said: dict[str, Any]) -> dict[str, Any]:
    return {k: said.get(k, _into(v, said) if isinstance(v, dict) else v) for k, v in record.items()}


def worked(do: Callable[[], object]) -> float:
    """Seconds of the processor that something takes in this process."""
    begun = time.process_time()
    do()
    return time.process_time() - begun


def listed(library: Library) -> dict[str, float]:
    """Seconds for what the list of a library is asked."""
    bench = Workbench(library)
    shutil.rmtree(library.path / "cache" / "index", ignore_errors=True)
    return {
        "listed, index deleted": worked(library.records), "listed, unchanged": worked(library.records),
        "the sweeps of a shock": worked(lambda: sweeps.answer(bench, sweeps.SweepsQuestion.asked("shock=S-007"))),
        "the grid of all packs": worked(lambda: grid_of(bench.records)),
        "whether a pack's map is there, after the list": worked(lambda: bench.has_map("pack 008")),
    }  # fmt: skip


def opened(folder: Path) -> dict[str, float]:
    """Seconds of a fresh window's processor for its first page and others, and its memory at the end [MB]."""
    with window(folder) as (address, process), httpx.Client(follow_redirects=True, timeout=3600) as browser:
        base = address.partition("/enter")[0]

        def asked(path: str) -> float:
            before = sum(process.cpu_times()[:2])
            browser.get(path).raise_for_status()
            return sum(process.cpu_times()[:2]) - before

        return {
            "first page of a fresh window": asked(address), "its packs": asked(f"{base}/packs"),
            "its packs again": asked(f"{base}/packs"), "its packs, one found": asked(f"{base}/packs?find=S-007"),
            "its files": asked(f"{base}/files"), "memory": process.memory_info().rss / 1e6,
        }  # fmt: skip


def added(folder: Path, count: int, workers: int) -> float:
    """Seconds of all processors that `dynoan add` takes for so many real runs, a sweep."""
    runs = folder / f"runs {count}"
    runs.mkdir()
    for number, path in enumerate(itertools.islice(itertools.cycle(sorted((DEMO / "dyno").iterdir())), count)):
        (runs / f"{number:05}_{path.name}").write_bytes(path.read_bytes() + b"\n" * (number // 22 + 1))
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    library = ["--library", str(folder / f"team {count}"), "--workers", str(workers)]
    command = [sys.executable, "-m", "dynoan", "add", *map(str, sorted(runs.iterdir())), *library]
    subprocess.run(command, check=True, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime) / count


def slope(found: Sequence[float]) -> str:
    """How many times as much each step takes as the one before."""
    return ", ".join(f"{b / a:.2g}" for a, b in itertools.pairwise(found) if a > 0)


def rows() -> list[dict[str, Any]]:
    """The rows of the table."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    with tempfile.TemporaryDirectory(prefix="scale-") as scratch:
        libraries = [shop(Path(scratch) / f"shop {count}", count) for count in STEPS]
        lists, pages = [listed(one) for one in libraries], [opened(one.path) for one in libraries]
        adds = [added(Path(scratch), count, 2) for count in ADDED]
    size, many = ", ".join(f"{n // 1000}k" for n in STEPS), ", ".join(map(str, ADDED))
    return [
        *(row(f"growth: {key}", f"{size} sweeps", [one[key] for one in found], 10) for found in (lists, pages)
          for key in found[0]),
        row("growth: add on two cores, a sweep", f"{many} files", adds, 1),
    ]  # fmt: skip


def row(what: str, size: str, found: Sequence[float], each: float) -> dict[str, Any]:
    """One row of the table."""
    unit, factor = ("MB", 1.0) if "memory" in what else ("ms", 1e3)
    ours = ", ".join(f"{value * factor:.3g} {unit}" for value in found)
    return {"what": what, "n": size, "ours": ours, "peer": f"{each:g} × a step", "ratio": f"{slope(found)} × a step"}
