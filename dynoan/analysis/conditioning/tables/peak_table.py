"""Peak tables: one force a velocity and direction; gas may be in, friction is, and the table tells neither alone.

The same model as a trace's: damping that rises, a gas force common to both directions, friction between nothing and
what is usual, scatter learned from the table. The curve is damping and friction together; the band of damping alone
reaches down by the friction there may be.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.shape import centres, smoothness, speed_edges, steps_to_weights
from dynoan.analysis.conditioning.forces.splines import design
from dynoan.analysis.conditioning.found.result import Conditioned
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.conditioning.separating.posterior import bounded, draws
from dynoan.analysis.conditioning.tables import assumptions as of_table
from dynoan.analysis.conditioning.tables.flat_rows import flat
from dynoan.errors import FitError
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.sweep import Sweep


@dataclass(frozen=True)
class Gas:
    """What is known of the gas force before the table is looked at, and in words where that is something. [N]"""

    mean: float
    sd: float
    words: str = ""
    stated: bool = False  #: by a pressure on a rod


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
    found = _likeliest(v, f, gas)
    if gas.stated:
        out = Gas(0.0, of_table.TABLE_ZERO * peak, f"{gas.words}, yet the table holds none: it was taken out before")
        without = _likeliest(v, f, out)
        if without.evidence > found.evidence + of_table.FLIP:
            gas, found = out, without
    force = found.force - found.offset
    words = _words(found, gas, len(v), float(np.min(np.abs(v))))
    floor = found.scatter * np.abs(force) + 0.2 * found.scatter * float(np.max(np.abs(force)))
    return Conditioned(
        name=name, layout="peaks", velocity=v, force=force, weight=1.0 / floor**2,
        cluster=np.arange(len(v)), cycle=np.arange(len(v)), block=np.zeros(len(v), dtype=np.int64),
        gas_force=float("nan") if sweep.gas_removed else found.offset, offset=found.offset, offset_sd=found.offset_sd,
        samples=sweep.samples, temperature=sweep.temperature, open=found.open, findings=words,
    )  # fmt: skip


def gas_before(sweep: Sweep, rod: float | None, peak: float) -> Gas:
    """Return what the file says of gas force, as a mean and a standard deviation. [N]"""
    if sweep.gas_removed:
        return Gas(0.0, of_table.TABLE_ZERO * peak, "the file says gas force is out")
    if sweep.gas_pressure is not None and rod is not None:
        force = sweep.gas_pressure * np.pi / 4 * rod**2
        return Gas(of_table.GAS_AT_MIDDLE * force, of_table.GAS_STATED * force + of_table.TABLE_ZERO * peak,
                   f"stated pressure on a {rod * 1e3:.1f} mm rod makes {force:.0f} N extended",
                   stated=True)  # fmt: skip
    return Gas(*of_table.GAS_UNSTATED)


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
    plain = _settled(_Fit(v, f, gas, np.zeros(len(v))))
    ends = flat(v, f)
    # Whether flat slow rows are the cycle's extremes, no table tells: then both ways count alike.
    ways = [plain, _settled(_Fit(v, f, gas, ends))] if ends.any() else [plain]
    found = np.concatenate([_drawn(fit, steps, scatter, 2 * a.DRAWS // len(ways)) for fit, steps, scatter in ways])
    fit, steps, scatter = plain
    offset = found[:, fit.size]
    # Student's t for a scatter learned from few points.
    spread = of_table.TABLE_DOUBT * np.sqrt(1.0 + 4.0 / max(len(v) - 4, 2))
    mean = found.mean(axis=0)
    found = mean + spread * (found - mean)
    open_ = Open(fit.edges, found[:, : fit.size] @ fit.to_weights.T, ("slide 1e-9",), found[:, [fit.size + 1]],
                 np.zeros((len(found), 2 * len(a.YIELD_SPEEDS))))  # fmt: skip
    best = max(fit.solve(steps, scatter, p)[1] for p in of_table.TABLE_STARTS)
    told = gas.mean + float(offset.mean()), float(spread * offset.std())
    return TableParts(f, *told, scatter, flipped, int(np.count_nonzero(ends)), open_, best)


def _settled(fit: _Fit) -> tuple[_Fit, FloatArray, float]:
    """Return a problem with the steps and the scatter it settles at."""
    scatter, steps = of_table.TABLE_SCATTER, fit.guess
    for _ in range(5):
        x, _, _ = fit.solve(steps, scatter, a.LEAK_BESIDE)
        steps = np.maximum(x[: fit.size], 1e-9)
        scatter = fit.scatter(x, scatter)
    return fit, steps, scatter


def _drawn(fit: _Fit, steps: FloatArray, scatter: float, many: int) -> FloatArray:
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


class _Fit:
    """The least-squares problem of one table."""

    def __init__(self, v: FloatArray, f: FloatArray, gas: Gas, ends: FloatArray) -> None:
        self.v, self.gas, self.ends = v, gas, ends
        self.edges = (speed_edges(v[v > 0], of_table.TABLE_EDGES), speed_edges(-v[v < 0], of_table.TABLE_EDGES))
        self.k = len(self.edges[0])
        self.size = self.k + len(self.edges[1])
        self.to_weights = steps_to_weights((self.k, self.size - self.k))
        self.y = f - gas.mean - of_table.TABLE_END[0] * ends
        self.peak = float(np.max(np.abs(f)))
        lines = design(v, self.edges)
        eye = np.eye(self.size)
        splines = np.array([lines.curve(self.to_weights @ one)[0] for one in eye]).T
        self.matrix = np.column_stack([splines, np.ones(len(v)), np.sign(v)])
        self.held: BoolArray = np.concatenate([np.ones(self.size, bool), [False, True]])
        self.guess = np.concatenate([np.diff(centres(e), prepend=0.0) * self.peak / e[-1] for e in self.edges])

    def deviation(self, scatter: float, x: FloatArray | None = None) -> FloatArray:
        """Return the standard deviation of each force [N] by a scatter, share of force and of some of the peak."""
        size = np.abs(self.y)
        return np.hypot(scatter * np.hypot(size, 0.15 * self.peak), of_table.TABLE_END[1] * self.ends)

    def solve(
        self, steps: FloatArray, scatter: float, exponent: float
    ) -> tuple[FloatArray, float, tuple[FloatArray, FloatArray, FloatArray]]:
        """Return the best coefficients, their evidence and the scaled system."""
        n, k = self.size, self.k
        weight = self.deviation(scatter) ** -2.0
        gram = (self.matrix * weight[:, None]).T @ self.matrix
        load = self.matrix.T @ (weight * self.y)
        root = np.zeros_like(gram)
        root[:k, :k] = smoothness(self.edges[0], steps[:k], exponent)
        root[k:n, k:n] = smoothness(self.edges[1], steps[k:n], exponent)
        root[n, n], root[n + 1, n + 1] = 1.0 / self.gas.sd, 1.0 / of_table.TABLE_FRICTION
        full = gram + root.T @ root
        size = np.sqrt(np.diag(full)) + 1e-12
        scaled = full / np.outer(size, size) + 1e-9 * np.eye(n + 2)
        x = bounded(scaled, load / size, self.held)
        lower = np.linalg.cholesky(scaled)
        logdet = np.sum(np.log(np.abs(np.diag(root)))) - np.sum(np.log(np.diag(lower))) - np.sum(np.log(size))
        rest = float(np.sum(weight * self.y**2))
        evidence = (
            logdet + float(load / size @ x) - 0.5 * float(x @ scaled @ x) - 0.5 * rest + 0.5 * np.sum(np.log(weight))
        )
        return x / size, float(evidence), (scaled, load / size, size)

    def scatter(self, x: FloatArray, scatter: float) -> float:
        """Return the scatter of a force, a share, learned from the residuals and from what is usual."""
        own = self.ends == 0
        rest = ((self.y - self.matrix @ x) / self.deviation(1.0))[own]
        _, _, (scaled, _, size) = self.solve(np.maximum(x[: self.size], 1e-9), scatter, 0.5)
        weight = self.deviation(scatter) ** -2.0
        gram = (self.matrix * weight[:, None]).T @ self.matrix / np.outer(size, size)
        used = float(np.trace(np.linalg.solve(scaled, gram)))
        free = max(int(own.sum()) - used, 0.0)
        squares = float(np.sum(rest**2)) + of_table.TABLE_KNOWN * of_table.TABLE_SCATTER**2
        return float(np.sqrt(squares / (free + of_table.TABLE_KNOWN)))


def _words(found: TableParts, gas: Gas, rows: int, slowest: float) -> tuple[str, ...]:
    lines = [f"used {rows} rows of a peak table, forces scattered by {100 * found.scatter:.1f} %"]
    text = f"gas force and zero {found.offset:.0f} N (± {2 * found.offset_sd:.0f})"
    how = gas.words or "from where both directions run together at zero speed"
    lines.append(f"{text}: {how}; taken out")
    if not gas.words and slowest > of_table.TABLE_SLOWEST and found.offset_sd > of_table.TABLE_OPEN:
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
