"""A world: one shock on one rig, and the record that comes out, with the truth beside it.

``F_cell = D(u) fade + friction + gas + m a`` on a fine grid, u the velocity that reaches the valve through backlash,
late seat and series spring; then the chain of `rigs`. The truth is the valve's quasi-static damping alone, in the
shock's mean state over the record: a shock that fades by 6 % is held to the damping halfway, weighted by time.
Friction and gas are kept apart from it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import ArrayLike

from tests.worlds.friction import Friction
from tests.worlds.further import Further, lagged, spoiled
from tests.worlds.gas import GasColumn
from tests.worlds.motions import FINE_HZ, Motion, Path, run
from tests.worlds.oddities import Bypass, Oddities, averaged, behind, counted, hum, side_share
from tests.worlds.rigs import Chain, Samples, Spring, gap, play, record, through_spring
from tests.worlds.valves import FloatArray, Generator, Valve

Law = Callable[[ArrayLike], FloatArray]


@dataclass(frozen=True)
class Stated:
    """What a user would state beside the file; None where nothing is said."""

    gas_gauge_pa: float | None = None  #: charge pressure, shock extended to the rig's lower end [Pa]
    rod_m: float | None = None
    gas_removed: bool | None = None


@dataclass(frozen=True, eq=False)
class Peaks:
    """A peak table: one row per run, forces at (or highest at) the run's peak speed."""

    speed: FloatArray  #: [m/s]
    compression: FloatArray  #: [N]
    rebound: FloatArray  #: negative where `signed`, else magnitudes [N]
    signed: bool


@dataclass(frozen=True, eq=False)
class Record:
    """One record and its truth. SI, compression positive; either the channels or `peaks` are given."""

    row: str
    seed: int
    made_of: str  #: valve and friction laws in words, for whoever looks at a miss
    stated: Stated
    truth: Law  #: true quasi-static damping alone, mean state: signed velocity [m/s] to [N]
    friction: Law  #: true friction of steady sliding at mid-stroke, signed [N]
    friction_n: float  #: true Coulomb level [N]
    gas: Law  #: true gas force still in the file: displacement from mid-stroke [m] to [N]
    offset_n: float  #: true zero of the cell [N]
    covered: tuple[float, float]  #: slowest and fastest speed that the record covers in both directions [m/s]
    fade: float = 0.0  #: share of damping lost from start to end
    time: FloatArray | None = None
    displacement: FloatArray | None = None
    force: FloatArray | None = None
    velocity: FloatArray | None = None
    temperature: FloatArray | None = None  #: [K]
    rate_hz: float | None = None  #: None: not sampled by a clock
    peaks: Peaks | None = None


@dataclass(frozen=True)
class Fade:
    """Oil that thins while it works: damping falls, gas force rises with absolute temperature."""

    share: float = 0.0  #: of damping lost over the record
    by_work: bool = False  #: with the work done, else with time
    kelvin: float = 0.0  #: rise of temperature over the record
    cooling_s: float = 0.0  #: time in which it cools away; 0: it does not [s]


@dataclass(frozen=True)
class Table:
    """How a shop boils its runs down to a peak table."""

    scatter: float = 0.005  #: of every force, rms share
    signed: bool = True
    extreme: bool = False  #: largest force of the cycle, else the force at the peak speed


@dataclass(frozen=True)
class World:
    """Everything that a record depends on but the dice of its noise."""

    valve: Valve
    friction: Friction
    gas: GasColumn
    motion: Motion
    chain: Chain = field(default_factory=Chain)
    spring: Spring | None = None
    backlash_m: float = 0.0
    repeat: float = 0.0  #: scatter of damping from turn to turn, rms share
    fade: Fade = field(default_factory=Fade)
    table: Table | None = None
    states_gas: bool = False
    states_removed: bool = False
    bypass: Bypass = field(default_factory=Bypass)
    side_rubbing: float = 0.0  #: friction coefficient of the machine's slide
    odd: Oddities = field(default_factory=Oddities)
    further: Further = field(default_factory=Further)


START_K = 298.15
"""Temperature at the start of a run [K]."""


SLIDE_TURN = 1e-3
"""Speed over which a slide's friction turns [m/s]; common practice, no source."""


