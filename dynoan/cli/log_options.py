"""What a command is told of logs of shock travel: options that several share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from dynoan.errors import CallError
from dynoan.model.car import CORNERS

if TYPE_CHECKING:
    from dynoan.jobs.travel import TravelQuestion

F = TypeVar("F", bound=Callable[..., Any])


def travel_options(function: F) -> F:
    """Add what may be told of a log of travel: --corner, --scale, --zero, --part, --time and --window."""
    for option in reversed(
        (
            click.option("--corner", multiple=True, metavar="fl=COLUMN", help="Which column is which shock."),
            click.option("--scale", multiple=True, metavar="[fl=]LENGTH per UNIT",
                         help='Such as "25 mm per V"; minus where the number rises as the shock gets longer.'),
            click.option("--zero", multiple=True, metavar="[fl=]READING",
                         help='The reading at rest, such as "2.1 V". Default: the median before the start.'),
            click.option("--part", multiple=True, metavar="[NAME=]FROM..TO",
                         help="A stretch of the run in seconds. Default: the launch, found by itself."),
            click.option("--time", metavar="COLUMN", help="Which column is the time. Default: told by its name."),
            click.option("--window",
                         help='Width of the velocity filter, such as "20 ms". Default: set from the record.'),
        )
    ):  # fmt: skip
        function = option(function)
    return function


def travel_question(log: Path, told: Mapping[str, Any], car: str | None = None) -> TravelQuestion:
    """Return what is asked of a log, from the values of `travel_options`.

    Raises
    ------
    ReadError
        If the log is no table with named columns.
    QuantityError, CallError
        As `TravelQuestion.asked`, `per_corner` and `parts_from`.
    """
    from dynoan.jobs.travel import TravelQuestion, parts_from
    from dynoan.reading import read_log

    corners = {name: per_corner(told[name], name) for name in ("corner", "scale", "zero")}
    return TravelQuestion.asked(
        read_log(log), car=car, part=parts_from(told["part"]), window=told["window"], time=told["time"], **corners
    )


def per_corner(texts: Sequence[str], part: str, others: Sequence[str] = ()) -> dict[str, str]:
    """Return options such as "fl=…" by corner; one without a corner is for all that have none of their own.

    `others` may be named in the place of a corner; what is for all is not for them.

    Raises
    ------
    CallError
        If a text names no corner, or a corner is given twice.
    """
    every, own, known = "", {}, (*CORNERS, *others)
    for text in texts:
        name, equals, value = (p.strip() for p in text.partition("="))
        corner = name.lower()
        if not equals and part != "corner":
            every = text.strip()
        elif not equals or corner not in known or not value:
            raise CallError(f"'{text}' is not like fl=… (corners: {', '.join(known)})", part=part)
        elif corner in own:
            raise CallError(f"{corner} stands twice", part=part)
        else:
            own[corner] = value
    return (dict.fromkeys(CORNERS, every) if every else {}) | own
