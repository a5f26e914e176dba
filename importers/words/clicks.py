"""Clicks in words: "LSC 6", "C6 R8", "Low speed compression: 6 clicks", "lsc=6,lsr=8", "Zugstufe: 8 Klicks"."""

from __future__ import annotations

import re
from functools import lru_cache

from importers.assumptions.words import MOST_CLICKS
from importers.patterns import regex
from importers.words.adjusters import (
    ADJUSTER,
    CLICK_WORD,
    CLICKS_ALONE,
    DROP,
    HIGH,
    LOW,
    SOFT_END,
    WAY,
    may_name_adjuster,
    with_known_ways,
)
from importers.words.click_forms import clicks_by_speed, listed_clicks
from importers.words.clicks_in_all import without_all, without_all_of
from importers.words.halves import parts_as_decimals
from importers.words.mates import with_mates
from importers.words.number_words import COUNTED, with_numbers
from importers.words.order_of_speeds import clicks_in_order
from importers.words.spelling import plain
from importers.words.turns import TURN, without_turns
from importers.words.warm_ends import warm_end

NO_UNIT = (
    r"(?![\d.]*\d)(?!\s*(?:/\s*s|%|n\b|kn\b|dan\b|lbs?\b|lbf\b|kgf?\b|mm|cm\b|m\b|in/|bar\b|psi\b|°|deg|hz\b|ms\b|µ"
    rf"|x\s*[.\d]|[¼½¾]|\d\s*/\s*\d+\s*{TURN}|{TURN}(?!\w)"
    r"|rpm\b|mpa\b|kpa\b|[.]\d|rows?\b|runs?\b|cycles?\b|sweeps?\b|strokes?\b|pulls?\b|points?\b|samples?\b))"
)
#: where clicks are counted from, between the adjuster and its number
_FROM = (
    r"(?:out\s+|in\s+)?(?:from|off|ab|von|depuis|desde|da|vanaf)\s+(?:full\w*\s+|tutto\s+|ganz\s+|voll\w*\s+|tout\s+)?"
    rf"(?:in|hard|closed|stiff|seated|geschlossen|zu|ferme|cerrado|chiuso|{SOFT_END})"
)
FILL = (
    rf"(?:[\s.-]*(?:{CLICK_WORD}|{_FROM}|=|:|at|auf|a|zu|von|of|(?:was\s+|were\s+|is\s+)?set(?:\s+to)?"
    r"|fixed|kept|held|constant|fest|is|stays))*[\s.:=-]*"
)
_FORWARD = regex(rf"(?<![a-z0-9.°])(?:{ADJUSTER.pattern}){FILL}\+?(?P<n>\d{{1,3}}){NO_UNIT}(?P<after>\s*{CLICK_WORD})?")
_BACKWARD = (
    rf"(?<![\w.,-])(?P<n>\d{{1,3}})\s*{CLICK_WORD}"
    r"\s*(?:(?:of|out|on|open|from|de|en|di|der|in|the|a|auf)\s*)*"
    rf"(?:{ADJUSTER.pattern})(?![a-z0-9])"
)
CLICKED = regex(rf"\b{CLICK_WORD}\b")
_SPELLED = regex(rf"\b({'|'.join(COUNTED)})(?=\s+(?:{CLICK_WORD}|out)\b)")
#: the second number of "8 clicks out on compression and 6 on rebound"
_AND_MORE = regex(rf"\b(and|und|et|y|e) (\d{{1,2}}) (?=(?:out )?(?:on|of|for|bei|en|in) (?:the )?(?:{WAY})\b)")
_CLICKS_AFTER = regex(rf"\d\s*{CLICK_WORD}")
_OF_SO_MANY = regex(r"\d\s*(?:of|von|sur|di|de)\s*(\d{1,3})(?!\d)")
_SO_MANY_OF = regex(r"(?<![a-z0-9])(?:cr|c|r)\s?\d{1,2}\s*(?:of|von|sur|di|de)\s*\d")
#: clicks with a sign, and what they are counted against
_SIGNED = regex(r"(?<![\w.,])[+−-]\s?\d{1,2}(?![\d.])")
_AGAINST = regex(r"\b(?:relative|baseline|base|delta|change[sd]?|versus|vs|compared|against|gegenuber|than)\b")
_MORE = regex(rf"\b\d{{1,2}}\s*{CLICK_WORD}\s+(?:softer|stiffer|harder|firmer|more|less|weicher|harter)\b")
#: what says that a number is one of clicks: where they are counted from, that a knob was turned
_TOLD = regex(
    rf"\b(?:stiffer|harder|softer|firmer)\b|\b(?:full|fully)\s+(?:hard|closed|stiff|{SOFT_END})\b"
    rf"|\b0\s+(?:is\s+)?(?:hard|closed|stiff|{SOFT_END})\b"
)
_TOLD_BEFORE = regex(r"\b(?:changed|set|turned|switched|moved|opened|adjusted)\s+(?:to|at)\b")
_HELD = regex(r"\b(?:c|r|cr)\s+(?:is\s+)?(?:fixed|set|kept|held|constant|fest|stays)\b")
_WHOLE = regex(r"\b(\d{1,2})\.0+(?![\d.])")  #: as spreadsheets write a whole number: "6.0"
_BETWEEN = regex(r"\b(?:between|zwischen|entre|tra|fra|mellan|mellem|tussen)\s\d{1,2}\s")  #: no number, of two
_OF_PARTS = regex(rf"\d[\s-](?:half|quarter|halbe?|demi|medi[oa]s?|mezz[oi])[\s-]?{CLICKS_ALONE}")  #: "8 half clicks"
ANY_ADJUSTER = re.sub(r"\?P<\w+>", "?:", ADJUSTER.pattern)
_DEGREES = regex(r"(?<=\d)\s?C\s?=\s?[\d.,]+\s?F\b")  #: "25 C = 77 F"
#: the speed of a run behind its clicks: "C4 R6 @ .26", "R6 @ 10 in/s"
_AT_SPEED = regex(
    r"\s*@\s*(?:\d*[.,]\d+|\d+(?=\s?(?:mm/s|cm/s|m/s|in/s|ips)))(?:\s?(?:mm/s|cm/s|m/s|in/s|ips))?(?![\w/])"
)
_GLUED = regex(r"(?<=\d)(?=(?:lsc|hsc|lsr|hsr|cr|c|r)\d)")
_ARROW = regex(r"\s*(?:[-=]*>|→)\s*(?=\d)")
_BESIDE_WAY = regex(rf"(?:cr|c|r)\s?\d{{1,2}}[\s,/-]+(?:{WAY})")
#: an adjuster that is closed: no click out
_CLOSED = regex(
    rf"(?<![a-z0-9])(?P<adjuster>{ADJUSTER.pattern})\s+(?:(?:full|fully)\s+(?:closed|hard|stiff|in)|closed)\b(?!\s+(?:to\b|by\b|\d))(?:\s+then\s+(?P<then>\d{{1,2}})\b)?"
)
_SHORT = {"c", "r", "cr"}
_SPEED = rf"(?:{HIGH}|{LOW}|h|l)"
_BOTH_SPEEDS = rf"[(\[]?(?P<{{0}}>{_SPEED})\s*[/+&-]\s*(?P<{{1}}>{_SPEED})[)\]]?"
# "comp hs/ls: 3/6" and "hs/ls comp: 3/6"
_SPEEDS_OF_WAY = regex(
    rf"(?<![a-z0-9])(?:(?P<way>c|r|{WAY})[\s.:-]*{_BOTH_SPEEDS.format('one', 'two')}"
    rf"|{_BOTH_SPEEDS.format('first', 'second')}[\s.-]*(?P<turned>c|r|{WAY}))"
    rf"{FILL}(?P<a>\d{{1,2}})\s*[/+ -]\s*(?P<b>\d{{1,2}}){NO_UNIT}"
)
_SECOND_NUMBER = regex(rf"\s*(?P<mark>to\b|[-/])\s*\d{{1,2}}(?![\d.,]*\d)(?P<said>\s*{CLICK_WORD})?")


