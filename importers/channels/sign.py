"""Which way a rig counts: evidence for the direction that is positive, and the signs that make compression positive.

Damping takes energy out, so force and velocity that share a convention have a positive mean product. Which of the two
directions is compression follows from, in order: what the user or the file says; the gas force, which pushes out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.header.column import describe
from importers.words.vocabulary import direction_of, plain

_POSITIVE = r"(?:positive?[snr]?|positiv[oaei]?|positifs?|positives?|\+ve|\+|plus|pos)"
_NEGATIVE = r"(?:negative?[snr]?|negativ[oaei]?|negatifs?|negatives?|-ve|-|minus|neg)"
_GAS_LEAST, _GAS_SHARE = 15.0, 0.01  #: a gas force smaller than both could be a load cell's zero [N], share of the peak


@dataclass(frozen=True)
class Motion:
    """A trace in SI, as the file counts."""

    force: FloatArray
    velocity: FloatArray  #: recorded or derived
    displacement: FloatArray | None = None
    recorded: bool = True  #: whether the velocity was recorded; derived, it counts as the displacement does


@dataclass(frozen=True)
class Signs:
    """What to multiply the channels by, and why."""

    force: int
    velocity: int
    displacement: int
    evidence: str
    warnings: tuple[str, ...] = ()


def statements(lines: Iterable[str]) -> dict[str, str]:
    """Return which direction lines say is positive: by channel, or "all".

    >>> statements(["Sign: compression positive"]), statements(["Force: rebound = negative"])
    ({'all': 'compression'}, {'force': 'compression'})
    """
    found: dict[str, str] = {}
    for line in lines:
        for clause in re.split(r"[;,|\t]", line):
            says = _says(clause)
            if says is not None:
                found.setdefault(*says)
    return found


def _says(line: str) -> tuple[str, str] | None:
    text = re.sub(r"[=:()\"']", " ", line.lower())
    bare = " ".join(re.sub(r"(?<=[a-zà-ÿ])[+-](?=[a-zà-ÿ])", " ", text).split())
    bare = " ".join(w if w in {"+", "-", "+ve", "-ve"} else plain(w) or w for w in bare.split())
    up, down = re.search(rf"(?:^|\s){_POSITIVE}(?:\s|$)", bare), re.search(rf"(?:^|\s){_NEGATIVE}(?:\s|$)", bare)
    if not up and not down:
        return None
    way = direction_of(bare)
    if way is None:
        return _both(bare)
    if not up:
        way = "rebound" if way == "compression" else "compression"
    words = re.sub(rf"{_POSITIVE}|{_NEGATIVE}|compress\w*|rebound|druckstufe|zugstufe|extension", " ", bare)
    channel = describe(0, " ".join(words.split())).channel
    return (channel if channel in {"force", "velocity", "displacement"} else "all"), way


def _both(bare: str) -> tuple[str, str] | None:
    """Judge "compression +, rebound -" and its likes, where both directions stand in one clause."""
    match = re.search(rf"(\w+)\s+{_POSITIVE}(?:\s|$)", bare) or re.search(rf"{_POSITIVE}\s+(?:is\s+|in\s+)?(\w+)", bare)
    way = direction_of(match[1]) if match else None
    return ("all", way) if way else None


def related(a: FloatArray, b: FloatArray) -> float:
    """Return the correlation of two channels, missing samples left out; 0 where one stands still."""
    both = np.isfinite(a) & np.isfinite(b)
    if not both.any():
        return 0.0
    x, y = a[both] - a[both].mean(), b[both] - b[both].mean()
    # Plain sums: a BLAS call on a short vector waits for its threads longer than it computes.
    size = float(np.sqrt((x * x).sum() * (y * y).sum()))
    return float((x * y).sum()) / size if size > 0 else 0.0


def orient(motion: Motion, said: Mapping[str, str], *, x_follows: int = 1, gas_removed: bool | None = None) -> Signs:
    """Return the signs that make all channels positive in compression.

    Parameters
    ----------
    motion
        The trace as the file counts.
    said
        What the user or the file says is positive, by channel or "all".
    x_follows
        1 where displacement grows with positive velocity, else -1.
    gas_removed
        True where the file says that gas force was taken out.
    """
    power = related(motion.force, motion.velocity)
    v_follows = 1 if power >= 0 else -1
    force, evidence, warnings = _force_sign(motion, said, v_follows, x_follows, gas_removed)
    velocity = force * v_follows
    displacement = velocity * x_follows
    mixed = (
        len(
            {
                s
                for s, there in (
                    (force, True),
                    (velocity, motion.recorded),
                    (displacement, motion.displacement is not None),
                )
                if there
            }
        )
        > 1
    )
    if mixed:
        evidence += "; the channels count opposite ways: damping takes energy out, so force acts against the motion"
    if abs(power) < 0.15:
        warnings = (*warnings, "force hardly follows velocity here: check that these columns belong together")
    return Signs(force, velocity, displacement, evidence, warnings)


def _force_sign(
    motion: Motion, said: Mapping[str, str], v_follows: int, x_follows: int, gas_removed: bool | None
) -> tuple[int, str, tuple[str, ...]]:
    turned = {"force": 1, "all": 1, "velocity": v_follows, "displacement": v_follows * x_follows}
    channel = next((c for c in turned if c in said), None)
    if channel is not None:
        name = "" if channel == "all" else f" for {channel}"
        sign = 1 if said[channel] == "compression" else -1
        return sign * turned[channel], f"stated{name}: {said[channel]} is positive", ()
    offset, near = gas_offset(motion)
    least = max(_GAS_LEAST, _GAS_SHARE * float(np.nanmax(np.abs(motion.force))))
    if gas_removed is not True and near >= 4 and abs(offset) >= least:
        way = "compression" if offset > 0 else "rebound"
        return (1 if offset > 0 else -1), f"gas force pushes out: {offset:+.0f} N at rest, so {way} is positive", ()
    why = "gas force was taken out" if gas_removed else "no gas force stands out"
    warning = (
        f"nothing says which direction is positive ({why}): compression was assumed; --positive rebound turns it round"
    )
    return 1, f"assumed: compression is positive ({why})", (warning,)


def gas_offset(motion: Motion) -> tuple[float, int]:
    """Return the force where velocity passes zero [N], mean over both turning points, and from how many samples.

    Lag shifts the two turning points opposite ways, so that their mean is nearly free of it.
    """
    v, force = motion.velocity, motion.force
    top = float(np.nanmax(np.abs(v)))
    near = (np.abs(v) < 0.05 * top) & np.isfinite(force)
    if motion.displacement is None:
        where, middle = np.gradient(v), 0.0
    else:
        where = motion.displacement
        middle = 0.5 * float(np.nanmax(where) + np.nanmin(where))
    sides = [force[near & (where > middle)], force[near & (where <= middle)]]
    if min(len(s) for s in sides) < 5:
        sides = _at_turns(v, force)
    if min(len(s) for s in sides) < 2:
        return 0.0, 0
    return float(np.mean([np.median(s) for s in sides])), sum(len(s) for s in sides)


def _at_turns(v: FloatArray, force: FloatArray) -> list[FloatArray]:
    """Return the force at rising and at falling passes of zero velocity, between the two samples around each."""
    before, after = v[:-1], v[1:]
    change = force[1:] - force[:-1]
    sides = []
    for turns in ((before <= 0) & (after > 0), (before >= 0) & (after < 0)):
        share = before[turns] / (before[turns] - after[turns])
        found = force[:-1][turns] + share * change[turns]
        sides.append(found[np.isfinite(found)])
    return sides
