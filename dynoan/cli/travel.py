"""``dynoan travel``: which velocities logged travel shows, and how they fall on the curves."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.pictures import check_plot
from dynoan.errors import CallError
from dynoan.model.car import CORNERS

EPILOG = """\b
Examples:
  dynoan travel run3.csv --car kestrel --plot travel.png
  dynoan travel run3.csv --corner rl=POT_3 --scale "-25 mm per V"
  dynoan travel run3.csv --part launch=2.0..5.0
"""
_PART = re.compile(r"^(?:([\w ]+)=)?\s*([\d.,]+)\s*(?:s)?\s*(?:\.\.|to)\s*([\d.,]+)\s*(?:s)?$")


@command(epilog=EPILOG)
@click.argument("log", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--car", help="Lay the curves of what is on this car under the velocities.")
@click.option("--corner", multiple=True, metavar="fl=COLUMN", help="Which column is which shock.")
@click.option("--scale", multiple=True, metavar="[fl=]LENGTH per UNIT",
              help='Such as "25 mm per V"; minus where the number rises as the shock gets longer.')  # fmt: skip
@click.option("--zero", multiple=True, metavar="[fl=]READING",
              help='The reading at rest, such as "2.1 V". Default: the median before the start.')  # fmt: skip
@click.option("--part", multiple=True, metavar="[NAME=]FROM..TO",
              help="A stretch of the run in seconds. Default: the launch, found by itself.")  # fmt: skip
@click.option("--time", metavar="COLUMN", help="Which column is the time. Default: told by its name.")
@click.option("--window", help='Width of the velocity filter, such as "20 ms". Default: set from the record.')
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def travel(
    call: Call, log: Path, car: str | None, corner: tuple[str, ...], scale: tuple[str, ...], zero: tuple[str, ...],
    part: tuple[str, ...], time: str | None, window: str | None, plot: Path | None,
) -> int:  # fmt: skip
    """Show which velocities logged shock travel holds: LOG is a CSV with time and the travel of one to four shocks.

    Time by velocity and direction, in the launch and the rest; with --car the time below and above each knee, the
    energy each range of speeds takes out, and how often the stroke ended.
    """
    from dynoan.jobs.travel import TravelQuestion, answer
    from dynoan.reading import read_log

    check_plot(plot)
    question = TravelQuestion.asked(
        read_log(log), car=car, corner=per_corner(corner, "corner"), scale=per_corner(scale, "scale"),
        zero=per_corner(zero, "zero"), part=parse_parts(part), window=window, time=time,
    )  # fmt: skip
    return call.show(answer(call.workbench() if car else None, question), plot)


def per_corner(texts: Sequence[str], part: str) -> dict[str, str]:
    """Return options such as "fl=…" by corner; one without a corner is for all that have none of their own.

    Raises
    ------
    CallError
        If a text names no corner, or a corner is given twice.
    """
    every, own = "", {}
    for text in texts:
        name, equals, value = (p.strip() for p in text.partition("="))
        corner = name.lower()
        if not equals and part != "corner":
            every = text.strip()
        elif not equals or corner not in CORNERS or not value:
            raise CallError(f"'{text}' is not like fl=… (corners: {', '.join(CORNERS)})", part=part)
        elif corner in own:
            raise CallError(f"{corner} stands twice", part=part)
        else:
            own[corner] = value
    return (dict.fromkeys(CORNERS, every) if every else {}) | own


def parse_parts(texts: Sequence[str]) -> dict[str, tuple[float, float]]:
    """Return parts such as "2.0..5.0" (the launch) or "hairpin=12..15": start and end by name. [s]

    Raises
    ------
    CallError
        If a text is no such part, or a name stands twice.
    """
    found: dict[str, tuple[float, float]] = {}
    for text in texts:
        match = _PART.match(text.strip())
        if match is None:
            raise CallError(f"'{text}' is not like launch=2.0..5.0 (seconds)", part="part")
        name = (match[1] or "launch").strip()
        if name in found:
            raise CallError(f"the name '{name}' is taken", hint="give another", part="part")
        found[name] = (float(match[2].replace(",", ".")), float(match[3].replace(",", ".")))
    return found
