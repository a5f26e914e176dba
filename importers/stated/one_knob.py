"""Clicks stated without a direction: of a shock with a single adjuster, or of which one the file does not say."""

from __future__ import annotations

import re
from collections.abc import Sequence

from dynoan.model.warned import TakenForBoth
from importers.header import uncomment
from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.pair import StatedPair
from importers.words.adjusters import CLICKS_ALONE
from importers.words.clicks import clicks_of
from importers.words.halves import parts_as_decimals
from importers.words.keys import ONE_KNOB
from importers.words.parted_clicks import parted_clicks
from importers.words.spelling import plain, word_set

#: keys of a setting, whose numbers apart are clicks
_SETTINGS = word_set("setting, settings, setup, adjusters, adjustments, einstellung, einstellungen, reglage, reglages")
_ONE_NUMBER = regex(r"(\d{1,2})(?:\s*\D{0,20})?")
_PARTED = regex(rf"\d{{1,2}}[.,]\d*[1-9]\d*(?:\s*(?:{CLICKS_ALONE}|out|open))*")
_SEVERAL_NUMBERS = regex(r"\d{1,2}(?:(?:\s*[/-]\s*|\s+)\d{1,2}){1,3}")
_SHORT = 20  #: longer lines say more [characters]
_TWO_ALONE = regex(
    rf"(?:(?:{CLICKS_ALONE}|settings?|setup|adjusters?|einstellung\w*|reglages?)\s*)?(?P<first>\d{{1,2}})\s*[/-]\s*"
    rf"(?P<second>\d{{1,2}})(?:\s*{CLICKS_ALONE})?"
)
_ALONE = regex(rf"(?:(?P<before>\d{{1,2}})\s*{CLICKS_ALONE}|{CLICKS_ALONE}\s*(?:no |nr |n° )?(?P<behind>\d{{1,2}}))")


def clicks_of_one_knob(pair: StatedPair, key: str) -> StatedFacts | None:
    """Return what a key such as "Clicks" and its value state; None where they are of something else.

    Parameters
    ----------
    pair
        As it stands.
    key
        Its key in plain spelling.
    """
    if key not in ONE_KNOB:
        return _two_of_none(pair) if key in _SETTINGS else None
    value = parts_as_decimals(pair.value)
    if _PARTED.fullmatch(value):
        told = parted_clicks(f"{pair.key}: {pair.value}")  # of the line as a whole
        said = f"'{pair.key}: {pair.value}' is no whole number of clicks: not taken; state it"
        return StatedFacts(warnings=() if told else (said,))
    if click := _ONE_NUMBER.fullmatch(value):
        return _both(f"{pair.key}: {pair.value}", int(click[1]))
    return _two_of_none(pair)


def _two_of_none(pair: StatedPair) -> StatedFacts | None:
    """Return what "Clicks: 8/12" states, which is no clicks of any adjuster and is said; None of another value."""
    if not _SEVERAL_NUMBERS.fullmatch(pair.value) or clicks_of(f"{pair.key}: {pair.value}"):
        return None
    return StatedFacts(warnings=(names_no_knob(f"{pair.key}: {pair.value}", re.findall(r"\d+", pair.value)),))


def names_no_knob(said: str, numbers: Sequence[str]) -> str:
    """Return the warning of numbers that no adjuster is named beside, with how two of them are written."""
    written = f"write whose they are, such as 'C {numbers[0]} R {numbers[1]}'" if len(numbers) == 2 else "state them"
    return f"'{said}' names no adjusters: no clicks were taken; {written}"


def clicks_alone(line: str) -> StatedFacts:
    """Return what a line or a title that is clicks and nothing else states, such as "8 clicks"; empty for others."""
    bare = uncomment(line).strip().strip('"')
    if len(bare) <= _SHORT and (two := _TWO_ALONE.fullmatch(plain(bare))):
        return StatedFacts(warnings=(names_no_knob(bare, [two["first"], two["second"]]),))
    found = _ALONE.fullmatch(plain(bare)) if len(bare) <= _SHORT else None
    return _both(bare, int(found["before"] or found["behind"])) if found else StatedFacts()


def _both(said: str, click: int) -> StatedFacts:
    return StatedFacts(clicks={"cr": click}, warnings=(TakenForBoth.of(said),))
