"""Click maps: from a handful of tested settings of a pack to a curve at every click.

Two views are fitted, a hydraulic one and an interpolated one, and the one that predicts left-out tests better is kept.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.assumptions import (
    CLEARLY_WORSE,
    CROSSING_BELIEVED,
    JUDGED_FROM,
    LEAST_FORCE,
    LEAST_SHARE,
    LEFT_OUT_PRIOR,
    MOST_SQUARES,
)
from dynoan.analysis.clickmap.at_rest import rest_words
from dynoan.analysis.clickmap.crossing import crossing_suspected
from dynoan.analysis.clickmap.data import DirectionData, Tested, axes_of, crossing_axis, gather
from dynoan.analysis.clickmap.discrepancy import leave_one_out
from dynoan.analysis.clickmap.hydraulic import fit_hydraulic
from dynoan.analysis.clickmap.interpolated import fit_interpolated, left_out_errors
from dynoan.analysis.clickmap.oddities import between_words, either_words, oddities, suspicions
from dynoan.analysis.clickmap.returning import not_returning, rather_than_changed
from dynoan.analysis.clickmap.rigs import rigs_apart
from dynoan.analysis.clickmap.rigs import words as rig_words
from dynoan.analysis.clickmap.shock_words import shock_words
from dynoan.analysis.clickmap.states import reference
from dynoan.analysis.clickmap.strangers import strangers
from dynoan.analysis.clickmap.tables import tabulate
from dynoan.analysis.clickmap.trend import FittedDirection
from dynoan.analysis.clickmap.two_ways import counted_alike
from dynoan.analysis.clickmap.units import named_shock
from dynoan.analysis.clickmap.valve_prior import first_spread
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap, Oddity, ShockState, View
from dynoan.model.curve import DIRECTIONS, Curve, Direction, Knee, Segment, Side
from dynoan.model.shock import Adjuster, clicks_text

__all__ = ["FittedPack", "Tested", "curve_at", "fit_map", "fit_pack", "named_shock"]


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
    oddities: tuple[Oddity, ...] = ()
    read: tuple[Tested, ...] = ()  #: all tests, those left out among them, their clicks counted from one end
    doubts: tuple[str, ...] = ()  #: what may be odd and is not sure, each with the run that would tell
    at_rest: tuple[str, ...] = ()  #: which force stays as the shaft comes to rest

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
    shocks = tuple(sorted({t.shock for t in fitted.tested}))  # one whose every test is left out tells nothing
    return ClickMap(
        pack=pack, adjusters=tuple(adjusters), compression=tabulate(fitted.compression),
        rebound=tabulate(fitted.rebound), tested=_distinct(fitted.read), view=fitted.view,
        loo_error_pct=float(100 * np.median(np.concatenate([b.ravel() for b in both]))) if both else float("nan"),
        shocks=shocks, gas_force=_mean([c.gas_force for c in curves]), friction=_mean([c.friction for c in curves]),
        spread_pct=100 * float(np.mean(shares)) if len(shocks) > 1 else float("nan"), notes=fitted.notes,
        states=tuple(ShockState(*state) for state in fitted.compression.data.states), oddities=fitted.oddities,
        reference_c=reference(tested), doubts=fitted.doubts, at_rest=fitted.at_rest,
    )  # fmt: skip


def _distinct(tested: Sequence[Tested]) -> tuple[dict[str, int], ...]:
    """Return the tested settings, each shock's once, however often it was tested there."""
    seen = {(t.shock, clicks_text(dict(sorted(t.from_closed.items())))): dict(t.from_closed) for t in tested}
    return tuple(seen.values())


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
        raise FitError(f"pack {pack} has no tested setting", hint="add a sweep of it with dynoan add")
    read, apart = counted_alike(adjusters, tested)
    words = [_apart_words(tested, apart)] if apart else []
    odd = _two_ways(adjusters, words)
    chosen: View = "single"
    if _settings(read) < 2:
        kept: Sequence[Tested] = read
        fits = {d: _single(gather(d, axes_of(d, adjusters), kept)) for d in DIRECTIONS}
        left = {d: np.zeros((0, 0)) for d in DIRECTIONS}
    else:
        strange = strangers(adjusters, read)
        kept = [t for i, t in enumerate(read) if i not in strange]
        fits, left, chosen = _better(adjusters, kept, view)
        words += [_stranger_words(read[i]) for i in sorted(strange)]
        fits, more = _scaled_by_rigs(fits)
        words += more
    loose = not_returning(fits)
    odd = (*odd, *oddities(adjusters, fits, loose))
    rest, either = rest_words(fits), either_words(rather_than_changed(fits))
    doubts = (*between_words(adjusters, kept), *suspicions(fits, loose), *either)
    notes = dict.fromkeys((*_notes(adjusters, kept, fits, chosen), *words, *(one.words for one in odd), *doubts, *rest))
    return FittedPack(pack, tuple(adjusters), tuple(kept), fits["compression"], fits["rebound"], chosen, left,
                      tuple(notes), odd, read, doubts, rest)  # fmt: skip


