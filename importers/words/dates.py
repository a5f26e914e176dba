"""Dates as people write them."""

from __future__ import annotations

import re
from datetime import date

from dynoan.model.importing import DateOrder
from importers.assumptions.words import FIRST_YEAR, LAST_YEAR
from importers.words.keys import DATE
from importers.words.spelling import plain, word_set

_MONTHS = {
    name: month
    for month, names in enumerate(
        ("jan janv ene gen", "feb fev fevr febr", "mar marz mars mrz maerz", "apr avr abr", "may mai mag maj mei",
         "jun juin giu",
         "jul juil lug juillet", "aug aout ago", "sep sept set", "oct okt ott out", "nov", "dec dez dic"), start=1)
    for name in names.split()
}  # fmt: skip
#: hours, minutes and what else tells the time of day
_TIME_OF_DAY = re.compile(
    r"(?i)(?:(?<=\d)T)?(?<![\d.:])\d{1,2}(?:[:h]\d{2})(?:[:.]\d{2})?(?:[.,]\d+)?\s*(?:[ap]\.?m\.?|uhr|h|z|utc|gmt)?(?![\d])"
)
#: words that stand in a day beside its month
_BESIDE_DAY = word_set(
    "de, del, di, of, the, st, nd, rd, th, den, d, le, el, il, am, at, um, a, mon, tue, tues, wed, weds, thu, thur,"
    " thurs, fri, sat, sun, monday, tuesday, wednesday, thursday, friday, saturday, sunday, mo, di, mi, do, fr, sa, so,"
    " montag, dienstag, mittwoch, donnerstag, freitag, samstag, sonntag, lundi, mardi, mercredi, jeudi, vendredi,"
    " samedi, dimanche, lunes, martes, miercoles, jueves, viernes, sabado, domingo"
)


def date_of(text: str) -> str | None:
    """Return the day a text states, ISO 8601; None where there is none or day and month could be swapped.

    >>> date_of("2026-05-02 10:11"), date_of("02.05.2026"), date_of("05/02/2026"), date_of("2 May 2026")
    ('2026-05-02', '2026-05-02', None, '2026-05-02')
    """
    if match := re.search(r"(?<!\d)(\d{4})[-./]?(\d{2})[-./]?(\d{2})(?!\d)", text):
        return _iso(int(match[1]), int(match[2]), int(match[3]))
    if match := re.search(r"(?<!\d)(\d{4})([-./])(\d{1,2})\2(\d{1,2})(?!\d)", text):
        return _iso(int(match[1]), int(match[3]), int(match[4]))
    if match := re.search(r"(?<!\d)(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4}|\d{2})(?!\d)", text):
        return _iso(_year(match[3]), int(match[2]), int(match[1]))
    if match := re.search(r"(?<!\d)(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})(?!\d)", text):
        first, second, year = int(match[1]), int(match[2]), _year(match[3])
        if first == second or second > 12:
            return _iso(year, first, second)
        return _iso(year, second, first) if first > 12 else None
    return _worded(plain(text))


def lone_day(cell: str) -> str | None:
    """Return a cell that is a day and nothing else but a time of day and a word for date, without these; None else.

    >>> lone_day("11/14/2025 2:33 PM"), lone_day("fecha 7 de octubre de 2025"), lone_day("calibrated 2025-03-01")
    ('11/14/2025', '7 de octubre de 2025', None)
    """
    bare = _TIME_OF_DAY.sub(" ", cell).strip(" \t,;:.-")
    words = bare.split()
    taken = next((k for k in (3, 2, 1) if plain(" ".join(words[:k])).rstrip(".") in DATE and len(words) > k), 0)
    rest = " ".join(words[taken:]).lstrip(":=- ")
    names = [w for w in re.findall(r"[a-z]+", plain(rest)) if w not in _BESIDE_DAY]
    if len(names) > 1 or any(_month(w) is None for w in names):
        return None
    return rest if re.search(r"\d", rest) and (date_of(rest) or swappable_date(rest)) else None


def is_month(cell: str) -> bool:
    """Whether a cell is a month of a year, or a day, and nothing else: "Mar-25", "May 2025"."""
    match = re.fullmatch(r"([a-z]{3,9})\.?[\s/'-]*(?:\d{2}|\d{4})", plain(cell))
    return lone_day(cell) is not None or (match is not None and _month(match[1]) is not None)


def swappable_date(text: str) -> str | None:
    """Return the part of a text that is a day whose day and month could be swapped, or None.

    >>> swappable_date("tested 05/02/2026 10:11"), swappable_date("05/13/2026")
    ('05/02/2026', None)
    """
    match = re.search(r"(?<!\d)(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})(?!\d)", text)
    if match is None or date_of(text) is not None:
        return None
    return match[0] if 1 <= int(match[1]) <= 12 and 1 <= int(match[2]) <= 12 else None


def in_order(day: str, order: DateOrder) -> str | None:
    """Return a swappable day, ISO 8601, with its numbers in the order that someone states.

    >>> in_order("05/02/26", "month-first"), in_order("05/02/26", "day-first")
    ('2026-05-02', '2026-02-05')
    """
    first, second, year = re.split(r"[/-]", day)
    month, number = (first, second) if order == "month-first" else (second, first)
    return _iso(_year(year), int(month), int(number))


def without_dates(text: str) -> str:
    """Return a text with blanks where days stand in numbers: their parts are no clicks."""
    return re.sub(r"\d{1,4}[-./]\d{1,2}[-./]\d{2,4}", " ", text)


def _worded(text: str) -> str | None:
    match = re.search(
        r"(\d{1,2})(?:st|nd|rd|th|\.)?[\s.-]+(?:de\s+|di\s+)?([a-z]{3,})\.?[\s.-]+(?:de\s+|del\s+)?(\d{4})", text
    )
    if match:
        day, word, year = match[1], match[2], match[3]
    elif match := re.search(
        r"([a-z]{3,})\.?[\s-]+(\d{1,2})(?:st|nd|rd|th)?[\s-]+(?:\d\d[ :]\d\d(?:[ :]\d\d)? )?(\d{4})", text
    ):
        word, day, year = match[1], match[2], match[3]
    else:
        return None
    month = _month(word)
    return _iso(int(year), month, int(day)) if month else None


def _month(word: str) -> int | None:
    return _MONTHS.get(word) or _MONTHS.get(word[:4]) or _MONTHS.get(word[:3])


def _year(text: str) -> int:
    return int(text) if len(text) == 4 else 2000 + int(text)


def _iso(year: int, month: int, day: int) -> str | None:
    try:
        return date(year, month, day).isoformat() if FIRST_YEAR <= year <= LAST_YEAR else None
    except ValueError:
        return None
