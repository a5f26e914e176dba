"""Numbers as words: "five clicks out", "six comp, eight reb"."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.words.adjusters import ADJUSTER, adjuster_of, may_name_adjuster

#: numbers as words, which count where a word for clicks follows: "five clicks out"
COUNTED = {
    word: number
    for words in (
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
        " seventeen eighteen nineteen twenty",
        "null ein zwei drei vier funf sechs sieben acht neun zehn elf zwolf dreizehn vierzehn funfzehn sechzehn"
        " siebzehn achtzehn neunzehn zwanzig",
        "zero un deux trois quatre cinq six sept huit neuf dix onze douze treize quatorze quinze seize",
    )
    for number, word in enumerate(words.split())
}
_ANY = re.sub(r"\?P<\w+>", "?:", ADJUSTER.pattern)
_WORD = "|".join(COUNTED)
#: a word for a number before its adjuster, or behind it
_BESIDE = tuple(
    regex(rf"(?<![a-z0-9]){form}(?![a-z0-9])")
    for form in (rf"(?P<n>{_WORD})\s(?P<name>{_ANY})", rf"(?P<name>{_ANY})\s(?P<n>{_WORD})")
)


def with_numbers(bare: str) -> str:
    """Return a plain text with its numbers as digits, where two adjusters or more have one as a word each.

    >>> with_numbers("six comp eight reb"), with_numbers("rebound two")
    ('6 comp 8 reb', 'rebound two')
    """
    if COUNTED.keys().isdisjoint(bare.split()) or not may_name_adjuster(bare):
        return bare
    for form in _BESIDE:
        found = list(form.finditer(bare))
        if len(found) > 1 and len({adjuster_of(match["name"]) for match in found}) == len(found):
            return form.sub(lambda m: m[0].replace(m["n"], str(COUNTED[m["n"]])), bare)
    return bare
