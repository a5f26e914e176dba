"""``dynoan ratio``: what the corners of a car are, and the damping ratios they have."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call, command
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
@what_option
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def ratio(call: Call, car: str, plot: Path | None, what: tuple[str, ...], **asked: Any) -> int:
    """Wheel rates, ride frequencies, critical damping and damping ratios of all corners of CAR.

    CAR is a name in the library or a car file. The damper is nonlinear, so every number says which it is: force over
    velocity at a low and a high velocity of the shock (secant), the slope there (tangent), and the linear damper of
    equal energy in a body swing, in a wheel-hop swing and in random motion. Ratios are of the sprung mass on its wheel
    rate, the hop's of the wheel on spring and tyre. Brackets hold 95 % limits.
    """  # fmt: skip
    from dynoan.jobs.ratio import RatioQuestion, answer

    bench = call.workbench()
    question = RatioQuestion.asked(car, **asked)
    if what:
        return show_cases(call, question, what, plot)
    return call.show(answer(bench, question), plot)
