"""How what is said of packs made from flow through restrictions holds at clicks never tested."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from tests.worlds.packs import foot_valve, piston
from tests.worlds.packs.answers import Program
from tests.worlds.valves import FloatArray

SPEEDS = np.geomspace(0.02, 0.48, 8)
V = np.concatenate([-SPEEDS[::-1], SPEEDS])
ASKED = 25
LAST: Mapping[str, Mapping[str, int]] = {
    "piston": dict.fromkeys(piston.NAMES, piston.LAST), "foot valve": foot_valve.LAST,
}  # fmt: skip
LIBRARIES = {"piston": piston.library, "foot valve": foot_valve.library}
"""Simulators by name: a seed to packs, their library, and dice to go on with."""


def library_points(program: Program, seed: int, kind: str = "piston", most: int = 3) -> FloatArray:
    """Return error over force and whether the band holds it, of packs at clicks never tested, (2, points)."""
    assert program.map
    packs, library, rng = LIBRARIES[kind](seed)
    rows = []
    for pack in packs[:most]:
        said = program.map(library, pack.name)
        seen = [run.clicks for run in library.of(pack.name)]
        for _ in range(ASKED):
            clicks = {name: int(rng.integers(0, last + 1)) for name, last in LAST[kind].items()}
            if clicks in seen:
                continue
            true, band = pack.force(clicks, V), said.band(clicks, V, "RL-02", 0.0)
            rows.append([np.abs(band.value / true - 1.0), (band.low <= true) & (true <= band.high)])
    return np.concatenate([np.array(row, float) for row in rows], axis=1)
