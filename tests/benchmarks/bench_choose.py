"""The click search: 24 positions of four adjusters, six packs, forty velocities, against numpy on all settings at once.

The peer scores all 331,776 settings of a pack at all velocities in one array, which is what one writes first. Ours
also ranks what fits first and settles ties; both must find the same ten scores. Peer and ours run in turn in one
process; medians are compared, and the peak of what either allocates. The second row is the whole answer of
`choose`: with bands, sensitivities and limits of the ten.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dynoan.analysis.choosing.aims import CornerAim, Group, Place, WantedRatio
from dynoan.analysis.choosing.assumptions import MISS_STEP
from dynoan.analysis.choosing.choose import plans, search
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.analysis.choosing.score import unpacked
from dynoan.analysis.corner.secants import ratio_per_force
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Corner
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import Direction
from dynoan.model.shock import Adjuster
from tests.benchmarks.measuring import MIB, faster, in_turn, peak, row

CLICKS, PACKS, TURNS = 24, 6, 9
SPEEDS = np.concatenate([[0.0], np.geomspace(0.01, 0.6, 20)])  # twenty a direction
CORNER = Corner("fl", 268.0, 34.0, 45e3, 0.95, 0.92, tyre=210e3)


def _table(rng: np.random.Generator, adjusters: tuple[str, ...], level: float) -> DirectionMap:
    shape = (CLICKS,) * len(adjusters)
    force = np.broadcast_to(level * SPEEDS**0.8, (*shape, len(SPEEDS))).copy()
    for axis in range(len(adjusters)):
        falls = np.exp(-np.outer(np.arange(CLICKS) * rng.uniform(0.01, 0.05), 1 / (1 + SPEEDS * rng.uniform(0, 20))))
        force *= falls.reshape([CLICKS if i == axis else 1 for i in range(len(adjusters))] + [len(SPEEDS)])
    return DirectionMap(adjusters, SPEEDS, force, 0.03 * force, 0.6)


def made_packs() -> list[ClickMap]:
    """Six made-up packs; compression crosses with low-speed rebound."""
    rng = np.random.default_rng(5)
    names = ("lsc", "hsc", "lsr", "hsr")
    return [
        ClickMap(
            f"pack {n}", tuple(Adjuster(name, CLICKS - 1) for name in names),
            _table(rng, ("lsc", "hsc", "lsr"), 1800 + 400 * n), _table(rng, ("lsr", "hsr"), 2800 + 500 * n),
            tested=({"lsc": 0, "hsc": 0, "lsr": 0, "hsr": 0},),
        )
        for n in range(PACKS)
    ]  # fmt: skip


def made_place(maps: Sequence[ClickMap]) -> Place:
    """One corner that wants, at every tabulated velocity, close to what one setting of one pack gives it."""
    compression, rebound = maps[2].compression.force[9, 14, 6], maps[2].rebound.force[6, 17]
    sides: tuple[tuple[Direction, FloatArray], ...] = (("compression", compression), ("rebound", rebound))
    wanted = [
        WantedRatio(direction, float(v), float(f * ratio_per_force(CORNER, v)) * (1 + 0.02 * np.sin(9 * n)))
        for direction, forces in sides
        for n, (v, f) in enumerate(zip(SPEEDS[1:], forces[1:], strict=True))
    ]  # fmt: skip
    return Place("fl", (CornerAim(CORNER, tuple(wanted)),))


def ours(place: Place, maps: Sequence[ClickMap]) -> list[float]:
    """The squared misses of the ten best."""
    return [unpacked(draft[0].key)[0] * MISS_STEP for draft in search([Group("fl", (place,))], maps, Rules())]


def whole_answer(place: Place, maps: Sequence[ClickMap]) -> list[float]:
    """The same with everything `choose` tells of them."""
    return [plan.choices[0].miss ** 2 for plan in plans([Group("fl", (place,))], maps, Rules())]


def all_at_once(place: Place, maps: Sequence[ClickMap]) -> list[float]:
    """The same from one array of all settings and velocities a pack."""
    best = np.empty(0)
    wanted = place.aims[0].wanted
    relative = np.array([float(ratio_per_force(CORNER, w.velocity)) / w.ratio for w in wanted])
    for click_map in maps:
        shape = (CLICKS,) * 4
        up = click_map.compression.force[:, :, :, None, 1:]
        down = click_map.rebound.force[None, None, :, :, 1:]
        both = np.concatenate([np.broadcast_to(part, (*shape, len(SPEEDS) - 1)) for part in (up, down)], axis=-1)
        squares = np.mean((both * relative - 1) ** 2, axis=-1).ravel()
        best = np.sort(np.concatenate([best, np.partition(squares, 10)[:10]]))[:10]
    return [float(b) for b in best]


def rows() -> list[dict[str, object]]:
    """Time and memory of the search, with the same ten scores."""
    maps = made_packs()
    place = made_place(maps)
    jobs = [lambda job=job: job(place, maps) for job in (ours, whole_answer, all_at_once)]  # type: ignore[misc]
    scores = [job() for job in jobs]
    for found in scores[:2]:  # equal to the step in which misses are told apart
        np.testing.assert_allclose(found, scores[2], rtol=0, atol=1.5 * MISS_STEP)
    mine, answer, peer = in_turn(*jobs, turns=TURNS)
    held = [peak(job) / MIB for job in jobs]
    size = f"{PACKS * CLICKS**4:,} settings × 40"
    return [
        faster("C1: click search, same ten scores, against numpy on all settings at once", size, (mine, peer)),
        faster("C1: the same with bands and sensitivities of the ten", size, (answer, peer)),
        row("C1: memory of the search beside the tables", size, f"{held[0]:.1f} MiB", f"{held[2]:.0f} MiB",
            f"{held[0] / held[2]:.2g} × its memory"),
    ]  # fmt: skip


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows()))
