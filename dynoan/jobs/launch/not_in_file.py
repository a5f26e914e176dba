"""What no car's file has a ± of, and what it does to a launch: friction, the drive, ground nobody described.

Each is taken at both its ends, all else as stated, as `measure_first` takes the values of the file.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from dynoan.analysis.launch.assumptions import AT_THE_EDGE, MOST_STUCK
from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.launch.large.compare import Nominal, nominal
from dynoan.analysis.launch.large.tyre import (
    LOAD_SENSITIVITIES,
    LOAD_SENSITIVITY,
    SLIDING_SHARE,
    SLIDING_SHARES,
    SLIP_STIFFNESS,
    SLIP_STIFFNESSES,
)
from dynoan.analysis.statistics import Z95
from dynoan.model.car import AXLES, Surface

if TYPE_CHECKING:
    from dynoan.jobs.launch.drive import RunAsked
    from dynoan.jobs.launch.settings import LaunchCase

RISE_KEY = "rise"  #: how the drive comes in, in the place of a key of the car's file
NO_BAND, COMES_IN = "no band holds it", "how the drive comes in"  #: how notes speak of what is open beside the file
STUCK_KEY = "stuck"  #: of an axle: the friction of one shock that holds the car where it stood


@dataclass(frozen=True)
class Ends:
    """An unknown at its lower and at its upper end."""

    key: str  #: as the car's file would state it, or `RISE_KEY`
    half_width: float  #: SI
    found: tuple[Nominal, Nominal]


def ends_of(case: LaunchCase, asked: RunAsked, surface: Surface) -> tuple[Ends, ...]:
    """Return what is not known beside the car's file, each at both its ends."""
    return (
        *_friction(case, asked, surface),
        *_stuck(case, asked, surface),
        *_drive(case, asked, surface),
        *_ground(case, asked, surface),
    )


def anything(case: LaunchCase, asked: RunAsked, surface: Surface) -> bool:
    """Return whether anything beside the car's file is not known."""
    known = asked.drive.rise_ends is None and not any(case.large.friction_sd) and not _may_stick(case, asked)
    return not known or any(True for _ in _grounds(case, asked, surface))


def slips(case: LaunchCase, asked: RunAsked, surface: Surface) -> bool:
    """Return whether torque turns the wheels, so that slip counts."""
    return asked.scene(case, surface).drive.turning is not None


def ground_notes(case: LaunchCase, asked: RunAsked, surface: Surface) -> tuple[str, ...]:
    """Return what is taken for granted of a surface whose grip decides, in words."""
    out = []
    if surface.load_sensitivity is None and asked.scene(case, surface).drive.limited:
        low, high = (f"{value:g}" for value in LOAD_SENSITIVITIES)
        out.append(
            f"surfaces.{surface.name} states no load_sensitivity: a tyre's grip, stated for its load at rest, falls by "
            f"the power {LOAD_SENSITIVITY:g} of the load, and the bands hold {low} to {high}"
        )
    if not slips(case, asked, surface):
        return tuple(out)
    out += _rolling_in(case, asked.scene(case, surface).drive, surface)
    if surface.sliding_grip is None:
        low, high = (f"{100 * share:.0f}" for share in SLIDING_SHARES)
        out.append(
            f"surfaces.{surface.name} states no sliding_grip: a spinning wheel has {100 * SLIDING_SHARE:.0f} % of its "
            f"grip, and the bands hold {low} to {high} %"
        )
    if surface.slip_stiffness is None:
        low, high = (f"{value:g}" for value in SLIP_STIFFNESSES)
        out.append(
            f"surfaces.{surface.name} states no slip_stiffness: taken as {SLIP_STIFFNESS:g}, and the bands hold {low} "
            f"to {high}"
        )
    return tuple(out)


def _rolling_in(case: LaunchCase, drive: Drive, surface: Surface) -> Iterator[str]:
    """Yield what tyres that bring in their force at once leave out, where that counts."""
    said = f"how far a tyre rolls until its force has come in is left out, and {NO_BAND}"
    over = float(drive.asked[-1]) * case.half.frame.mass / (surface.grip * case.half.driven_loads.static)
    if drive.foot is not None:
        yield (
            f"{said}: where wheels hop and a driver holds a slip short of the one of most grip, it costs grip that the "
            "shocks could keep"
        )
    elif AT_THE_EDGE[0] <= over <= AT_THE_EDGE[1]:
        yield (
            f"{said}: here, where the torque is about what the tyres hold, wheels may truly spin for less of the run, "
            "and clicks decide more of it"
        )


