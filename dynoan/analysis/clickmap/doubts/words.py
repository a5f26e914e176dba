"""What is said of a pack's tests beside its map: what they leave open, what was left out or read otherwise."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import MOST_LEFT_IN
from dynoan.analysis.clickmap.shocks.words import shock_words
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.clickmap import View
from dynoan.model.curve import Direction
from dynoan.model.shock import Adjuster, clicks_text


def notes(
    adjusters: Sequence[Adjuster], tested: Sequence[Tested], fits: Mapping[Direction, FittedDirection], view: View
) -> tuple[str, ...]:
    """Return what the tests of a pack leave open, and how its shocks differ."""
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
    notes.extend(friction_words(fits))
    notes.extend(shock_words(tested, fits))
    return tuple(notes)


def friction_words(fits: Mapping[Direction, FittedDirection]) -> list[str]:
    """Return that no test tells friction, and how far the bands reach for it, where that is so."""
    untold = {direction: fitted for direction, fitted in fits.items() if np.isnan(fitted.data.alike)}
    if not untold:
        return []
    off = " and ".join(f"{fitted.taken_off:.0f} N in {direction}" for direction, fitted in untold.items())
    return [f"friction: no test of this pack tells it, as peak tables cannot; the form of the curves takes {off} for "
            f"it, and the bands reach over all that it may be, 0 to {MOST_LEFT_IN:.0f} N"]  # fmt: skip


def apart_words(tested: Sequence[Tested], apart: Collection[int]) -> str:
    """Return which tests are read with their clicks counted from the other end."""
    which = "; ".join(f"{tested[i].shock} {clicks_text(tested[i].from_closed)}" for i in sorted(apart))
    return (f"{len(apart)} of {len(tested)} tests fit the others only with their clicks counted from the other end, "
            f"and are taken so: {which} (from closed, as read); correct their clicks")  # fmt: skip


def outlier_words(test: Tested) -> str:
    """Return that a test is left out."""
    where = f"{test.shock} {clicks_text(test.from_closed)} (from closed)"
    return f"{where} does not fit the other tests of this pack and is left out; check its clicks and pack"