def _scaled_by_rigs(fits: dict[Direction, FittedDirection]) -> tuple[dict[Direction, FittedDirection], list[str]]:
    """Return the fits with a doubt about the rigs' scales where tests show one, and what is said of it."""
    share = rigs_apart(fits)
    if not share:
        return fits, []
    # Of two rigs nobody knows whose scale is right, and their mean lies off by as much as half of what is between them.
    return {d: replace(fitted, calibration=share) for d, fitted in fits.items()}, [rig_words(share)]


def _single(data: DirectionData) -> FittedDirection:
    return fit_interpolated(data, replace(first_spread(data), warps=()))


def _settings(tested: Sequence[Tested]) -> int:
    return len({clicks_text(dict(sorted(t.from_closed.items()))) for t in tested})


def _better(
    adjusters: tuple[Adjuster, ...], tested: Sequence[Tested], view: View | None
) -> tuple[dict[Direction, FittedDirection], dict[Direction, FloatArray], View]:
    """Return the fits, the left-out errors and the view, of each direction: the valve, unless it clearly errs more.

    The view is called interpolated where both directions are.
    """
    fits, left, bare = {}, {}, []
    for direction in DIRECTIONS:
        valve = _with_crossing(direction, adjusters, tested)
        fits[direction] = valve
        left[direction] = leave_one_out(valve.total, valve.residual, valve.data.tests)[0]
        plain = left_out_errors(valve.data)
        size = [float(np.mean(felt_errors(valve.data, error))) for error in (left[direction], plain)]
        if view == "interpolated" or (view is None and size[0] > CLEARLY_WORSE * size[1]):
            interpolated = fit_interpolated(valve.data, valve.spread)
            fits[direction] = replace(interpolated, openings=valve.openings, crossing=valve.crossing)
            left[direction] = plain
            bare.append(direction)
    scaled = {direction: _scaled_by_left_out(fitted) for direction, fitted in fits.items()}
    return scaled, left, "interpolated" if len(bare) == len(DIRECTIONS) else "hydraulic"


def _scaled_by_left_out(fitted: FittedDirection) -> FittedDirection:
    """Return a fit whose standard deviations are as much wider as left-out tests lie further off than they say."""
    error, sd = leave_one_out(fitted.total, fitted.residual, fitted.data.tests)
    squares = np.mean((error / np.maximum(sd, LEAST_SHARE)) ** 2, axis=1)
    # One test that is wrong shall not widen the whole map: see `strangers`.
    counted = np.minimum(squares, MOST_SQUARES)
    scale = np.sqrt((LEFT_OUT_PRIOR + float(np.sum(counted))) / (LEFT_OUT_PRIOR + len(counted)))
    return replace(fitted, scale=max(float(scale), 1.0))


