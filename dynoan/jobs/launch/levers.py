"""What decides where the driven wheels spin: grip when sliding, the driver's foot, or the shocks; each tried alone.

Each lever is one launch of the nominal curves with one thing changed, all on the same roads: the ground's grip when
sliding a tenth less and more, the foot that gets the car farthest, the slip that does, and every click of an axle open
and shut. It says what a change is worth at most, not which clicks are best.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from dynoan.analysis.launch.assumptions import COARSE_STEP, DRAWN_ROADS
from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.launch.hinges import NOMINAL
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.compare import OF_THE_ROAD, ROADS
from dynoan.analysis.launch.large.rows import run
from dynoan.analysis.launch.large.tyre import SLIDING_SHARE
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.errors import DynoanError
from dynoan.jobs.assumptions import FEET, GROUND_SHARE, LITTLE_BESIDE, SLIPS_HELD, SPINS_FROM
from dynoan.jobs.launch.settings import LaunchCase, launch_case
from dynoan.model.car import AXLES, Car, Surface
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    from dynoan.jobs.launch.drive import RunAsked
    from dynoan.workbench.bench import Workbench

Kind = Literal["ground", "foot", "slip", "shocks", "shocks with that foot"]
#: what shocks are tried with: the drive as it is asked, and the foot that gets the car farthest
SHOCKS: tuple[tuple[Kind, int], ...] = (("shocks", 0), ("shocks with that foot", 1))
OF_SHOCKS = tuple(kind for kind, _ in SHOCKS)
MOVED = ("distance_m", "wheelspin_s")  #: what a lever is judged by


@dataclass(frozen=True)
class Lever:
    """One thing changed, and what it does."""

    surface: str
    kind: Kind
    words: str  #: what is changed, and how to ask for it
    changes: dict[str, float]  #: of the figures `MOVED`, SI; against the car as it is, or with that foot
    axle: str = ""  #: whose clicks are turned
    torque: float | None = None  #: of a foot, at most, at the wheels [N·m]

    def said(self, units: Shown = "metric") -> str:
        """Return what is changed, and how to ask for it, in the units of who reads it."""
        if self.torque is None:
            return self.words
        return f"{self.words}, at most {shown('torque', units).text(self.torque)} at the wheels"

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {"surface": self.surface, "kind": self.kind, "what": self.said(), "changes": dict(self.changes)}


Tried = tuple[Kind, str, Scene]  #: what is changed, in words, and the scene it makes
Figures = dict[str, float]


def levers_of(bench: Workbench, case: LaunchCase, asked: RunAsked, surface: Surface) -> tuple[Lever, ...]:
    """Return what decides on a surface, empty where the driven wheels hardly spin there or no torque turns them.

    Parameters
    ----------
    bench
        Where the curves of other clicks come from.
    case, asked, surface
        The car as it is, how it is driven off and on what.
    """
    scene = asked.scene(case, surface)
    if scene.drive.turning is None:
        return ()
    (few,) = _figures(case, [scene], DRAWN_ROADS)
    if not few["wheelspin_s"] > SPINS_FROM * asked.duration:  # not so either where the car goes over
        return ()
    foot, slip = (_farthest(case, tried, few) for tried in ([*_feet(scene, asked)], [*_slips(case, scene, asked)]))
    kept = [*_grounds(scene), *(one for one in (foot, slip) if one is not None)]
    base, *found = _figures(case, [scene, *(of for _, _, of in kept)])
    out = [
        replace(_lever(surface, kind, words, one, base), torque=_torque(case, of) if kind == "foot" else None)
        for (kind, words, of), one in zip(kept, found, strict=True)
    ]
    scenes = [scene] if foot is None else [scene, foot[2]]
    bases = [base] if foot is None else [base, found[kept.index(foot)]]
    clicked = [(axle, words, _figures(of, scenes)) for axle, words, of in _clicked(bench, case)]
    for kind, n in SHOCKS[: len(scenes)]:
        out += [replace(_lever(surface, kind, words, of[n], bases[n]), axle=axle) for axle, words, of in clicked]
    return tuple(out)


def _figures(case: LaunchCase, scenes: Sequence[Scene], many: int = ROADS) -> list[Figures]:
    """Return the figures of the nominal curves on each scene, means over roads; NaN where the car goes over.

    So many as settings are told apart on: at a torque of about what the tyres hold a few roads tell something else.
    """
    level = sides(*case.damping).take([NOMINAL])
    roads = many if any(scene.surface.roughness for scene in scenes) else 1
    each = [replace(scene, seed=scene.seed + n) for scene in scenes for n in range(roads)]
    found = run(case.large, level, each, [(0, n) for n in range(len(each))], keep=False, step=COARSE_STEP).figures
    over = np.isfinite(found[:, at.OVER])
    means = {k: np.where(over, np.nan, found[:, OF_THE_ROAD[k]]).reshape(-1, roads).mean(axis=1) for k in MOVED}
    return [{key: float(values[n]) for key, values in means.items()} for n in range(len(scenes))]


def _lever(surface: Surface, kind: Kind, words: str, found: Figures, base: Figures) -> Lever:
    return Lever(surface.name, kind, words, {key: value - base[key] for key, value in found.items()})


def _grounds(scene: Scene) -> Iterator[Tried]:
    """Yield a surface that holds a spinning wheel a tenth less and more, the latter up to its peak."""
    surface = scene.surface
    sliding = SLIDING_SHARE * surface.grip if surface.sliding_grip is None else surface.sliding_grip
    for share in (1.0 - GROUND_SHARE, 1.0 + GROUND_SHARE):
        value = min(share * sliding, surface.grip)
        other = replace(scene, surface=replace(surface, sliding_grip=value))
        yield "ground", f"grip when sliding {sliding:.2f} -> {value:.2f}", other


def _feet(scene: Scene, asked: RunAsked) -> Iterator[Tried]:
    """Yield drives with less torque; none where the driver lifts by himself, or brakes held the car."""
    drive = scene.drive
    if drive.foot is not None or asked.drive.held is not None:
        return
    for share in FEET:
        yield "foot", f"foot at {100 * share:.0f} %", replace(scene, drive=_lighter(drive, share))


def _torque(case: LaunchCase, scene: Scene) -> float:
    """Return the most torque that a drive asks for, at the wheels. [N·m]"""
    return float(scene.drive.asked[-1]) * case.half.frame.mass * case.large.radius


def _lighter(drive: Drive, share: float) -> Drive:
    turning = drive.turning
    if turning is None:
        return drive
    return replace(
        drive, asked=np.asarray(share * drive.asked),
        turning=replace(turning, throttle=np.asarray(share * turning.throttle)),
    )  # fmt: skip


def _slips(case: LaunchCase, scene: Scene, asked: RunAsked) -> Iterator[Tried]:
    """Yield drivers who hold a slip of the driven wheels; none where one does already, or brakes held the car."""
    if asked.drive.slip is not None or asked.drive.held is not None:
        return
    for slip in SLIPS_HELD:
        held = replace(asked, drive=replace(asked.drive, slip=slip))
        yield "slip", f"a driver who lifts, --slip {slip:g}", held.scene(case, scene.surface)


def _farthest(case: LaunchCase, tried: Sequence[Tried], base: Figures) -> Tried | None:
    """Return what gets the car farthest on a few roads; None where nothing gets it farther than it gets as it is."""
    found = _figures(case, [of for _, _, of in tried], DRAWN_ROADS) if tried else []
    far = [(one["distance_m"], n) for n, one in enumerate(found) if one["distance_m"] > base["distance_m"]]
    return tried[max(far, key=lambda one: one[0])[1]] if far else None


def _clicked(bench: Workbench, case: LaunchCase) -> Iterator[tuple[str, str, LaunchCase]]:
    """Yield the car with all clicks of an axle open, then shut; axles without adjusters are left out."""
    for axle in AXLES:
        for words, share in (("open", 1.0), ("shut", 0.0)):
            try:
                car = _all_clicks(bench, case.car, axle, share)
                if car != case.car:
                    yield axle, f"all clicks of the {axle} {words}", launch_case(bench, car, case.label)
            except DynoanError:
                continue  # no pack, or none whose other clicks are known: nothing to turn there


def _all_clicks(bench: Workbench, car: Car, axle: str, share: float) -> Car:
    corners = dict(car.corners)
    for corner in car.axle(axle):
        shock = bench.corner_shock(corner, corner.pack or "")
        closed = {a.name: round(share * a.clicks) for a in shock.adjusters}
        corners[corner.name] = replace(corner, clicks={**corner.clicks, **shock.to_counted(closed)})
    return replace(car, corners=corners)


def most(levers: Sequence[Lever], kinds: Sequence[Kind], key: str = MOVED[0]) -> float:
    """Return the most that levers of some kinds move a figure, a magnitude; 0 of none. [of the figure]"""
    moved = [abs(one.changes[key]) for one in levers if one.kind in kinds]
    return max((by for by in moved if np.isfinite(by)), default=0.0)  # a car that goes over gets nowhere


def lesser(levers: Sequence[Lever]) -> bool:
    """Return whether the shocks move how far the car gets by little beside foot and ground."""
    shocks = most(levers, OF_SHOCKS)
    return shocks < LITTLE_BESIDE * most(levers, ("ground", "foot", "slip"))
