"""A launch of the small-angle car: one setting with its band."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.compare import LaunchRun, banded_levels, kept_trace, launch_warnings
from dynoan.analysis.launch.hinges import AxleDamping
from dynoan.analysis.launch.metrics import LEVEL, body_figures, metrics
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.scene import Scene, level
from dynoan.analysis.launch.sides import sides
from dynoan.errors import QuantityError
from tests.oracles.small_angle.running import run_states
from tests.oracles.small_angle.tracing import traced_out


def launch(half: HalfCar, scene: Scene, damping: tuple[AxleDamping, AxleDamping], label: str = "") -> LaunchRun:
    """Return one setting on one scene: its figures, their bands, and the trace of the nominal curves.

    Parameters
    ----------
    half
        The car.
    scene
        Drive, ground and time.
    damping
        Front and rear axle.
    label
        What to call the setting.

    Returns
    -------
    :
        Figures by key, SI, the unit in each; a band is the least and most over eight combinations of the low and high
        ends of the four curves' 95 % bands, any three of which vary independently.

    Raises
    ------
    QuantityError
        If the car does not stay finite: values no car has.
    """
    levels = banded_levels(sides(*damping))
    trace = traced_out(half, scene, run_states(half, scene, levels), levels)
    if not np.all(np.isfinite(trace.pitch)):
        raise QuantityError(
            f"the launch of {label or 'this car'} does not stay finite", hint="check masses, rates and ratios"
        )
    figures = metrics(half, trace, damping, scene.surface.grip)
    still = level(scene)
    alone = body_figures(traced_out(half, still, run_states(half, still, levels), levels))
    figures |= {f"level_{name}": alone[name] for name in LEVEL}
    nominal = {name: float(values[0]) for name, values in figures.items()}
    return LaunchRun(
        label, nominal, {k: float(np.min(v)) for k, v in figures.items()},
        {k: float(np.max(v)) for k, v in figures.items()}, kept_trace(trace, half, damping),
        launch_warnings(nominal, scene),
        surface=scene.surface.name, levels=figures,
    )  # fmt: skip
