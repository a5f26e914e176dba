"""Running the compiled half-car: blocks of settings in, states and figures out."""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.launch.assumptions import MOST_THREADS
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.scene import Scene, check
from dynoan.analysis.launch.sides import Sides
from dynoan.model.arrays import FloatArray
from tests.oracles.small_angle.kernel import run_block, run_one
from tests.oracles.small_angle.layout import FIGURE_NAMES, FIGURES, LANES, STATES
from tests.oracles.small_angle.packing import pack, packed
from tests.oracles.small_angle.road import table


@dataclass(frozen=True)
class States:
    """What moved, for m settings over n times."""

    time: FloatArray  #: shape (n,) [s]
    values: FloatArray  #: heave [m], pitch [rad], front and rear wheel [m], then their velocities; shape (m, 8, n)
    table: FloatArray  #: road front and rear [m], wanted drive front and rear [N] at the times, shape (n, 4)


def run_states(half: HalfCar, scene: Scene, damping: Sides) -> States:
    """Return the motion of m settings at every step.

    Raises
    ------
    QuantityError
        If the scene is none of a launch.
    """
    m = damping.settings
    grid, parameters = table(half, check(scene)), packed(half, scene.grip)
    blocks = pack(damping)
    time = np.arange(scene.steps + 1, dtype=float) * scene.step
    if m == 1:
        alone = np.zeros((1, STATES, scene.steps + 1))
        run_one(parameters, grid, blocks[0], scene.step, alone[0])
        return States(time, alone, grid[::2])
    values = np.empty((m, STATES, scene.steps + 1))
    trace = np.zeros((scene.steps + 1, STATES * LANES))
    for i, block in enumerate(blocks):
        trace[0] = 0.0
        run_block(parameters, grid, block, scene.step, np.zeros(FIGURES * LANES), trace)
        part = values[i * LANES : (i + 1) * LANES]
        part[:] = trace.reshape(scene.steps + 1, STATES, LANES)[:, :, : len(part)].transpose(2, 1, 0)
    return States(time, values, grid[::2])


def run_figures(half: HalfCar, scene: Scene, damping: Sides, *, threads: int | None = None) -> dict[str, FloatArray]:
    """Return the figures of `FIGURE_NAMES` for m settings, each of shape (m,). [SI, the unit in each name]

    Settings run side by side, `LANES` to a block, the blocks in threads.

    Parameters
    ----------
    threads
        None: as many as there are cores, `MOST_THREADS` at most.

    Raises
    ------
    QuantityError
        If the scene is none of a launch.
    """
    m = damping.settings
    grid, parameters = table(half, check(scene)), packed(half, scene.grip)
    blocks = pack(damping)
    out = np.zeros((len(blocks), FIGURES * LANES))

    def run(i: int) -> None:
        run_block(parameters, grid, blocks[i], scene.step, out[i], np.zeros((1, STATES * LANES)))

    run(0)  # compiles, or loads what was compiled, before the threads start
    with ThreadPoolExecutor(threads or min(os.cpu_count() or 1, MOST_THREADS)) as pool:
        list(pool.map(run, range(1, len(blocks))))
    lanes = out.reshape(len(blocks), FIGURES, LANES).transpose(1, 0, 2).reshape(FIGURES, -1)[:, :m]
    return _scaled({name: lanes[at] for at, name in FIGURE_NAMES.items()}, scene)


def _scaled(figures: dict[str, FloatArray], scene: Scene) -> dict[str, FloatArray]:
    figures["driven_load_rms_n"] = np.sqrt(figures["driven_load_rms_n"] / scene.steps)
    figures["drive_force_mean_n"] = figures["drive_force_mean_n"] / scene.steps
    for name in ("front_wheel_lift_s", "on_stops_s"):
        figures[name] = figures[name] * scene.step
    return figures
