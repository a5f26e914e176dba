"""``dynoan ratio``: what the corners of a car are, and the damping ratios they have."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.speeds import HIGH, LOW, with_units
from dynoan.cli.what import show_cases, what_option

EPILOG = """\b
Examples:
  dynoan ratio kestrel --plot ratio.png
  dynoan ratio kestrel --low "2 in/s" --high "10 in/s"
  dynoan ratio kestrel --what 'front.spring=275 lb/in'
  dynoan ratio kestrel --what 'fl.mass=250 kg; fr.mass=244 kg'
  dynoan ratio kestrel --surface loose --speed "60 km/h"
"""


@command(epilog=EPILOG)
@click.argument("car")
@click.option("--low", help=LOW)
@click.option("--high", help=HIGH)
@click.option(
    "--body-amplitude",
    help="How far the wheel travels, zero to peak, in the swing of the body. Default: 20 mm or 0.8 in.",
)
@click.option("--hop-amplitude", help="The same in the swing of the wheel on its tyre. Default: 5 mm or 0.2 in.")
@click.option("--sigma", help="How fast the shock moves on a rough road, rms (sigma). Default: 0.1 m/s or 4 in/s.")
@click.option("--surface", help="A surface of the car's file: sigma follows from its roughness and --speed.")
@click.option("--speed", help="Of the car on --surface, such as '60 km/h'.")
@what_option
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def ratio(call: Call, car: str, plot: Path | None, what: tuple[str, ...], **asked: Any) -> int:
    """Wheel rates, ride frequencies, critical damping and damping ratios of all corners of CAR.

    CAR is a name in the library or a car file. A shock has no one damping: every number says which it is. Force over
    velocity at a low and a high speed of the shock (secant), the slope there (tangent), and the constant damper that
    takes as much energy from a swing of the body, a hop of the wheel and a rough road. Ratios are of the sprung mass
    on its wheel rate, the hop's of the wheel on spring and tyre. Brackets hold 95 % limits. Where two usual values
    stand below, the second is that of a library in US units.
    """  # fmt: skip
    from dynoan.jobs.ratio import answer
    from dynoan.jobs.ratio.asked import RatioQuestion

    bench = call.workbench()
    asked |= {name: with_units(call, asked[name], name) for name in ("low", "high")}
    question = RatioQuestion.asked(car, **asked)
    if what:
        return show_cases(call, question, what, plot)
    return call.show(answer(bench, question), plot)
