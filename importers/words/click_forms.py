"""Clicks in forms of their own: numbers before their adjusters, lists of both, the two speeds of a direction."""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import pairwise

from importers.patterns import regex
from importers.words.adjusters import ADJUSTER, CLICK_WORD, CLICKS_ALONE, DROP, HIGH, LOW, SOFT_END, WAY, adjuster_of

#: what all forms here have; they are long, and compiling one takes as long as reading a short file otherwise does
_TWO_NUMBERS = regex(r"\d\D+\d")
_ANY = re.sub(r"\?P<\w+>", "?:", ADJUSTER.pattern)
_SHORT = "(?:lsc|hsc|lsr|hsr|c|r)"
_AND, _AND_BLANK = r"\s{0,3}[/+-]\s{0,3}", r"\s{0,3}[/+ -]\s{0,3}"
_MORE = "{1,6}"  #: adjusters behind the first: of a list without end each place would be looked at from each
_LISTED = regex(
    rf"(?P<names>{_SHORT}(?:{_AND}{_SHORT}){_MORE})\s+(?P<numbers>\d{{1,2}}(?:{_AND_BLANK}\d{{1,2}}){_MORE})"
)
_LISTED_BEHIND = regex(  # "6-10 (C-R)", "8/8 clicks (compression/rebound)"
    rf"(?<![\w.-])(?P<numbers>\d{{1,2}}(?:{_AND}\d{{1,2}}){_MORE})\s+(?:{CLICK_WORD}\s+)?"
    rf"(?P<names>(?:{_SHORT}|{WAY})(?:\s?[/+-]\s?(?:{_SHORT}|{WAY})){_MORE})(?![a-z0-9/+-])"
)
#: the same of both directions: "7 clicks both ways", "both knobs 7 clicks"
_OF_BOTH = regex(
    rf"(?<![\w.-])(?P<n>\d{{1,2}})\s?{CLICKS_ALONE}\s(?:out\s)?(?:on\s|for\s|in\s)?both\b(?!\s(?:shocks|dampers|sides|ends|cars|legs|front|rear))"
    rf"|\bboth\s(?:ways|directions|knobs|adjusters|clickers)\s(?:at\s|on\s|to\s|set\s|=\s)*(?P<m>\d{{1,2}})\s?{CLICKS_ALONE}"
)
#: "bump/rebound 8/10"
_LISTED_WORDS = regex(
    rf"(?<![a-z0-9])(?P<names>(?:{WAY})\s?/\s?(?:{WAY}))\s+(?P<numbers>\d{{1,2}}\s?/\s?\d{{1,2}})(?![\d.,/]|\s*[a-z%])"
)
#: "D6/Z8", "DS 8 / ZS 10": German letters for the directions, which only both together are
_DRUCK_ZUG = regex(
    r"(?<![a-z0-9])(?:(?P<s>ds?)\s?(?P<c>\d{1,2})[\s/+-]+zs?\s?(?P<r>\d{1,2})"
    r"|ds?\s?/\s?zs?\s+(?P<both>\d{1,2})\s?[/-]\s?(?P<last>\d{1,2}))(?![\d.,/]|\s*[a-z%])"
)
_TURNED = regex(r"(?<![\w.])(\d{1,2})\s?c\s*[/ +-]\s*(\d{1,2})\s?r(?![a-z0-9])(?!\s*\d)")
_TURNED_FIRST_R = regex(r"(?<![\w.])(\d{1,2})\s?r\s*[/ +-]\s*(\d{1,2})\s?c(?![a-z0-9])(?!\s*\d)")
#: where clicks are counted from, between the number and its adjuster: "6 out comp", "6 from closed on comp"
_COUNTED = rf"(?:out|in|open|(?:out\s+|in\s+)?from\s+(?:full\w*\s+)?(?:in|hard|closed|stiff|seated|{SOFT_END}))"
_NUMBER_THEN_NAME = regex(
    rf"(?<![\w.,-])(?P<n>\d{{1,2}})\s?(?:{CLICK_WORD}\s+)?(?:{_COUNTED}\s+)?(?:(?:on|of|for|bei|in)\s+)?(?P<name>{_ANY})(?![a-z0-9])"
)
_BETWEEN = regex(r"[\s/&+-]*(?:(?:and|und|et|y|e)\s+)?")
_NAME_BEFORE = regex(rf"(?<![a-z0-9])(?:{_ANY})\s*(?:{CLICK_WORD}\s*)?$")
_NUMBER_NEXT = regex(r"[\s/&+-]*\d")
_SPEED = rf"(?:{HIGH}|{LOW}|h|l)"
_EACH = rf"(?:(?P<{{0}}>{_SPEED})\s*(?P<{{1}}>\d{{{{1,2}}}})|(?P<{{2}}>\d{{{{1,2}}}})\s*(?P<{{3}}>{_SPEED}))"
#: "compression ls 5 / hs 3", "comp 6 low 2 high"
_SPEEDS_EACH = regex(
    rf"(?<![a-z0-9])(?P<way>c|r|{WAY})[\s.:-]*{_EACH.format('a', 'an', 'bn', 'b')}[\s/&+-]+"
    rf"{_EACH.format('c', 'cn', 'dn', 'd')}(?![a-z0-9])"
)


