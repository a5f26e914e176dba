"""What is likely wrong with a car's file, though a car could be so: said, not refused."""

from __future__ import annotations

import math

from dynoan.model.car import AXLES, CORNER_NAMES, CORNERS, Car
from dynoan.model.car_check import CarFault

#: how much more one wheel of an axle may well carry than the other, as a share; common practice, no source
MAYBE_UNEVEN = 0.05
#: of wheels that carry the same to the last figure: more on their axle may be its own mass on each [kg]; the same
HEAVY_AXLE = 900.0
#: beyond these something is likely wrong, though a car could be like it; common practice, no source
LIKELY_RATIO, LIKELY_UNEVEN, LIKELY_GRIP, LIKELY_ENDS = 1.15, 0.15, 1.8, (0.3, 0.7)
LIKELY_SQUAT, LIKELY_HEIGHT = (-0.3, 2.5), 0.4  #: anti-squat; height of the mass over the wheelbase
LIKELY_GEARS, LIKELY_SPIN = (2.0, 40.0), 2.0  #: turns of the engine a turn of the wheels; what turns with it [kg·m²]
#: height of the mass over the wheelbase, at least; swing of a corner on its spring [Hz]; mass of a car [kg]
LOW_HEIGHT, LIKELY_SWING, LIKELY_TOTAL = 0.12, (0.8, 5.0), (300.0, 2500.0)
LIKELY_RADIUS = (0.15, 0.45)  #: of a wheel with its tyre [m]
LIKELY_BEHIND, LIKELY_ABOVE = (0.3, 3.0), (0.0, 0.4)  #: of a wheelie bar's wheel [m]
_POUND = 0.45359237  #: kg


def doubts(car: Car) -> tuple[CarFault, ...]:
    """Return what is likely wrong with a car, though it could be so: to be said, not refused."""
    return (
        *_ratio_doubts(car), *_axle_doubts(car), *_mass_doubts(car), *_swing_doubts(car),
        *_shock_doubts(car), *_length_doubts(car), *_squat_doubts(car), *_engine_doubts(car), *_grip_doubts(car),
    )  # fmt: skip


def _ratio_doubts(car: Car) -> list[CarFault]:
    out = []
    for corner in car.corners.values():
        for key in ("shock_ratio", "spring_ratio"):
            ratio = getattr(corner, key)
            if ratio > LIKELY_RATIO:
                inverse = f"the inverse, 1/{ratio:.3g}, is {1 / ratio:.3g}"
                text = f"{ratio:.3g} would be more travel there than at the wheel; {inverse}"
                out.append(CarFault(f"{corner.name}.{key}", text))
    return out


def _axle_doubts(car: Car) -> list[CarFault]:
    """Return what was made of the masses that stand for whole axles."""
    out = []
    for axle, mass in car.axle_mass.items():
        left, right = car.axle(axle)
        if left.mass == right.mass:
            less = 1 - math.sqrt(left.sprung / (left.sprung + MAYBE_UNEVEN * left.mass)) if left.sprung > 0 else 0.0
            text = (
                f"{mass:.4g} kg are taken as {left.mass:.4g} kg on each wheel; a scale under each tells left from "
                f"right: {100 * MAYBE_UNEVEN:.0f} % more on one lowers its ratios by {100 * less:.0f} %"
            )
        else:
            each = " and ".join(f"{c.mass:.4g} kg for {c.name}" for c in (left, right))
            text = f"{mass:.4g} kg are taken as {each}"
        out.append(CarFault(f"{axle}.axle_mass", text))
    for axle in AXLES:
        masses = [c.mass for c in car.axle(axle)]
        if axle not in car.axle_mass and len(set(masses)) == 1 and sum(masses) > HEAVY_AXLE:
            text = (
                f"{masses[0]:.4g} kg on each wheel are {sum(masses):.4g} kg on the axle; where the scale held both "
                "wheels, write axle_mass in the place of mass"
            )
            out.append(CarFault(f"{axle}.mass", text))
    return out


def _mass_doubts(car: Car) -> list[CarFault]:
    out = []
    for axle in AXLES:
        masses = [c.mass for c in car.axle(axle)]
        if len(masses) == 2 and abs(masses[0] - masses[1]) > LIKELY_UNEVEN * max(masses):
            heavy, light = max(masses), min(masses)
            hint = " (one in pounds, one in kilograms?)" if abs(light / heavy - _POUND) < 0.05 else ""
            out.append(CarFault(f"{axle}.mass", f"left and right carry {masses[0]:.0f} and {masses[1]:.0f} kg{hint}"))
    ends = [sum(c.mass for c in car.axle(axle)) for axle in AXLES]
    share = ends[0] / sum(ends) if sum(ends) > 0 else 0.5
    if not LIKELY_ENDS[0] <= share <= LIKELY_ENDS[1]:
        out.append(
            CarFault("mass", f"{100 * share:.0f} % of the car stands on its front wheels; check the corner masses")
        )
    total = sum(ends)
    if len(car.corners) == len(CORNERS) and not LIKELY_TOTAL[0] <= total <= LIKELY_TOTAL[1]:
        hint = f"; in pounds it would be {total * _POUND:.0f} kg" if total > LIKELY_TOTAL[1] else ""
        out.append(CarFault("mass", f"the four corners together are {total:.0f} kg{hint}; check their unit"))
    return out