def wear(world: World, path: Path) -> FloatArray:
    """Return how far the warming has come along the path, 0 to 1."""
    heat = np.abs(world.valve(path.v) * path.v) if world.fade.by_work else np.ones_like(path.time)
    if world.fade.cooling_s:
        warm = lagged(heat, 1.0 / (world.fade.cooling_s * FINE_HZ))
        return np.asarray(warm / warm.max())
    share: FloatArray = np.cumsum(heat) / np.sum(heat)
    return share


def valve_force(world: World, path: Path, velocity: FloatArray, factor: FloatArray) -> FloatArray:
    """Return the valve's force [N] along the path, for a shaft velocity [m/s] and a factor (fade, scatter)."""
    valve, spring = world.valve, world.spring
    if valve.play_m_s:
        velocity = play(velocity, valve.play_m_s)
    reach = 1.5 * float(np.abs(velocity).max())
    speeds = reach * np.sinh(np.linspace(-8.0, 8.0, 4001)) / np.sinh(8.0)
    table = np.stack([speeds, valve.through(speeds)])
    if spring is None:
        rigid: FloatArray = factor * np.interp(velocity, table[0], table[1])
        return rigid
    values = (spring.stiffness_n_m, spring.air, spring.charge_n, spring.rebound)
    sprung: FloatArray = through_spring(velocity, factor, table, values, 1.0 / FINE_HZ)
    return sprung


def loose(world: World, path: Path) -> Path:
    """Return the path of a shock behind a loose big end: it is the shock's own travel that is recorded."""
    if not world.further.slop_m:
        return path
    x, v = shaft(replace(world, backlash_m=world.further.slop_m), path)
    return replace(path, x=x, v=v, a=np.gradient(v) * FINE_HZ)


def shaft(world: World, path: Path) -> tuple[FloatArray, FloatArray]:
    """Return the shaft's displacement [m] and velocity [m/s], apart from the machine's by slack in the joints."""
    if not world.backlash_m:
        return path.x, path.v
    speeds = np.sinh(np.linspace(-12.0, 12.0, 4001)) * 2.0 * np.abs(path.v).max() / np.sinh(12.0)
    resistance = world.valve(speeds) + world.friction.steady(speeds, world.valve(speeds))
    free = np.interp(-world.gas.force(path.x), np.maximum.accumulate(resistance), speeds)
    ahead = gap(path.x, free, world.backlash_m, 1.0 / FINE_HZ)
    return path.x + ahead - 0.5 * world.backlash_m, path.v + np.diff(ahead, prepend=0.0) * FINE_HZ


def true_force(world: World, path: Path, factor: FloatArray, warm: FloatArray) -> FloatArray:
    """Return the force [N] between the shock's ends along the path."""
    x, v = shaft(world, path)
    damping = valve_force(world, path, v, factor * world.bypass.factor(x) * world.odd.factor(x, path.v))
    damping = world.further.shaped(damping, x, v)
    friction = world.friction.along(v, 1.0 / FINE_HZ, damping, x / world.motion.half_stroke_m)
    hotter = world.gas.force(x) * world.fade.kelvin * warm / START_K
    whole = damping + friction + world.gas.kept(x) + world.gas.warmed(x, 1.0 / FINE_HZ) + hotter
    if world.side_rubbing:
        rubbed = side_share(path.turns, world.motion.detail, world.side_rubbing) * np.abs(whole)
        whole = whole + rubbed * np.tanh(v / SLIDE_TURN)
    return whole


def truths(world: World, mean_factor: float, mean_warm: float = 0.0) -> dict[str, Law | float | Stated | str]:
    """Return the fields of a `Record` that say what is true or stated."""
    gas, low = world.gas, -world.motion.half_stroke_m
    hotter = world.fade.kelvin * mean_warm / START_K
    stated = Stated(
        # A charging gauge is read to about 2 %; a rod is measured exactly.
        gas_gauge_pa=float(f"{gas.charge_pa(low):.2g}") if world.states_gas else None,
        rod_m=gas.rod_m if world.states_gas else None,
        gas_removed=(gas.removed != "nothing") if world.states_removed else None,
    )
    return {
        "made_of": f"{world.valve.name}; {world.friction}",
        "stated": stated,
        "truth": lambda v: mean_factor * world.valve(v),
        "friction": lambda v: world.friction.steady(v, world.valve(v)),
        "friction_n": world.friction.level_n,
        "gas": lambda x: gas.kept(x) + hotter * gas.force(x),
        "fade": world.fade.share,
    }


