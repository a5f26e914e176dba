"""Click maps: from a handful of tested settings of a pack to a curve at every click (see `at_clicks`)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.doubts.oddities import between_words, either_words, oddities, suspicions
from dynoan.analysis.clickmap.doubts.outliers import outliers
from dynoan.analysis.clickmap.doubts.returning import not_returning, rather_than_changed
from dynoan.analysis.clickmap.doubts.rigs import rigs_apart
from dynoan.analysis.clickmap.doubts.rigs import words as rig_words
from dynoan.analysis.clickmap.doubts.words import apart_words, notes, outlier_words
from dynoan.analysis.clickmap.every_click.tables import tabulate
from dynoan.analysis.clickmap.every_click.views import better_view, felt_errors
from dynoan.analysis.clickmap.tested.data import DirectionData, Tested, axes_of, gather
from dynoan.analysis.clickmap.tested.friction import mean_friction
from dynoan.analysis.clickmap.tested.states import reference
from dynoan.analysis.clickmap.tested.two_ways import counted_alike
from dynoan.analysis.clickmap.trends.interpolated import fit_interpolated
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.at_rest import rest_words
from dynoan.analysis.clickmap.valve.prior import first_spread
from dynoan.analysis.statistics import mean_of_finite
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, Oddity, ShockState, View
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.shock import Adjuster, clicks_text


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
    rubbing = mean_friction(curves)
    shares = [fitted.direction(d).spread.shock for d in DIRECTIONS]
    shocks = tuple(sorted({t.shock for t in fitted.tested}))  # one whose every test is left out tells nothing
    return ClickMap(
        pack=pack, adjusters=tuple(adjusters), compression=tabulate(fitted.compression),
        rebound=tabulate(fitted.rebound), tested=_distinct(fitted.read), view=fitted.view,
        loo_error_pct=float(100 * np.median(np.concatenate([b.ravel() for b in both]))) if both else float("nan"),
        shocks=shocks, gas_force=mean_of_finite([c.gas_force for c in curves]),
        gas_rate=mean_of_finite([c.gas_rate for c in curves]), friction=rubbing.friction,
        friction_sd=rubbing.sd,
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
    words = [apart_words(tested, apart)] if apart else []
    odd = _two_ways(adjusters, words)
    chosen: View = "single"
    if _settings(read) < 2:
        kept: Sequence[Tested] = read
        fits = {d: _single(gather(d, axes_of(d, adjusters), kept)) for d in DIRECTIONS}
        left = {d: np.zeros((0, 0)) for d in DIRECTIONS}
    else:
        strange = outliers(adjusters, read)
        kept = [t for i, t in enumerate(read) if i not in strange]
        fits, left, chosen = better_view(adjusters, kept, view)
        words += [outlier_words(read[i]) for i in sorted(strange)]
        fits, more = _scaled_by_rigs(fits)
        words += more
    loose = not_returning(fits)
    odd = (*odd, *oddities(adjusters, fits, loose))
    rest, either = rest_words(fits), either_words(rather_than_changed(fits))
    doubts = (*between_words(adjusters, kept), *suspicions(fits, loose), *either)
    said = dict.fromkeys((*notes(adjusters, kept, fits, chosen), *words, *(one.words for one in odd), *doubts, *rest))
    return FittedPack(pack, tuple(adjusters), tuple(kept), fits["compression"], fits["rebound"], chosen, left,
                      tuple(said), odd, read, doubts, rest)  # fmt: skip


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


def _two_ways(adjusters: Sequence[Adjuster], words: Sequence[str]) -> tuple[Oddity, ...]:
    return tuple(Oddity("counted two ways", ", ".join(one.name for one in adjusters), text) for text in words)
