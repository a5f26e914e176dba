"""What a file's name states."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import PurePath

from importers.stated.facts import StatedFacts
from importers.words.adjusters import adjuster_of
from importers.words.clicks import clicks_of, doubted_clicks
from importers.words.dates import date_of, without_dates
from importers.words.keys import STOP
from importers.words.shock_names import shock_in

_SHEET = re.compile(r"(?P<file>.+), sheet '(?P<title>.*)'")


def facts_of_name(name: str) -> StatedFacts:
    """Return what a file's name states: clicks, a shock such as FL-03, and the pack where one word is left over.

    The title of a workbook's sheet wins over the workbook's name.
    """
    sheet = _SHEET.fullmatch(name)
    if sheet is None:
        return _facts_of_stem(PurePath(name).stem)
    stem, title = PurePath(sheet["file"]).stem, sheet["title"]
    facts = _facts_of_stem(title).over(_facts_of_stem(stem))
    return replace(facts, pack=facts.pack or _left_over(f"{stem} {title}", facts.shock, facts.clicks))


def _facts_of_stem(stem: str) -> StatedFacts:
    undated = without_dates(re.sub(r"\d{4}-?\d{2}-?\d{2}", " ", stem))
    clicks = clicks_of(undated)
    key = re.search(r"(?i)(?:^|[_\s.-])pack[=_-]?([A-Za-z]\w*?)(?=$|[_\s.,-])", stem)
    shock = shock_in(stem)
    pack = key[1] if key and key[1].lower() not in STOP else _left_over(stem, shock, clicks)
    return StatedFacts(shock=shock, pack=pack, clicks=clicks, doubted=tuple(doubted_clicks(undated)), date=_day(stem))


def _day(stem: str) -> str | None:
    """Return the day a name states with the year first, the one order in which names are sorted by it."""
    match = re.search(r"(?<!\d)\d{4}([-._]?)\d{2}\1\d{2}(?!\d)", stem)
    return date_of(match[0].replace("_", "-")) if match else None


def _left_over(stem: str, shock: str | None, clicks: Mapping[str, int]) -> str | None:
    """Return the one word of a name that is neither shock nor clicks nor a usual word."""
    if shock is None or not clicks:
        return None
    words = [w for w in re.split(r"[_\s,.=@]+|-", stem.replace(shock, " ")) if w]
    left = [w for w in words
            if re.fullmatch(r"[A-Za-z]{3,}", w) and w.lower() not in STOP and not adjuster_of(w.lower())]  # fmt: skip
    return left[0] if len(left) == 1 else None
