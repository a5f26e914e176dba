"""Profiles one job and prints where its time goes: ``python -m tests.benchmarks.profile_job JOB [LINES] [ORDER]``.

JOB is read, add, fit, map, choose, launch or demo; LINES of the profile are printed (25), by ORDER (cumulative; or
tottime, calls, …). A job runs once before it is profiled, so that imports and compiling are not counted; the demo is
profiled cold, as a user meets it.
"""

from __future__ import annotations

import cProfile
import io
import os
import pstats
import sys
import tempfile
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as in the command line
Job = Callable[[], object]


def read(_folder: Path) -> Job:
    """Read a trace of 200,000 rows, told nothing."""
    from dynoan.reading import read_bytes
    from tests.benchmarks.bench_import import trace

    data = trace(200_000)
    return lambda: read_bytes(data, "trace.csv")


def add(folder: Path) -> Job:
    """Keep fifty sweeps of 20,000 samples, each durably."""
    from dynoan.library import Library
    from tests.benchmarks.bench_library import rig_sweep

    runs = [rig_sweep(n) for n in range(50)]

    def job() -> None:
        library = Library.create(Path(tempfile.mkdtemp(dir=folder)))
        for run in runs:
            library.add(*run)

    return job


def curve(_folder: Path) -> Job:
    """Condition and fit a record of 20,000 samples."""
    from dynoan.analysis.fitting.fit import fit
    from tests.benchmarks.bench_growth import made_record

    record = made_record(20_000)
    return lambda: fit(record)


def click_map(_folder: Path) -> Job:
    """Fit a click map from 30 sweeps."""
    from dynoan.analysis.clickmap.mapping import fit_map
    from tests.analysis.made_packs import FOUR, made_pack, sweeps_of
    from tests.benchmarks.bench_maps import settings

    tests = sweeps_of(made_pack(3), 3, settings(), shocks=2)
    return lambda: fit_map("made", FOUR, tests)


def choose(_folder: Path) -> Job:
    """The best ten of 1,990,656 settings, with bands and sensitivities."""
    from tests.benchmarks.bench_choose import made_packs, made_place, whole_answer

    maps = made_packs()
    place = made_place(maps)
    return lambda: whole_answer(place, maps)


def launch(_folder: Path) -> Job:
    """A thousand settings of a launch."""
    from tests.benchmarks.bench_launch import Case
    from tests.oracles.small_angle.running import run_figures

    case = Case(5e-4, 1_000)
    return lambda: run_figures(case.half, case.scene, case.damping)


def demo(folder: Path) -> Job:
    """The whole demo in this process; reading and fitting that it shares out to others count as waiting."""
    from dynoan.cli.main import run

    return lambda: run(["demo", str(folder / "demo")], folder=folder, quiet=True)


JOBS: dict[str, Callable[[Path], Job]] = {
    "read": read, "add": add, "fit": curve, "map": click_map, "choose": choose, "launch": launch, "demo": demo,
}  # fmt: skip


def profile(name: str, lines: int = 25, order: str = "cumulative") -> str:
    """Return the profile of a job as text."""
    profiler = cProfile.Profile()
    with tempfile.TemporaryDirectory() as folder:
        job = JOBS[name](Path(folder))
        if name != "demo":
            job()
        with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
            profiler.runcall(job)
    text = io.StringIO()
    pstats.Stats(profiler, stream=text).strip_dirs().sort_stats(order).print_stats(lines)
    return text.getvalue()


def main(words: list[str]) -> None:
    """Profile the job named; without one, say which there are."""
    if not words or words[0] not in JOBS:
        print(__doc__, *(f"{name:8} {job.__doc__}" for name, job in JOBS.items()), sep="\n")
        sys.exit(2)
    print(profile(words[0], int(words[1]) if len(words) > 1 else 25, words[2] if len(words) > 2 else "cumulative"))


if __name__ == "__main__":
    main(sys.argv[1:])
