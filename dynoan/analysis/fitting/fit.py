"""From sweeps of one setting to its curve."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.conditioning.condition import Conditioned, condition_runs
from dynoan.analysis.fitting.assumptions import TABLE_TOLERANCE
from dynoan.analysis.fitting.cells import Points
from dynoan.analysis.fitting.choice import choose
from dynoan.analysis.fitting.opening import opening
from dynoan.analysis.fitting.repeats import unlike_runs
from dynoan.analysis.fitting.side import fit_side, nobody_measured, segments_of
from dynoan.analysis.statistics import mean_of_finite, mean_of_stated
from dynoan.errors import FitError
from dynoan.model.clipped import CLIPPED
from dynoan.model.curve import Curve, Direction
from dynoan.model.side import Knee, Segment, Side
from dynoan.model.sweep import Sweep

_SIGN: dict[Direction, float] = {"compression": 1.0, "rebound": -1.0}  #: of a direction's velocities


def fit(sweeps: Sweep | Sequence[Sweep], rod: float | None = None, pressure: float | None = None) -> Curve:
    """Return the damping curve of one setting from one or several sweeps of it.

    Parameters
    ----------
    sweeps
        Traces or peak tables of the same setting; several are conditioned one by one and pooled, or as one record
        where a run of one speed has others beside it.
    rod
        Diameter of the shock's rod, where known: with a stated pressure it tells a peak table's gas force. [m]
    pressure
        Gas pressure of the shock, gauge, for sweeps that state none. [Pa]

    Returns
    -------
    :
        Continuous, zero at zero, 0 to 3 knees a direction, with 95 % bands; what was taken out stands in `findings`.

    Raises
    ------
    FitError
        If the sweeps carry no curve.
    """
    return fit_records([sweeps] if isinstance(sweeps, Sweep) else list(sweeps), rod, pressure)[0]


def fit_records(
    several: Sequence[Sweep], rod: float | None = None, pressure: float | None = None
) -> tuple[Curve, list[Conditioned]]:
    """Return the curve as `fit` does, and the conditioned records that it was fitted to. SI.

    Raises
    ------
    FitError
        As `fit`.
    """
    if not several:
        raise FitError("no sweeps to fit a curve to")
    parts = condition_runs([_charged(sweep, pressure) for sweep in several], rod)
    curve = fit_conditioned(parts)
    first = several[0]
    alike = all(s.clicks == first.clicks and s.pack == first.pack for s in several)
    shock = first.shock if all(s.shock == first.shock for s in several) else None
    labels = list(dict.fromkeys(s.setting_text for s in several))
    named = Curve(**{
        **vars(curve), "what": ", ".join(labels), "shock": shock, "pack": first.pack if alike else None,
        "clicks": dict(first.clicks) if alike else {}, "sweeps": tuple(s.source.name for s in several),
        "warnings": _once((w for s in several for w in s.warnings), curve.warnings),
    })  # fmt: skip
    return named, parts


def _once(read: Iterable[str], fitted: tuple[str, ...]) -> tuple[str, ...]:
    """Return what was said of files and of their fit; of a clipped force the fit's alone, which say what follows."""
    told = any(CLIPPED in text for text in fitted)
    return (*(text for text in read if not (told and text.startswith(CLIPPED))), *fitted)


def _charged(sweep: Sweep, pressure: float | None) -> Sweep:
    return sweep if pressure is None or sweep.gas_pressure is not None else replace(sweep, gas_pressure=pressure)


