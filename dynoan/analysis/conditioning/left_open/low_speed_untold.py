"""What a record cannot tell of damping at low speed, and by which sign that is seen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.conditioning.samples.rows import Rows, top_speeds
from dynoan.analysis.statistics import Z95

#: low speed that is judged [m/s]; common practice, no source
LOW = 0.03
#: half widths of the band over damping there, from which it is hard to tell, and from which it cannot be told [1];
#: judged: a click of a low-speed screw moves it by 3 to 10 %
HARD, NOT_AT_ALL = 0.5, 1.0
#: chance from which what yields may be friction, and the share of the half width by which two explanations must
#: differ to be its cause [1]; judged
LIKELY, MUCH = 0.25, 0.5
#: a run that reaches no more than this is a slow one [m/s]; common practice, no source
SLOW = 0.05
#: steps of speed from sample to sample about zero, over that low speed, between which nothing is seen of it [1]; judged
BLIND = 0.5


@dataclass(frozen=True)
class Untold:
    """Damping at `LOW` in the direction that is known worse, and what leaves it open."""

    way: str  #: "compression" or "rebound"
    force: float  #: [N]
    half: float  #: half width of its 95 % band [N]
    either: float  #: chance that some of it is friction: both stand from the first mm/s on [1]
    apart: float  #: by how much two explanations that fit about equally differ, zero where there is one [N]
    step: float  #: of speed from sample to sample about zero, where it is least [m/s]
    slowest: float  #: top speed of the slowest run [m/s]

    @property
    def share(self) -> float:
        """Half width over force. [1]"""
        return self.half / self.force


def untold(open_: Open, ways: Sequence[Open], rows: Rows, either: float) -> Untold:
    """Return what is open of damping at low speed.

    Parameters
    ----------
    open_
        Draws of damping and friction.
    ways
        The middle of each way to explain the record, a draw each.
    rows
        Of the record.
    either
        Chance that what yields may be friction. [1]
    """
    at = np.array([LOW, -LOW])
    found = open_.damping(at) * np.sign(at)
    middles = [float(np.mean(one.damping(at) * np.sign(at))) for one in ways]
    force, half = np.maximum(found.mean(axis=0), 1e-9), Z95 * found.std(axis=0)
    worse = int(np.argmax(half / force))
    way = ("compression", "rebound")[worse]
    return Untold(way, float(force[worse]), float(half[worse]), either, float(np.ptp(middles)), slowest_step(rows),
                  min(top_speeds(rows)))  # fmt: skip


def slowest_step(rows: Rows) -> float:
    """Return the step of speed from row to row about zero, of the block where it is least. [m/s]"""
    step = np.abs(np.diff(rows.velocity))
    near = (np.diff(rows.span) == 0) & (rows.velocity[1:] * rows.velocity[:-1] <= 0)
    blocks = rows.block[1:]
    return min((float(np.median(step[near & (blocks == b)])) for b in np.unique(blocks[near])), default=0.0)


def said_of(found: Untold, *, one_speed: bool) -> list[str]:
    """Return in words what cannot be told, why, what it means for the clicks, and what would tell; else nothing."""
    if found.share < HARD:
        return []
    how = "cannot be told" if found.share >= NOT_AT_ALL else "is hard to tell"
    most, why = f"{found.force:.0f} N there, give or take {found.half:.0f} N", _cause(found, one_speed=one_speed)
    return [f"{found.way} damping at {LOW * 1e3:.0f} mm/s {how} from this record ({most}): {why}. "
            "Judge low-speed clicks by damping and friction together, or by what a click changes between two runs on "
            f"one rig; {_cure(found, one_speed=one_speed)}"]  # fmt: skip


def _cause(found: Untold, *, one_speed: bool) -> str:
    if found.step > BLIND * LOW:
        return f"from one sample to the next speed changes by {found.step * 1e3:.0f} mm/s: slow motion is not seen"
    if found.either >= LIKELY:
        return ("a force stands from the first few mm/s on, and it may be the seals' friction or a valve or fluid that "
                "holds until it yields")  # fmt: skip
    if found.apart > MUCH * found.half:
        return (f"two explanations fit about equally well and differ by {found.apart:.0f} N there, friction in the one "
                "being damping, or a force that comes late, in the other")  # fmt: skip
    if one_speed:
        return "one speed alone was run"
    return "friction of the seals and the start of damping look alike in it"


def _cure(found: Untold, *, one_speed: bool) -> str:
    if found.step > BLIND * LOW:
        return "a higher sample rate, or a run at a tenth of the speed, would tell"
    if one_speed:
        return f"{slow_run(found.slowest)} would tell"
    reach = f"{found.slowest * 1e3:.0f} mm/s"
    if found.slowest <= SLOW:
        return (f"slow runs are in it (the slowest reaches {reach}): stop at mid-stroke for some seconds, on the way "
                "in and on the way out (half of what stays between the two is friction), or run another bleed "
                "click")  # fmt: skip
    return f"a run slower than any in it (the slowest reaches {reach}), at 5 to 20 mm/s, would tell more"


def slow_run(slowest: float) -> str:
    """Return in words the run that would tell what a record does not whose slowest reaches so far. [m/s]"""
    return f"one run at {LOW * 1e3:.0f} to 50 mm/s" if slowest > SLOW else "one run at 5 to 20 mm/s"
