"""Click maps: from a handful of tested settings of a pack to a curve at every click.

Two views are fitted, a hydraulic one and an interpolated one, and the one that predicts left-out tests better is kept.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.assumptions import CROSSING_EVIDENCE, JUDGED_FROM, LEAST_FORCE
from dynoan.analysis.clickmap.data import DirectionData, Tested, axes_of, crossing_axis, gather
from dynoan.analysis.clickmap.discrepancy import leave_one_out
from dynoan.analysis.clickmap.hydraulic import crossing_evidence, fit_hydraulic
from dynoan.analysis.clickmap.interpolated import fit_interpolated, left_out_errors
from dynoan.analysis.clickmap.tables import tabulate
from dynoan.analysis.clickmap.trend import FittedDirection
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap, View
from dynoan.model.curve import DIRECTIONS, Curve, Direction, Knee, Segment, Side
from dynoan.model.shock import Adjuster, clicks_text

__all__ = ["FittedPack", "Tested", "curve_at", "fit_map", "fit_pack"]


@dataclass(frozen=True)
class FittedPack:
    """Both directions of a pack as fitted, before tables are made: what planning and checking need."""

    pack: str
    adjusters: tuple[Adjuster, ...]
    tested: tuple[Tested, ...]
    compression: FittedDirection
    rebound: FittedDirection
    view: View
    left_out: Mapping[Direction, FloatArray]  #: ln measured − ln predicted of each test left out, (T, S)
    notes: tuple[str, ...] = ()

    def direction(self, direction: Direction) -> FittedDirection:
        """Return one direction."""
        return self.compression if direction == "compression" else self.rebound


def fit_map(
    pack: str, adjusters: tuple[Adjuster, ...], tested: Sequence[Tested], *, view: View | None = None
) -> ClickMap:
    """Return the click map of a pack, fitted to its tested settings.

    Parameters
    ----------
    pack
        Its name.
    adjusters
        Of the shocks that carry it.
    tested
        The tested settings, clicks from closed; several shocks may carry the pack.
    view
        "hydraulic" or "interpolated" to insist on one; else the better by leave-one-out error.

    Raises
    ------
    FitError
        If there is no test, or the tests hold no usable speeds.
    """
    fitted = fit_pack(pack, adjusters, tested, view=view)
    both = [felt_errors(fitted.direction(d).data, fitted.left_out[d]) for d in DIRECTIONS if fitted.left_out[d].size]
    curves = [t.curve for t in tested]
    shares = [fitted.direction(d).spread.shock for d in DIRECTIONS]
    shocks = tuple(sorted({t.shock for t in tested}))
    return ClickMap(
        pack=pack, adjusters=tuple(adjusters), compression=tabulate(fitted.compression),
        rebound=tabulate(fitted.rebound), tested=tuple(dict(t.from_closed) for t in tested), view=fitted.view,
        loo_error_pct=float(100 * np.median(np.concatenate([b.ravel() for b in both]))) if both else float("nan"),
        shocks=shocks, gas_force=_mean([c.gas_force for c in curves]), friction=_mean([c.friction for c in curves]),
        spread_pct=100 * float(np.mean(shares)) if len(shocks) > 1 else float("nan"), notes=fitted.notes,
    )  # fmt: skip


def fit_pack(
    pack: str, adjusters: tuple[Adjuster, ...], tested: Sequence[Tested], *, view: View | None = None
) -> FittedPack:
    """Return both directions of a pack as fitted; see `fit_map`.

    Raises
    ------
    FitError
        If there is no test, or none fast enough.
    """
    if not tested:
        raise FitError(f"pack {pack} has no tested setting; add a sweep of it with dynoan add")
    if _settings(tested) < 2:
        fits = {d: fit_interpolated(gather(d, axes_of(d, adjusters), tested)) for d in DIRECTIONS}
        left = {d: np.zeros((0, 0)) for d in DIRECTIONS}
        chosen: View = "single"
    else:
        fits, left, chosen = _better(adjusters, tested, view)
    notes = _notes(adjusters, tested, fits, chosen)
    return FittedPack(pack, tuple(adjusters), tuple(tested), fits["compression"], fits["rebound"], chosen, left, notes)


def _settings(tested: Sequence[Tested]) -> int:
    return len({clicks_text(dict(sorted(t.from_closed.items()))) for t in tested})


def _better(
    adjusters: tuple[Adjuster, ...], tested: Sequence[Tested], view: View | None
) -> tuple[dict[Direction, FittedDirection], dict[Direction, FloatArray], View]:
    """Return the fits, the left-out errors and the view with the smaller left-out error."""
    hydraulic = {d: _with_crossing(d, adjusters, tested) for d in DIRECTIONS}
    errors = {d: leave_one_out(f.total, f.residual, f.data.tests)[0] for d, f in hydraulic.items()}
    if view == "hydraulic":
        return hydraulic, errors, "hydraulic"
    plain = {d: left_out_errors(f.data) for d, f in hydraulic.items()}
    size = [sum(float(np.mean(felt_errors(f.data, e[d]))) for d, f in hydraulic.items()) for e in (errors, plain)]
    if view is None and size[0] <= size[1]:
        return hydraulic, errors, "hydraulic"
    return {d: fit_interpolated(f.data) for d, f in hydraulic.items()}, plain, "interpolated"


def felt_errors(data: DirectionData, logs: FloatArray) -> FloatArray:
    """Return errors of ln(force) as shares of a force that somebody feels, at speeds that matter, (T, S'). [1]"""
    seen = np.exp(data.logs)
    newtons = np.abs(seen - np.exp(data.logs - logs))
    return np.asarray((newtons / np.maximum(seen, LEAST_FORCE))[:, data.speeds >= JUDGED_FROM * 0.999])


def _with_crossing(direction: Direction, adjusters: tuple[Adjuster, ...], tested: Sequence[Tested]) -> FittedDirection:
    """Fit one direction, with the other direction's adjuster where the tests clearly show it."""
    axes = axes_of(direction, adjusters)
    plain = fit_hydraulic(gather(direction, axes, tested))
    other = crossing_axis(direction, adjusters)
    if other is not None and len(axes) < 3:
        data = gather(direction, (*axes, other), tested)
        if data.moved[-1]:
            crossed = fit_hydraulic(data, other.name, plain)
            if crossing_evidence(crossed) > CROSSING_EVIDENCE:
                return crossed
    return plain


def _mean(values: list[float]) -> float:
    known = [v for v in values if np.isfinite(v)]
    return float(np.mean(known)) if known else float("nan")


def _notes(
    adjusters: Sequence[Adjuster], tested: Sequence[Tested], fits: Mapping[Direction, FittedDirection], view: View
) -> tuple[str, ...]:
    notes = []
    for adjuster in adjusters:
        seen = {int(t.from_closed[adjuster.name]) for t in tested if adjuster.name in t.from_closed}
        if adjuster.clicks > 0 and len(seen) < 2:
            where = f"all sit at {seen.pop()} from closed" if seen else "none states it"
            notes.append(f"no test moves {adjuster.name} ({where}): what it does cannot be told")
        unstated = sum(adjuster.name not in t.from_closed for t in tested)
        if seen and unstated:
            notes.append(f"{unstated} of {len(tested)} tests do not state {adjuster.name}; taken at its usual clicks")
    if view == "single":
        notes.append("one tested setting: other clicks are a guess within wide bands")
    if len({t.shock for t in tested}) == 1:
        notes.append("one shock carried this pack: how far another would differ is not known")
    odd, words = _odd(tested, fits)
    notes.extend([*words, *(_strangers(tested, fits, odd) if len(tested) > 3 else ())])
    return tuple(notes)


def _odd(tested: Sequence[Tested], fits: Mapping[Direction, FittedDirection]) -> tuple[set[str], list[str]]:
    """Return the shocks that differ far more than the others, and say by how much."""
    shocks, words = sorted({t.shock for t in tested}), []
    for direction, fitted in fits.items():
        speeds = fitted.data.speeds
        effects = fitted.shock_effects(speeds)
        for number in fitted.spread.odd:
            share = 100 * np.expm1(effects[number])
            at = int(np.argmax(np.abs(share)))
            way = "weaker" if share[at] < 0 else "stronger"
            words.append(f"{shocks[number]} is up to {abs(share[at]):.0f} % {way} in {direction} (at "
                         f"{1000 * speeds[at]:.0f} mm/s) than the other shocks with this pack; it is left out of their "
                         "mean and spread")  # fmt: skip
    return {shocks[n] for fitted in fits.values() for n in fitted.spread.odd}, words


def _strangers(tested: Sequence[Tested], fits: Mapping[Direction, FittedDirection], odd: set[str]) -> list[str]:
    """Name tests that the others do not lead one to expect: wrong clicks, the wrong pack, or a fault."""
    worst = np.zeros(len(tested))
    for fitted in fits.values():
        error, sd = leave_one_out(fitted.total, fitted.residual, fitted.data.tests)
        held = [t.curve.side(fitted.data.direction).top_speed > 0 for t in tested]
        worst[held] = np.maximum(worst[held], np.sqrt(np.mean((error / np.maximum(sd, 1e-3)) ** 2, axis=1)))
    out = []
    for i in np.flatnonzero(worst > 4.0):
        test = tested[int(i)]
        if test.shock in odd:
            continue
        where = f"{test.shock} {clicks_text(test.from_closed)} (from closed)"
        out.append(f"{where} does not fit the other tests of this pack; check its clicks and pack")
    return out


def curve_at(
    map: ClickMap, from_closed: Mapping[str, int], *, clicks: Mapping[str, int] | None = None, shock: str | None = None,
    pieces: bool = True,
) -> Curve:  # fmt: skip
    """Return the curve of a click map at one setting.

    Parameters
    ----------
    map
        The click map.
    from_closed
        Clicks from closed; an adjuster left out sits at its most tested position.
    clicks
        The same as the shock counts them, to be kept with the curve.
    shock
        One of the shocks the map rests on, to have that shock's own force; else the mean shock's.
    pieces
        Whether to find the knees and pieces that describe it, which takes most of the time; its forces are the same.

    Raises
    ------
    CallError
        If an adjuster is unknown or a click lies outside it.
    """
    setting = map.complete(from_closed)
    own = map.shocks.index(shock) if shock in map.shocks else None
    sides = {d: _side(map.direction(d), setting, own, pieces=pieces) for d in DIRECTIONS}
    shown = dict(clicks) if clicks is not None else setting
    return Curve(
        compression=sides["compression"], rebound=sides["rebound"], what=f"{map.pack}@{clicks_text(shown)}",
        shock=shock, pack=map.pack, clicks=shown, gas_force=map.gas_force, friction=map.friction,
        standing=map.standing(setting),
    )  # fmt: skip


def _side(table: DirectionMap, setting: Mapping[str, int], shock: int | None, *, pieces: bool) -> Side:
    index = table.index(setting)
    force, half = table.force[index], table.half_width[index]
    if shock is not None and table.scales is not None and shock < len(table.scales):
        force = force * table.scales[shock]
        # The spread between shocks is known for this one.
        half = np.sqrt(np.maximum(half**2 - (1.96 * table.spread * force) ** 2, (0.01 * force) ** 2))
    inside = table.speeds <= table.top_speed * 1.001
    segments, knees = _described(table.speeds[inside], force[inside]) if pieces else ((), ())
    return Side(segments=segments, knees=knees, speeds=table.speeds, low=np.maximum(force - half, 0.0),
                high=force + half, top_speed=table.top_speed, forces=force)  # fmt: skip


def _described(speeds: FloatArray, forces: FloatArray) -> tuple[tuple[Segment, ...], tuple[Knee, ...]]:
    from dynoan.analysis.fitting.fit import describe

    return describe(speeds, forces)


def named_shock(map: ClickMap, shock: str) -> ClickMap:
    """Return the click map of one of its shocks instead of the mean shock; the same map if it does not know it."""
    if shock not in map.shocks:
        return map
    i = map.shocks.index(shock)
    return replace(map, compression=_scaled(map.compression, i), rebound=_scaled(map.rebound, i))


def _scaled(table: DirectionMap, shock: int) -> DirectionMap:
    if table.scales is None or shock >= len(table.scales):
        return table
    force = table.force * table.scales[shock]
    half = np.sqrt(np.maximum(table.half_width**2 - (1.96 * table.spread * force) ** 2, (0.01 * force) ** 2))
    return replace(table, force=force, half_width=half, scales=None, spread=0.0)