def _of(case: LaunchCase, asked: RunAsked, surface: Surface) -> Nominal:
    return nominal(case.large, asked.scene(case, surface), case.damping)


def _friction(case: LaunchCase, asked: RunAsked, surface: Surface) -> Iterator[Ends]:
    """Yield the friction of an axle's seals at the ends of what the dyno leaves open."""
    for i, axle in enumerate(AXLES):
        half_width = Z95 * case.large.friction_sd[i]
        if half_width == 0:
            continue
        ends = []
        for sign in (-1.0, 1.0):
            of = list(case.large.friction)
            of[i] = max(of[i] + sign * half_width, 0.0)
            changed = replace(case, large=replace(case.large, friction=(of[0], of[1])))
            ends.append(_of(changed, asked, surface))
        ratios = sum(c.shock_ratio for c in case.car.axle(axle))
        yield Ends(f"{axle}.friction", half_width / ratios, (ends[0], ends[1]))


def _may_stick(case: LaunchCase, asked: RunAsked) -> bool:
    """Return whether friction may hold the car beside its middle: not where brakes and drive held it before."""
    return asked.drive.held is None and any(case.large.friction)


def _stuck(case: LaunchCase, asked: RunAsked, surface: Surface) -> Iterator[Ends]:
    """Yield an axle that stood as low, and as high, as the friction of its seals lets it stand."""
    for i, axle in enumerate(AXLES if _may_stick(case, asked) else ()):
        if case.large.friction[i] == 0:
            continue
        ends = []
        for share in (-MOST_STUCK, MOST_STUCK):
            of = list(case.large.stuck)
            of[i] = share
            ends.append(_of(replace(case, large=replace(case.large, stuck=(of[0], of[1]))), asked, surface))
        ratios = sum(c.shock_ratio for c in case.car.axle(axle))
        yield Ends(f"{axle}.{STUCK_KEY}", MOST_STUCK * case.large.friction[i] / ratios, (ends[0], ends[1]))


def _drive(case: LaunchCase, asked: RunAsked, surface: Surface) -> Iterator[Ends]:
    """Yield a drive that comes in as fast and as slowly as it may."""
    ends = asked.drive.rise_ends
    if ends is not None:
        fast, slow = (_of(case, replace(asked, drive=asked.drive.coming_in(rise)), surface) for rise in ends)
        yield Ends(RISE_KEY, 0.5 * (ends[1] - ends[0]), (fast, slow))


def _ground(case: LaunchCase, asked: RunAsked, surface: Surface) -> Iterator[Ends]:
    """Yield the ground at the ends of what the car's file leaves out of it, where its grip decides."""
    for key, half_width, ends in _grounds(case, asked, surface):
        one, two = (_of(case, asked, end) for end in ends)
        yield Ends(f"surfaces.{surface.name}.{key}", half_width, (one, two))


def _grounds(
    case: LaunchCase, asked: RunAsked, surface: Surface
) -> Iterator[tuple[str, float, tuple[Surface, Surface]]]:
    if surface.load_sensitivity is None and asked.scene(case, surface).drive.limited:
        low, high = LOAD_SENSITIVITIES
        ends = replace(surface, load_sensitivity=low), replace(surface, load_sensitivity=high)
        yield "load_sensitivity", 0.5 * (high - low), ends
    if not slips(case, asked, surface):
        return
    if surface.sliding_grip is None:
        low, high = (share * surface.grip for share in SLIDING_SHARES)
        ends = replace(surface, sliding_grip=low), replace(surface, sliding_grip=high)
        yield "sliding_grip", 0.5 * (high - low), ends
    if surface.slip_stiffness is None:
        low, high = SLIP_STIFFNESSES
        ends = replace(surface, slip_stiffness=low), replace(surface, slip_stiffness=high)
        yield "slip_stiffness", 0.5 * (high - low), ends
