"""How what is said of packs made from seats, needles and shims holds at clicks never tested."""

from __future__ import annotations

import numpy as np

from tests.worlds.packs import piston
from tests.worlds.packs.answers import Program
from tests.worlds.valves import FloatArray

SPEEDS = np.geomspace(0.02, 0.48, 8)
V = np.concatenate([-SPEEDS[::-1], SPEEDS])
ASKED = 25


def library_points(program: Program, seed: int) -> FloatArray:
    """Return error over force and whether the band holds it, of three packs at clicks never tested, (2, points)."""
    assert program.map
    packs, library, rng = piston.library(seed)
    rows = []
    for pack in packs:
        said = program.map(library, pack.name)
        seen = [run.clicks for run in library.of(pack.name)]
        for _ in range(ASKED):
            clicks = {name: int(rng.integers(0, piston.LAST + 1)) for name in piston.NAMES}
            if clicks in seen:
                continue
            true, band = pack.force(clicks, V), said.band(clicks, V, "RL-02", 0.0)
            rows.append([np.abs(band.value / true - 1.0), (band.low <= true) & (true <= band.high)])
    return np.concatenate([np.array(row, float) for row in rows], axis=1)
