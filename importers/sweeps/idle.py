"""What the user states and nothing in the file answers to: refused, since it would be dropped without a word."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from importers.parts import SweepPart
from importers.patterns import regex
from importers.sweeps.making import MadeSweep
from importers.words.dates import date_of, in_order

#: a day in numbers whose year comes last
_DAY = regex(r"(?<![\d.,/-])\d{1,2}(?P<mark>[/.-])\s?\d{1,2}(?P=mark)\s?(?:\d{4}|\d{2})(?![\d/]|[.,-]\d)")


def refuse_idle_units(parts: Sequence[SweepPart], name: str) -> None:
    """Refuse a unit that the user states for a channel of which no column was found.

    Raises
    ------
    ReadError
        With the option that names the column.
    """
    held = {c for p in parts for c in p.roles.channels}
    held |= {"force"} if any(p.roles.forces or p.roles.wide for p in parts) else set()
    held |= {"velocity"} if any(p.roles.speeds for p in parts) else set()
    for channel, unit in parts[0].table.options.units.items():
        if channel not in held and channel in parts[0].table.user.units:
            raise ReadError(
                f"--unit {channel}={unit} had no effect, as no column is {channel}",
                where=name,
                hint=f"name it with --column {channel}=NAME",
            )


def refuse_idle(user: ReadOptions, made: Sequence[MadeSweep], name: str) -> None:
    """Refuse a sample rate of a file without samples in time, and a direction where the file names all directions.

    Raises
    ------
    ReadError
        That the option had no effect.
    """
    if user.rate and all(one.sweep.layout == "peaks" for one in made):
        raise ReadError(
            "--rate had no effect, as the file is a peak table without samples in time", where=name, hint="leave it out"
        )
    if user.positive and all(one.directed for one in made):
        raise ReadError(
            "--positive had no effect, as the file names the direction of each force", where=name, hint="leave it out"
        )


def with_dates_judged(parts: Sequence[SweepPart], name: str) -> list[SweepPart]:
    """Return the parts, with a warning where their days cannot have the order that the user states.

    Raises
    ------
    ReadError
        If no day of the file stands in any such order.
    """
    order = parts[0].table.user.dates
    if not order or any(p.facts.swappable for p in parts):
        return list(parts)
    days = list(dict.fromkeys(match[0] for text in _texts(parts, name) for match in _DAY.finditer(text)))
    if not days:
        raise ReadError(
            f"--dates {order} had no effect, as no day stands in it as day, month and year in numbers",
            where=name,
            hint="leave it out",
        )
    if any(date_of(day) == in_order(day.replace(".", "/").replace(" ", ""), order) for day in days):
        return list(parts)
    said = f"'{days[0]}' was taken as {date_of(days[0])}, though you say {order}: it can only be meant so"
    return [replace(p, facts=replace(p.facts, warnings=(*p.facts.warnings, said))) for p in parts]


def _texts(parts: Sequence[SweepPart], name: str) -> Iterator[str]:
    yield name
    for part in parts:
        yield from (f"{key}: {value}" for key, value in part.facts.lines.items())
        yield from (cell for texts in part.texts.values() for cell in texts[:1])
