"""Taking times in turn, and writing them as rows of the benchmark table."""

from __future__ import annotations

import itertools
import statistics
import time
import tracemalloc
from collections.abc import Callable, Sequence

MIB = 2**20


def in_turn(*jobs: Callable[[], object], turns: int, warm: int = 1) -> list[float]:
    """Return the median time of each job, the jobs run in turn; the first `warm` turns are not counted. [s]"""
    times: list[list[float]] = [[] for _ in jobs]
    for turn in range(-warm, turns):
        for job, taken in zip(jobs, times, strict=True):
            started = time.perf_counter()
            job()
            if turn >= 0:
                taken.append(time.perf_counter() - started)
    return [statistics.median(taken) for taken in times]


def peak(job: Callable[[], object]) -> int:
    """Return the most memory that a job holds at once, above what was held before. [bytes]"""
    tracemalloc.start()
    job()
    found = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return found


def row(what: str, size: object, ours: str, peer: str, ratio: str) -> dict[str, object]:
    """Return one row of the table."""
    size = f"{size:,}" if isinstance(size, int) else size
    return {"what": what, "n": size, "ours": ours, "peer": peer, "ratio": ratio}


def took(seconds: float) -> str:
    """Return a time for people, to three digits."""
    if seconds < 1.0:
        return f"{seconds * 1e3:.3g} ms"
    return f"{seconds:.3g} s" if seconds < 1e3 else f"{seconds:,.0f} s"


def share(what: str, size: object, times: Sequence[float]) -> dict[str, object]:
    """Return a row that tells by how much of the peer's time ours got by."""
    ours, peer = times
    return row(what, size, took(ours), took(peer), f"{ours / peer:.2g} × its time")


def faster(what: str, size: object, times: Sequence[float], *more: str) -> dict[str, object]:
    """Return a row that tells how many times faster ours was."""
    ours, peer = times
    gain = peer / ours
    return row(what, size, took(ours), took(peer), ", ".join([f"{gain:,.{0 if gain > 10 else 1}f} × faster", *more]))


def short(count: int) -> str:
    """Return a count as 20k or 2M."""
    for size, letter in ((1_000_000, "M"), (1_000, "k")):
        if count >= size:
            return f"{count / size:.3g}{letter}"
    return str(count)


def growth(what: str, unit: str, counts: Sequence[int], times: Sequence[float], step: int = 10) -> dict[str, object]:
    """Return a row of one job at growing sizes; `step` is what each step may cost where time grows as it should."""
    steps = ", ".join(f"{b / a:.2g}" for a, b in itertools.pairwise(times))
    return row(what, f"{', '.join(map(short, counts))} {unit}", ", ".join(map(took, times)),
               f"{step} × a step", f"{steps} × a step")  # fmt: skip