@lru_cache(maxsize=8192)
def _found(text: str) -> tuple[tuple[str, int], ...]:
    warm = warm_end(text)
    if warm and warm.is_warmth(dict(beside := _found(warm.rest))):
        return beside
    bare = _bare(text)
    if not any(c.isdigit() for c in bare) or is_relative(text) or _BETWEEN.search(bare) or in_parts(bare):
        return ()
    listed, alone = listed_clicks(bare)
    if listed:
        return (*listed, *((k, n) for k, n in (_found(alone) if alone != bare else ()) if k not in dict(listed)))
    clicks, bare = _by_speed(bare)
    single: dict[str, int] = {}
    matches = _matches(bare)
    if _doubted(bare, matches):
        return tuple(clicks.items())
    for match in matches:
        name = _name(match)
        if name is None or int(match["n"]) > MOST_CLICKS:
            continue
        weak = name in _SHORT and re.match(r"[cr]{1,2}(?![a-z])", match[0]) is not None
        (single if weak else clicks).setdefault(name, int(match["n"]))
    # "C 12" alone may be a channel's number; a pair of them, or one beside plainer words, is not.
    if len(single) == 2 or "cr" in single or (single and (clicks or _said(text, bare))):
        clicks |= {k: v for k, v in single.items() if k not in clicks}
    return tuple(clicks.items())


