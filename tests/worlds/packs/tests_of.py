"""What a dyno shop delivers: which settings it runs, and what comes back of each.

Two levels. *Curve*: the damping of one run at a row of speeds, as a fit of its record would give it, with the
covariance that an honest fit would state. *Record*: the file itself, made by `tests.worlds.world`. Three forms: a trace
over several speeds, a trace at one speed, a peak table. At both levels a run scatters against the next one of the same
setting (`Shop.repeat`); no single record shows that, so it stands in no stated covariance. Temperature, hysteresis and
the shock's date act before. Sizes: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import product
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from tests.worlds import gas, rigs, world
from tests.worlds.friction import Friction
from tests.worlds.motions import Motion
from tests.worlds.packs.adjusters import Adjuster, Clicks, returned
from tests.worlds.packs.packs import Pack
from tests.worlds.packs.units import COOL, Unit
from tests.worlds.valves import FloatArray, Generator, Shape, Valve

Level = Literal["curve", "record"]
Form = Literal["trace", "one speed", "peaks"]
Design = Literal["grid", "one at a time", "random", "corners"]
DESIGNS: tuple[Design, ...] = ("grid", "one at a time", "random", "corners")
Setting = Mapping[str, int]
LENGTH = 0.8
"""Correlation length over log speed of what is smooth in a run's scatter and in a fit's error."""
SPLIT: Mapping[Form, float] = {"trace": 1.0, "one speed": 6.0, "peaks": 0.0}
"""Standard deviation [N] of friction taken for damping, by a fit; peak tables keep friction in."""


@dataclass(frozen=True, eq=False)
class Run:
    """One delivered run: what is written on it, and either a curve or a record. SI, compression positive."""

    shock: str
    pack: str | None  #: None: not labelled
    clicks: Setting | None  #: as written down; None: nobody noted them
    year: float
    celsius: float | None  #: None: not recorded
    form: Form
    velocity: FloatArray | None = None  #: signed [m/s]
    force: FloatArray | None = None  #: damping; with friction where `form` is peaks [N]
    covariance: FloatArray | None = None  #: of `force` within this record [N²]
    friction_n: float | None = None  #: as read from the record, its error is minus that of the damping [N]
    friction_sd_n: float | None = None
    gas_n: float | None = None  #: at mid-stroke, as read [N]
    gas_sd_n: float | None = None
    record: world.Record | None = None


@dataclass(frozen=True)
class Shop:
    """A dyno shop."""

    repeat: float = 0.007  #: scatter from run to run, rms share of force
    smooth: float = 0.004  #: smooth error of a fit, share of force
    white: float = 0.002  #: error of a fit from speed to speed, share of force
    top: float = 0.5  #: fastest speed [m/s]
    level: Level = "curve"


@dataclass(frozen=True)
class Job:
    """What the shop is asked to run."""

    pack: Pack
    unit: Unit
    clicks: Clicks
    year: float = 0.0
    celsius: float = COOL
    form: Form = "trace"


def smooth(rng: Generator) -> Shape:
    """Return a draw of a smooth random function of speed: mean 0, variance 1, correlated over `LENGTH` in log speed.

    Random Fourier features of the squared-exponential kernel (Rahimi & Recht, NIPS 2007, from memory).
    """
    turns, a, b = rng.standard_normal(16) / LENGTH, rng.standard_normal(16), rng.standard_normal(16)

    def function(u: FloatArray) -> FloatArray:
        angle = np.log(np.maximum(u, 1e-4))[..., None] * turns
        return np.asarray((a * np.cos(angle) + b * np.sin(angle)).sum(-1) / 4.0)

    return function


def scatter(rng: Generator, repeat: float) -> tuple[Shape, Shape]:
    """Return factors over speed, by direction, of one run: of variance `repeat`²: half common, half of the direction.

    Of the latter half is even over speed, half smooth.
    """
    common = rng.standard_normal() * np.sqrt(0.5)

    def side() -> Shape:
        own, wave = rng.standard_normal() * 0.5, smooth(rng)
        return lambda u: 1.0 + repeat * (common + own + 0.5 * wave(u))

    return side(), side()


def as_run(job: Job, repeat: float, rng: Generator) -> Valve:
    """Return the law that the shock has in this one run."""
    valve = job.pack.valve(returned(rng, job.pack.adjusters, job.clicks))
    factors = scatter(rng, repeat)
    compression, rebound = (float(job.unit.factor(way, job.year, job.celsius)) for way in (1.0, -1.0))
    return Valve(
        valve.name,
        lambda u: compression * factors[0](u) * valve.compression(u),
        lambda u: rebound * factors[1](u) * valve.rebound(u),
    )


def speeds(form: Form, top: float) -> FloatArray:
    """Return the signed speeds [m/s] that a form of run tells of."""
    low, high, count = {"trace": (0.013, top, 24), "one speed": (0.013, 0.5 * top, 20), "peaks": (0.025, top, 9)}[form]
    one = np.geomspace(low, high, int(count))
    return np.concatenate([-one[::-1], one])


def stated(force: FloatArray, velocity: FloatArray, form: Form, shop: Shop) -> FloatArray:
    """Return the covariance [N²] that a fit of one record states: smooth, from speed to speed, and friction's split."""
    away = np.log(np.abs(velocity[:, None] / velocity)) / LENGTH
    same = np.sign(velocity[:, None]) == np.sign(velocity)
    wave = (shop.smooth * np.abs(force)[:, None]) * (shop.smooth * np.abs(force)) * np.exp(-0.5 * away**2) * same
    loud = 2.0 if form == "peaks" else 1.0
    split = SPLIT[form] ** 2 * np.sign(velocity[:, None]) * np.sign(velocity)
    return np.asarray(wave + np.diag((loud * shop.white * force) ** 2 + 0.25) + split)


