"""``dynoan learn``: what logged launches tell of the car's uncertain values."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.log_options import per_corner

EPILOG = """\b
Examples:
  dynoan learn run1.csv run2.csv run3.csv --car kestrel --surface loose
  dynoan learn runs/*.csv --car kestrel --surface loose --write
"""


@command(epilog=EPILOG)
@click.argument("logs", nargs=-1, required=True, metavar="LOG...",
                type=click.Path(path_type=Path, exists=True, dir_okay=False))  # fmt: skip
@click.option("--car", required=True, help="The car that was driven, as its file has it.")
@click.option("--surface", required=True, help="What it was driven on, as the car's file names it.")
@click.option(
    "--corner",
    multiple=True,
    metavar="fl=COLUMN",
    help="Which column is which shock, or the car's acceleration or speed (acceleration=COLUMN).",
)
@click.option(
    "--scale",
    multiple=True,
    metavar="[fl=]LENGTH per UNIT",
    help='Of travel, such as "25 mm per V", or of those two, such as "acceleration=1 g per V".',
)
@click.option(
    "--zero", multiple=True, metavar="[fl=]READING", help="The reading at rest. Default: where the car stood."
)
@click.option("--write", is_flag=True, help="Put what the logs tell into the car's file, each with its ±.")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def learn(
    call: Call, logs: tuple[Path, ...], car: str, surface: str, corner: tuple[str, ...], scale: tuple[str, ...],
    zero: tuple[str, ...], write: bool, plot: Path | None,
) -> int:  # fmt: skip
    """Say what logged launches tell of the car: each LOG is a CSV of one launch, standing for a second before it.

    Time, and of these what there is: travel of one to four shocks, acceleration along the car, speed. Height of the
    centre of gravity, anti-squat, pitch inertia, grip, masses, springs, tyres and damping are fitted within the ± of
    the car's file. It says which of them these logs can tell, what would tell the others, and whether the last launch,
    left out, is predicted better. Drive at the grip's limit, on the same ground, on a closed course.
    """
    from dynoan.jobs.learn import LearnQuestion, answer
    from dynoan.jobs.learn.logs import OF_CAR
    from dynoan.reading import read_log

    question = LearnQuestion.asked(
        [read_log(path) for path in logs], car=car, surface=surface, corner=per_corner(corner, "corner", tuple(OF_CAR)),
        scale=per_corner(scale, "scale", tuple(OF_CAR)), zero=per_corner(zero, "zero", tuple(OF_CAR)), write=write,
    )  # fmt: skip
    found = answer(call.workbench(), question, lambda what, _share: call.note(f"{what} …"))
    return call.show(found, plot)
