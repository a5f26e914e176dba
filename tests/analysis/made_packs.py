"""Made-up packs whose valve is another than the one fitted, and curves of them with noise: judges for click maps.

The bleed follows a power law of 0.56 instead of the square root, its needle saturates exponentially; the blow-off's
area grows with lift but passes flow by the square root of pressure; preload falls with clicks as a power; a port of
yet another power limits the flow. Unit-to-unit spread and correlated curve errors are added. All seeded.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve
from dynoan.model.shock import Adjuster
from dynoan.model.side import Side

LAST = 20
FOUR = tuple(Adjuster(name, LAST) for name in ("lsc", "hsc", "lsr", "hsr"))
GRID = np.concatenate([[0.0], np.geomspace(0.006, 0.65, 70)])


@dataclass(frozen=True)
class OtherValve:
    """One direction of a made-up valve. Speeds in m/s, forces in N; `p` is valve force."""

    needle: float  #: bleed speed at 1000 N, closed
    needle_gain: float  #: added by a full turn
    saturation: float  #: share of the turn over which the needle opens by 63 %
    preload: float  #: opening force, closed
    preload_drop: float  #: share of it taken off by a full turn
    lift: float  #: blow-off coefficient [m/s / (1000 N)^1.5]
    port: float  #: speed that makes 1000 N
    power: float = 0.56  #: of the bleed
    bend: float = 1.2  #: of preload over clicks
    cross: float = 0.0  #: bleed speed added by a full turn of the other direction's adjuster
    leak: float = 0.004  #: speed at 1000 N
    round_off: float = 45.0  #: [N]

    def force(self, speed: FloatArray, low: float, high: float, other: float = 0.0) -> FloatArray:
        """Return the true force at speeds for shares 0 to 1 of the turns."""
        p = np.concatenate([[0.0], np.geomspace(0.05, 30000.0, 5000)])
        opened = (1 - np.exp(-low / self.saturation)) / (1 - np.exp(-1 / self.saturation))
        needle = self.needle + self.needle_gain * opened + self.cross * other
        crack = self.preload * (1 - self.preload_drop * high**self.bend)
        over = self.round_off * np.logaddexp(0.0, (p - crack) / self.round_off)
        over = over - self.round_off * np.logaddexp(0.0, -crack / self.round_off)
        v = needle * (p / 1000) ** self.power + self.leak * p / 1000 + self.lift * over / 1000 * np.sqrt(p / 1000)
        return np.interp(np.abs(speed), v, p + 1000 * (v / self.port) ** 1.85)


@dataclass(frozen=True)
class OtherPack:
    """A made-up pack with four adjusters of 21 positions."""

    compression: OtherValve
    rebound: OtherValve

    def forces(self, speed: FloatArray, clicks: Mapping[str, int]) -> tuple[FloatArray, FloatArray]:
        """Return true compression and rebound force magnitudes at speeds, clicks from closed."""
        x = {name: click / LAST for name, click in clicks.items()}
        return (self.compression.force(speed, x["lsc"], x["hsc"], x["lsr"]),
                self.rebound.force(speed, x["lsr"], x["hsr"], x["lsc"]))  # fmt: skip


def _valve(rng: np.random.Generator, stiff: float, cross: float) -> OtherValve:
    def around(value: float, share: float) -> float:
        return float(value * np.exp(rng.normal(0, share)))

    needle = around(0.065 / stiff, 0.15)
    return OtherValve(
        needle=needle, needle_gain=around(0.15 / stiff, 0.2), saturation=around(0.6, 0.3),
        preload=around(380 * stiff, 0.12), preload_drop=float(rng.uniform(0.45, 0.75)),
        lift=around(0.75 / stiff, 0.2), port=around(1.8, 0.15), power=float(rng.uniform(0.53, 0.6)),
        bend=float(rng.uniform(0.85, 1.3)), cross=cross * needle, leak=around(0.004, 0.3),
        round_off=around(45, 0.2),
    )  # fmt: skip


def made_pack(seed: int, stiff: float | None = None) -> OtherPack:
    """Return a made-up pack; `stiff` sets its size, else the seed does."""
    rng = np.random.default_rng(1000 + seed)
    size = float(rng.uniform(0.8, 1.8)) if stiff is None else stiff
    return OtherPack(_valve(rng, size, float(rng.uniform(0.1, 0.35))), _valve(rng, 1.5 * size, 0.0))


def measured(
    pack: OtherPack, clicks: Mapping[str, int], seed: int, *, scale: tuple[float, float] = (1.0, 1.0),
    noise: float = 0.006, floor: float = 1.0, top: float = 0.5, shock: str = "FL-01",
) -> Curve:  # fmt: skip
    """Return a curve as a fit would give it: the truth with a smooth error and a band that states its size."""
    rng = np.random.default_rng(seed)
    sides = []
    for force, factor in zip(pack.forces(GRID, clicks), scale, strict=True):
        sd = np.sqrt((noise * force) ** 2 + floor**2)
        knots = np.log(np.geomspace(0.006, 0.65, 9))
        common, wavy = rng.normal(0, 0.5), np.interp(np.log(GRID[1:]), knots, rng.normal(0, 0.85, 9))
        error = np.concatenate([[0.0], sd[1:] * (common + wavy)])
        seen = np.maximum(force * factor + error, 0.0)
        band = 1.96 * sd
        sides.append(Side(segments=(), knees=(), speeds=GRID, low=np.maximum(seen - band, 0.0), high=seen + band,
                          top_speed=top, low_speed=0.01, forces=seen))  # fmt: skip
    return Curve(sides[0], sides[1], shock=shock, clicks=dict(clicks), gas_force=150.0, friction=15.0)


def units(rng: np.random.Generator, count: int, spread: float = 0.02) -> list[tuple[float, float]]:
    """Return the factors on compression and rebound of some shocks: a common part and a part of each direction."""
    common = rng.normal(0, spread * 0.8, count)
    own = rng.normal(0, spread * 0.6, (count, 2))
    return [(float(1 + c + a), float(1 + c + b)) for c, (a, b) in zip(common, own, strict=True)]


#: nine settings as a careful tester would pick them, from closed
NINE = tuple(
    dict(zip(("lsc", "hsc", "lsr", "hsr"), clicks, strict=True))
    for clicks in ((10, 10, 10, 10), (0, 0, 0, 20), (20, 20, 20, 0), (0, 20, 20, 20), (20, 0, 0, 0),
                   (5, 14, 5, 6), (14, 5, 15, 14), (3, 10, 10, 3), (10, 3, 3, 10))
)  # fmt: skip


#: the low-speed screws alone, for what does not hang on how many there are: a map of two takes half the time
TWO = (FOUR[0], FOUR[2])


def low_places(*places: tuple[int, int]) -> tuple[dict[str, int], ...]:
    """Return settings of the low-speed screws from closed, with the others in the middle."""
    return tuple({"lsc": lsc, "hsc": 10, "lsr": lsr, "hsr": 10} for lsc, lsr in places)


def low_only(tests: Sequence[Tested]) -> list[Tested]:
    """Return tests as of a shock that has no other screws than the low-speed ones."""
    names = [one.name for one in TWO]
    return [replace(test, from_closed={name: test.from_closed[name] for name in names}) for test in tests]


def sweeps_of(pack: OtherPack, seed: int, settings: tuple[Mapping[str, int], ...] = NINE, shocks: int = 1,
             spread: float = 0.02) -> list[Tested]:  # fmt: skip
    """Return tested settings of a pack, spread over some shocks in turn."""
    rng = np.random.default_rng(seed)
    factors = units(rng, shocks, spread)
    return [
        Tested(f"S{i % shocks + 1}", dict(clicks),
               measured(pack, clicks, seed * 100 + i, scale=factors[i % shocks], shock=f"S{i % shocks + 1}"))
        for i, clicks in enumerate(settings)
    ]  # fmt: skip
