"""The options with which a user states what a file does not: shared by ``dynoan read`` and ``dynoan add``."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import wraps
from typing import TYPE_CHECKING, Any

import click

from dynoan.errors import CallError

if TYPE_CHECKING:
    from dynoan.model.importing import ReadOptions

_MARKS = {
    "comma": ",", "semicolon": ";", "tab": "\t", "\\t": "\t", "pipe": "|", "blank": "blanks", "blanks": "blanks",
    "space": "blanks", " ": "blanks", "point": ".", "dot": ".",
}  # fmt: skip
_NAMES = ("shock", "pack", "clicks", "positive", "unit", "column", "rate", "delimiter", "decimal")

_OPTIONS = (
    click.option("--shock", metavar="NAME", help="The shock's name or serial."),
    click.option("--pack", metavar="NAME", help="The valve pack in it."),
    click.option("--clicks", metavar="LIST", help="Clicks as the shock counts them, such as lsc=6,lsr=8."),
    click.option("--positive", type=click.Choice(["compression", "rebound"]),
                 help="The direction that the file counts positive."),
    click.option("--unit", metavar="CHANNEL=UNIT", multiple=True,
                 help="The unit of a channel, such as force=lbf; may be repeated."),
    click.option("--column", metavar="CHANNEL=NAME", multiple=True,
                 help="The column of a channel, by its name or number, such as force=NAME; may be repeated."),
    click.option("--rate", metavar="RATE", help="The sample rate where the file states none, such as '1000 Hz'."),
    click.option("--delimiter", metavar="MARK", help="What stands between cells: , ; | tab or blanks."),
    click.option("--decimal", metavar="MARK", help="The decimal mark: . or ,"),
)  # fmt: skip


def reading_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options of reading to a command; they arrive as one `ReadOptions`, as the keyword ``options``."""

    @wraps(function)
    def gathered(*args: Any, **kwargs: Any) -> Any:
        given = {name: kwargs.pop(name) for name in _NAMES}
        return function(*args, options=options_from(**given), **kwargs)

    for option in reversed(_OPTIONS):
        gathered = option(gathered)
    return gathered


def options_from(
    *, shock: str | None, pack: str | None, clicks: str | None, positive: Any, unit: Iterable[str],
    column: Iterable[str], rate: str | None, delimiter: str | None, decimal: str | None,
) -> ReadOptions:  # fmt: skip
    """Return what the options' texts state.

    Raises
    ------
    CallError
        If a text does not have the form that its option wants.
    """
    from dynoan.model.importing import ReadOptions
    from dynoan.model.shock import parse_clicks

    return ReadOptions(
        shock=shock, pack=pack, clicks=parse_clicks(clicks) if clicks else {}, positive=positive, units=_units(unit),
        columns=_columns(column), rate=_rate(rate) if rate else None,
        delimiter=_mark(delimiter, "--delimiter", {",", ";", "|", "\t", "blanks"}),
        decimal=_mark(decimal, "--decimal", {".", ","}),  # type: ignore[arg-type]
    )  # fmt: skip


def _rate(text: str) -> float:
    from dynoan.units import parse

    rate = parse(text, "frequency", where="--rate")
    if not 1.0 <= rate <= 1e7:
        raise CallError(f"--rate {text}: no rate of a rig; write it like --rate '1000 Hz'")
    return rate


def _mark(text: str | None, option: str, allowed: set[str]) -> str | None:
    if text is None:
        return None
    mark = _MARKS.get(text.lower(), text)
    if mark not in allowed:
        raise CallError(
            f"{option} '{text}': wanted one of {', '.join(sorted(m.replace(chr(9), 'tab') for m in allowed))}"
        )
    return mark


def _pairs(texts: Iterable[str], option: str, example: str, known: Iterable[str]) -> dict[str, str]:
    known, found = tuple(known), {}
    for text in texts:
        channel, equals, value = text.partition("=")
        channel = channel.strip().lower()
        if not equals or not value.strip() or channel not in known:
            raise CallError(
                f"{option} '{text}': wanted CHANNEL=VALUE such as {example}, with one of {', '.join(known)}"
            )
        found[channel] = value.strip()
    return found


def _units(texts: Iterable[str]) -> dict[str, str]:
    from dynoan.model.sweep import CHANNEL_KINDS

    return _pairs(texts, "--unit", "force=lbf", CHANNEL_KINDS)


def _columns(texts: Iterable[str]) -> dict[str, str]:
    from dynoan.model.shock import ADJUSTERS
    from dynoan.model.sweep import CHANNEL_KINDS

    others = ("compression", "rebound", "direction", "run", "shock", "pack")
    return _pairs(texts, "--column", "force=Load", (*CHANNEL_KINDS, *others, *ADJUSTERS))
