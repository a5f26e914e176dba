"""The force of a shock that stands still: gas and the cell's zero there, give or take what friction holds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.effects import Effect, gas_law
from dynoan.analysis.conditioning.record import Record
from dynoan.model.arrays import BoolArray, FloatArray


@dataclass(frozen=True)
class Rests:
    """Where a shock stood still, and the force there; shape (k,) each."""

    displacement: FloatArray  #: [m]
    force: FloatArray  #: [N]


NO_RESTS = Rests(np.empty(0), np.empty(0))


def rests_of(record: Record, still: BoolArray) -> Rests:
    """Return the pauses of a record within the stroke it moves over; `still` tells of each sample whether it stands.

    None where displacement was not recorded: gas force is that of a place.
    """
    x = record.displacement
    if x is None or not still.any() or still.all():
        return NO_RESTS
    low, high = float(x[~still].min()), float(x[~still].max())
    edges = np.flatnonzero(np.diff(np.concatenate([[0], still.astype(np.int8), [0]])))
    places, forces = [], []
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        mine = slice(first + (last - first) // 3, last)  # oil and mounts settle after a stop
        good = record.good[mine] & record.own[mine]
        if good.any() and low <= float(np.median(x[mine])) <= high:
            places.append(float(np.median(x[mine][good])))
            forces.append(float(np.median(record.force[mine][good])))
    return Rests(np.array(places), np.array(forces))


def together(several: Sequence[Rests]) -> Rests:
    """Return the rests of several records as of one."""
    return Rests(np.concatenate([one.displacement for one in several]), np.concatenate([one.force for one in several]))


@dataclass(frozen=True)
class AtRest:
    """What rests say, as rows of a least-squares problem beside those of the motion."""

    columns: dict[str, FloatArray]  #: of the effects by name, shape (k,) each
    force: FloatArray  #: shape (k,) [N]
    scatter: float  #: of what the cell and friction make of it, standard deviation [N]

    def rows(self, effects: Sequence[Effect], yields: float) -> tuple[FloatArray, FloatArray]:
        """Return rows over the effects, shape (k, e), and what they come to, shape (k,), in standard deviations.

        All rests together count as one: friction holds as often the same way as not. `yields` is what a fluid that
        yields may hold beside it. [N]
        """
        k = len(self.force)
        size = float(np.hypot(self.scatter, a.HELD_YIELD * yields)) * np.sqrt(max(k, 1))
        nothing = np.zeros(k)
        return np.array([self.columns.get(e.name, nothing) for e in effects]).T / size, self.force / size


def held(rests: Rests, x: FloatArray | None, peak: float) -> AtRest:
    """Return what rests say of gas and zero beside rows at displacements, shape (n,) [m], with that peak force [N]."""
    if x is None or not len(rests.force):
        return AtRest({}, np.empty(0), 1.0)
    reach = 0.5 * float(np.ptp(x))
    z = rests.displacement - 0.5 * float(x.min() + x.max())
    columns = {f"gas {h}": gas_law(z, h * reach) / reach for h in a.COLUMNS}
    columns |= {"gas bend": (z / reach) ** 2, "offset": np.ones(len(z))}
    return AtRest(columns, rests.force, float(np.hypot(a.HELD_FRICTION, a.HELD_SHARE * peak)))
