"""What the targets do not decide stays as it is on the car: clicks that gain next to nothing are turned back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations
from math import sqrt

from dynoan.analysis.choosing.aims import Place
from dynoan.analysis.choosing.assumptions import MISS_STEP
from dynoan.analysis.choosing.ranges import Ranges
from dynoan.analysis.choosing.score import Scored
from dynoan.analysis.choosing.search import best_pairs, only_fitting


def fewest_turned(
    place: Place, ranges: Ranges, misses: Sequence[Scored], offsets: Mapping[str, int], stay: float
) -> dict[str, int]:
    """Return the setting that turns the fewest adjusters of all that miss hardly more than one found.

    Parameters
    ----------
    place, ranges, misses, offsets, stay
        As of `settled`; `offsets` are of the setting found best.

    Returns
    -------
    :
        Offsets from the first allowed click, by adjuster: of those that turn as few adjusters the one that misses
        least. The search is exact: every set of adjusters is held at what is on the car in turn.
    """
    room = (sqrt(miss_of(misses, offsets) * MISS_STEP) + stay) ** 2 / MISS_STEP
    tables = [only_fitting(m) if _fits(misses, offsets) else m for m in misses]
    home = {n: at for n, at in _home(place, ranges) if n in offsets}
    for count in range(len(home), -1, -1):
        found = []
        for held in combinations(sorted(home), count):
            up, down = (_held(t, {n: home[n] for n in held}) for t in tables)
            best = best_pairs(up, down, 1)
            found += [(miss, n, setting | {h: home[h] for h in held}) for n, (setting, miss) in enumerate(best)]
        good = [one for one in found if one[0] <= room]
        if good:
            return min(good, key=lambda one: one[0])[2]
    return dict(offsets)


def _held(table: Scored, at: Mapping[str, int]) -> Scored:
    cut = tuple(slice(at[n], at[n] + 1) if n in at else slice(None) for n in table.adjusters)
    return replace(table, key=table.key[cut], fits=table.fits[cut])


def settled(
    place: Place, ranges: Ranges, misses: Sequence[Scored], offsets: Mapping[str, int], stay: float
) -> dict[str, int]:
    """Return a setting with every adjuster as near to what is on the car as the miss hardly minds.

    Parameters
    ----------
    place
        Its corners say what is on the car; an adjuster they disagree on, or do not state, is left alone.
    ranges
        The allowed clicks, from closed.
    misses
        Of both directions, from `score.missed`.
    offsets
        The setting found, by adjuster, from the first allowed click.
    stay
        How much more the setting may miss, a share. A setting that fits stays one that fits.

    Returns
    -------
    :
        Offsets from the first allowed click, by adjuster.
    """
    found = dict(offsets)
    room = _steps((sqrt(miss_of(misses, found) * MISS_STEP) + stay) ** 2)
    must_fit = _fits(misses, found)
    home = {n: at for n, at in _home(place, ranges) if n in found}

    def allowed(trial: Mapping[str, int]) -> bool:
        return miss_of(misses, trial) <= room and (_fits(misses, trial) or not must_fit)

    open_to = {n for n in home if found[n] != home[n]}
    while open_to:  # the one that costs least goes home first
        trials = {n: found | {n: home[n]} for n in sorted(open_to)}
        name = min(trials, key=lambda n: miss_of(misses, trials[n]))
        if not allowed(trials[name]):
            break
        found = trials[name]
        open_to.discard(name)
    for name in sorted(open_to):
        step = 1 if found[name] > home[name] else -1
        way = range(home[name], found[name] + step, step)
        found[name] = next(at for at in way if allowed(found | {name: at}))
    return found


def _steps(square: float) -> float:
    return square / MISS_STEP


def _home(place: Place, ranges: Ranges) -> Iterator[tuple[str, int]]:
    for name, span in ranges.items():
        stated = {aim.now[name] for aim in place.aims if aim.now and name in aim.now}
        if len(stated) == 1 and span.first <= (now := stated.pop()) <= span.last:
            yield name, now - span.first


def miss_of(misses: Sequence[Scored], offsets: Mapping[str, int]) -> int:
    """Return the squared miss of a setting over both directions, in steps of `MISS_STEP`.

    Parameters
    ----------
    misses
        Of both directions, from `score.missed`.
    offsets
        From the first allowed click, by adjuster.
    """
    return sum(int(m.key[tuple(offsets[n] for n in m.adjusters)]) for m in misses)


def _fits(misses: Sequence[Scored], offsets: Mapping[str, int]) -> bool:
    return all(bool(m.fits[tuple(offsets[n] for n in m.adjusters)]) for m in misses)
