"""The day of a run where no key calls it so: alone in a line, in a title, behind a word for date."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from importers.header import uncomment
from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.pair_facts import facts_of_date
from importers.words import keys
from importers.words.dates import lone_day
from importers.words.spelling import plain

#: what else than the test has a day
_OF_ANOTHER_DAY = regex(
    r"\b(?:cal\w*|kal\w*|cert\w*|due|next|valid|serviced?|built|made|printed|gultig|geeicht|revision|version|form|drawing|template)\b"
)
#: a day has a number of four digits, or three numbers
_DIGITS_OF_DAY = regex(r"\d{4}|\d\D+\d+\D+\d")
#: a day in the order of machines, or with dots
_WHOLE_DAY = regex(r"(?<![\w.-])(?:(?:19|20)\d\d-\d\d-\d\d|\d{1,2}\.\d{1,2}\.(?:19|20)\d\d)(?![\w-])")
#: words and letters for the order of a day's numbers
_DAY_FIRST = regex(
    r"(?i)(?<![\w/])(?:jour\s?/\s?mois|day\s?/\s?month|tag\s?/\s?monat|d[ií]a\s?/\s?mes|giorno\s?/\s?mese|dag\s?/\s?maand"
    r"|(?:dd|jj|tt|gg)[/.]mm(?:[/.](?:yy|jj|aa){1,2})?)(?![\w/])"
)
_SHORT_TITLE = 4  #: words of a title whose last may be its day: "Four corners 11/22/25"
_TITLE_WORDS = 12  #: that a title has at the most
_DAY_LINES = 40  #: how many of them a day is looked for in
_LONGEST_DAY = 60  #: as people write it, with its time [characters]
_CELLS = regex(r"[;\t|]|\s{2,}|\s[-–—]{1,2}\s")
_USUAL_LINE = 300  #: longer lines are prose [characters]


def lone_days(lines: Sequence[str], decimal: str) -> StatedFacts:
    """Return the day that stands in a line alone, or in a cell of the first line, a title; behind a word for date."""
    found = []
    for at, line in enumerate(lines[:_DAY_LINES]):
        if _DIGITS_OF_DAY.search(line[:_USUAL_LINE]) is None:
            continue
        bare = uncomment(line).strip().strip('"')
        cells = [c.strip() for c in _CELLS.split(bare)] if len(line) <= _USUAL_LINE else []
        alone = len([c for c in cells if c]) <= 1 or at == 0
        if not _OF_ANOTHER_DAY.search(plain(bare)):
            cells += [part for m in re.finditer(r",\s", bare) for part in (bare[: m.start()], bare[m.end() :])] * (
                at == 0
            )
            cells += re.findall(r"\(([^()]{0,99})\)", bare)
            words = bare.split()
            cells += words[-1:] if at == 0 and 1 < len(words) <= _SHORT_TITLE and "," not in bare else []
            cells += _days_in_title(bare)
        worded = [c for c in cells if alone or _WHOLE_DAY.fullmatch(c) or {*plain(c).split()[:1]} & keys.DATE]
        found += [day for c in (bare, *worded) if _DIGITS_OF_DAY.search(c[:_LONGEST_DAY]) and (day := _known_day(c))]
    return facts_of_date(found[0], decimal=decimal) if found else StatedFacts()


def puts_day_first(line: str) -> bool:
    """Whether a line says that its days stand before the months.

    >>> [puts_day_first(t) for t in ("11/12/2025 (jour/mois)", "Date (dd/mm/yyyy): 11/12/2025", "11/12/2025 (mm/dd)")]
    [True, True, False]
    """
    return "/" in line and _DAY_FIRST.search(line[:_USUAL_LINE]) is not None


def _days_in_title(bare: str) -> list[str]:
    """Return the one day, year and all, that stands in a title of a few words: "Run 1 of 12.05.2026"."""
    found = (
        _WHOLE_DAY.findall(bare) if len(bare.split()) <= _TITLE_WORDS and not re.search(r"[=;\t|]|:\s", bare) else []
    )
    return found if len(found) == 1 else []


@lru_cache(maxsize=2048)
def _known_day(cell: str) -> str | None:
    return lone_day(cell) if len(cell) <= _LONGEST_DAY else None
