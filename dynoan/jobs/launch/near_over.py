"""Whether a car that lifts its front wheels is so near to going over that its heights hang on little."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.launch.compare import LaunchRun
from dynoan.analysis.launch.large.compare import nominal
from dynoan.jobs.assumptions import NEAR_OVER

if TYPE_CHECKING:
    from dynoan.analysis.launch.scene import Scene
    from dynoan.jobs.launch.settings import LaunchCase


def near_over(case: LaunchCase, scene: Scene, found: LaunchRun) -> tuple[str, ...]:
    """Return a warning where a little more grip and drive turn the car over; nothing where it keeps its wheels down.

    Parameters
    ----------
    case, scene
        What was run.
    found
        And how it went.
    """
    over, height = (found.metrics[key] for key in ("goes_over_s", "front_wheel_height_m"))
    if np.isfinite(over) or not height > 0:
        return ()
    more = 1.0 + NEAR_OVER
    drive, surface = scene.drive, scene.surface
    turning = drive.turning
    if turning is not None:
        turning = replace(turning, torques=tuple(more * torque for torque in turning.torques))
    harder = replace(drive, asked=np.asarray(more * drive.asked), turning=turning)
    sliding = None if surface.sliding_grip is None else more * surface.sliding_grip
    grippier = replace(surface, grip=more * surface.grip, sliding_grip=sliding)
    there = nominal(case.large, replace(scene, drive=harder, surface=grippier), case.damping).figures
    if not np.isfinite(there["goes_over_s"]):
        return ()
    return (
        f"{100 * NEAR_OVER:.0f} % more grip and drive than on {surface.name}, and the car goes over: so near to it "
        "how high the front comes hangs on the last of either, and on what the bands leave open",
    )
