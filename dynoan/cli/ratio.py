"""``dynoan ratio``: what the corners of a car are, and the damping ratios they have."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, Call, command

if TYPE_CHECKING:
    from dynoan.analysis.corner.modes import CarModes
    from dynoan.analysis.corner.rates import CornerRates
    from dynoan.analysis.corner.ratios import CornerRatios, Motion
    from dynoan.model.car import Car, Corner
    from dynoan.model.curve import Curve
    from dynoan.workbench import Workbench

EPILOG = """\b
Examples:
  dynoan ratio kestrel --plot ratio.png
  dynoan ratio kestrel --low "2 in/s" --high "10 in/s"
  dynoan ratio kestrel --surface loose --speed "60 km/h"
"""


@dataclass(frozen=True)
class Reckoned:
    """A car with everything `ratio` shows of it."""

    car: Car
    rates: dict[str, CornerRates]
    curves: dict[str, Curve]  #: corners with a pack
    ratios: dict[str, CornerRatios]
    modes: CarModes | None
    road: dict[str, float] | None  #: rms shock velocity on the road asked for, by corner [m/s]


@command(epilog=EPILOG)
@click.argument("car")
@click.option(
    "--low",
    help="The low velocity at the shock, such as 0.05 (m/s) or '2 in/s'. Default: the targets' own, else 0.05 m/s.",
)
@click.option("--high", help="The high velocity at the shock. Default: the targets' own, else 0.25 m/s.")
@click.option(
    "--body-amplitude",
    default="20 mm",
    show_default=True,
    help="Suspension travel at the wheel, zero to peak, of the body mode's swing.",
)
@click.option("--hop-amplitude", default="5 mm", show_default=True, help="The same of the wheel-hop mode's swing.")
@click.option("--sigma", help="Standard deviation of a random velocity at the shock. Default: 0.1 m/s.")
@click.option("--surface", help="A surface of the car's file: sigma follows from its roughness and --speed.")
@click.option("--speed", help="Of the car on --surface, such as '60 km/h'.")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def ratio(call: Call, car: str, plot: Path | None, **asked: Any) -> int:
    """Wheel rates, ride frequencies, critical damping and damping ratios of all corners of CAR.

    CAR is a name in the library or a car file. The damper is nonlinear, so every number says which it is: force over
    velocity at a low and a high velocity of the shock (secant), the slope there (tangent), and the linear damper of
    equal energy in a body swing, in a wheel-hop swing and in random motion. Ratios are of the sprung mass on its wheel
    rate, the hop's of the wheel on spring and tyre. Brackets hold 95 % limits.
    """  # fmt: skip
    from dynoan.cli.ratio_tables import ratio_json, show

    bench = call.workbench()
    known = bench.library.car(car)
    found = reckon(call, bench, known, asked)
    show(call, found)
    if plot is not None:
        from dynoan.show.plots.ratio import picture

        call.note(f"picture: {picture(plot, known, found.curves, call.shown_units)}")
    return call.result(ratio_json(found), DONE)


def velocity(text: str, where: str) -> float:
    """Return a velocity from text with a unit, or from a bare number in m/s.

    Raises
    ------
    QuantityError
        If it is neither, or not above zero.
    """
    from dynoan.errors import QuantityError
    from dynoan.units import parse

    try:
        value = float(text)
    except ValueError:
        value = parse(text, "velocity", where=where)
    if not 0 < value < 10:
        raise QuantityError(f"{where}: {text} is no speed of a shock; write it like 0.05 (m/s) or '2 in/s'")
    return value


def reckon(call: Call, bench: Workbench, car: Car, asked: dict[str, Any]) -> Reckoned:
    """Return rates, curves, ratios and modes of a car, with warnings for what cannot be told."""
    from dynoan.analysis.corner.rates import corner_rates

    rates = {name: corner_rates(corner) for name, corner in car.corners.items()}
    curves = {n: curve for n, c in car.corners.items() if (curve := corner_curve(call, bench, car, c)) is not None}
    motion = _motion(asked)
    road = _road(car, curves, asked)
    ratios = {n: _ratios(call, car, n, curves[n], (asked, motion, road)) for n in curves}
    return Reckoned(car, rates, curves, ratios, _modes(call, car, ratios), road)


def corner_curve(call: Call, bench: Workbench, car: Car, corner: Corner) -> Curve | None:
    """Return the curve of what is on a corner; None, with a warning, where the car's file names no pack."""
    if corner.pack is None:
        call.warn(
            f"{car.file or car.name}: {corner.name}.pack is missing, so its damping ratios are left out; "
            'write it like pack = "gravel"'
        )
        return None
    curve = bench.corner_curve(car, corner)
    if curve.standing == "outside":
        call.warn(
            f"{corner.name}: {curve.what} lies outside the tested clicks; its ratios are a guess, the worse the farther"
        )
    return curve


