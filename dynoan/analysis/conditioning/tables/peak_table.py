"""Peak tables: one force a velocity and direction; gas may be in, friction is, and the table tells neither alone.

The same model as a trace's: damping that rises, a gas force common to both directions, friction between nothing and
what is usual, scatter learned from the table. The curve is damping and friction together; the band of damping alone
reaches down by the friction there may be.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.found.result import Conditioned
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.conditioning.separating.posterior import draws
from dynoan.analysis.conditioning.tables import assumptions as of_table
from dynoan.analysis.conditioning.tables.flat_rows import flat
from dynoan.analysis.conditioning.tables.gas import Gas, gas_before
from dynoan.analysis.conditioning.tables.problem import TableProblem
from dynoan.analysis.conditioning.tables.repeated_speeds import unlike_repeats
from dynoan.analysis.conditioning.tables.slips import off_the_line, without_slips
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import Sweep


@dataclass(frozen=True)
class TableParts:
    """A peak table taken apart."""

    force: FloatArray  #: signs mended [N]
    offset: float  #: gas and zero [N]
    offset_sd: float  #: [N]
    scatter: float  #: of a force, share
    flipped: int  #: forces whose sign was mended
    ends: int  #: slow forces that do not rise with speed
    open: Open
    evidence: float


def condition_peaks(sweep: Sweep, rod: float | None = None) -> Conditioned:
    """Return a peak table's force over velocity, gas out and friction in.

    Parameters
    ----------
    sweep
        A peak table.
    rod
        Diameter of the rod, for the gas force where a pressure is stated; else that of the file. [m]

    Raises
    ------
    FitError
        If fewer than three rows are complete, or nothing moves.
    """
    name = sweep.source.name
    v, f = (np.asarray(sweep.channels[key], dtype=float) for key in ("velocity", "force"))
    good = np.isfinite(v) & np.isfinite(f) & (v != 0)
    order = np.lexsort((f[good], v[good], np.abs(v[good])))
    v, f = v[good][order], f[good][order]
    if len(v) < 3:
        raise FitError(
            f"{len(v)} rows with a velocity and a force are too few for a curve", where=name, hint="wanted at least 3"
        )
    if np.ptp(np.abs(f)) <= 1e-9 * max(1.0, float(np.max(np.abs(f)))):
        raise FitError(
            f"every force in the table is {float(f[0]):.6g} N", where=name, hint="check which column is force"
        )
    peak = float(np.max(np.abs(f)))
    gas = gas_before(sweep, sweep.rod if rod is None else rod, peak)
    (v, f), slips = _without_odd(v, f, gas)
    peak = float(np.max(np.abs(f)))
    found = _likeliest(v, f, gas)
    if gas.stated:
        out = Gas(0.0, of_table.TABLE_ZERO * peak, f"{gas.words}, yet the table holds none: it was taken out before")
        without = _likeliest(v, f, out)
        if without.evidence > found.evidence + of_table.FLIP:
            gas, found = out, without
    force = found.force - found.offset
    words = (*_words(found, gas, v), *slips)
    floor = found.scatter * np.abs(force) + 0.2 * found.scatter * float(np.max(np.abs(force)))
    return Conditioned(
        name=name, layout="peaks", velocity=v, force=force, weight=1.0 / floor**2,
        cluster=np.arange(len(v)), cycle=np.arange(len(v)), block=np.zeros(len(v), dtype=np.int64),
        gas_force=float("nan") if sweep.gas_removed else found.offset, offset=found.offset, offset_sd=found.offset_sd,
        samples=sweep.samples, temperature=sweep.temperature, open=found.open, findings=words,
        warnings=unlike_repeats(v, force),
    )  # fmt: skip


def _without_odd(v: FloatArray, f: FloatArray, gas: Gas) -> tuple[tuple[FloatArray, FloatArray], tuple[str, ...]]:
    """Return the rows without those far off all others or off those beside them, and what is said of each."""
    (v, f), said = without_slips(v, f, towering=True)
    fit, steps, scatter = _settled(TableProblem(v, f, gas, np.zeros(len(v))))
    if scatter >= of_table.ODD_SCATTER and len(v) >= of_table.ODD_AMONG:
        away = np.abs(fit.y - fit.matrix @ fit.solve(steps, scatter, a.LAMINAR_FIRST)[0]) / fit.deviation(1.0)
        tried = np.argsort(-away, kind="stable")[: of_table.ODD_TRIED]
        without = [_scatter(np.delete(v, i), np.delete(f, i), gas) for i in tried]
        odd = int(tried[np.argmin(without)])
        if min(without) < of_table.ODD_GAIN * scatter:
            said = (*said, off_the_line(v[odd], f[odd], scatter))
            v, f = np.delete(v, odd), np.delete(f, odd)
    rows, slips = without_slips(v, f)
    return rows, (*said, *slips)


def _scatter(v: FloatArray, f: FloatArray, gas: Gas) -> float:
    return _settled(TableProblem(v, f, gas, np.zeros(len(v))))[2]


def _likeliest(v: FloatArray, f: FloatArray, gas: Gas) -> TableParts:
    """Return the table taken apart, with as many of the slowest rebound forces turned to positive as fit best.

    Rebound written without a sign and given one turns gas force that outweighs slow rebound damping upside down.
    """
    best = _taken(v, f, gas, 0)
    down = np.flatnonzero(v < 0)
    down = down[np.argsort(-v[down])]
    size = np.abs(f[down])
    if len(down) < 4 or not np.all(f[down] <= 0) or int(np.argmin(size)) == 0:
        return best
    for many in range(1, int(np.argmin(size)) + 2):
        turned = f.copy()
        turned[down[:many]] *= -1.0
        other = _taken(v, turned, gas, many)
        if other.evidence > best.evidence + of_table.FLIP:
            best = other
    return best


def _taken(v: FloatArray, f: FloatArray, gas: Gas, flipped: int) -> TableParts:
    plain = _settled(TableProblem(v, f, gas, np.zeros(len(v))))
    ends = flat(v, f)
    # Whether flat slow rows are the cycle's extremes, no table tells: then both ways count alike.
    ways = [plain, _settled(TableProblem(v, f, gas, ends))] if ends.any() else [plain]
    found = np.concatenate([_drawn(fit, steps, scatter, 2 * a.DRAWS // len(ways)) for fit, steps, scatter in ways])
    fit, steps, scatter = plain
    # Student's t for a scatter learned from few points.
    found = _widened(found, of_table.TABLE_DOUBT * np.sqrt(1.0 + 4.0 / max(len(v) - 4, 2)), (fit.size, gas.sd))
    offset = found[:, fit.size]
    open_ = Open(fit.edges, found[:, : fit.size] @ fit.to_weights.T, ("slide 1e-9",), found[:, [fit.size + 1]],
                 np.zeros((len(found), 2 * len(a.YIELD_SPEEDS))))  # fmt: skip
    best = max(fit.solve(steps, scatter, p)[1] for p in of_table.TABLE_STARTS)
    told = gas.mean + float(offset.mean()), float(offset.std())
    return TableParts(f, *told, scatter, flipped, int(np.count_nonzero(ends)), open_, best)


def _widened(found: FloatArray, spread: float, gas: tuple[int, float]) -> FloatArray:
    """Return draws further from their mean, but for the gas force: a table can leave no more open than was before it.

    `gas` is the column of the gas force and its standard deviation [N] before the table was looked at.
    """
    column, before = gas
    mean = found.mean(axis=0)
    away = found - mean
    own = away[:, [column]]
    with_gas = own * (own.T @ away) / max(float(np.sum(own**2)), 1e-300)
    wider = min(spread, max(before / max(float(own.std()), 1e-300), 1.0))
    return np.asarray(mean + wider * with_gas + spread * (away - with_gas))


def _settled(fit: TableProblem) -> tuple[TableProblem, FloatArray, float]:
    """Return a problem with the steps and the scatter it settles at."""
    scatter, steps = of_table.TABLE_SCATTER, fit.guess
    for _ in range(5):
        x, _, _ = fit.solve(steps, scatter, a.LAMINAR_FIRST)
        steps = np.maximum(x[: fit.size], 1e-9)
        scatter = fit.scatter(x, scatter)
    return fit, steps, scatter


def _drawn(fit: TableProblem, steps: FloatArray, scatter: float, many: int) -> FloatArray:
    """Return draws of the coefficients over the ways force may start from zero, shape (many, p). [N]"""
    ways = [fit.solve(steps, scatter, p) for p in of_table.TABLE_STARTS]
    score = np.array([way[1] for way in ways])
    chance = np.exp(a.TEMPER * (score - score.max()))
    chance = chance / chance.sum()
    shares = np.diff(np.floor(np.cumsum(chance) * many + 0.5).astype(int), prepend=0)
    rng = np.random.default_rng(2)
    return np.concatenate([
        draws(way[2][0], way[2][1], fit.held, rng.standard_normal((some, len(fit.held)))) / way[2][2]
        for way, some in zip(ways, shares, strict=True) if some
    ])  # fmt: skip


def _words(found: TableParts, gas: Gas, v: FloatArray) -> tuple[str, ...]:
    slowest, both = float(np.min(np.abs(v))), bool(np.any(v > 0) and np.any(v < 0))
    lines = [f"used {len(v)} rows of a peak table, forces scattered by {100 * found.scatter:.1f} %"]
    text = f"gas force and zero {found.offset:.0f} N (± {2 * found.offset_sd:.0f})"
    alone = "what is usual, for one direction alone cannot tell it: state pressure and rod, or that gas force is out"
    how = gas.words or ("from where both directions run together at zero speed" if both else alone)
    lines.append(f"{text}: {how}; taken out")
    if not gas.words and both and slowest > of_table.TABLE_SLOWEST and found.offset_sd > of_table.TABLE_OPEN:
        lines.append(
            f"the slowest row is at {slowest * 1e3:.0f} mm/s, and a valve may open below it unseen: gas force, and so "
            "compression against rebound, cannot be told well; a row at 10 to 20 mm/s, or pressure and rod, would tell"
        )
    if found.flipped:
        lines.append(
            f"{found.flipped} of the slowest rebound forces push like gas: written without a sign, taken as positive"
        )
    if found.ends:
        lines.append(
            f"{found.ends} of the slowest forces do not rise with speed, as where a table holds the highest force of "
            "each cycle, which is gas at an end of the stroke in a slow one: in the band; forces at the peak speed "
            "would tell low-speed clicks better"
        )
    lines.append("friction: a peak table cannot tell; it is still in, and the band reaches down by what it may be")
    return tuple(lines)
