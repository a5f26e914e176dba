"""Hold a fit against the truth, row by row.

`fit(record)` gives an `Estimate`: a band of the damping alone at any signed velocity, if it can one of damping and
friction together, or a refusal with its reason. The table says how often the band held the truth, how wide it was
against the error it made, how large that error was, and how often nothing was said. NaN in a band is "nothing said
here".

    python -m tests.worlds.score package.module:fit --rows "clean,any" --records 18 --jobs 2
"""

from __future__ import annotations

import argparse
import importlib
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial

import numpy as np

from tests.worlds.rows import ROWS, draw
from tests.worlds.valves import FloatArray
from tests.worlds.world import Record

SLOWEST = 0.01
"""No speed below this is scored [m/s]."""
INSIDE = 0.98
"""Fastest speed scored over the fastest covered: at the very peak there are no samples beyond it."""
PER_DIRECTION = 24
POINTS = (0.02, 0.05, 0.10, 0.25)
"""Speeds with a column of their own [m/s]."""


@dataclass(frozen=True, eq=False)
class Band:
    """Value and 95 % band at the velocities asked for [N]."""

    value: FloatArray
    low: FloatArray
    high: FloatArray


@dataclass(frozen=True, eq=False)
class Estimate:
    """What a fit says of one record."""

    damping: Callable[[FloatArray], Band] | None = None  #: signed velocity [m/s] to damping alone
    total: Callable[[FloatArray], Band] | None = None  #: to damping and friction together, where the fit offers it
    refused: str | None = None  #: reason for giving no curve; then both bands are ignored
    knees: Sequence[float] = ()  #: signed [m/s]


Fit = Callable[[Record], Estimate]


@dataclass(frozen=True, eq=False)
class Outcome:
    """One record's points: errors and half-widths as shares of the range of its true damping."""

    velocity: FloatArray
    error: FloatArray  #: NaN where nothing was said
    half: FloatArray
    held: FloatArray  #: 1 where the band holds the truth, 0 where not, NaN where nothing was said
    total_held: FloatArray  #: the same for the sum
    refused: str | None = None


def grid(record: Record) -> FloatArray:
    """Return the signed velocities scored: log-spaced in both directions within the covered speeds, and `POINTS` in
    them.

    Empty where the record covers none.
    """
    low, high = max(SLOWEST, record.covered[0]), INSIDE * record.covered[1]
    if low >= high:
        return np.array([])
    speeds = np.union1d(np.geomspace(low, high, PER_DIRECTION), [p for p in POINTS if low <= p <= high])
    return np.concatenate([-speeds[::-1], speeds])


def _holds(band: Band, truth: FloatArray) -> FloatArray:
    held = ((band.low <= truth) & (truth <= band.high)).astype(float)
    return np.where(np.isfinite(band.low + band.high + band.value), held, np.nan)


def outcome(record: Record, estimate: Estimate) -> Outcome:
    """Return how an estimate did on its record."""
    v = grid(record)
    nothing = np.full(v.size, np.nan)
    if estimate.refused is not None or estimate.damping is None:
        return Outcome(v, nothing, nothing, nothing, nothing, estimate.refused or "no curve")
    truth, band = record.truth(v), estimate.damping(v)
    span = float(np.ptp(truth))
    held = _holds(band, truth)
    said = np.where(np.isnan(held), np.nan, 1.0)
    both = nothing if estimate.total is None else _holds(estimate.total(v), truth + record.friction(v))
    return Outcome(v, said * (band.value - truth) / span, said * 0.5 * (band.high - band.low) / span, held, both)


@dataclass(frozen=True)
class Score:
    """One row of the table; shares 0 to 1, NaN where there is nothing to count."""

    row: str
    records: int
    refused: float
    silent: float  #: share of points of accepted records at which nothing was said
    held: float
    held_at: tuple[float, ...]  #: at `POINTS`
    total_held: float
    width: float  #: median half-width over the 95th percentile of the error
    rms: float  #: of the error over the range

    def honest(self) -> bool:
        """Whether the row keeps to 90-98 % held and half-widths of at most 1.5 times the error."""
        return bool(0.90 <= self.held <= 0.98 and self.width <= 1.5)


