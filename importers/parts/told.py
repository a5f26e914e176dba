"""What is stated of a table: by the user first, then by its own lines, the file's lines, the file's name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from dynoan.model.adjusters import ADJUSTERS
from dynoan.model.importing import DateOrder, ReadOptions
from dynoan.model.warned import OF_DATES, CountedFromSoft
from importers.parts.part import ColumnRoles, SweepPart
from importers.stated import (
    FROM_SOFT,
    StatedFacts,
    contradictions,
    counts_from_soft,
    facts_of_lines,
    facts_of_name,
    said_against,
)
from importers.tables import ParsedTable, is_day_column
from importers.words.adjusters import adjuster_of
from importers.words.dates import date_of, in_order, swappable_date
from importers.words.gas_removed import gas_removed
from importers.words.spelling import plain


def facts_of_table(table: ParsedTable, name: str) -> StatedFacts:
    """Return what is stated of a whole table, with a warning for each contradiction."""
    decimal = table.grid.decimal
    own = facts_of_lines(table.own, decimal)
    shared = facts_of_lines(table.shared, decimal)
    if table.own and (shared.warnings or shared.doubted):
        shared = without_questions(shared, facts_of_lines(table.shared[-1:], decimal), own)
    stated = own.over(shared)
    named = facts_of_name(name)
    warnings = contradictions(stated, named, name)
    date = stated.date or named.date or table.day or _day_in_column(table, table.texts)
    soft = [c for c in table.columns if (c.role in ADJUSTERS or c.clicks) and counts_from_soft(plain(c.text))]
    counted = dict.fromkeys((k for c in soft for k in (c.role, *c.clicks) if k in ADJUSTERS), "from soft")
    against = said_against((*table.own, *table.shared), table.columns, table.options)
    maybe = named.warnings if not (stated.clicks or table.options.clicks) else ()
    warnings = (*_naming_counted(stated), *((FROM_SOFT,) if soft else ()), *warnings, *against, *maybe)
    facts = stated.over(named)
    facts = replace(facts, date=date, warnings=warnings, counted={**counted, **facts.counted})
    if not (date or facts.swappable):
        day = next(filter(None, map(swappable_date, _days_of_first_row(table, table.texts))), None)
        if day is not None or facts.day_first:
            facts = replace(facts, swappable=day, day_first=day is not None and table.grid.decimal == ",")
    return told(facts, table.options)


def without_questions(facts: StatedFacts, title: StatedFacts, own: StatedFacts) -> StatedFacts:
    """Return facts without the questions on a setting that an earlier block's title asks, where a block has its own.

    Parameters
    ----------
    facts
        What holds up to a block.
    title
        What the title of the block before it states.
    own
        What the block's own lines state.
    """
    of_setting = own.clicks or own.doubted or any(map(_is_of_setting, own.warnings))
    asked = {*filter(_is_of_setting, title.warnings), *map(two_numbers, title.doubted)} if of_setting else set()
    if not asked:
        return facts
    left = tuple(said for said in facts.warnings if said not in asked)
    return replace(facts, warnings=left, doubted=tuple(d for d in facts.doubted if d not in title.doubted))


def _is_of_setting(said: str) -> bool:
    return any(word in said for word in ("clicks", "adjuster"))


def _naming_counted(facts: StatedFacts) -> tuple[str, ...]:
    """Return the warnings of facts, with the adjusters that are counted from soft named where others are not."""
    soft = [name for name, end in facts.counted.items() if name and end == "from soft" and name in facts.clicks]
    if not soft or {*facts.counted.values()} != {"from soft", "from closed"}:
        return facts.warnings
    named = CountedFromSoft(FROM_SOFT.replace("clicks from soft", f"the clicks of {' and '.join(soft)} from soft"))
    return tuple(named if w == FROM_SOFT else w for w in facts.warnings)


def with_gas_of_columns(facts: StatedFacts, roles: ColumnRoles) -> StatedFacts:
    """Return facts with whether the names of the columns that are taken for force say that gas is out of them."""
    taken = (*roles.forces.values(), *roles.wide, *(c for name, c in roles.channels.items() if name == "force"))
    said = (gas_removed(plain(column.text)) for column in taken)
    found = next((how for how in said if how is not None), None)
    return facts if facts.gas_removed is not None or found is None else replace(facts, gas_removed=found)


def with_own_day(part: SweepPart) -> SweepPart:
    """Return a part of a table with a column of days with the day of its own first row, where the table gave one."""
    order = part.table.options.dates or ("day-first" if part.table.grid.decimal == "," else None)
    day = _day_in_column(part.table, part.texts, order)
    if day is None or part.facts.date != _day_in_column(part.table, part.table.texts, order):
        return part
    return replace(part, facts=replace(part.facts, date=day))


def _day_in_column(table: ParsedTable, texts: Mapping[int, list[str]], order: DateOrder | None = None) -> str | None:
    """Return the day of the first row, where a column of words is of days."""
    cells = _days_of_first_row(table, texts)
    swappable = [day for day in map(swappable_date, cells) if day and order]
    return next(filter(None, (*map(date_of, cells), *(in_order(day, order) for day in swappable if order))), None)


def _days_of_first_row(table: ParsedTable, texts: Mapping[int, list[str]]) -> list[str]:
    return [t[0] for c in table.columns if (t := texts.get(c.index)) and is_day_column(c)]


def told(facts: StatedFacts, options: ReadOptions) -> StatedFacts:
    """Return facts under what the user says, with a warning for each contradiction."""
    warnings = []
    for what, said, read in (("shock", options.shock, facts.shock), ("pack", options.pack, facts.pack)):
        if said and read and said != read:
            warnings.append(f"the file says {what} {read}, you say {said}: you were believed")
    for adjuster, click in options.clicks.items():
        read_click = facts.clicks.get(adjuster, click)
        if read_click != click:
            warnings.append(f"the file says {adjuster}={read_click}, you say {adjuster}={click}: you were believed")
    open_ones = [said for said in facts.doubted if not _is_settled(said, {**facts.clicks, **options.clicks})]
    if open_ones:
        warnings.append(two_numbers(open_ones[0]))
    date = facts.date
    if facts.swappable and not date:
        order: DateOrder | None = options.dates or ("day-first" if facts.day_first else None)
        date = in_order(facts.swappable, order) if order else None
        warnings += [] if options.dates and date else [_order_said(facts.swappable, date)]
    if not (warnings or options.shock or options.pack or options.clicks) and date == facts.date:
        return facts
    return replace(
        facts, shock=options.shock or facts.shock, pack=options.pack or facts.pack, date=date,
        clicks={**facts.clicks, **options.clicks}, warnings=(*facts.warnings, *warnings),
    )  # fmt: skip


def two_numbers(text: str) -> str:
    """Return the warning of a text that gives one adjuster two numbers."""
    return (
        f"'{text}' gives one adjuster two numbers (low and high speed, a range, so many of so many?):"
        " no clicks were taken of it; state them"
    )


def _order_said(day: str, date: str | None) -> str:
    if date:
        return (
            f"'{day}' was taken as {date}, as files in that language are written; {OF_DATES} month-first turns it round"
        )
    return (
        f"'{day}' has day and month in an order the file does not tell: no date was taken ({OF_DATES} month-first or "
        f"{OF_DATES} day-first says which, for a kept run 'dynoan edit ID --date YEAR-MONTH-DAY')"
    )


def _is_settled(doubted: str, clicks: Mapping[str, int]) -> bool:
    """Whether clicks say what a text such as "lsc 6 -> 8" leaves open."""
    name = adjuster_of(doubted[: re.search(r"\d|$", doubted).start()].strip(" :=.-"))  # type: ignore[union-attr]
    return any(key == name or (name in ("c", "r") and key.endswith(name)) for key in clicks)