def felt_errors(data: DirectionData, logs: FloatArray) -> FloatArray:
    """Return errors of ln(force) as shares of a force that somebody feels, at speeds that matter, (T, S'). [1]"""
    seen = np.exp(data.logs)
    newtons = np.abs(seen - np.exp(data.logs - logs))
    return np.asarray((newtons / np.maximum(seen, LEAST_FORCE))[:, data.speeds >= JUDGED_FROM * 0.999])


def _with_crossing(direction: Direction, adjusters: tuple[Adjuster, ...], tested: Sequence[Tested]) -> FittedDirection:
    """Fit one direction, with the other direction's adjuster where the tests speak for it."""
    axes = axes_of(direction, adjusters)
    other = crossing_axis(direction, adjusters)
    if other is not None and len(axes) < 3:
        data = gather(direction, (*axes, other), tested)
        if data.moved[-1] and crossing_suspected(data, other.name):
            crossed = fit_hydraulic(data, other.name)
            if crossed.crossing > CROSSING_BELIEVED:
                return crossed
    return fit_hydraulic(gather(direction, axes, tested))


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
    notes.extend(shock_words(tested, fits))
    return tuple(notes)


def _apart_words(tested: Sequence[Tested], apart: Collection[int]) -> str:
    which = "; ".join(f"{tested[i].shock} {clicks_text(tested[i].from_closed)}" for i in sorted(apart))
    return (f"{len(apart)} of {len(tested)} tests fit the others only with their clicks counted from the other end, "
            f"and are taken so: {which} (from closed, as read); correct their clicks")  # fmt: skip


def _two_ways(adjusters: Sequence[Adjuster], words: Sequence[str]) -> tuple[Oddity, ...]:
    return tuple(Oddity("counted two ways", ", ".join(one.name for one in adjusters), text) for text in words)


def _stranger_words(test: Tested) -> str:
    where = f"{test.shock} {clicks_text(test.from_closed)} (from closed)"
    return f"{where} does not fit the other tests of this pack and is left out; check its clicks and pack"


def curve_at(
    map: ClickMap, from_closed: Mapping[str, int], *, clicks: Mapping[str, int] | None = None, shock: str | None = None,
    date: str | None = None, pieces: bool = True,
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
        Whose force is wanted: of one that the map rests on its own, of any other with the spread between shocks in the
        band; None: the mean shock's, or the only one's.
    date
        When, for a shock that was tested more than once; by default as it was last.
    pieces
        Whether to find the knees and pieces that describe it, which takes most of the time; its forces are the same.

    Raises
    ------
    CallError
        If an adjuster is unknown or a click lies outside it.
    """
    setting = map.complete(from_closed)
    here = replace(map, compression=map.compression.one(setting), rebound=map.rebound.one(setting))
    mine = here if shock is None else named_shock(here, shock, date)
    sides = {d: _side(mine.direction(d), pieces=pieces) for d in DIRECTIONS}
    shown = dict(clicks) if clicks is not None else setting
    return Curve(
        compression=sides["compression"], rebound=sides["rebound"], what=f"{map.pack}@{clicks_text(shown)}",
        shock=shock, pack=map.pack, clicks=shown, gas_force=map.gas_force, friction=map.friction,
        standing=map.standing(setting), temperature=map.reference_c,
    )  # fmt: skip


def _side(table: DirectionMap, *, pieces: bool) -> Side:
    force, half = table.force, table.half_width
    inside = table.speeds <= table.top_speed * 1.001
    segments, knees = _described(table.speeds[inside], force[inside]) if pieces else ((), ())
    return Side(segments=segments, knees=knees, speeds=table.speeds, low=np.maximum(force - half, 0.0),
                high=force + half, top_speed=table.top_speed, forces=force)  # fmt: skip


def _described(speeds: FloatArray, forces: FloatArray) -> tuple[tuple[Segment, ...], tuple[Knee, ...]]:
    from dynoan.analysis.fitting.fit import describe

    return describe(speeds, forces)
