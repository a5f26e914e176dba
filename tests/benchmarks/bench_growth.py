"""How time and memory grow with the size of a file, a record, a set of points and a library.

The peer is what each step of ten may cost: ten times, or nothing more. Memory is held against the record itself.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np

from dynoan.analysis.fitting.fit import fit
from dynoan.model.sweep import Sweep
from dynoan.reading import read_bytes
from tests.analysis.conditioning_records import RUN, SOFT, recorded
from tests.benchmarks.bench_fit import points
from tests.benchmarks.bench_import import trace
from tests.benchmarks.bench_library import many_sweeps
from tests.benchmarks.measuring import MIB, growth, in_turn, peak, row, short
from tests.library.made import made_sweep
from tests.oracles.broken_stick import broken_stick


def reading() -> dict[str, object]:
    """A CSV's rows, told nothing of it."""
    counts = (2_000, 20_000, 200_000, 2_000_000)
    files = [trace(n) for n in counts]
    times = [in_turn(lambda f=file: read_bytes(f, "trace.csv"), turns=5)[0] for file in files]  # type: ignore[misc]
    return growth("growth: read a CSV, told nothing", "rows", counts, times)


def made_record(samples: int) -> Sweep:
    """A record of about so many samples: the same shock and speeds, more cycles."""
    stiff = replace(SOFT, stiffness=np.inf)  # no lag of the oil: that takes the rig a loop over all samples
    four = recorded(stiff, 1).samples
    return recorded(stiff, 1, replace(RUN, cycles=max(1, round(RUN.cycles * samples / four))))


def curves() -> Iterator[dict[str, object]]:
    """Conditioning and fitting a record: time, and peak memory beside the record's own."""
    records = [made_record(n) for n in (20_000, 200_000, 2_000_000)]
    counts = [record.samples for record in records]
    times = [in_turn(lambda r=r: fit(r), turns=3)[0] for r in records]  # type: ignore[misc]
    yield growth("growth: condition and fit a record", "samples", counts, times)
    sizes = [sum(values.nbytes for values in record.channels.values()) for record in records]
    peaks = [peak(lambda r=r: fit(r)) for r in records]  # type: ignore[misc]
    yield row("growth: memory of that, against the record", f"{', '.join(map(short, counts))} samples",
              ", ".join(f"{p / MIB:.3g}" for p in peaks) + " MiB", ", ".join(f"{s / MIB:.3g}" for s in sizes) + " MiB",
              ", ".join(f"{p / s:.2g}" for p, s in zip(peaks, sizes, strict=True)) + " × the record")  # fmt: skip


def knees() -> dict[str, object]:
    """F6: three knees in ever more points."""
    counts = (2_000, 20_000, 200_000)
    sets = [points(n) for n in counts]
    times = [in_turn(lambda s=s: broken_stick(s[0], s[1], 3), turns=9)[0] for s in sets]  # type: ignore[misc]
    return growth("F6 growth: fit, 3 knees", "points", counts, times)


def libraries(folder: Path) -> Iterator[dict[str, object]]:
    """Listing ever larger libraries, and adding one sweep to them."""
    counts = (10, 100, 1_000, 10_000)
    kept = [many_sweeps(folder, n) for n in counts]
    listed = [in_turn(library.records, turns=5)[0] for library in kept[1:]]
    yield growth("growth: list a library, unchanged", "sweeps", counts[1:], listed)
    runs = iter([made_sweep(n, samples=2_000) for n in range(5_000, 5_200)])
    times = in_turn(*(lambda x=library: x.add(*next(runs)) for library in kept), turns=40)  # type: ignore[misc]
    yield growth("growth: add one to a library", "sweeps", counts, times, step=1)


def rows() -> list[dict[str, object]]:
    """The rows of the benchmark table."""
    with tempfile.TemporaryDirectory() as folder:
        return [reading(), *curves(), knees(), *libraries(Path(folder))]


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows()))