def _motion(asked: dict[str, Any]) -> Motion:
    from dynoan.analysis.corner.ratios import Motion
    from dynoan.analysis.corner.vibration import positive
    from dynoan.units import parse

    body, hop = (
        parse(asked[k], "length", where=f"--{k.replace('_', '-')}") for k in ("body_amplitude", "hop_amplitude")
    )
    positive("--body-amplitude", body)
    positive("--hop-amplitude", hop)
    sigma = Motion().sigma if asked["sigma"] is None else velocity(asked["sigma"], "--sigma")
    return Motion(body, hop, sigma)


def _road(car: Car, curves: dict[str, Curve], asked: dict[str, Any]) -> dict[str, float] | None:
    from dynoan.analysis.corner.ratios import surface_sigma
    from dynoan.analysis.road import velocity_spectrum
    from dynoan.errors import CallError, QuantityError
    from dynoan.units import parse

    name, speed = asked["surface"], asked["speed"]
    if name is None and speed is None:
        return None
    if name is None or speed is None or asked["sigma"] is not None:
        raise CallError("--surface and --speed go together, and without --sigma, which follows from them")
    if name not in car.surfaces:
        have = ", ".join(car.surfaces) or "none"
        raise CallError(f"{car.file or car.name} has no surface '{name}'; it has {have}")
    if car.surfaces[name].roughness <= 0:
        raise QuantityError(f'{car.file or car.name}: surfaces.{name}.roughness is missing; write a class such as "C"')
    spectrum = velocity_spectrum(car.surfaces[name].roughness, parse(speed, "velocity", where="--speed"))
    return {n: surface_sigma(car.corners[n], curve, spectrum) for n, curve in curves.items()}


def _ratios(
    call: Call, car: Car, name: str, curve: Curve, how: tuple[dict[str, Any], Motion, dict[str, float] | None]
) -> CornerRatios:
    from dataclasses import replace

    from dynoan.analysis.corner.ratios import corner_ratios
    from dynoan.model.car import axle_of

    asked, motion, road = how
    low, high = velocities(car, axle_of(name), asked["low"], asked["high"])
    motion = motion if road is None else replace(motion, sigma=road[name])
    found = corner_ratios(car.corners[name], curve, low, high, motion)
    beyond = [f"{d} {at}" for (d, at), banded in found.secants().items() if banded.extrapolated]
    if beyond:
        call.warn(f"{name}: {', '.join(beyond)} lies beyond the measured speeds; the value is extrapolated")
    return found


def velocities(car: Car, axle: str, low: str | None, high: str | None) -> tuple[float, float]:
    """Return the low and the high velocity: as asked for, else of the axle's targets.

    Raises
    ------
    CallError
        If the low is not below the high.
    """
    from dynoan.errors import CallError
    from dynoan.model.car import Targets

    usual = car.targets.get(axle, Targets())
    slow = usual.low_velocity if low is None else velocity(low, "--low")
    fast = usual.high_velocity if high is None else velocity(high, "--high")
    if not slow < fast:
        raise CallError(
            f"the low velocity ({slow:g} m/s) must lie below the high one ({fast:g} m/s): see --low and --high"
        )
    return slow, fast


def _modes(call: Call, car: Car, ratios: dict[str, CornerRatios]) -> CarModes | None:
    from dynoan.analysis.corner.balance import linearised_modes
    from dynoan.errors import QuantityError

    try:
        return linearised_modes(car, ratios)
    except QuantityError as error:
        call.warn(str(error))
        return None