def worsened(samples: Samples, odd: Oddities, rng: Generator) -> Samples:
    """Return the channels with what the world's oddities do to them."""
    force, x = samples.force, samples.displacement
    peak = float(np.abs(force).max())
    if odd.hysteresis:
        force = behind(force, odd.hysteresis * peak)
    if odd.mains:
        force = force + peak * hum(samples.time, odd, rng)
    if odd.count_m:
        x = counted(x, samples.time, odd, rng)
    if odd.average > 1:
        kept = [None if c is None else averaged(c, odd.average) for c in (samples.time, x, force, samples.velocity)]
        return Samples(*kept, samples.offset_n)  # type: ignore[arg-type]
    return replace(samples, force=force, displacement=x)


def trace(world: World, rng: Generator) -> dict[str, object]:
    """Return the fields of a `Record` for a trace."""
    path = loose(world, run(world.motion))
    warm = wear(world, path)
    faded = (1.0 - world.fade.share * warm) * float(world.bypass.factor(path.x).mean())
    turn = path.turns.astype(np.int64)
    factor = (1.0 - world.fade.share * warm) * (1.0 + world.repeat * rng.standard_normal(int(turn[-1]) + 1)[turn])
    samples: Samples = record(path, true_force(world, path, factor, warm), world.chain, rng)
    samples = worsened(samples, world.odd, rng)
    samples = spoiled(samples, np.interp(samples.time, path.time, path.turns), world.further, rng)
    kelvin = None
    if world.chain.kelvin:
        clean = START_K + world.fade.kelvin * np.interp(samples.time, path.time, warm)
        kelvin = np.round(clean + 0.1 * rng.standard_normal(clean.size), 1)
    # A ramp with rounded corners spends its time between 0.9 and 1 times its speed and hurries through what is slower.
    slowest = 0.9 * min(world.motion.peaks_m_s) if world.motion.shape == "triangle" else 0.0
    return {
        **truths(world, float(faded.mean()), float(warm.mean())),
        "time": samples.time,
        "displacement": samples.displacement,
        "force": samples.force,
        "velocity": samples.velocity,
        "temperature": kelvin,
        "rate_hz": float(world.chain.rate_hz) / world.odd.average if world.chain.per_turn is None else None,
        "offset_n": samples.offset_n,
        "covered": (slowest, path.covered),
    }


def extremes(world: World, speed: float) -> tuple[float, float]:
    """Return the highest and the lowest true force [N] of a sine cycle with this peak speed [m/s]."""
    angle = np.linspace(0.0, 2.0 * np.pi, 721)
    x, v = -world.motion.half_stroke_m * np.cos(angle), speed * np.sin(angle)
    force = world.valve(v) + world.friction.steady(v, world.valve(v)) + world.gas.kept(x)
    return float(force.max()), float(force.min())


def peak_table(world: World, table: Table, rng: Generator) -> dict[str, object]:
    """Return the fields of a `Record` for a peak table."""
    speeds = np.array(world.motion.peaks_m_s)
    faded = 1.0 - world.fade.share * np.linspace(0.0, 1.0, speeds.size)
    if table.extreme:
        forces = np.array([extremes(world, speed) for speed in speeds]).T
    else:
        both = np.stack([speeds, -speeds])
        forces = world.valve(both) + world.friction.steady(both, world.valve(both)) + world.gas.kept(0.0)
    zero = world.chain.offset * float(np.abs(forces).max())
    forces = forces + (faded - 1.0) * world.valve(np.stack([speeds, -speeds])) + zero
    forces = forces * (1.0 + table.scatter * rng.standard_normal(forces.shape))
    rebound = forces[1] if table.signed else np.abs(forces[1])
    return {
        **truths(world, float(faded.mean())),
        "peaks": Peaks(speeds, forces[0], rebound, table.signed),
        "offset_n": zero,
        "covered": (float(speeds.min()), float(speeds.max())),
    }


def simulate(world: World, row: str, seed: int, rng: Generator) -> Record:
    """Return the record of a world: a peak table where it has one, else a trace."""
    fields = trace(world, rng) if world.table is None else peak_table(world, world.table, rng)
    return Record(row=row, seed=seed, **fields)  # type: ignore[arg-type]
