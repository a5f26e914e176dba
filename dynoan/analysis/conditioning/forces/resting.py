"""The force of a shock that stands still: gas and the cell's zero there, give or take what friction holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.channels.record import Record
from dynoan.analysis.conditioning.forces import rest_assumptions as b
from dynoan.analysis.conditioning.forces.effects import Effect, gas_law
from dynoan.analysis.conditioning.samples.gas_heat import unsettled
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.ranks import median


@dataclass(frozen=True)
class Rests:
    """Where a shock stood still, and the force there; shape (k,) each."""

    displacement: FloatArray  #: [m]
    force: FloatArray  #: [N]
    time: FloatArray  #: as that of the rows; not a number in records put together [s]
    settling: FloatArray  #: by how much force changes while it stands [N]
    first: BoolArray  #: before the first motion: little but gas, zero and friction is left in it
    way: FloatArray  #: direction of the motion before: 1 compression, -1 rebound, 0 none
    unsettled: FloatArray  #: travel less what gas has got used to, shape (k, times) [m]


NO_RESTS = Rests(*(np.empty(0),) * 4, np.empty(0, dtype=bool), np.empty(0), np.empty((0, len(a.GAS_SETTLES))))


def rests_of(record: Record) -> Rests:
    """Return the rests of a record within the stroke it moves over: before it starts, between its speeds, at its end.

    None where displacement or time was not recorded: gas force is that of a place.
    """
    x = record.displacement
    if x is None or not record.dt:
        return NO_RESTS
    low, high = np.percentile(x, (0.5, 99.5))
    beyond = b.BEYOND * float(high - low)
    heat, found = unsettled(x, record.dt), []
    for begin, end in _stands(record, x):
        # After a stop oil and mounts settle, and the next start is slow at first.
        third = (end - begin) // 3
        mine = np.arange(begin + (third if begin else 0), end - (third if end < len(x) else 0))
        mine = mine[record.good[mine] & record.own[mine]]
        if len(mine) >= b.FEWEST_SAMPLES and low - beyond <= median(x[mine]) <= high + beyond:
            found.append(_rest(record, x, heat, mine))
    return together(found)


def _rest(record: Record, x: FloatArray, heat: FloatArray, mine: IntArray) -> Rests:
    """Return one rest, of the samples `mine`."""
    force, half = record.force[mine], len(mine) // 2
    settling = np.abs(np.median(force[half:], keepdims=True) - np.median(force[:half]))
    time = np.median(mine, keepdims=True) * (record.dt or 0.0)
    place = np.median(x[mine], keepdims=True)
    return Rests(place, np.median(force, keepdims=True), time, settling, np.array([mine[0] == 0]),
                 _came(x, int(mine[0]), place), np.median(heat[mine], axis=0, keepdims=True))  # fmt: skip


def _came(x: FloatArray, begin: int, place: FloatArray) -> FloatArray:
    """Return the direction of the motion that ended at a place, zero where the record begins there, shape (1,). [1]"""
    off = place - x[:begin][::-1]
    far = np.flatnonzero(np.abs(off) > b.CAME * float(np.ptp(x)))
    return np.sign(off[far[:1]]) if len(far) else np.zeros(1)


def _stands(record: Record, x: FloatArray) -> Iterator[tuple[int, int]]:
    """Yield the first sample, and that after the last, of each stretch that stays in one place."""
    assert record.dt is not None
    near = max(b.SAME_PLACE * record.displacement_noise, b.SAME_SHARE * float(np.ptp(x)))
    many = max(5, round(b.SHORTEST / record.dt))
    at = 0
    while at + many <= len(x):
        place = median(x[at : at + many])
        away = np.flatnonzero(np.abs(x[at : at + many] - place) > near)
        if len(away):
            at += int(away[-1]) + 1
            continue
        gone = np.flatnonzero(np.abs(x[at:] - place) > near)
        end = at + (int(gone[0]) if len(gone) else len(x) - at)
        yield at, end
        at = end


def together(several: Sequence[Rests]) -> Rests:
    """Return several rests, of one record, as one."""
    names = [field.name for field in fields(Rests)]
    return Rests(*(np.concatenate([getattr(one, name) for one in (NO_RESTS, *several)]) for name in names))


def of_records(several: Sequence[Rests]) -> Rests:
    """Return the rests of several records, put together in time, as of one."""
    whole = together(several)
    return replace(whole, time=np.full(len(whole.time), np.nan))


@dataclass(frozen=True)
class AtRest:
    """What rests say, as rows of a least-squares problem beside those of the motion."""

    columns: dict[str, FloatArray]  #: of the effects by name, shape (k,) each
    force: FloatArray  #: shape (k,) [N]
    scatter: FloatArray  #: of what the cell and friction make of each, standard deviation, shape (k,) [N]
    holds: FloatArray  #: share of what a fluid that yields may hold beside it, shape (k,) [1]
    many: FloatArray  #: how many rests count as one with each, shape (k,) [1]
    way: FloatArray  #: direction of the motion before, shape (k,) [1]

    def rows(self, effects: Sequence[Effect], yields: float) -> tuple[FloatArray, FloatArray]:
        """Return rows over the effects, shape (k, e), and what they come to, shape (k,), in standard deviations.

        All rests together count as one but for that before the first motion: friction holds as often the same way as
        not. `yields` is what a fluid that yields may hold beside it. [N]
        """
        k = len(self.force)
        size = np.hypot(self.scatter, self.holds * yields) * np.sqrt(self.many)
        rubs, nothing = b.HELD_SLIDES * self.way, np.zeros(k)
        columns = [rubs if e.kind == "friction" else self.columns.get(e.name, nothing) for e in effects]
        return np.array(columns).T / size[:, None], self.force / size


def held(rests: Rests, rows: Rows, peak: float, drifts: Mapping[str, FloatArray]) -> AtRest:
    """Return what rests say of gas and zero beside rows with that peak force [N].

    `drifts` are the columns of what drifts over a record by the effects' names, shape (n,) each. [1]
    """
    x = rows.displacement
    if x is None or not len(rests.force):
        return AtRest({}, *(np.empty(0),) * 5)
    reach = 0.5 * float(np.ptp(x))
    z = rests.displacement - 0.5 * float(x.min() + x.max())
    columns = {f"gas {h}": gas_law(z, h * reach) / reach for h in a.COLUMNS}
    columns |= {"gas bend": (z / reach) ** 2, "offset": np.ones(len(z))}
    columns |= {f"heat {t:g}": late / reach for t, late in zip(a.GAS_SETTLES, rests.unsettled.T, strict=True)}
    if np.isfinite(rests.time).all():
        columns |= {name: np.interp(rests.time, rows.time, column) for name, column in drifts.items()}
    scatter = np.hypot(rests.settling, np.hypot(b.HELD_FRICTION, np.where(rests.first, 0.0, b.HELD_SHARE * peak)))
    many = np.where(rests.first, float(rests.first.sum()), float((~rests.first).sum()))
    return AtRest(columns, rests.force, scatter, np.where(rests.first, b.HELD_FIRST, b.HELD_YIELD), many, rests.way)