def _mean(values: FloatArray) -> float:
    said = values[np.isfinite(values)]
    return float(said.mean()) if said.size else float("nan")


def score(row: str, outcomes: Sequence[Outcome]) -> Score:
    """Return the score of a row from its records."""
    kept = [one for one in outcomes if one.refused is None]
    refused = 1.0 - len(kept) / len(outcomes)
    names = ("velocity", "error", "half", "held", "total_held")
    joined = {name: np.concatenate([getattr(one, name) for one in kept] or [np.array([])]) for name in names}
    error, speed = joined["error"][np.isfinite(joined["error"])], np.abs(joined["velocity"])
    nan = float("nan")
    half = joined["half"][np.isfinite(joined["half"])]
    return Score(
        row,
        len(outcomes),
        refused,
        float(np.mean(np.isnan(joined["held"]))) if kept else nan,
        _mean(joined["held"]),
        tuple(_mean(joined["held"][np.isclose(speed, point)]) for point in POINTS),
        _mean(joined["total_held"]),
        float(np.median(half) / np.quantile(np.abs(error), 0.95)) if error.size else nan,
        float(np.sqrt(np.mean(error**2))) if error.size else nan,
    )


def try_record(fit: Fit, task: tuple[str, int]) -> Outcome:
    """Return the outcome of a fit on the record of a row and seed."""
    record = draw(*task)
    return outcome(record, fit(record))


def try_row(fit: Fit, row: str, seeds: Iterable[int], jobs: int = 1) -> Score:
    """Return the score of a fit on a row; `jobs` processes, where the fit can be pickled."""
    tasks = [(row, seed) for seed in seeds]
    if jobs == 1:
        return score(row, [try_record(fit, task) for task in tasks])
    with ProcessPoolExecutor(jobs) as pool:
        return score(row, list(pool.map(partial(try_record, fit), tasks)))


def _percent(value: float) -> str:
    return "-" if np.isnan(value) else f"{100.0 * value:.0f} %"


def table(scores: Iterable[Score]) -> str:
    """Return the scores as a Markdown table; rows outside the promise are marked."""
    heads = [f"{1e3 * point:.0f} mm/s" for point in POINTS]
    cells = ["row", "records", "refused", "silent", "held", *heads, "sum held", "width / error", "rms of range", ""]
    lines = ["| " + " | ".join(cells) + " |", "|" + " --- |" * len(cells)]
    for one in scores:
        shares = [_percent(value) for value in (one.refused, one.silent, one.held, *one.held_at, one.total_held)]
        last = [f"{one.width:.2f}", f"{100.0 * one.rms:.2f} %", "" if one.honest() or one.refused == 1.0 else "<"]
        lines.append("| " + " | ".join([one.row, str(one.records), *shares, *last]) + " |")
    return "\n".join(lines)


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the table for a fit named on the command line."""
    parser = argparse.ArgumentParser(description="Hold a fit against made records with a known truth.")
    parser.add_argument("fit", help="package.module:callable, from a Record to an Estimate")
    parser.add_argument("--rows", default="", help="names, comma-separated; all without it")
    parser.add_argument("--records", type=int, default=18, help="seeds per row")
    parser.add_argument("--first", type=int, default=0, help="first seed")
    parser.add_argument("--jobs", type=int, default=1, help="processes")
    asked = parser.parse_args(arguments)
    module, name = asked.fit.split(":")
    fit: Fit = getattr(importlib.import_module(module), name)
    names = [row.strip() for row in asked.rows.split(",")] if asked.rows else []
    seeds = range(asked.first, asked.first + asked.records)
    print(table(try_row(fit, row, seeds, asked.jobs) for row in names or [row.name for row in ROWS]))


if __name__ == "__main__":
    main()