def fit_conditioned(parts: Sequence[Conditioned]) -> Curve:
    """Return the curve of conditioned sweeps of one setting.

    Raises
    ------
    FitError
        If neither direction holds three points.
    """
    sides = {d: _side(parts, d) for d in _SIGN}
    if all(side.top_speed == 0 for side in sides.values()):
        raise FitError("fewer than three points in either direction carry no curve", where=parts[0].name)
    samples = sum(s.samples for s in sides.values())
    squares = sum(s.samples * s.rms**2 for s in sides.values() if s.samples)
    many = len(parts) > 1
    held = {d: (_points(parts, d), side.force) for d, side in sides.items() if many and side.samples}
    unlike = unlike_runs(held) if held else None
    return Curve(
        compression=sides["compression"], rebound=sides["rebound"],
        gas_force=mean_of_finite([p.gas_force for p in parts]), gas_rate=mean_of_finite([p.gas_rate for p in parts]),
        friction=mean_of_finite([p.friction for p in parts]),
        friction_sd=float(np.sqrt(np.sum(np.square([p.friction_sd for p in parts])))) / len(parts),
        rms=float(np.sqrt(squares / samples)), temperature=mean_of_stated([p.temperature for p in parts]),
        findings=tuple(f"{p.name}: {line}" if many else line for p in parts for line in p.findings),
        warnings=(
            *(f"{p.name}: {line}" if many else line for p in parts for line in p.warnings),
            *([unlike] if unlike else []),
        ),
    )  # fmt: skip


def _side(parts: Sequence[Conditioned], direction: Direction) -> Side:
    points, sign = _points(parts, direction), _SIGN[direction]
    if len(points) < 3 or float(points.speed[-1]) <= 0:
        return nobody_measured()
    opener = opening(parts, sign)
    return fit_side(points, opener, peaks=all(p.layout == "peaks" for p in parts))


def _points(parts: Sequence[Conditioned], direction: Direction) -> Points:
    sign = _SIGN[direction]
    picked, base = [], 0
    for number, part in enumerate(parts):
        picked.append(_picked(part, sign, number, base))
        base += int(part.cluster.max(initial=0)) + 1
    return _joined(picked)


def _picked(part: Conditioned, sign: float, number: int, base: int) -> Points:
    """Return one direction's points of a sweep, by its number and the number of its first cluster."""
    mine = (sign * part.velocity > 0) & (part.weight > 0)
    return Points(sign * part.velocity[mine], sign * part.force[mine], part.weight[mine], part.cluster[mine] + base,
                  np.full(int(mine.sum()), number))  # fmt: skip


def _joined(picked: Sequence[Points]) -> Points:
    """Return the points of all sweeps, sorted by speed."""
    order = np.argsort(np.concatenate([p.speed for p in picked]), kind="stable")
    return Points(
        speed=np.concatenate([p.speed for p in picked])[order], force=np.concatenate([p.force for p in picked])[order],
        weight=np.concatenate([p.weight for p in picked])[order],
        cluster=np.concatenate([p.cluster for p in picked])[order].astype(int),
        sweep=np.concatenate([p.sweep for p in picked])[order].astype(int),
    )  # fmt: skip


def describe(speeds: ArrayLike, forces: ArrayLike) -> tuple[tuple[Segment, ...], tuple[Knee, ...]]:
    """Return the pieces and knees of one direction of a noise-free table, such as a click map gives.

    Parameters
    ----------
    speeds, forces
        Magnitudes, shape (n,), increasing speeds. [m/s], [N]

    Returns
    -------
    :
        Pieces and knees, a knee's interval one cell of the table to either side.

    Raises
    ------
    FitError
        If fewer than three speeds lie above zero.

    Notes
    -----
    The same choice as for measured curves, a table taken to be known to half a percent of its largest force.
    """
    s, f = np.asarray(speeds, dtype=float), np.asarray(forces, dtype=float)
    good = np.isfinite(s) & np.isfinite(f) & (s > 0)
    if int(good.sum()) < 3:
        raise FitError(f"{int(good.sum())} speeds above zero are too few to describe a curve", hint="wanted at least 3")
    grid = np.linspace(0.0, float(s[good].max()), 121)[1:]
    table = np.interp(grid, np.concatenate([[0.0], s[good]]), np.concatenate([[0.0], f[good]]))
    sd = TABLE_TOLERANCE * float(np.max(np.abs(table))) or 1.0
    stick = choose(grid, table, np.full(len(grid), sd**-2), known=True).stick
    cell = float(grid[1] - grid[0])
    knees = tuple(Knee(float(k), max(float(k) - cell, 0.0), float(k) + cell, float(stick(k))) for k in stick.knees)
    return segments_of(stick), knees
