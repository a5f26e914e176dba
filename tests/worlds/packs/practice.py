"""What a team and its shops do to a library: worlds that a clean programme of tests never shows.

Look-alikes by other ways than another stack; libraries of traces and peak tables; shocks followed over months, with
wear, with new oil, with nothing; the same pack on two rigs whose load cells disagree; clicks counted from the other end
in one of two files; a shock rebuilt between two programmes; what is asked of oil warmer than was tested. Sizes: common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from scipy.optimize import brentq

from tests.worlds.packs import builders as make
from tests.worlds.packs import packs as valving
from tests.worlds.packs.builders import FRESH, SECOND, TESTED, Build, Recipe, Riddle
from tests.worlds.packs.made import History, PackWorld, Unknown
from tests.worlds.packs.packs import Pack, Side
from tests.worlds.packs.tests_of import Form, Job, Level, Run, deliver, settings
from tests.worlds.packs.units import COOL, Change
from tests.worlds.valves import Generator

FAMILY = Recipe(alike=(0.03, 0.15), single=False)
WAYS = ("one side", "hole", "slots", "springs")
"""How a pack nobody listed came from one that is known: a stack of one direction, a hole drilled into the piston,
needles with wider slots, other springs behind the high-speed screws."""
PLAIN = Riddle()
CALIBRATION = 0.02
"""By how much a rig's force is scaled, standard deviation, share."""


def _changed(side: Side, way: str, size: float) -> Side:
    if way == "hole":
        return replace(side, bleed=replace(side.bleed, closed=side.bleed.closed + size, open=side.bleed.open + size))
    if way == "slots":
        return replace(side, bleed=replace(side.bleed, open=side.bleed.open * (1.0 + 3.0 * size)))
    if way == "springs":
        both = replace(side.crack, closed=side.crack.closed * (1.0 + size), open=side.crack.open * (1.0 + size))
        return replace(side, crack=both)
    return replace(side, stack=side.stack * (1.0 + size))


def look_alike(rng: Generator, pack: Pack, share: float) -> Pack:
    """Return a pack that came from one by any of `WAYS`, `valving.difference` from it being `share`, or half at least.

    Raises
    ------
    ValueError
        If no way leads so far.
    """
    for way in rng.permutation(WAYS):

        def at(size: float, way: str = str(way)) -> Pack:
            back = _changed(pack.rebound, way, size)
            front = pack.compression if way == "one side" else _changed(pack.compression, way, size)
            return replace(pack, name="unlisted", compression=front, rebound=back)

        most = valving.difference(pack, at(3.0))
        if most >= share / 2:
            wanted = min(share, 0.99 * most)
            size = brentq(lambda s: valving.difference(pack, at(s)) - wanted, 0.0, 3.0, xtol=1e-5)  # noqa: B023
            return at(float(size))
    raise ValueError(f"no way leads {share:.0%} off {pack.name}")


def strangers(share: tuple[float, float], known_forms: Sequence[Form] = ("trace",), odd: tuple[str, ...] = ()) -> Build:
    """Return a builder of three alike packs, 9 settings each, and three runs of packs `look_alike` to one of them.

    `known_forms`: what the runs of the known packs come as.
    """

    def build(rng: Generator, level: Level) -> PackWorld:
        world = _families(rng, level, known_forms, odd)
        asked = []
        for pack in world.packs:
            real = look_alike(rng, pack, float(rng.uniform(*share)))
            asked.append(_asked(rng, world, real, None))
        return replace(world, unknowns=tuple(asked))

    return build


def known(known_forms: Sequence[Form] = ("trace",), odd: tuple[str, ...] = (), riddle: Riddle = PLAIN) -> Build:
    """Return a builder of the same libraries and one run of each of their packs."""

    def build(rng: Generator, level: Level) -> PackWorld:
        world = _families(rng, level, known_forms, odd)
        return replace(world, unknowns=tuple(_asked(rng, world, p, p.name, riddle) for p in world.packs))

    return build


def _families(rng: Generator, level: Level, forms: Sequence[Form], odd: tuple[str, ...]) -> PackWorld:
    world = make.start(rng, level, "identify", replace(FAMILY, odd=odd))
    runs: list[Run] = []
    for pack in world.packs:
        for place in settings(rng, pack.adjusters, 9, "random"):
            form = forms[int(rng.integers(len(forms)))]
            runs.append(deliver(Job(pack, world.units[TESTED], place, form=form), world.shop, rng))
    return make.holding(world, runs)


def _asked(rng: Generator, world: PackWorld, real: Pack, name: str | None, riddle: Riddle = PLAIN) -> Unknown:
    unit = world.units[TESTED if rng.random() < 1 / 3 else FRESH[0]]
    clicks, form = make.somewhere(rng, real), riddle.forms[int(rng.integers(len(riddle.forms)))]
    run = deliver(Job(real, unit, clicks, 0.0, COOL + rng.uniform(*riddle.warm), form), world.shop, rng)
    told = None if riddle.silent else run.celsius
    return Unknown(replace(run, pack=None, shock="bench", clicks=None, celsius=told), name, clicks)


