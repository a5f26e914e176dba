"""Clicks stated without a direction: of a shock with a single adjuster, or of which one the file does not say."""

from __future__ import annotations

from dynoan.model.warned import TakenForBoth
from importers.header import uncomment
from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.pair import StatedPair
from importers.words.adjusters import CLICKS_ALONE
from importers.words.clicks import clicks_of
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain

_ONE_NUMBER = regex(r"(\d{1,2})(?:\s*\D{0,20})?")
_SEVERAL_NUMBERS = regex(r"\d{1,2}(?:\s*[/-]\s*\d{1,2}){1,3}")
_TWO_ALONE = regex(rf"{CLICKS_ALONE}\s*\d{{1,2}}\s*[/-]\s*\d{{1,2}}")
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
        return None
    if click := _ONE_NUMBER.fullmatch(pair.value):
        return _both(f"{pair.key}: {pair.value}", int(click[1]))
    if _SEVERAL_NUMBERS.fullmatch(pair.value) and not clicks_of(f"{pair.key}: {pair.value}"):
        said = f"'{pair.key}: {pair.value}' names no adjusters: no clicks were taken; state them"
        return StatedFacts(warnings=(said,))
    return None


def clicks_alone(line: str) -> StatedFacts:
    """Return what a line or a title that is clicks and nothing else states, such as "8 clicks"; empty for others."""
    bare = uncomment(line).strip().strip('"')
    if _TWO_ALONE.fullmatch(plain(bare)):
        return StatedFacts(warnings=(f"'{bare}' names no adjusters: no clicks were taken; state them",))
    found = _ALONE.fullmatch(plain(bare)) if len(bare) <= 20 else None
    return _both(bare, int(found["before"] or found["behind"])) if found else StatedFacts()


def _both(said: str, click: int) -> StatedFacts:
    return StatedFacts(clicks={"cr": click}, warnings=(TakenForBoth.of(said),))