def in_parts(bare: str) -> str:
    """Return what counts parts of a click in a text in plain words: "8 half clicks"; empty where nothing does."""
    found = _OF_PARTS.search(bare)
    return found[0] if found else ""


def is_relative(text: str) -> bool:
    """Whether a text gives clicks against another setting.

    >>> is_relative("relative to baseline: C +2, R -1"), is_relative("baseline C6 R8")
    (True, False)
    """
    bare = plain(text)
    return _MORE.search(bare) is not None or (_SIGNED.search(text) is not None and _AGAINST.search(bare) is not None)


def _bare(text: str) -> str:
    """Return a text in plain words, without all the clicks there are, clicks that touch one another apart.

    An arrow between numbers becomes "to".
    """
    text = _DEGREES.sub(" ", text) if "F" in text and "C" in text else text
    text = _AT_SPEED.sub(" ", text) if "@" in text else text
    bare = _WHOLE.sub(r"\1", plain(_ARROW.sub(" to ", parts_as_decimals(without_all(without_turns(text))))))
    for most in set(_OF_SO_MANY.findall(bare)) if "/" in bare else ():
        bare = re.sub(rf"(?<=\d)\s?/\s?{most}(?!\d)", " ", bare)  # "LSC 6 of 20, LSR 8/20"
    bare = with_known_ways(without_all_of(bare))
    if "full" in bare or "closed" in bare:
        bare = _CLOSED.sub(lambda found: f"{found['adjuster']} {found['then'] or 0}", bare)
    if CLICKED.search(bare) or " out " in bare:
        bare = _AND_MORE.sub(r"\1 \2 clicks ", _SPELLED.sub(lambda m: str(COUNTED[m[1]]), bare))
    return _GLUED.sub(" ", with_mates(with_numbers(bare)))


