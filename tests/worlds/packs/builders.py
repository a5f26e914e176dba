"""Builders of pack worlds: from dice and a level to a `PackWorld`. `rows` names them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from tests.worlds.packs import adjusters as screws
from tests.worlds.packs import packs as valving
from tests.worlds.packs import units as shocks
from tests.worlds.packs.made import History, Library, PackWorld, Pair, StatedAdjuster, Task, Unknown
from tests.worlds.packs.packs import Pack
from tests.worlds.packs.tests_of import DESIGNS, Form, Job, Level, Run, Setting, Shop, deliver, settings, truth
from tests.worlds.packs.units import COOL, Change, Unit
from tests.worlds.valves import FloatArray, Generator

Build = Callable[[Generator, Level], PackWorld]
KNOWN = (*screws.ODD, "cross-talk")
"""Names of all oddities."""
TESTED, SECOND, FRESH = "RL-02", "RR-03", ("FL-04", "FR-05", "FL-06", "FR-07")
ASKED = 12
FORMS: tuple[Form, ...] = ("trace", "one speed", "peaks")


@dataclass(frozen=True)
class Recipe:
    """What a world is made of; None: drawn."""

    odd: tuple[str, ...] | None = ()  #: None: none, one or two of `KNOWN`
    number: int | None = None  #: of adjusters
    law: str | None = None
    alike: tuple[float, float] | None = None  #: how far packs of the family lie apart; None: far
    single: bool = True  #: one pack, else a family of three


def _odd(rng: Generator, recipe: Recipe) -> tuple[str, ...]:
    if recipe.odd is not None:
        return recipe.odd
    return tuple(str(name) for name in rng.choice(KNOWN, int(rng.integers(3)), replace=False))


def start(rng: Generator, level: Level, task: Task, recipe: Recipe) -> PackWorld:
    """Return a world without runs: adjusters, packs, shocks, shop."""
    odd = _odd(rng, recipe)
    number = recipe.number or int(rng.choice([1, 2, 4], p=[0.15, 0.35, 0.5]))
    number = max(number, 2) if "cross-talk" in odd else number
    knobs = screws.draw_adjusters(rng, number, [name for name in odd if name != "cross-talk"])
    single = recipe.single
    packs = (
        [valving.draw_pack(rng, "gravel", knobs, recipe.law)] if single else valving.family(rng, knobs, recipe.alike)
    )
    if "cross-talk" in odd:
        packs = [valving.crossed(pack, rng.uniform(*valving.CROSS_TALK)) for pack in packs]
    spread = shocks.draw_spread(rng)
    units = {name: shocks.draw_unit(rng, name, spread) for name in (TESTED, SECOND, *FRESH)}
    shop = Shop(repeat=rng.uniform(0.004, 0.01), top=float(rng.choice([0.3, 0.5, 0.8])), level=level)
    stated = tuple(StatedAdjuster(one.name, one.clicks, one.stated) for one in knobs)
    oddities = frozenset[str]().union(*(pack.oddities() for pack in packs))
    return PackWorld(task, Library(stated, ()), tuple(packs), units, shop, TESTED, oddities=oddities)


def programme(rng: Generator, world: PackWorld, pack: Pack, count: int, **common: Any) -> list[Run]:
    """Return runs of `count` settings of a pack in any design; from 8 on one or two are run twice."""
    design = DESIGNS[int(rng.integers(len(DESIGNS)))]
    places = settings(rng, pack.adjusters, count, design)
    places += places[: int(rng.integers(1, 3))] if count >= 8 else []
    unit = common.pop("unit", world.units[world.shock])
    return [deliver(Job(pack, unit, place, **common), world.shop, rng) for place in places]


def somewhere(rng: Generator, pack: Pack) -> Setting:
    """Return any clicks."""
    return {one.name: int(rng.integers(one.clicks + 1)) for one in pack.adjusters}


def holding(world: PackWorld, runs: Sequence[Run]) -> PackWorld:
    """Return the world with runs in its library."""
    return replace(world, library=replace(world.library, runs=tuple(runs)))


def asking(rng: Generator, world: PackWorld) -> PackWorld:
    """Return the world with up to `ASKED` settings that were not tested, drawn evenly over all clicks."""
    seen = [run.clicks for run in (*world.library.of(world.packs[0].name), *world.later)]
    asked: list[Setting] = []
    for _ in range(40 * ASKED):
        place = somewhere(rng, world.packs[0])
        asked += [] if place in seen or place in asked else [place]
    return replace(world, asked=tuple(asked[:ASKED]))


def mapped(count: int, recipe: Recipe, task: Task = "map") -> Build:
    """Return a builder of worlds with so many tested settings of one pack."""

    def build(rng: Generator, level: Level) -> PackWorld:
        world = start(rng, level, task, recipe)
        return asking(rng, holding(world, programme(rng, world, world.packs[0], count)))

    return build


def mingled(count: int, vary: Callable[[Generator, PackWorld], Mapping[str, Any]]) -> Build:
    """Return a builder of map worlds whose runs differ one by one in what `vary` draws: shock, year, warmth, form."""

    def build(rng: Generator, level: Level) -> PackWorld:
        world = start(rng, level, "map", Recipe())
        places = settings(rng, world.packs[0].adjusters, count, "random")
        usual = {"unit": world.units[TESTED]}
        jobs = [Job(world.packs[0], clicks=place, **{**usual, **vary(rng, world)}) for place in places]
        return asking(rng, holding(world, [deliver(job, world.shop, rng) for job in jobs]))

    return build


def retested(recipe: Recipe, lost: tuple[float, float] = (0.0, 0.0)) -> Build:
    """Return a builder of 8 tested settings and, a year later, one to three runs at one of them again.

    `lost` is the share of damping that the shock lost in one direction or both half-way, apart from wear.
    """

    def build(rng: Generator, level: Level) -> PackWorld:
        world = start(rng, level, "retest", recipe)
        share, hit = -rng.uniform(*lost), [(1.0, 0.0), (0.0, 1.0), (1.0, 1.0)][int(rng.integers(3))]
        change = (Change(0.5, share * hit[0], share * hit[1]),) if any(lost) else ()
        world = replace(world, units={**world.units, TESTED: replace(world.units[TESTED], changes=change)})
        runs = programme(rng, world, world.packs[0], 8)
        again = Job(world.packs[0], world.units[TESTED], runs[0].clicks or {}, year=1.0)
        later = tuple(deliver(again, world.shop, rng) for _ in range(int(rng.integers(1, 4))))
        return asking(rng, replace(holding(world, runs), later=later))

    return build


def other_unit(tested: int, carried: int = 0) -> Build:
    """Return a builder of worlds that ask for shocks never tested with the pack, `tested` shocks having been.

    `carried`: settings of another pack at which those shocks, and the tested ones, were run.
    """

    def build(rng: Generator, level: Level) -> PackWorld:
        world = start(rng, level, "unit", Recipe(single=not carried))
        names = (TESTED, SECOND)[:tested]
        runs = [one for name in names for one in programme(rng, world, world.packs[0], 8, unit=world.units[name])]
        for name in (*names, *FRESH) if carried else ():
            runs += programme(rng, world, world.packs[2], carried, unit=world.units[name])
        return asking(rng, replace(holding(world, runs), fresh=FRESH))

    return build


@dataclass(frozen=True)
class Riddle:
    """What kind of unknown runs are asked about."""

    unlisted: tuple[float, float] | None = None  #: none of the library's, but so alike to one; (1, 1): another law
    warm: tuple[float, float] = (0.0, 0.0)  #: kelvin above `COOL`
    silent: bool = False  #: temperature not recorded
    forms: tuple[Form, ...] = ("trace",)
    turned: bool = False  #: one pack's clicks were written from the other end


def _stranger(rng: Generator, pack: Pack, share: tuple[float, float]) -> Pack:
    if share == (1.0, 1.0):
        return valving.draw_pack(rng, "unlisted", pack.adjusters)
    return valving.alike(rng, pack, "unlisted", rng.uniform(*share))


def _turned(pack: Pack) -> Pack:
    other = {"from closed": "from soft", "from soft": "from closed"}
    return replace(pack, adjusters=tuple(replace(one, counted=other[one.counted]) for one in pack.adjusters))  # type: ignore[arg-type]


def riddle(recipe: Recipe, asked: Riddle = Riddle()) -> Build:
    """Return a builder of libraries of three packs, 9 settings each, and an unknown run for each of them."""

    def build(rng: Generator, level: Level) -> PackWorld:
        world = start(rng, level, "identify", replace(recipe, single=False))
        if asked.turned:
            packs = (_turned(world.packs[0]), *world.packs[1:])
            world = replace(world, packs=packs, oddities=world.oddities | {"counted the other way"})
        runs = [one for pack in world.packs for one in programme(rng, world, pack, 9)]
        return replace(holding(world, runs), unknowns=tuple(_unknown(rng, world, p, asked) for p in world.packs))

    return build


def _unknown(rng: Generator, world: PackWorld, pack: Pack, asked: Riddle) -> Unknown:
    """Return an unlabelled run: of the tested shock one time in three, else of one never seen."""
    unit = world.units[TESTED if rng.random() < 1 / 3 else FRESH[0]]
    real = pack if asked.unlisted is None else _stranger(rng, pack, asked.unlisted)
    clicks, form = somewhere(rng, pack), asked.forms[int(rng.integers(len(asked.forms)))]
    run = deliver(Job(real, unit, clicks, 0.0, COOL + rng.uniform(*asked.warm), form), world.shop, rng)
    celsius = None if asked.silent else run.celsius
    run = replace(run, pack=None, shock="bench", clicks=None, celsius=celsius)
    return Unknown(run, pack.name if asked.unlisted is None else None, clicks)


PAIRED = 6


def _apart(world: PackWorld, jobs: tuple[Job, Job], friction: bool) -> float:
    v = world.speeds(16)
    a, b = (truth(job.pack, job.unit, 0.0, job.clicks, v) for job in jobs)
    rub = [job.unit.friction() * np.sign(v) * friction for job in jobs]
    one, other = np.abs(a + rub[0]), np.abs(b + rub[1])
    apart: FloatArray = 2.0 * np.abs(one - other) / (one + other)
    return float(apart.max())


def paired(repeat: float, forms: tuple[Form, ...] = ("trace",)) -> Build:
    """Return a builder of pairs at a scatter from run to run: the same shock twice, another, one off, clicks off.

    Tolerance 3, 5 or 10 %, no less than the scatter; 1 to 3 runs a side, 2 to 4 above 3 % scatter. The library holds 4
    settings run three times each: there the scatter can be learned.
    """

    def build(rng: Generator, level: Level) -> PackWorld:
        world = start(rng, level, "match", Recipe())
        world = replace(world, shop=replace(world.shop, repeat=repeat))
        places = settings(rng, world.packs[0].adjusters, 4, "random") * 3
        runs = [deliver(Job(world.packs[0], world.units[TESTED], place), world.shop, rng) for place in places]
        return replace(holding(world, runs), pairs=tuple(_pair(rng, world, forms, n) for n in range(PAIRED)))

    return build


def _pair(rng: Generator, world: PackWorld, forms: tuple[Form, ...], number: int) -> Pair:
    tolerance = float(rng.choice([t for t in (0.03, 0.05, 0.10) if t >= world.shop.repeat]))
    pack, own = world.packs[0], world.units[TESTED]
    clicks = somewhere(rng, pack)
    off = rng.choice([-1.0, 1.0], 2) * tolerance * rng.uniform(0.2, 3.0, 2)
    knob = pack.adjusters[int(rng.integers(len(pack.adjusters)))]
    moved = {**clicks, knob.name: int(np.clip(clicks[knob.name] + rng.choice([-2, -1, 1, 2]), 0, knob.clicks))}
    kinds: list[tuple[Unit, Setting]] = [
        (own, clicks),
        (world.units[SECOND], clicks),
        (replace(own, name=FRESH[0], compression=own.compression + off[0], rebound=own.rebound + off[1]), clicks),
        (own, moved),
    ]
    unit, place = kinds[(0, 1, 2, 2, 2, 3)[number]]
    jobs = Job(pack, own, clicks, form=forms[0]), Job(pack, unit, place, form=forms[-1])
    most = 3 if world.shop.repeat <= 0.03 else 4
    sides = [[deliver(job, world.shop, rng) for _ in range(int(rng.integers(most - 2, most + 1)))] for job in jobs]
    return Pair(tuple(sides[0]), tuple(sides[1]), tolerance, _apart(world, jobs, False), _apart(world, jobs, True))


def aged(what: Callable[[Generator], Change | None], warm: tuple[float, float] = (0.0, 0.0), **recipe: Any) -> Build:
    """Return a builder of shocks' histories: two to four runs over a year at one setting, one or two in the next.

    `what` draws the change between them; `warm` is how much warmer the last runs were [K], as recorded. Three shocks,
    worn by 0.2 % a year at most, on top of 6 settings of the first.
    """

    def build(rng: Generator, level: Level) -> PackWorld:
        world = start(rng, level, "health", Recipe(**recipe))
        runs, histories = programme(rng, world, world.packs[0], 6), []
        for name in (TESTED, SECOND, FRESH[0]):
            change = what(rng)
            past = (change,) if change else ()
            unit = replace(world.units[name], wear=rng.uniform(0.0, 0.002), changes=past)
            world = replace(world, units={**world.units, name: unit})
            place = somewhere(rng, world.packs[0])
            dates = np.sort(rng.uniform(0.0, 1.0, int(rng.integers(2, 5))))
            before = [Job(world.packs[0], unit, place, float(date)) for date in dates]
            today = [Job(world.packs[0], unit, place, 2.0, COOL + rng.uniform(*warm))] * int(rng.integers(1, 3))
            earlier, now = (tuple(deliver(job, world.shop, rng) for job in jobs) for jobs in (before, today))
            runs += earlier
            histories.append(History(earlier, now, change.named() if change else frozenset()))
        return replace(holding(world, runs), histories=tuple(histories))

    return build
