"""How clicks act: from the number written down to how far a valve's screw is open, 0 closed (stiffest) to 1.

A regular adjuster opens evenly from click to click (what the valve makes of it, `packs.Span`, is another matter). An
odd one has clicks that do nothing at an end, acts at every n-th click only, takes one step the wrong way, works the
wrong way round, has said all after a few clicks, or does not return to the same place. Numbers are counted from closed
or from soft; what is stated about that may be wrong. Sizes of all oddities: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from tests.worlds.valves import FloatArray, Generator

Counting = Literal["from closed", "from soft"]
Clicks = Mapping[str, float]
"""Clicks as written down, by the adjuster's name."""

LAYOUTS: Mapping[int, tuple[str, ...]] = {1: ("cr",), 2: ("c", "r"), 4: ("lsc", "hsc", "lsr", "hsr")}
"""Adjusters of a shock by their number: one for all, one a direction, low and high speed a direction."""


@dataclass(frozen=True)
class Adjuster:
    """One knob or screw."""

    name: str
    clicks: int  #: positions are 0 to this
    stated: Counting = "from closed"  #: what the shock's file says
    counted: Counting = "from closed"  #: how the numbers were in truth written
    dead: tuple[int, int] = (0, 0)  #: clicks that do nothing at the closed and at the soft end
    every: int = 1  #: acts at every so many clicks
    back: tuple[int, float] | None = None  #: at this click from closed it falls back by so many clicks
    backward: bool = False  #: turned toward soft it closes
    saturation: float = 0.0  #: e-folds of what is left over the whole range
    loose: float = 0.0  #: clicks by which it may stand to either side of the one written

    def opening(self, written: ArrayLike) -> FloatArray:
        """Return how far the screw is open, 0 closed to 1, at clicks as written (fractions as well)."""
        n = np.asarray(written, float)
        n = n if self.counted == "from closed" else self.clicks - n
        n = self.every * np.floor(n / self.every + 1e-9) if self.every > 1 else n
        if self.back is not None:
            n = n - self.back[1] * (n >= self.back[0])
        share = np.clip((n - self.dead[0]) / (self.clicks - sum(self.dead)), 0.0, 1.0)
        share = 1.0 - share if self.backward else share
        if self.saturation:
            share = np.expm1(-self.saturation * share) / np.expm1(-self.saturation)
        return np.asarray(share, float)

    def oddities(self) -> frozenset[str]:
        """Return the names of what is odd about it, see `ODD`."""
        present = {
            "dead clicks": any(self.dead),
            "stepped": self.every > 1,
            "not monotone": self.back is not None,
            "wrong way": self.backward,
            "saturating": self.saturation > 0.0,
            "hysteresis": self.loose > 0.0,
            "counted the other way": self.counted != self.stated,
        }
        return frozenset(name for name, there in present.items() if there)


def openings(adjusters: Sequence[Adjuster], written: Clicks) -> Mapping[str, float]:
    """Return how far every adjuster is open."""
    return {one.name: float(one.opening(written[one.name])) for one in adjusters}


def of_side(opened: Mapping[str, float], side: Literal["c", "r"]) -> tuple[float, float]:
    """Return how far a direction's low- and high-speed valves are open; a sole knob moves both."""
    alone = opened.get(side, opened.get("cr", 0.0))
    return opened.get(f"ls{side}", alone), opened.get(f"hs{side}", alone)


def returned(rng: Generator, adjusters: Sequence[Adjuster], written: Clicks) -> Clicks:
    """Return where the screws stand when they are set to the clicks written: loose ones to one side or the other."""
    return {a.name: written[a.name] + a.loose * float(rng.choice([-1.0, 1.0])) for a in adjusters}


def _dead(rng: Generator, plain: Adjuster) -> Adjuster:
    """Give one end or both up to a quarter of the range that does nothing."""
    most = max(2, plain.clicks // 4)
    ends = [int(rng.integers(2, most + 1)) for _ in range(2)]
    sole = int(rng.integers(3))
    return replace(plain, dead=(0 if sole == 0 else ends[0], 0 if sole == 1 else ends[1]))


def _back(rng: Generator, plain: Adjuster) -> Adjuster:
    """Fall back by 2 to 4 clicks somewhere in the middle half."""
    at = int(rng.integers(plain.clicks // 4, 3 * plain.clicks // 4 + 1))
    return replace(plain, back=(at, float(rng.uniform(2.0, min(4.0, at)))))


ODD: Mapping[str, Callable[[Generator, Adjuster], Adjuster]] = {
    "dead clicks": _dead,
    "stepped": lambda rng, plain: replace(plain, every=int(rng.integers(2, 5))),
    "not monotone": _back,
    "wrong way": lambda _, plain: replace(plain, backward=True),
    "saturating": lambda rng, plain: replace(plain, saturation=float(rng.uniform(3.0, 6.0))),
    "hysteresis": lambda _, plain: replace(plain, loose=0.5),
    "counted the other way": lambda _, plain: replace(plain, counted="from soft"),
}
"""What may be odd about an adjuster. Cross-talk lies in the pack, see `packs.CROSS_TALK`."""


def draw_adjusters(rng: Generator, number: int, odd: Sequence[str] = ()) -> tuple[Adjuster, ...]:
    """Return a shock's adjusters, each oddity on one of them at least and on every other at even odds.

    A sole knob has 20 to 30 clicks, others 10 to 24; a shock counted the other way is so for all of them. Regular
    shocks state how they are counted, from closed or from soft.
    """
    least, most = (20, 30) if number == 1 else (10, 24)
    way: Counting = "from soft" if rng.random() < 0.25 and "counted the other way" not in odd else "from closed"
    made = [Adjuster(name, int(rng.integers(least, most + 1)), way, way) for name in LAYOUTS[number]]
    for name in odd:
        hit = rng.random(number) < (1.0 if name == "counted the other way" else 0.5)
        hit[int(rng.integers(number))] = True
        made = [ODD[name](rng, one) if there else one for one, there in zip(made, hit, strict=True)]
    return tuple(made)
