"""How far a car is from the ratios that are wanted of it, and whether the best that was found is on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from dynoan.analysis.choosing.choice import beyond
from dynoan.analysis.corner.ratio_measures import LEVELS
from dynoan.jobs.choose import Limits
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import DIRECTIONS
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.jobs.choose import Chosen
    from dynoan.jobs.ratio import RatioAnswer

Verdict = Literal["fits", "likely", "no"]


@dataclass(frozen=True)
class Gap:
    """One ratio of a corner against what is wanted of it."""

    corner: str
    direction: str
    level: str
    off: float  #: share of what is wanted, negative where it is less
    verdict: Verdict  #: "likely" where the middle fits but not the whole band

    @property
    def where(self) -> str:
        """The ratio in words."""
        return f"{CORNER_NAMES[self.corner]}, {self.direction} at {self.level} speed"


def gaps_of(now: RatioAnswer, targets: Mapping[str, Any]) -> dict[tuple[str, str, str], Gap]:
    """Return the gaps of all ratios that something is wanted of, by corner, direction and level.

    Parameters
    ----------
    now
        The car's ratios.
    targets
        What is wanted [1], by corner, direction and level; None where nothing is.
    """
    return {(g.corner, g.direction, g.level): g for g in _gaps(now, targets)}


def _gaps(now: RatioAnswer, targets: Mapping[str, Any]) -> Iterator[Gap]:
    slack = Limits.asked().tolerance
    for corner, one in now.corners.items():
        for d in DIRECTIONS if one.ratios else ():
            for level in LEVELS:
                wanted = targets[corner][d][level]
                if one.ratios is None or wanted is None:
                    continue
                value = getattr(one.ratios.side(d), level)
                off, ends = value.value / wanted - 1, [end / wanted - 1 for end in (value.low, value.high)]
                middle = not beyond(off, slack)
                sure = middle and not any(beyond(end, slack) for end in ends)
                yield Gap(corner, d, level, off, "fits" if sure else "likely" if middle else "no")


def worst_of(gaps: Mapping[tuple[str, str, str], Gap]) -> Gap | None:
    """Return the widest gap; None where nothing is wanted."""
    return max(gaps.values(), key=lambda gap: abs(gap.off), default=None)


def best_of(ranked: Sequence[Sequence[Any]]) -> tuple[Chosen, ...]:
    """Return the setting ranked first of every place."""
    return tuple(chosen for plans in ranked for chosen in plans[0].choices)


def is_on(chosen: Chosen, now: RatioAnswer) -> bool:
    """Return whether a ranked setting is what every one of its corners has on."""
    curves = {corner: now.corners[corner].curve for corner in chosen.clicks}
    return all(
        curve is not None and curve.pack == chosen.choice.pack and dict(curve.clicks) == dict(chosen.clicks[corner])
        for corner, curve in curves.items()
    )


def fields_of(chosen: Sequence[Chosen]) -> dict[str, str]:
    """Return the keys of a car's file that putting settings on changes, with what they would hold."""
    out: dict[str, str] = {}
    for one in chosen:
        for corner, clicks in one.clicks.items():
            out |= {f"{corner}.pack": one.choice.pack, f"{corner}.clicks": clicks_text(dict(clicks))}
    return out