Season = tuple[Change | None, float]
"""What happened to a shock half-way, and its wear a year (share of damping)."""


def _new_oil(rng: Generator) -> Change:
    """Return fresh oil of the same kind: up to 2 % more or less damping in both directions, gas charged anew, 3 %."""
    both = float(rng.uniform(-0.02, 0.02))
    return Change(0.75, both, both, float(rng.uniform(-0.03, 0.03)))


def months(kind: str) -> Build:
    """Return a builder of shocks run every two months or so for a year and a half, at one setting each.

    `nothing`: worn by 0.2 % a year at most; `oil`: new oil half-way, which is no change to call; `wear`: rebound and
    compression lose 8 to 14 % a year, slowly, which has to be called by the end. Oil between 18 and 32 degC, recorded.
    """

    def season(rng: Generator) -> Season:
        if kind == "wear":
            return None, float(rng.uniform(0.08, 0.14))
        return (_new_oil(rng) if kind == "oil" else None), float(rng.uniform(0.0, 0.002))

    def build(rng: Generator, level: Level) -> PackWorld:
        world = make.start(rng, level, "health", Recipe())
        runs, histories = make.programme(rng, world, world.packs[0], 6), []
        for name in (TESTED, SECOND, FRESH[0]):
            change, wear = season(rng)
            unit = replace(world.units[name], wear=wear, changes=(change,) if change else ())
            world = replace(world, units={**world.units, name: unit})
            place, dates = make.somewhere(rng, world.packs[0]), np.sort(rng.uniform(0.0, 1.4, 7))
            delivered = [
                deliver(Job(world.packs[0], unit, place, float(y), COOL + rng.uniform(-7.0, 7.0)), world.shop, rng)
                for y in (*dates, 1.5)
            ]
            runs += delivered[:-1]
            lost = frozenset({"compression", "rebound"}) if kind == "wear" else frozenset[str]()
            histories.append(History(tuple(delivered[:-1]), (delivered[-1],), lost))
        return replace(make.holding(world, runs), histories=tuple(histories))

    return build


def two_rigs(count: int) -> Build:
    """Return a builder of maps whose runs come from two rigs, each with an error of its own in force."""

    def build(rng: Generator, level: Level) -> PackWorld:
        world = make.start(rng, level, "map", Recipe())
        runs = make.programme(rng, world, world.packs[0], count)
        scale = 1.0 + CALIBRATION * rng.standard_normal(2)
        return make.asking(rng, make.holding(world, [scaled(run, scale[n % 2]) for n, run in enumerate(runs)]))

    return build


def scaled(run: Run, factor: float) -> Run:
    """Return a curve as a load cell that reads by a factor too much tells it."""
    assert run.force is not None
    assert run.covariance is not None
    friction = None if run.friction_n is None else run.friction_n * factor
    return replace(run, force=run.force * factor, covariance=run.covariance * factor**2, friction_n=friction)


def two_ways(count: int) -> Build:
    """Return a builder of maps of whose runs the second half is written from the other end than the shock's file says.

    What is asked for, and true, is by the shock's file.
    """

    def build(rng: Generator, level: Level) -> PackWorld:
        world = replace(make.start(rng, level, "map", Recipe()), oddities=frozenset({"counted two ways"}))
        most = {one.name: one.clicks for one in world.packs[0].adjusters}
        runs = make.programme(rng, world, world.packs[0], count)
        half = len(runs) // 2
        turned = [replace(r, clicks={k: most[k] - n for k, n in (r.clicks or {}).items()}) for r in runs[half:]]
        return make.asking(rng, make.holding(world, [*runs[:half], *turned]))

    return build


def rebuilt(later: int) -> Build:
    """Return a builder of 8 settings, a rebuild half a year on, and after a year `later` settings run again.

    Each direction's damping is 10 % less to 10 % more after it; the pack's bleeds and stacks are put in again.
    """

    def build(rng: Generator, level: Level) -> PackWorld:
        world = make.start(rng, level, "retest", Recipe())
        change = Change(0.5, *(float(rng.uniform(-0.1, 0.1)) for _ in range(2)))
        world = replace(world, units={**world.units, TESTED: replace(world.units[TESTED], changes=(change,))})
        runs = make.programme(rng, world, world.packs[0], 8)
        again = [Job(world.packs[0], world.units[TESTED], run.clicks or {}, year=1.0) for run in runs[:later]]
        after = tuple(deliver(job, world.shop, rng) for job in again)
        return make.asking(rng, replace(make.holding(world, runs), later=after))

    return build
