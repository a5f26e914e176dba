"""Gas and temperature that a file states of before and of after its run: what is of before is the run's."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from importers.assumptions.stated import APART_DEGREES, APART_SHARE
from importers.patterns import regex
from importers.stated.facts import NOTHING, StatedFacts
from importers.stated.pairs import pairs
from importers.stated.quantities import quantity
from importers.words.keys import GAS, OIL, TEMPERATURE
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

_BEFORE = word_set(
    "before, start, starting, initial, begin, beginning, pre, vor, vorher, anfang, beginn, avant, debut, initiale,"
    " antes, inicio, inicial, prima, inizio, iniziale, voor, przed, ennen, fore, fø"
)
_AFTER = word_set(
    "after, end, ending, final, post, finish, nach, nachher, ende, apres, fin, finale, despues, dopo, fine, na, po,"
    " jalkeen, efter, etter"
)
_COLD = word_set("cold, kalt, froid, frio, fria, freddo, fredda, koud, kall, kylma, zimny, studeny")
_HOT = word_set(
    "hot, warm, heiss, heiß, chaud, caliente, caldo, calda, quente, heet, varm, kuuma, cieply, goracy, teply"
)
_FIRST, _LATER = _BEFORE | _COLD, _AFTER | _HOT
_SMALL = word_set("the, a, at, of, run, test, de, du, la, le, l, el, del, dem, der, am, zu, im, versuch, lauf, essai")
_WORDS = regex(r"[^\W\d_]+")
_NUMBER = regex(r"[-+]?\d[\d.,]*\s*(?:°\s?[CF]|[^\W\d_]{1,5})?")
_BRACKETED = regex(r"[\[(][^\])]*[\])]")
_TWO = regex(r"([-+]?\d[\d.,]*)\s*(?:/|->|→|[-–])\s*([-+]?\d[\d.,]*)\s*(\D*)")
_ALONE = "of after the run and none is stated of before it"
_MOST = 300  #: longer lines are prose [characters]


class _Told(NamedTuple):
    """A quantity of before or after a run."""

    kind: str
    after: bool
    hot: bool
    value: float  #: [°C] or [Pa]
    said: str


def facts_before_and_after(lines: Iterable[str], decimal: str) -> StatedFacts:
    """Return the gas pressure and the temperature that lines state of before a run, else of after it.

    Where both are stated and differ, or only what is of after it, a warning says what was taken.

    >>> found = facts_before_and_after(["Gas before 8.0 bar, after 8.4"], ".")
    >>> found.gas_pressure, found.warnings
    (800000.0, ("'after 8.4' is of after the run: 'before 8.0 bar' was taken",))
    """
    told = [one for line in lines if len(line) <= _MOST and _speaks_of(line) for one in _told(line, decimal)]
    if not told:
        return NOTHING
    chosen: dict[str, float] = {}
    warnings = list[str]()
    for kind in dict.fromkeys(one.kind for one in told):
        before = next((one for one in told if one.kind == kind and not one.after), None)
        after = next((one for one in told if one.kind == kind and one.after), None)
        taken = before or after
        if taken is None:
            continue
        chosen[kind] = taken.value
        if before is None:
            when = "of when it was hot and none is stated of when it was cold" if taken.hot else _ALONE
            warnings.append(f"'{taken.said}' is {when}: it was taken")
        elif after is not None and _apart(kind, before.value, after.value):
            when = "of when it was hot" if after.hot else "of after the run"
            warnings.append(f"'{after.said}' is {when}: '{before.said}' was taken")
    return StatedFacts(
        gas_pressure=chosen.get("pressure"), temperature=chosen.get("temperature"), warnings=tuple(warnings)
    )


@lru_cache(maxsize=2048)
def _speaks_of(line: str) -> bool:
    return any(map(str.isdigit, line)) and bool({*_WORDS.findall(plain(line))} & (_FIRST | _LATER))


def _told(line: str, decimal: str) -> Iterator[_Told]:
    """Yield what a line states of before or after, pair by pair, or as one key: "Gas before 8 bar, after 8.4"."""
    found = [one for pair in pairs(line) for key, value in _apart_in(pair.key, pair.value)
             if (one := _of(key, value, decimal)) is not None]  # fmt: skip
    yield from found or _in_one(line, decimal)


def _apart_in(key: str, value: str) -> list[tuple[str, str]]:
    """Return key and value, or both of "Temp start/end: 22/41 C": the unit that stands last is of both."""
    words = [w for w in _WORDS.findall(key) if plain(w) in _FIRST | _LATER]
    both = _TWO.fullmatch(value.strip()) if len(words) == 2 else None
    if both is None or (plain(words[0]) in _LATER) == (plain(words[1]) in _LATER):
        return [(key, value)]
    one, other = (" ".join(re.sub("[/&]", " ", key.replace(w, " ")).split()) for w in (words[1], words[0]))
    return [(one, f"{both[1]} {both[3]}"), (other, f"{both[2]} {both[3]}")]


def _of(key: str, value: str, decimal: str) -> _Told | None:
    words = _WORDS.findall(plain(_BRACKETED.sub(" ", key)))
    when = [w for w in words if w in _FIRST | _LATER]
    kind = _kind([w for w in words if w not in _FIRST | _LATER | _SMALL])
    if len(when) != 1 or not kind:
        return None
    unit = re.search(r"[\[(]\s*([^\])]+?)\s*[\])]", key)
    bare = re.fullmatch(r"[-+]?\d[\d.,]*", value.strip())
    number = quantity(f"{value} {unit[1]}" if unit and bare else value, kind, decimal)
    return None if number is None else _Told(kind, when[0] in _LATER, when[0] in _HOT, number, f"{key}: {value}")


def _kind(words: Sequence[str]) -> str:
    name = " ".join(words)
    if name in GAS:
        return "pressure"
    return "temperature" if name in TEMPERATURE | OIL else ""


def _in_one(line: str, decimal: str) -> list[_Told]:
    """Return both of "Gas before 8.0 bar, after 8.4": a unit that stands once is of both."""
    bare = " ".join(line.replace('"', " ").split())
    words = [m for m in _WORDS.finditer(bare) if plain(m[0]) in _FIRST | _LATER]
    if len(words) != 2 or (plain(words[0][0]) in _LATER) == (plain(words[1][0]) in _LATER):
        return []
    kind = _kind([w for w in _WORDS.findall(plain(bare[: words[0].start()])) if w not in _SMALL])
    numbers = [_NUMBER.search(bare[words[0].end() : words[1].start()]), _NUMBER.search(bare[words[1].end() :])]
    if not kind or None in numbers:
        return []
    texts = [m[0].strip() for m in numbers if m]
    units = [m[1] for text in texts if (m := re.search(r"([^\d.,\s+-].*)$", text)) and is_unit(m[1], kind)]
    found = []
    for word, text in zip(words, texts, strict=True):
        number = re.match(r"[-+]?\d[\d.,]*\d|[-+]?\d", text)
        value = quantity(f"{number[0]} {units[0]}", kind, decimal) if number and units else None
        if value is None:
            return []
        found.append(_Told(kind, plain(word[0]) in _LATER, plain(word[0]) in _HOT, value, f"{word[0]} {text}"))
    return found


def _apart(kind: str, one: float, other: float) -> bool:
    return abs(one - other) > (APART_DEGREES if kind == "temperature" else APART_SHARE * abs(one))
