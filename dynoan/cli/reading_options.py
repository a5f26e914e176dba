"""The options with which a user states what a file does not: shared by ``dynoan read`` and ``dynoan add``."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from dynoan.jobs.read.options import Stated

_NAMES = ("shock", "pack", "clicks", "positive", "unit", "column", "rate", "delimiter", "decimal", "dates")
_FIELDS = {"unit": "units", "column": "columns"}  #: what an option that may be repeated gives

_OPTIONS = (
    click.option("--shock", metavar="NAME", help="The shock's name or serial."),
    click.option("--pack", metavar="NAME", help="The valve pack in it."),
    click.option("--clicks", metavar="LIST", help="Clicks as the shock counts them, such as lsc=6,lsr=8."),
    click.option("--positive", type=click.Choice(["compression", "rebound"]),
                 help="The direction that the file counts positive."),
    click.option("--unit", metavar="CHANNEL=UNIT", multiple=True,
                 help="The unit of a channel or a column, such as force=lbf or 3=lbf; may be repeated."),
    click.option("--column", metavar="CHANNEL=NAME", multiple=True,
                 help="The column of a channel, by its name or number, such as force=NAME; may be repeated."),
    click.option("--rate", metavar="RATE", help="The sample rate where the file states none, such as '1000 Hz'."),
    click.option("--delimiter", metavar="MARK", help="What stands between cells: , ; | tab or blanks."),
    click.option("--decimal", metavar="MARK", help="The decimal mark: . or ,"),
    click.option("--dates", type=click.Choice(["day-first", "month-first"]),
                 help="How days such as 05/02/2026 are meant."),
)  # fmt: skip


def reading_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options of reading to a command; they arrive as one `ReadOptions`, as the keyword ``options``."""

    @wraps(function)
    def gathered(*args: Any, **kwargs: Any) -> Any:
        from dynoan.jobs.read.options import read_options

        given: Any = {_FIELDS.get(name, name): kwargs.pop(name) for name in _NAMES}
        stated: Stated = given
        return function(*args, options=read_options(stated), **kwargs)

    for option in reversed(_OPTIONS):
        gathered = option(gathered)
    return gathered