def curve(job: Job, shop: Shop, rng: Generator) -> Run:
    """Return a run at curve level."""
    v, valve, friction = speeds(job.form, shop.top), as_run(job, shop.repeat, rng), job.unit.friction(job.year)
    true = valve(v) + (friction * np.sign(v) if job.form == "peaks" else 0.0)
    covariance = stated(true, v, job.form, shop)
    split = SPLIT[job.form]
    level = split * rng.standard_normal()
    rest = covariance - split**2 * np.sign(v[:, None]) * np.sign(v)
    force = true + level * np.sign(v) + np.linalg.cholesky(rest) @ rng.standard_normal(v.size)
    run = Run(job.unit.name, job.pack.name, _whole(job.clicks), job.year, job.celsius, job.form, v, force, covariance)
    if job.form == "peaks":
        return run
    gas_sd = 3.0 if job.form == "trace" else 10.0
    read = job.unit.gas(job.year) + gas_sd * rng.standard_normal()
    return replace(run, friction_n=friction - level, friction_sd_n=split, gas_n=read, gas_sd_n=gas_sd)


def record(job: Job, shop: Shop, rng: Generator) -> Run:
    """Return a run at record level: crank staircase of five speeds, one speed, or a peak table."""
    half, top = 0.02, shop.top
    peaks = {
        "trace": np.geomspace(0.05, top, 5),
        "one speed": np.array([0.5 * top]),
        "peaks": np.geomspace(0.025, top, 9),
    }
    column = gas.column_for(0.012, job.unit.gas(job.year), 1500.0, 1.2, half)
    made = world.World(
        valve=as_run(job, shop.repeat, rng),
        friction=Friction(job.unit.friction(job.year), turn_m_s=0.002),
        gas=column,
        motion=Motion(tuple(float(p) for p in peaks[job.form]), half, cycles=8 if job.form == "one speed" else 3),
        chain=rigs.Chain(low_pass_hz=200.0, order=2, mass_kg=0.2, white=0.003, bits=16),
        repeat=0.003,
        table=world.Table(0.005) if job.form == "peaks" else None,
    )
    file = world.simulate(made, "pack", 0, rng)
    return Run(job.unit.name, job.pack.name, _whole(job.clicks), job.year, job.celsius, job.form, record=file)


def _whole(clicks: Clicks) -> Setting:
    return {name: round(value) for name, value in clicks.items()}


def deliver(job: Job, shop: Shop, rng: Generator) -> Run:
    """Return what the shop delivers for a job, at its level."""
    return curve(job, shop, rng) if shop.level == "curve" else record(job, shop, rng)


def _levels(adjuster: Adjuster, count: int, ends: float) -> list[int]:
    places = np.linspace(ends, 1.0 - ends, count) if count > 1 else np.array([0.5])
    return sorted({round(adjuster.clicks * float(place)) for place in places})


def _grid(rng: Generator, adjusters: tuple[Adjuster, ...], count: int, ends: float) -> list[tuple[int, ...]]:
    """Return the coarsest full grid that has `count` settings, shuffled."""
    levels = 2
    while levels ** len(adjusters) < count:
        levels += 1
    made = list(product(*(_levels(one, levels, ends) for one in adjusters)))
    return [made[n] for n in rng.permutation(len(made))]


def _singly(rng: Generator, adjusters: tuple[Adjuster, ...], count: int) -> list[tuple[int, ...]]:
    """Return the middle, then each adjuster moved alone in turn, to ends first and to places between later."""
    centre = tuple(one.clicks // 2 for one in adjusters)
    made = [centre]
    for share in (0.0, 1.0, 0.25, 0.75, 0.12, 0.88, 0.37, 0.63)[: count + 1]:
        for n in rng.permutation(len(adjusters)):
            made.append((*centre[:n], round(share * adjusters[n].clicks), *centre[n + 1 :]))
    return made


def settings(rng: Generator, adjusters: tuple[Adjuster, ...], count: int, design: Design) -> list[Setting]:
    """Return `count` different settings of a design, filled up with random ones where it has fewer."""
    made: list[tuple[int, ...]] = []
    if design in ("grid", "corners"):
        corner = design == "corners"
        made = _grid(rng, adjusters, 2 ** len(adjusters) if corner else count, 0.0 if corner else 0.12)
    elif design == "one at a time":
        made = _singly(rng, adjusters, count)
    unique = list(dict.fromkeys(made))[:count]
    while len(unique) < count:
        another = tuple(int(rng.integers(0, one.clicks + 1)) for one in adjusters)
        unique += [] if another in unique else [another]
    return [{a.name: n for a, n in zip(adjusters, place, strict=True)} for place in unique]


def truth(pack: Pack, unit: Unit, year: float, clicks: Clicks, velocity: ArrayLike) -> FloatArray:
    """Return the true damping [N] of a pack in a shock in a year, in cool oil, screws at the very clicks written."""
    return unit.factor(velocity, year) * pack.force(clicks, velocity)
