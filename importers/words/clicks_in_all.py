"""How many clicks an adjuster has, which is no setting: "6 (max 20)", "24 clicks total", "range 0-22"."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD
from importers.words.spelling import plain

#: how many clicks an adjuster has, which is no setting: "24 clicks total", "range 0 to 22 clicks"
_ALL = regex(
    r"\b(?:total|totals?|gesamt\w*|insgesamt|totale|totaux|in all|altogether|available|range|max\w*|bereich)\b"
)
_IN_ALL = regex(
    rf"\b(?:of\s+)?\d{{1,3}}\s*(?:{CLICK_WORD}\s*)?(?:in\s+|au\s+)?(?:total|totale|totaux|gesamt\w*|insgesamt|in all"
    r"|altogether|available|max\w*|range)\b"
    rf"|\b(?:total|gesamt\w*|totale|available|range|bereich|max\w*)(?:\s*(?:{CLICK_WORD}|of|is|:|=))*\s*(?:0\s*(?:to|-|\.\.)\s*)?"
    rf"\d{{1,3}}(?:\s*{CLICK_WORD})?"
)
#: clicks, and how many there are behind them: "6 (max 20)", "9, total: 24", "6 (range 0-20)"
_WITH_ALL = regex(
    rf"(?P<n>(?<![\d.,-])\d{{1,3}}(?:\s*{CLICK_WORD})?)\s*[\[(,;:]?\s*"
    r"(?:max\w*|totals?|totale|gesamt\w*|insgesamt|range|bereich|available)\b[\s:=.]*(?:(?:of|is)\s+)?"
    rf"(?:0\s*(?:-|–|to|\.\.|bis)\s*)?(?P<all>\d{{1,3}})(?![\d.,]*\d)(?:\s*{CLICK_WORD}\b)?\s*[\])]?"
)


def without_all(text: str) -> str:
    """Return a text, as it stands, without how many clicks there are behind a number of them.

    >>> without_all("Comp clicks: 6 (max 20)"), without_all("24 clicks total, 6 out")
    ('comp clicks: 6', '24 clicks total, 6 out')
    """
    return _WITH_ALL.sub(_setting_alone, text.lower()) if _ALL.search(text.lower()) else text


def without_all_of(bare: str) -> str:
    """Return a text in plain words without any number of all clicks."""
    return _IN_ALL.sub(" ", bare) if _ALL.search(bare) else bare


def _setting_alone(found: re.Match[str]) -> str:
    """Return the clicks without how many there are, which are no fewer."""
    return found["n"] if int(re.match(r"\d+", found["n"])[0]) <= int(found["all"]) else found[0]  # type: ignore[index]


def all_clicks(text: str) -> bool:
    """Whether a text says how many clicks an adjuster has.

    >>> all_clicks("Comp: 24 clicks total"), all_clicks("Comp: 8 clicks")
    (True, False)
    """
    return _IN_ALL.search(plain(text)) is not None
