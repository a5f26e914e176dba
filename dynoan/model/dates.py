"""Days and moments as people type them, in the one form they are kept in, so that text in order is time in order."""

from __future__ import annotations

import datetime
import re

from dynoan.errors import QuantityError, Where

FIRST_YEAR, LAST_YEAR = 1970, 2200
LONGEST = 40  #: of text that could be a date [characters]
RIGHT = "write it like 2026-05-02 or 2026-05-02T14:30"
_MONTHS = ("january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
           "november", "december")  # fmt: skip
_TIME = r"(?:(?:T|\s+)(\d{1,2}:\d\d(?::\d\d(?:\.\d{1,6})?)?(?:Z|[+-]\d\d:\d\d)?))?"
_YEAR_FIRST = re.compile(rf"(\d{{4}})([-/.])(\d{{1,2}})\2(\d{{1,2}}){_TIME}", re.ASCII)
_COMPACT = re.compile(rf"(\d{{4}})(\d\d)(\d\d){_TIME}", re.ASCII)
_DAY_FIRST = re.compile(rf"(\d{{1,2}})\.\s?(\d{{1,2}})\.\s?(\d{{4}}){_TIME}", re.ASCII)
_EITHER = re.compile(rf"(\d{{1,2}})([-/])(\d{{1,2}})\2(\d{{4}}){_TIME}", re.ASCII)
_DAY_WORD = re.compile(rf"(\d{{1,2}})(?:st|nd|rd|th|\.)?\s+([a-z]{{3,9}})\.?,?\s+(\d{{4}}){_TIME}", re.ASCII | re.I)
_WORD_DAY = re.compile(rf"([a-z]{{3,9}})\.?\s+(\d{{1,2}})(?:st|nd|rd|th)?,?\s+(\d{{4}}){_TIME}", re.ASCII | re.I)
_BEGINNING = re.compile(r"\d{4}(-\d\d)?", re.ASCII)


def iso_date(text: str, where: Where = "") -> str:
    """Return a day, or a day and time, in the form it is kept in: 2026-05-02 or 2026-05-02T14:30.

    Parameters
    ----------
    text
        As people type it: 2026-05-02, 2026/5/2, 20260502, 2.5.2026, 2 May 2026, May 2, 2026, 13/05/2026; with a time
        behind it where that is known.
    where
        File and key, put in front of an error.

    Raises
    ------
    QuantityError
        If it is no date, lies outside the years 1970 to 2200, or day and month could be swapped.

    Examples
    --------
    >>> iso_date("2.5.2026"), iso_date("20260502"), iso_date("May 2, 2026 14:30")
    ('2026-05-02', '2026-05-02', '2026-05-02T14:30')
    """
    try:
        return _kept(text.strip())
    except QuantityError as error:
        raise error.again(where=where) from None


def tidy_date(text: str) -> str:
    """Return a date that stands in a file in the form it is kept in, one that cannot be understood as it is."""
    try:
        return _kept(text.strip())
    except QuantityError:
        return text


def date_beginning(text: str) -> str:
    """Return what the dates of a day, a month (2026-05) or a year (2026) begin with; errors as of `iso_date`."""
    return text.strip() if _BEGINNING.fullmatch(text.strip()) else iso_date(text)


def both_ways(text: str) -> tuple[str, ...]:
    """Return the two days that a date may be whose day and month could be swapped, day first; none of any other text.

    >>> both_ways("05/02/2026"), both_ways("13/05/2026")
    (('2026-02-05', '2026-05-02'), ())
    """
    found = _EITHER.fullmatch(text.strip())
    if not found or found[1] == found[3] or not all(1 <= int(found[n]) <= 12 for n in (1, 3)):
        return ()
    year, one, other = int(found[4]), int(found[1]), int(found[3])
    return f"{year:04d}-{other:02d}-{one:02d}", f"{year:04d}-{one:02d}-{other:02d}"


def day_words(day: str) -> str:
    """Return a day as people say it.

    >>> day_words("2026-02-05")
    '5 February 2026'
    """
    year, month, number = day[:10].split("-")
    return f"{int(number)} {_MONTHS[int(month) - 1].title()} {year}"


def _kept(text: str) -> str:
    if len(text) > LONGEST:
        raise _no_date(text)
    parts = _taken_apart(text)
    try:
        if parts is None:
            return _standard(text)
        (year, month, day), time = parts
        kept = _in_years(datetime.date(year, month, day), text).isoformat()
        return kept + ("" if time is None else f"T{_time(time)}")
    except ValueError as error:
        if isinstance(error, QuantityError):
            raise
        raise _no_date(text) from None


def _standard(text: str) -> str:
    """Return any other form of ISO 8601, such as 20260502T1430 or a day of a week."""
    moment = datetime.datetime.fromisoformat(text)
    kept = _in_years(moment.date(), text).isoformat()
    return f"{kept}T{_time(moment.timetz().isoformat())}" if re.search(r"[T\s]", text) else kept


def _taken_apart(text: str) -> tuple[tuple[int, int, int], str | None] | None:
    """Return year, month and day, and the time; None where the text is none of the forms that people type."""
    if found := _YEAR_FIRST.fullmatch(text):
        return (int(found[1]), int(found[3]), int(found[4])), found[5]
    if found := _COMPACT.fullmatch(text):
        return (int(found[1]), int(found[2]), int(found[3])), found[4]
    if found := _DAY_FIRST.fullmatch(text):
        return (int(found[3]), int(found[2]), int(found[1])), found[4]
    if found := _EITHER.fullmatch(text):
        return _either_way(int(found[1]), int(found[3]), int(found[4]), text), found[5]
    if found := _DAY_WORD.fullmatch(text):
        return (int(found[3]), _month(found[2]), int(found[1])), found[4]
    if found := _WORD_DAY.fullmatch(text):
        return (int(found[3]), _month(found[1]), int(found[2])), found[4]
    return None


def _either_way(first: int, second: int, year: int, text: str) -> tuple[int, int, int]:
    if first != second and first <= 12 and second <= 12 and first and second:
        one, other = (f"{day} {_MONTHS[month - 1].title()}" for day, month in ((first, second), (second, first)))
        raise QuantityError(
            f"'{text}' could be {one} or {other}", hint=f"write it like {year:04d}-{second:02d}-{first:02d}"
        )
    return (year, first, second) if second > 12 else (year, second, first)


def _month(word: str) -> int:
    """Return the number of a month by its English name or a beginning of it, 0 where there is none."""
    hits = [number for number, name in enumerate(_MONTHS, 1) if name.startswith(word.lower().removesuffix("."))]
    return hits[0] if len(hits) == 1 else 9 if word.lower() == "sept" else 0


def _time(text: str) -> str:
    """Return a time as it is kept: minutes always, seconds where they were stated, no zone where none was."""
    hours, _, rest = text.partition(":")
    moment = datetime.time.fromisoformat(f"{int(hours):02d}:{rest}")
    return moment.isoformat("auto" if re.match(r"\d\d:\d\d", rest) else "minutes")


def _in_years(day: datetime.date, text: str) -> datetime.date:
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise QuantityError(f"'{text[:LONGEST]}' lies outside the years {FIRST_YEAR} to {LAST_YEAR}")
    return day


def _no_date(text: str) -> QuantityError:
    shown = text[:LONGEST].encode("unicode_escape").decode() if not text.isprintable() else text[:LONGEST]
    return QuantityError(f"'{shown}' is no date", hint=RIGHT)
