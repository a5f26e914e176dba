"""Hold a program's answers against the truth, row by row; `tables` prints the figures.

Shares are of points (settings times speeds) for bands, of questions else. Points of one world are not independent: the
column `worlds` gives the share of worlds of which the band holds at least 80 % of points. Error and width are shares
of the true force at the point.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from tests.worlds.packs.answers import Mapped, Mapper, Program
from tests.worlds.packs.made import PackWorld, Task
from tests.worlds.packs.rows import draw
from tests.worlds.packs.tests_of import Level, Setting
from tests.worlds.valves import FloatArray

Cells = dict[str, float]
PLANNED = 3
"""Runs that a planner may order."""
SURE = 0.9
"""Probability above which an answer is held to be given for sure."""
NAN = float("nan")


@dataclass(frozen=True, eq=False)
class Points:
    """Points of one world: error and half-width over true force, and whether the band holds it; NaN: nothing said."""

    error: FloatArray
    half: FloatArray
    held: FloatArray

    def rms(self) -> float:
        """Return the rms error."""
        return float(np.sqrt(_mean(self.error**2)))


def _mean(values: FloatArray | Sequence[float]) -> float:
    known = np.asarray(values, float)
    known = known[np.isfinite(known)]
    return float(known.mean()) if known.size else NAN


def _quantile(values: FloatArray, share: float) -> float:
    known = values[np.isfinite(values)]
    return float(np.quantile(known, share)) if known.size else NAN


def points(world: PackWorld, said: Mapped, shock: str, date: float) -> Points:
    """Return how bands at the settings asked for hold the truth of a shock in a year."""
    v, rows = world.speeds(), []
    for clicks in world.asked if said.refused is None else ():
        true, band = world.force(clicks, v, shock, date), said.band(clicks, v, shock, date)
        known = np.where(np.isfinite(band.value + band.low + band.high), 1.0, np.nan)
        held = known * ((band.low <= true) & (true <= band.high))
        rows.append(
            [known * (band.value - true) / np.abs(true), known * (band.high - band.low) / 2 / np.abs(true), held]
        )
    joined = np.concatenate([np.array(row) for row in rows], axis=1) if rows else np.full((3, 1), np.nan)
    return Points(*joined)


def _pool(many: Sequence[Points]) -> Points:
    return Points(*(np.concatenate([getattr(one, name) for one in many]) for name in ("error", "half", "held")))


def _bands(many: Sequence[Points]) -> Cells:
    every = _pool(many)
    worlds = np.array([_mean(one.held) for one in many])
    return {
        "silent": float(np.mean(np.isnan(every.held))),
        "held": _mean(every.held),
        "worlds": _mean(np.where(np.isnan(worlds), np.nan, worlds >= 0.8)),
        "width / error": _quantile(every.half, 0.5) / _quantile(np.abs(every.error), 0.95),
        "rms error": every.rms(),
        "half-width": _quantile(every.half, 0.5),
    }


def _asked(world: PackWorld, mapper: Mapper, later: bool = False) -> Mapped:
    runs = world.library.runs + (world.later if later else ())
    return mapper(replace(world.library, runs=runs), world.packs[0].name)


def try_map(program: Program, worlds: Sequence[PackWorld]) -> Cells:
    """Return how bands hold the tested shock at untested clicks, and how often oddities were named."""
    assert program.map
    said = [_asked(world, program.map) for world in worlds]
    bands = [points(world, one, world.shock, 0.0) for world, one in zip(worlds, said, strict=True)]
    there = [len(world.oddities & one.oddities) for world, one in zip(worlds, said, strict=True)]
    count = sum(len(world.oddities) for world in worlds)
    wrong = [bool(one.oddities - world.oddities) for world, one in zip(worlds, said, strict=True)]
    return {**_bands(bands), "oddities named": sum(there) / count if count else NAN, "named wrongly": _mean(wrong)}


def try_retest(program: Program, worlds: Sequence[PackWorld]) -> Cells:
    """Return how bands hold before and after the later runs come in, of the shock then and now, and how they widen."""
    assert program.map
    before, then, now = [], [], []
    for world in worlds:
        first, second = _asked(world, program.map), _asked(world, program.map, later=True)
        before.append(points(world, first, world.shock, 0.0))
        then.append(points(world, second, world.shock, 0.0))
        now.append(points(world, second, world.shock, 1.0))
    ratios = np.array([_quantile(b.half, 0.5) / _quantile(a.half, 0.5) for a, b in zip(before, then, strict=True)])
    return {
        "held before": _bands(before)["held"],
        "held after, then": _bands(then)["held"],
        "held after, now": _bands(now)["held"],
        "silent after": _bands(then)["silent"],
        "rms before": _pool(before).rms(),
        "rms after": _pool(then).rms(),
        "width after / before": _quantile(ratios, 0.5),
        "widened by a tenth": _mean(np.where(np.isnan(ratios), 1.0, ratios > 1.1)),
    }


def try_unit(program: Program, worlds: Sequence[PackWorld]) -> Cells:
    """Return how bands hold shocks that were never tested with the pack."""
    assert program.map
    said = [_asked(world, program.map) for world in worlds]
    pairs = [(world, one, name) for world, one in zip(worlds, said, strict=True) for name in world.fresh]
    return _bands([points(world, one, name, 0.0) for world, one, name in pairs])


def try_identify(program: Program, worlds: Sequence[PackWorld]) -> Cells:
    """Return how often a pack was named, at over 90 %, rightly; and how often known ones were "none of these"."""
    assert program.identify
    asked = [(one.pack, program.identify(world.library, one.run)) for world in worlds for one in world.unknowns]
    told = [(true, answer) for true, answer in asked if answer.told]
    sure = [true == answer.pack for true, answer in told if answer.probability > SURE]
    known = [answer.told and answer.pack is None for true, answer in asked if true is not None]
    strange = [answer.told and answer.pack is not None for true, answer in asked if true is None]
    claimed = _mean([answer.probability for _, answer in told if answer.probability > SURE])
    return {
        "told": len(told) / len(asked),
        "sure": len(sure) / len(asked),
        "sure: right": _mean(sure),
        "sure: claimed": claimed,
        "told: right": _mean([true == answer.pack for true, answer in told]),
        "known called none": _mean(known),
        "strange called known": _mean(strange),
    }


def try_match(program: Program, worlds: Sequence[PackWorld]) -> Cells:
    """Return false verdicts each way; pairs on which damping and the sum with friction disagree are left out."""
    assert program.match
    counts: dict[bool, list[str]] = {True: [], False: []}
    for world in worlds:
        for pair in world.pairs:
            within = pair.within()
            if within is not None:
                counts[within].append(program.match(world.library, pair.one, pair.other, pair.tolerance))
    both = counts[True] + counts[False]
    return {
        "pairs": len(counts[True]),
        "not pairs": len(counts[False]),
        "false matched": _mean([verdict == "matched" for verdict in counts[False]]),
        "false not matched": _mean([verdict == "not matched" for verdict in counts[True]]),
        "matched": _mean([verdict == "matched" for verdict in counts[True]]),
        "not matched": _mean([verdict == "not matched" for verdict in counts[False]]),
        "cannot tell": _mean([verdict == "cannot tell" for verdict in both]),
    }


def try_health(program: Program, worlds: Sequence[PackWorld]) -> Cells:
    """Return false alarms (of shocks that have not changed), changes found, and changes named that are none."""
    assert program.health
    asked = [
        (one.changed, program.health(world.library, one.earlier, one.now))
        for world in worlds
        for one in world.histories
    ]
    return {
        "histories": len(asked),
        "false alarms": _mean([bool(said) for true, said in asked if not true]),
        "found": _mean([true <= said for true, said in asked if true]),
        "something found": _mean([bool(said) for true, said in asked if true]),
        "named wrongly": _mean([bool(said - true) for true, said in asked if true]),
    }


def try_plan(program: Program, worlds: Sequence[PackWorld]) -> Cells:
    """Return the error stated for after the ordered runs against the true one, at clicks run neither way."""
    assert program.map
    assert program.plan
    rows = []
    for world in worlds:
        pack = world.packs[0].name
        order = program.plan(world.library, pack, PLANNED)
        runs = tuple(world.order(clicks) for clicks in order.runs)
        grown = replace(world, library=replace(world.library, runs=world.library.runs + runs))
        left: tuple[Setting, ...] = tuple(clicks for clicks in world.asked if clicks not in order.runs)
        errors = [
            points(replace(one, asked=left), _asked(one, program.map), world.shock, 0.0).rms() for one in (world, grown)
        ]
        rows.append([order.error_now, errors[0], order.error_after, errors[1]])
    said_now, now, said, after = np.array(rows).T
    return {
        "stated now": _quantile(said_now, 0.5),
        "true now": _quantile(now, 0.5),
        "stated after": _quantile(said, 0.5),
        "true after": _quantile(after, 0.5),
        "true / stated, rms": float(np.sqrt(_mean((after / said) ** 2))),
        "beyond twice": _mean(np.where(np.isfinite(after), after > 2.0 * said, np.nan)),
        "better": _mean(np.where(np.isfinite(after + now), after < now, np.nan)),
    }


TRIES: Mapping[Task, Callable[[Program, Sequence[PackWorld]], Cells]] = {
    "map": try_map,
    "retest": try_retest,
    "unit": try_unit,
    "identify": try_identify,
    "match": try_match,
    "health": try_health,
    "plan": try_plan,
}


def offers(program: Program, task: Task) -> bool:
    """Return whether a program has what a task needs."""
    needs = {"retest": ("map",), "unit": ("map",), "plan": ("map", "plan")}.get(task, (task,))
    return all(getattr(program, name) is not None for name in needs)


def try_row(program: Program, row: str, seeds: Iterable[int], level: Level = "curve") -> tuple[Task, Cells]:
    """Return a row's task and its figures over the worlds of the seeds."""
    worlds = [draw(row, seed, level) for seed in seeds]
    return worlds[0].task, TRIES[worlds[0].task](program, worlds)
