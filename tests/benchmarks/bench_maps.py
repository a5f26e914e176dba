"""Click maps: fit one from 30 sweeps, then reckon every setting of four 21-position adjusters at 40 velocities.

The fit has no peer that does the same: it is held against its limit of 2 s. Evaluation is held against scipy's
thin-plate spline over the clicks. Processor time, so that a busy machine does not blur it; matrix products on one
thread, as in the command line. Run with ``python -m tests.benchmarks.bench_maps``.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from scipy.interpolate import RBFInterpolator

from dynoan.analysis.clickmap.asked.equivalent import on_all_axes
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS
from tests.analysis.made_packs import FOUR, made_pack, sweeps_of
from tests.benchmarks.measuring import share

VELOCITIES = np.concatenate([-np.linspace(0.5, 0.025, 20), np.linspace(0.025, 0.5, 20)])


def _median(job: Callable[[], Any], times: int = 5) -> float:
    took = []
    for _ in range(times):
        start = time.process_time()
        job()
        took.append(time.process_time() - start)
    return float(np.median(took))


def settings() -> tuple[dict[str, int], ...]:
    rng = np.random.default_rng(5)
    return tuple({a.name: int(rng.integers(0, 21)) for a in FOUR} for _ in range(30))


def all_settings(map: ClickMap) -> np.ndarray:
    """Force of every setting at 40 velocities, shape (21, 21, 21, 21, 40)."""
    shape = [a.clicks + 1 for a in map.adjusters]
    out = np.empty((*shape, len(VELOCITIES)))
    for direction, mine in zip(DIRECTIONS, (VELOCITIES > 0, VELOCITIES < 0), strict=True):
        table = map.direction(direction)
        force = table.at(VELOCITIES[mine])[0]
        sign = 1.0 if direction == "compression" else -1.0
        for k, at in enumerate(np.flatnonzero(mine)):
            out[..., at] = sign * on_all_axes(force[..., k], table, map)
    return out


def rows() -> list[dict[str, Any]]:
    """The rows of the benchmark table."""
    tests = sweeps_of(made_pack(3), 3, settings(), shocks=2)
    clicks = np.array([[t.from_closed[a.name] for a in FOUR] for t in tests], dtype=float)
    everything = np.stack(np.meshgrid(*[np.arange(21.0)] * 4, indexing="ij"), axis=-1).reshape(-1, 4)
    fitted = fit_map("bench", FOUR, tests)
    spline = RBFInterpolator(clicks, np.array([t.curve(VELOCITIES) for t in tests]))
    fit = _median(lambda: fit_map("bench", FOUR, tests), 3)
    ours, peer = _median(lambda: all_settings(fitted), 3), _median(lambda: spline(everything), 3)
    return [
        share("fit a click map, both views and bands, against its limit", "30 sweeps", (fit, 2.0)),
        share("all 21⁴ settings at 40 velocities, against scipy's thin-plate spline", f"{21**4 * 40:,}", (ours, peer)),
    ]


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows()))