def _shock_doubts(car: Car) -> list[CarFault]:
    """Return corners whose shock is named at another corner too."""
    out, seats = [], dict[str, str]()
    for name, corner in car.corners.items():
        if corner.shock is not None and corner.shock in seats:
            at = CORNER_NAMES[seats[corner.shock]]
            text = f"{corner.shock} is at the {at} too; where another of its kind sits here, name none"
            out.append(CarFault(f"{name}.shock", text))
        elif corner.shock is not None:
            seats[corner.shock] = name
    return out


def _swing_doubts(car: Car) -> list[CarFault]:
    """Return corners that swing as no car does: a mass or a spring in another unit."""
    out = []
    for corner in car.corners.values():
        if not (corner.sprung > 0 and corner.wheel_rate > 0):
            continue
        hertz = math.sqrt(corner.wheel_rate / corner.sprung) / (2 * math.pi)
        if not LIKELY_SWING[0] <= hertz <= LIKELY_SWING[1]:
            text = (
                f"the corner would swing at {hertz:.2g} Hz on it, where cars do at {LIKELY_SWING[0]:g} to "
                f"{LIKELY_SWING[1]:g} Hz; check the units of spring and mass"
            )
            out.append(CarFault(f"{corner.name}.spring", text))
    return out


def _length_doubts(car: Car) -> list[CarFault]:
    out = []
    height, base, radius, bar = car.cg_height, car.wheelbase, car.wheel_radius, car.extras.bar
    if height is not None and base is not None and not LOW_HEIGHT <= height / base <= LIKELY_HEIGHT:
        text = f"{1e3 * height:.0f} mm is {100 * height / base:.0f} % of the wheelbase; a car has some 20 to 30 %"
        out.append(CarFault("cg_height", text))
    if radius is not None and not LIKELY_RADIUS[0] <= radius <= LIKELY_RADIUS[1]:
        half = f"; if it is the diameter, write {500 * radius:.0f} mm" if radius > LIKELY_RADIUS[1] else ""
        out.append(CarFault("wheel_radius", f"{1e3 * radius:.0f} mm is no usual wheel's, which has some 300 mm{half}"))
    if bar is not None and not LIKELY_BEHIND[0] <= bar.behind <= LIKELY_BEHIND[1]:
        text = f"{1e3 * bar.behind:.0f} mm behind the rear axle; a bar reaches some 500 to 1500 mm"
        out.append(CarFault("wheelie_bar.behind", text))
    if bar is not None and not bar.above <= LIKELY_ABOVE[1]:
        text = f"{1e3 * bar.above:.0f} mm above the ground as the car stands; a bar's wheel has some 20 to 150 mm"
        out.append(CarFault("wheelie_bar.above", text))
    return out


def _squat_doubts(car: Car) -> list[CarFault]:
    """Return what is odd in how a rear axle takes its drive; a driven front axle has its instant centre behind it."""
    if car.driven == "front":
        return []
    out = []
    if car.antisquat is not None and not LIKELY_SQUAT[0] <= car.antisquat <= LIKELY_SQUAT[1]:
        text = f"{100 * car.antisquat:.0f} % is no usual axle's, which has some 0 to 150 %"
        out.append(CarFault("rear.antisquat", text))
    if car.instant_centre is not None and (car.instant_centre[0] < 0) != (car.instant_centre[1] < 0):
        where = "behind the axle" if car.instant_centre[0] < 0 else "below the ground"
        text = f"lies {where}: the drive then pulls the body down at the rear; is it meant so?"
        out.append(CarFault("rear.instant_centre", text))
    return out


def _grip_doubts(car: Car) -> list[CarFault]:
    return [
        CarFault(f"surfaces.{name}.grip", f"{surface.grip:.3g} is more than tyres of any such car have")
        for name, surface in car.surfaces.items() if surface.grip > LIKELY_GRIP
    ]  # fmt: skip


def _engine_doubts(car: Car) -> list[CarFault]:
    engine, out = car.extras.engine, []
    if engine is not None and not LIKELY_GEARS[0] <= engine.ratio <= LIKELY_GEARS[1]:
        text = (
            f"{engine.ratio:.3g} turns of the engine a turn of the wheels: a first gear times its axle is some 8 to 20"
        )
        out.append(CarFault("engine.ratio", text))
    if engine is not None and engine.inertia > LIKELY_SPIN:
        text = f"{engine.inertia:.3g} kg m2 is more than turns with any such engine; it is some 0.1 to 0.4"
        out.append(CarFault("engine.inertia", text))
    return out
