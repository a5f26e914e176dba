"""What the tests show to be odd about a pack's adjusters, each with its name and in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from dynoan.analysis.clickmap.assumptions.odd_tests import FEWEST_TO_JUDGE
from dynoan.analysis.clickmap.assumptions.screws import EITHER, MOSTLY, NAMED, SURELY_RISES, SUSPECTED, WIDE_GAP
from dynoan.analysis.clickmap.tested.data import Tested
from dynoan.analysis.clickmap.tested.plain_least_squares import clearly_rises
from dynoan.analysis.clickmap.trends.openings import ClickOpening, OpeningTable
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import Oddity
from dynoan.model.curve import Direction
from dynoan.model.shock import Adjuster

#: what each oddity is called where it is not sure
SUSPICION = {
    "dead clicks": "clicks at an end that do nothing", "stepped": "acts at every few clicks only",
    "not monotone": "falls back somewhere", "saturating": "has said all after few clicks",
}  # fmt: skip


def oddities(
    adjusters: Sequence[Adjuster], fits: Mapping[Direction, FittedDirection], loose: Mapping[str, float]
) -> tuple[Oddity, ...]:
    """Return what is odd about each adjuster, as far as the tests show it.

    `loose`: how probable it is of each that it does not come back to the same place. [1]
    """
    return (*_wrong_way(adjusters, fits), *_uneven(fits, loose), *_loose(loose), *_crossing(fits))


def backward(fits: Mapping[Direction, FittedDirection]) -> dict[str, bool]:
    """Return of each adjuster that moves force whether force rises as it is turned open."""
    out: dict[str, bool] = {}
    for fitted in fits.values():
        for axis, opening in zip(fitted.data.axes, fitted.openings, strict=False):
            if _moved(fitted, axis.name) and len(opening.table) > 1:
                out[axis.name] = out.get(axis.name, False) or bool(opening.table[-1] < opening.table[0])
    return out


def _moved(fitted: FittedDirection, name: str) -> bool:
    return any(axis.name == name and moved for axis, moved in zip(fitted.data.axes, fitted.data.moved, strict=True))


def _wrong_way(adjusters: Sequence[Adjuster], fits: Mapping[Direction, FittedDirection]) -> list[Oddity]:
    ways = backward(fits)
    wrong = [name for name, way in ways.items() if way]
    if not wrong:
        return []
    if len(wrong) == len(ways):
        counted = {one.name: one.counted for one in adjusters}
        ways_taken = ", ".join(sorted({counted.get(name, "from closed") for name in wrong}))
        words = (f"{', '.join(wrong)}: force falls as clicks are turned in, so they are counted the other way than "
                 f"taken ({ways_taken}); give the shock a file that says how it is counted")  # fmt: skip
        return [Oddity("counted the other way", name, words) for name in wrong]
    return [Oddity("wrong way", name, f"{name} works the wrong way round: turned out, force rises")
            for name in wrong if _clear(name, fits)]  # fmt: skip


def _clear(name: str, fits: Mapping[Direction, FittedDirection]) -> bool:
    """Whether tests alone show that force rises as an adjuster is opened, whatever the law of the valve."""
    return any(clearly_rises(fitted.data, i, SURELY_RISES)
               for fitted in fits.values() for i, axis in enumerate(fitted.data.axes) if axis.name == name)  # fmt: skip


def _maybe_wrong(fits: Mapping[Direction, FittedDirection]) -> dict[tuple[str, str], str]:
    ways = backward(fits)
    if all(ways.values()):
        return {}
    return {("wrong way", name): f"{name} may work the wrong way round: run one setting twice, {name} at either end"
            for name, way in ways.items() if way and not _clear(name, fits)}  # fmt: skip


def _uneven(fits: Mapping[Direction, FittedDirection], loose: Mapping[str, float]) -> list[Oddity]:
    found: dict[tuple[str, str], Oddity] = {}
    for fitted in fits.values():
        for i, (axis, opening) in enumerate(zip(fitted.data.axes, fitted.openings, strict=False)):
            kind = max(opening.kinds, key=lambda k: opening.kinds[k], default=None)
            if kind is None or opening.kinds[kind] <= NAMED or _of_play(kind, loose.get(axis.name, 0.0)):
                continue
            words = _words(kind, axis.name, opening, fitted.data.clicks[:, i])
            if words:
                found[kind, axis.name] = Oddity(kind, axis.name, words)
    return list(found.values())


def _of_play(kind: str, loose: float) -> bool:
    """Whether what looks like an oddity at some clicks may be that the screw stood beside them: each does as well."""
    return kind != "saturating" and loose > NAMED


def _words(kind: str, name: str, opening: ClickOpening, tested: FloatArray) -> str:
    """Return what is odd about an adjuster; nothing where no two tests show it."""
    sure = _sure(opening.kinds[kind])
    likeliest: OpeningTable = opening.likeliest
    steps = np.abs(np.diff(likeliest.table))
    if kind == "stepped":
        acting = int(np.count_nonzero(steps > 1e-9))
        every = round(len(steps) / max(acting, 1))
        return f"{name} acts at about every {every}. click only ({sure})"
    if kind == "dead clicks":
        dead = dead_between(opening, tested)
        if not dead:
            return ""
        where = " and ".join(f"from {start} to {end}" for start, end in dead)
        least = min(float(opening.same[pair]) for pair in dead)
        past = "" if _to_the_ends(dead, len(opening.table) - 1) else "; beyond, no test tells"
        return f"{name}: {where} clicks from closed it seems to do nothing ({_sure(least)}){past}"
    if kind == "saturating":
        table = likeliest.table if likeliest.table[-1] > 0.5 else 1.0 - likeliest.table
        return f"{name} has said nearly all after {int(np.argmax(table > MOSTLY))} clicks from closed ({sure})"
    at = int(np.argmax(np.sign(np.diff(likeliest.table)) != np.sign(likeliest.table[-1] - likeliest.table[0])))
    return f"{name} falls back near click {at + 1} from closed: there it acts the other way ({sure})"


def dead_between(opening: ClickOpening, tested: FloatArray) -> list[tuple[int, int]]:
    """Return the tested clicks at either end between which an adjuster surely does nothing."""
    seen = np.unique(tested.astype(int)).tolist()
    low = [(seen[0], end) for end in seen[:0:-1] if opening.same[seen[0], end] > NAMED]
    high = [(start, seen[-1]) for start in seen[:-1] if opening.same[start, seen[-1]] > NAMED]
    return [*low[:1], *high[:1]]


def _to_the_ends(dead: Sequence[tuple[int, int]], last: int) -> bool:
    return all(start == 0 or end == last for start, end in dead)


def _sure(share: float) -> str:
    """Return how sure something is; nothing that is reckoned so is wholly sure."""
    return f"{_share(share)} sure"


def _share(share: float) -> str:
    return "over 99 %" if share > 0.99 else f"{100 * share:.0f} %"


def _loose(loose: Mapping[str, float]) -> list[Oddity]:
    return [Oddity("hysteresis", name,
                   f"{name} does not come back to the same place: its tests lie off as half a click would move them "
                   f"({_sure(sure)}); turn it to its click from the same end every time")
            for name, sure in loose.items() if sure > NAMED]  # fmt: skip


def suspicions(fits: Mapping[Direction, FittedDirection], loose: Mapping[str, float]) -> tuple[str, ...]:
    """Return what may be odd about adjusters and is not sure, each with the run that would show it, in words."""
    said = _maybe_wrong(fits)
    for name, sure in loose.items():
        if SUSPECTED < sure <= NAMED:
            said["hysteresis", name] = (f"{name} may not come back to the same place ({100 * sure:.0f} %): run one "
                                        "setting three times, the screw turned through in between")  # fmt: skip
    for fitted in fits.values():
        for i, (axis, opening) in enumerate(zip(fitted.data.axes, fitted.openings, strict=False)):
            kind = max(opening.kinds, key=lambda k: opening.kinds[k], default=None)
            if kind is None or opening.kinds[kind] <= SUSPECTED:
                continue
            if _of_play(kind, loose.get(axis.name, 0.0)):
                said[kind, axis.name] = (f"{axis.name} may be odd beside that ({SUSPICION[kind]}), or its tests stood "
                                         "beside their clicks: runs that come to them from one end tell")  # fmt: skip
            elif opening.kinds[kind] <= NAMED or not _words(kind, axis.name, opening, fitted.data.clicks[:, i]):
                at = int(np.argmax(np.diag(opening.doubt)))
                said[kind, axis.name] = (f"{axis.name} may be odd: {SUSPICION[kind]} ({_share(opening.kinds[kind])}); "
                                         f"a run at {axis.name} {at} from closed would tell most")  # fmt: skip
    for direction, fitted in fits.items():
        if SUSPECTED < fitted.crossing <= NAMED:
            name = fitted.data.axes[-1].name
            said["cross-talk", name] = (f"{name} may move {direction} as well ({_share(fitted.crossing)}); two runs "
                                        f"that differ in {name} alone would tell")  # fmt: skip
    return tuple(said.values())


def either_words(beside: Mapping[str, float]) -> tuple[str, ...]:
    """Return the adjusters that may have stood beside their click where a shock seems changed, with their share."""
    return tuple(f"what is told of a changed shock may be that {name} stood beside its click in the later test "
                 f"({_share(sure)}): run one setting three times, the screw turned through in between"
                 for name, sure in beside.items() if sure > EITHER)  # fmt: skip


def between_words(adjusters: Sequence[Adjuster], tested: Sequence[Tested]) -> tuple[str, ...]:
    """Return, of adjusters that many tests move and none puts well between the ends tested, the run that would tell."""
    found = []
    for one in adjusters if len(tested) >= FEWEST_TO_JUDGE else ():
        seen = sorted({int(t.from_closed[one.name]) for t in tested if one.name in t.from_closed})
        wide, start = max(((b - a, a) for a, b in pairwise(seen)), default=(0, 0))
        if wide > WIDE_GAP * one.clicks:
            found.append(f"{one.name} (a run at {start + wide // 2} from closed would tell)")
    if not found:
        return ()
    return (f"no test stands well between the ends tested of {', '.join(found)}: whether force falls evenly or early "
            "there is not known",)  # fmt: skip


def _crossing(fits: Mapping[Direction, FittedDirection]) -> list[Oddity]:
    out = []
    for direction, fitted in fits.items():
        if fitted.crossing > NAMED:
            name = fitted.data.axes[-1].name
            out.append(Oddity("cross-talk", name, f"{name} moves {direction} as well ({_sure(fitted.crossing)})"))
    return out