def _by_speed(bare: str) -> tuple[dict[str, int], str]:
    """Return the clicks stated as "comp hs/ls: 3/6", and the text without them."""
    clicks, bare = clicks_in_order(bare)
    each, bare = clicks_by_speed(bare)
    clicks |= each
    for match in list(_SPEEDS_OF_WAY.finditer(bare)) if "/" in bare or "-" in bare else []:
        way = "r" if re.fullmatch(rf"r|{DROP}", match["way"] or match["turned"]) else "c"
        speeds = [match[one] or match[other] for one, other in (("one", "first"), ("two", "second"))]
        fast = [re.fullmatch(rf"h|{HIGH}", speed) is not None for speed in speeds]
        if fast[0] == fast[1]:
            continue
        clicks |= {("hs" if f else "ls") + way: int(n) for f, n in zip(fast, (match["a"], match["b"]), strict=True)}
        bare = bare.replace(match[0], " ")
    return clicks, bare


def _doubted(bare: str, matches: list[re.Match[str]]) -> list[str]:
    """Return the places where an adjuster has two numbers: speeds apart, a range or so many of so many clicks."""
    seconds = [(m, second) for m in matches if (second := _SECOND_NUMBER.match(bare, m.end("n")))]
    # "c6 r8-2" at the end is more often the second run of c6 r8.
    ranges = len(seconds) == len(matches) and (len(matches) > 1 or any(s["said"] for _, s in seconds))
    return [bare[m.start() : s.end()].strip() for m, s in seconds if ranges or s["mark"] != "-" or " - " in s[0]]


def doubted_clicks(text: str) -> list[str]:
    """Return what gives an adjuster two numbers without saying which is which; none of a text's clicks are taken then.

    >>> doubted_clicks("FL-03_C10-18_R18-10"), doubted_clicks("C6 R8")
    (['c10-18', 'r18-10'], [])
    """
    bare = _bare(text)
    if not any(c.isdigit() for c in bare) or listed_clicks(bare)[0]:
        return []
    _, bare = _by_speed(bare)
    return _doubted(bare, _matches(bare))


def lists_adjusters(text: str) -> bool:
    """Whether a text names adjusters and as many numbers, which are no day then: "LSC-HSC-LSR: 6-4-10".

    >>> lists_adjusters("Clicks LSC-HSC-LSR: 6-4-10"), lists_adjusters("tested 6-4-10")
    (True, False)
    """
    return bool(listed_clicks(_bare(text))[0])


def _matches(bare: str) -> list[re.Match[str]]:
    """Return where an adjuster and a number stand together, in the order that the text begins with."""
    # Compiled where they can match at all: that takes longer than a file's other words together.
    forward = list(_FORWARD.finditer(bare)) if may_name_adjuster(bare) else []
    backward = list(re.finditer(_BACKWARD, bare)) if _CLICKS_AFTER.search(bare) else []
    first = backward and (not forward or backward[0].start() < forward[0].start())
    turned = first and len(backward) >= len(forward)  # "Unit 2, klikk: komp 5, retur 8"
    return backward if turned else forward


def _said(text: str, bare: str) -> bool:
    """Whether a lone "C6" is said to be a click: with a click word, "c=6", or as the whole text."""
    if (
        re.search(rf"\b{CLICK_WORD}\b", bare)
        or _SO_MANY_OF.search(bare)
        or _HELD.search(bare)
        or re.search(r"\b[crCR]{1,2}\s*=\s*\d", text)
    ):
        return True
    if _TOLD.search(bare) or _TOLD_BEFORE.search(bare):
        return True
    return re.fullmatch(r"(?:cr|c|r)\s?\d{1,2}", bare) is not None or _BESIDE_WAY.fullmatch(bare) is not None


def _name(match: re.Match[str]) -> str | None:
    return next((k for k, v in match.groupdict().items() if k not in ("n", "after") and v is not None), None)


def clicks_of(text: str) -> dict[str, int]:
    """Return the clicks a text states, by adjuster; empty where it states none.

    >>> clicks_of("Low speed compression: 6 clicks"), clicks_of("C6 R8"), clicks_of("FL-03_gravel_lsc6_lsr8.csv")
    ({'lsc': 6}, {'c': 6, 'r': 8}, {'lsc': 6, 'lsr': 8})
    """
    return dict(_found(text))