def listed_clicks(bare: str) -> tuple[tuple[tuple[str, int], ...], str]:
    """Return the clicks that a text in plain words lists, and the text without them.

    >>> listed_clicks("lsc/hsc 3/4 lsr/hsr 6/7")[0], listed_clicks("settings 8 comp 10 reb")[0]
    ((('lsc', 3), ('hsc', 4), ('lsr', 6), ('hsr', 7)), (('c', 8), ('r', 10)))
    """
    if "both" in bare and (both := _OF_BOTH.search(bare)):
        return tuple((knob, int(both["n"] or both["m"])) for knob in "cr"), bare.replace(both[0], " ")
    if not _TWO_NUMBERS.search(bare):
        return (), bare
    if turned := _TURNED.search(bare):
        return (("c", int(turned[1])), ("r", int(turned[2]))), bare
    if apart := _DRUCK_ZUG.search(bare):
        return (("c", int(apart["c"] or apart["both"])), ("r", int(apart["r"] or apart["last"]))), bare
    if turned := _TURNED_FIRST_R.search(bare):
        return (("c", int(turned[2])), ("r", int(turned[1]))), bare
    found: dict[str, int] = {}
    for pattern in (_LISTED, _LISTED_BEHIND, _LISTED_WORDS):
        for match in list(pattern.finditer(bare)) if not found else []:
            names = [adjuster_of(name.strip()) for name in re.split(r"[/+-]", match["names"])]
            numbers = re.findall(r"\d+", match["numbers"])
            if len(names) != len(numbers) or None in names or len({*names}) < len(names):
                continue
            found |= {str(k): int(n) for k, n in zip(names, numbers, strict=True) if k not in found}
            bare = bare.replace(match[0], " ")
    return (tuple(found.items()), bare) if found else (tuple(_numbers_first(bare).items()), bare)


def _numbers_first(bare: str) -> Mapping[str, int]:
    """Return the clicks of a row of numbers that each stand before their adjuster; none of one alone.

    The row begins with a number that no adjuster stands before, and ends with an adjuster that no number follows.
    """
    matches = list(_NUMBER_THEN_NAME.finditer(bare))
    if len(matches) < 2 or _NAME_BEFORE.search(bare[: matches[0].start()]):
        return {}
    if _NUMBER_NEXT.match(bare, matches[-1].end()):
        return {}
    joined = all(_BETWEEN.fullmatch(bare[a.end() : b.start()]) is not None for a, b in pairwise(matches))
    names = [adjuster_of(match["name"]) for match in matches]
    if not joined or None in names or len({*names}) < len(names):
        return {}
    return {str(name): int(match["n"]) for name, match in zip(names, matches, strict=True)}


def clicks_by_speed(bare: str) -> tuple[dict[str, int], str]:
    """Return the clicks of both speeds that a text states for a direction, and the text without them.

    >>> clicks_by_speed("compression ls 5 / hs 3")[0], clicks_by_speed("rebound 8 low 3 high")[0]
    ({'lsc': 5, 'hsc': 3}, {'lsr': 8, 'hsr': 3})
    """
    clicks: dict[str, int] = {}
    for match in list(_SPEEDS_EACH.finditer(bare)) if _TWO_NUMBERS.search(bare) else []:
        way = "r" if re.fullmatch(rf"r|{DROP}", match["way"]) else "c"
        each = ((match["a"] or match["b"], match["an"] or match["bn"]),
                (match["c"] or match["d"], match["cn"] or match["dn"]))  # fmt: skip
        fast = [re.fullmatch(rf"h|{HIGH}", speed) is not None for speed, _ in each]
        if fast[0] != fast[1]:
            clicks |= {("hs" if f else "ls") + way: int(n) for f, (_, n) in zip(fast, each, strict=True)}
            bare = bare.replace(match[0], " ")
    return clicks, bare
