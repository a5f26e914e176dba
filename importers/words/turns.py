"""Adjusters counted in turns, "1 1/2 turns out", "0,75 Umdrehungen": no clicks, as no stop tells them apart."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from importers.patterns import regex
from importers.words.adjusters import ADJUSTER, CLICKS_ALONE, adjuster_of
from importers.words.spelling import folded, plain

#: a word for turns of a knob; of a crank's speed where "per minute" follows
TURN = folded(
    r"(?:turns?|umdr(?:ehung\w*)?|tours?|gir[io]|vueltas?|voltas?|varv|obrot\w*|otoc\w*|otack\w*|kierros\w*|omdreining\w*"
    r"|omgang\w*|omwenteling\w*|slagen|fordulat\w*|обор\w*|回転|회전|바퀴|圈)"
)
NOT_SPEED = r"(?!\w)(?!\s?(?:/\s?(?:min|m\b|s\b|sec|sek)|per\b|pro\b|par\b|por\b|al\b|min))"
#: begins each word for turns, for a quick look
LOOKED_FOR = (
    r"turn|umdr|tour|gir[io]|vuelt|voltas|varv|obr[oó]t|oto[cč]|ot[aá][cč]|kierros|omdrei|omgang|omwent|slagen|fordul"
    r"|обор|回転|회전|바퀴|圈"
)
_LOOK = regex(LOOKED_FOR, re.IGNORECASE)
#: a whole number, one with decimals, a fraction, or a whole number and a fraction
AMOUNT = (
    r"(?:\d{1,2}(?:\s|\s?[-+]\s?)[1357]\s?/\s?[248](?!\d)|[1357]\s?/\s?[248](?!\d)"
    r"|\d{0,2}\s?[½¼¾]|\d{1,2}(?:[.,]\d{1,3})?)"
)
_ALONE = regex(rf"(?P<n>{AMOUNT})\s?{TURN}{NOT_SPEED}(?:\s(?:out|open|in|offen|auf|ouvert\w*|from .{{0,20}}))?")
_ANY = re.sub(r"\?P<\w+>", "?:", ADJUSTER.pattern)
_SHORT = regex(r"(?<=[\d½¼¾])\s?T(?![\w°])")  #: "1 1/2 T"
#: what may stand between an adjuster and its turns, and between turns and their adjuster
_FILL = (
    r"[\s:=.-]*(?:(?:screw|knob|adjuster|versteller|setting|is|set|at|to|auf|a|de|von|of|out|open|offen)[\s:=]*){0,3}"
)
_BEHIND = r"\s*(?:(?:of|out|on|open|from|de|en|di|der|in|the|a|auf|offen)\s+)*"
_NAMED = regex(rf"(?<![a-z0-9])(?:{_ANY}){_FILL}(?P<n>{AMOUNT})\s?{TURN}{NOT_SPEED}")
_COUNTED = regex(rf"(?<![a-z0-9])(?:{_ANY})[\s(\[]+{TURN}(?:\s+out)?[\s)\]:=]+(?P<n>{AMOUNT})(?![\d.,/])")
_BEFORE = regex(rf"(?<![\w.,/])(?P<n>{AMOUNT})\s?{TURN}{NOT_SPEED}{_BEHIND}(?:{_ANY})(?![a-z0-9])")
_A_COUNT = regex(rf"(?<![\w.,/]){AMOUNT}\s?(?:{TURN}{NOT_SPEED}|{CLICKS_ALONE}|out\b)")
_KNOB = regex(rf"(?<![a-z0-9])(?:{_ANY})(?![a-z])")
_PARTS = {"½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4)}
_WORD = regex(rf"(?<![^\W\d_]){TURN}{NOT_SPEED}")
#: from which end turns are counted, and small words beside them
_OUT = regex(
    r"\b(?:out|open|offen|fuori|ouvert\w*|abiert\w*|aberto|ute|ulos|ut|of|de|di|no|nr|n°|#"
    r"|(?:from|off|ab|von|depuis|desde|da|fran|fra)\s+(?:full\w*\s+)?(?:in|hard|closed|stiff|seated|zu|geschlossen|ferme\w*|cerrado|chiuso))\b"
)
_QUARTERS = 4  #: a turn is told as so many clicks


@lru_cache(maxsize=2048)
def speaks_of_turns(text: str) -> bool:
    """Whether a text has a word for turns of a knob: "Turns out", and not "turns/min".

    >>> [speaks_of_turns(t) for t in ("Reb turns out", "1 1/2 T", "giri al minuto", "turned", "60 tours/min")]
    [True, False, False, False, False]
    """
    return _LOOK.search(text) is not None and _WORD.search(_worded(text)) is not None


def turns_alone(text: str) -> float | None:
    """Return the number of turns that a text is and nothing else: "1 1/2 turns out"; None of any other.

    >>> turns_alone("1 1/2 turns"), turns_alone("0,75 Umdr."), turns_alone("½ turn out"), turns_alone("60 tours/min")
    (1.5, 0.75, 0.5, None)
    """
    if not _LOOK.search(text) and not _SHORT.search(text):
        return None
    found = _ALONE.fullmatch(_worded(text).strip(" .:()"))
    return amount_of(found["n"]) if found else None


def knob_turned(name: str) -> str | None:
    """Return the adjuster whose turns a column holds by its name, "" of one that is not named; None of other columns.

    >>> [knob_turned(t) for t in ("HSC turns", "Rebound (turns out)", "Turns from closed", "Turns/min", "Crank turns")]
    ['hsc', 'r', '', None, None]
    """
    if not _LOOK.search(name):
        return None
    bare = _worded(name)
    if _WORD.search(bare) is None:
        return None
    rest = " ".join(re.sub(r"[\s()\[\]:.,/_-]+", " ", _OUT.sub(" ", _WORD.sub(" ", bare))).split())
    return adjuster_of(rest) if rest else ""


def turns_of(text: str) -> list[str]:
    """Return what states an adjuster in turns, which are no clicks.

    >>> turns_of("LSC: 6 clicks, HSC: 2 turns"), turns_of("C6 R8"), turns_of("C: 1½ T, R: 2T")
    (['hsc: 2 turns'], [], ['c: 1½ turns', 'r: 2 turns'])
    >>> turns_of("Zugstufe 1 1/2 Umdrehungen offen"), turns_of("3/4 turn out on rebound")
    (['zugstufe 1 1/2 umdrehungen'], ['3/4 turn out on rebound'])
    """
    if not _LOOK.search(text) and not _SHORT.search(text):
        return []
    bare = _worded(text)
    return [match[0].strip() for match in _found(bare)] if _WORD.search(bare) else []


def without_turns(text: str) -> str:
    """Return a text without the adjusters that it counts in turns; as it stands where it counts none so.

    >>> without_turns("3/4 turn out on rebound, 10 clicks comp"), without_turns("C6 R8, 2 turns of the crank")
    (', 10 clicks comp', 'C6 R8, 2 turns of the crank')
    """
    if not _LOOK.search(text):
        return text
    bare = _worded(text)
    found = _found(bare) if _WORD.search(bare) else []
    for match in reversed(found):
        bare = f"{bare[: match.start()]} {bare[match.end() :]}"
    return bare.strip() if found else text


def _found(bare: str) -> list[re.Match[str]]:
    """Return where an adjuster stands beside its turns, in the order that the text begins with."""
    forward = [*_NAMED.finditer(bare), *_COUNTED.finditer(bare)]
    backward = [*_BEFORE.finditer(bare)]
    count, knob = _A_COUNT.search(bare), _KNOB.search(bare)
    first = count is not None and knob is not None and count.start() < knob.start()
    found = (backward if first else forward) or forward or backward
    return sorted(found, key=re.Match.start)


def turns_said(said: str, adjuster: str | None = None) -> str:
    """Return the warning of what states turns: they are not taken, and how clicks of a quarter turn are written.

    The adjuster is the one that words of it name, where none is given.

    >>> turns_said("rebound 1 1/2 turns")
    "'rebound 1 1/2 turns' are turns and no clicks: not taken; counted in clicks of a quarter turn, write 'R 6'"
    """
    names = (adjuster_of(word) for word in (" ".join(pair) for pair in _runs_of_words(said)))
    written = quarters_said(said, adjuster or next(filter(None, names), None))
    return f"'{said}' are turns and no clicks: not taken{written}"


def quarters_said(said: str, adjuster: str | None) -> str:
    """Return how turns are written as clicks of a quarter turn each; empty where they are no whole number of those."""
    found = re.search(AMOUNT, said)
    clicks = _QUARTERS * amount_of(found[0]) if found else 0.5
    if clicks != int(clicks):
        return ""
    written = f"'{adjuster.upper()} {clicks:.0f}'" if adjuster else f"such as 'C {clicks:.0f}' or 'R {clicks:.0f}'"
    return f"; counted in clicks of a quarter turn, write {written}"


def amount_of(text: str) -> float:
    """Return the number of "1 1/2", "0,75", "2¼" or "3/4".

    >>> [amount_of(t) for t in ("1 1/2", "0,75", "2¼", "3/4", "1-1/2")]
    [1.5, 0.75, 2.25, 0.75, 1.5]
    """
    parts = re.findall(r"\d+\s?/\s?\d+|[½¼¾]|\d+(?:[.,]\d+)?", text)
    return float(sum(_PARTS.get(p) or Fraction(p.replace(",", ".").replace(" ", "")) for p in parts))


def _worded(text: str) -> str:
    """Return a text in lower case without accents, its fractions and marks as they stand, "1 1/2 T" with the word."""
    whole = _SHORT.sub(" turns", text)
    if whole.isascii():
        return " ".join(re.sub(r"[\"'_]", " ", whole.lower()).split())
    kept = "".join(c if c in "½¼¾" else plain(c) or c for c in whole.lower())
    return " ".join(re.sub(r"[\"'_]", " ", kept).split())


def _runs_of_words(said: str) -> list[list[str]]:
    """Return the runs of neighbouring words without numbers in a text, longest first."""
    words = [w for w in re.split(r"[\s:=.,]+", said) if w]
    ends = range(len(words), 0, -1)
    runs = [words[i : i + n] for n in ends for i in range(len(words) - n + 1)]
    return [run for run in runs if not any(c.isdigit() or c in "½¼¾" for w in run for c in w)]
