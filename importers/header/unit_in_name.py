"""A column's name taken apart: the name itself, and the unit that stands in it, in brackets or at its end."""

from __future__ import annotations

import re
from typing import NamedTuple

from importers.header.channel_in_name import channel_of, spaced
from importers.patterns import regex
from importers.words.channels import CHANNEL_WORDS, LESSER, MEANS, OTHER, TABLE_WORDS, TOTAL, TRAVEL_SENSORS
from importers.words.clicks import clicks_of
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.unit_text import KIND, clean_unit, is_unit, kinds_of

_BRACKETS = regex(r"[\[({<]([^\])}>]*)[\])}>]")
_TAILS = (
    regex(r"^(?P<name>.+?)[\s_:.-]+(?P<unit>(?:mm|cm|m|in|inch|ft)\s*/\s*(?:s|sec|min)\.?)$", re.IGNORECASE),
    regex(r"^(?P<name>.+?)\s*/\s*(?P<unit>\(?[^/]+(?:/[^/]+)?\)?)$"),
    regex(r"^(?P<name>.+?)\s*[,;]\s*(?P<unit>[^,;]+)$"),
    regex(r"^(?P<name>.+?)\s+(?:in|en|as)\s+(?P<unit>\S+(?:\s\S+)?)$", re.IGNORECASE),
    regex(
        r"^(?P<name>.+?)[\s_:.-]+(?P<unit>(?:deg|per)?[\s_]?[^\s_]+[\s_](?:per[\s_])?(?:s|sec|c|f|force))$",
        re.IGNORECASE,
    ),
    regex(r"^(?P<name>.+?)[\s_:.=-]+(?P<unit>[^\s_=]+)$"),
    regex(r"^(?P<unit>[^\s_]+)\s+(?P<name>.+)$"),
    regex(r"^(?P<name>[A-Za-z]*[a-z])(?P<unit>N|kN|KN|Lbs?|Lbf|LBS?|LBF|MM|M|MMS|MPS|IPS|In|IN|Mm|Mms|Ms|Sec|S|C|F|mm|Kg|KG|Kgf)$"),
)  # fmt: skip
#: units of velocity whose stroke got lost, as in "velocity_ms"
_LOST_STROKES = {"ms": "m/s", "mms": "mm/s", "ins": "in/s", "cms": "cm/s"}
_NUMBER = r"(?P<number>\d{1,6}(?:[.,]\d{1,6})?)"
#: a unit with a factor, which a mark, a share or a power says it is: "x10 N", "1/100 mm", "kN * 100", "N x 10^2"
_SCALED: tuple[re.Pattern[str], ...] = (
    regex(rf"[x×*·]\s*{_NUMBER}\s*(?P<unit>[^\W\d_].*)"),
    regex(rf"{_NUMBER}\s*[x×*·]\s*(?P<unit>[^\W\d_].*)"),
    regex(rf"(?P<unit>[^\W\d_][^\d]*?)\s*[x×*·]\s*{_NUMBER}"),
    regex(r"1\s?/\s?(?P<part>[1-9]\d{0,5})\s*(?P<unit>[^\W\d_].*)"),
    regex(r"(?P<number>0[.,]\d{1,6})\s*(?P<unit>[^\W\d_].*)"),
    regex(r"[x×*·]?\s*10\s?\^\s?(?P<power>[-−+]?\d)\s*(?P<unit>[^\W\d_].*)"),
    regex(r"(?P<unit>[^\W\d_][^\d]*?)\s*[x×*·]\s*10\s?\^\s?(?P<power>[-−+]?\d)"),
)
#: so long is one count of a clock: "100 ns"
_STEP = regex(rf"{_NUMBER}\s*(?P<unit>[^\W\d_].*)")
_SCALED += (_STEP,)
_COUNTS = frozenset(("tick", "ticks", "count", "counts", "clk", "cycles", "samples", "sample"))
#: a number and a unit in brackets: a cell's range or a factor
_SO_MUCH = regex(r"\d[\d.,]*\s*([^\W\d_].*)")
_TIMES = r"[x×*·]"
#: the same at a name's end, no bracket around it: "Weg 1/10 mm", "Force x10 N", "Force N*10"
_SCALED_TAIL = regex(
    r"(?P<name>.*?[^\W\d_].*?)[\s_,;:]+(?:in\s+|en\s+)?(?P<scaled>"
    rf"(?:1\s?/\s?10{{1,5}}|0[.,]\d{{1,6}}|{_TIMES}\s?\d{{1,6}}|\d{{1,6}}\s?{_TIMES}|{_TIMES}?\s?10\s?\^\s?[-−+]?\d)"
    r"\s?[^\W\d_][^\s\d]*"
    rf"|[^\W\d_][^\s\d]*?\s?{_TIMES}\s?(?:10\s?\^\s?[-−+]?\d|\d{{1,6}}(?:[.,]\d{{1,6}})?))"
)
#: a unit that is a part or a multiple, of which nobody can tell which: "Force N/10"
_SHARED_TAIL = regex(r"(?P<name>.*?[^\W\d_].*?)[\s_,;:]+(?P<said>(?P<unit>[^\W\d_][^\s\d]*?)\s?/\s?10{1,5})")
#: "Force..N.", "vel.mm.s"
_DOTTED = regex(r"(?P<name>[^\W\d_][\w.]*?\w)(?:\.\.(?P<unit>\w+(?:\.\w+)?)\.|\.(?P<pair>\w+\.\w+))")
#: "kg*9.81" is how kilograms became newtons, or what they are to be multiplied by: nobody can tell which
_MASSES, _GRAVITY = frozenset(("kg", "kgs")), 9.8
_LONGEST_WORD = 12  #: in round brackets longer words explain rather than measure


class NameAndUnit(NamedTuple):
    """A column's name without its unit."""

    name: str
    unit: str = ""
    unknown: str = ""  #: what stands where a unit should be
    factor: float = 1.0  #: how many of the unit one is: 10 in "Force [x10 N]"


def split_unit(name: str, *, has_unit: bool) -> NameAndUnit:
    """Return name and unit of a column's name.

    Parameters
    ----------
    name
        The name as it stood.
    has_unit
        Whether the unit is known from elsewhere, as from a row of units.
    """
    name = _dotted(name)
    unit, unknown, rest, factor = "", "", name, 1.0
    for content in _BRACKETS.findall(name):
        if is_unit(content) and not unit:
            unit, rest = content, _cut(rest, content)
        elif not unit and (scaled := scaled_unit(content)) is not None:
            (factor, unit), rest = scaled, _cut(rest, content)
        elif (_looks_like_unit(content, name) or _is_so_much(content)) and not unknown:
            unknown, rest = content, _cut(rest, content)
    if unit or unknown:
        return NameAndUnit(rest.strip(" ,_"), unit, "" if unit else unknown.strip(), factor)
    if is_unit(name) and not has_unit and len(plain(name)) > 1 and channel_of(plain(name), "") is None:
        return NameAndUnit("", name)
    return _tail_unit(name)


def _dotted(name: str) -> str:
    """Return a name whose blanks and brackets became dots, as statistics programs have it, with its unit in brackets.

    >>> _dotted("Velocity..mm.s."), _dotted("vel.mm.s"), _dotted("disp.mm")
    ('Velocity [mm/s]', 'vel [mm/s]', 'disp.mm')
    """
    found = _DOTTED.fullmatch(name) if "." in name and " " not in name else None
    unit = (found["unit"] or found["pair"]).replace(".", "/") if found else ""
    return f"{found['name']} [{unit}]" if found and is_unit(unit) else name


def scaled_unit(text: str) -> tuple[float, str] | None:
    """Return a factor and the unit behind or before it; None of another text.

    >>> scaled_unit("x10 N"), scaled_unit("1/100 mm"), scaled_unit("0.1 ms"), scaled_unit("kN * 100"), scaled_unit("N")
    ((10.0, 'N'), (0.01, 'mm'), (0.1, 'ms'), (100.0, 'kN'), None)
    >>> scaled_unit("N*10^2"), scaled_unit("10*N")
    ((100.0, 'N'), (10.0, 'N'))
    """
    for pattern in _SCALED:
        match = pattern.fullmatch(text.strip())
        if match is not None and is_unit(match["unit"], "time" if pattern is _STEP else None):
            said = match.groupdict()
            power = float((said.get("power") or "0").replace("−", "-"))
            number = float((said.get("number") or "1").replace(",", ".")) / float(said.get("part") or 1)
            made_newtons = match["unit"].strip().lower() in _MASSES and round(number, 1) == _GRAVITY
            return (number * 10.0**power, match["unit"].strip()) if number > 0 and not made_newtons else None
    return None


def _is_so_much(content: str) -> bool:
    """Whether bracketed text is a number of newtons, millimetres or counts: it may be a range and may be a factor."""
    match = _SO_MUCH.fullmatch(content.strip())
    return match is not None and (bool(kinds_of(match[1]) & {"force", "length"}) or plain(match[1]) in _COUNTS)


def _tail_unit(name: str) -> NameAndUnit:
    numbered = any(c.isdigit() for c in name)
    tail = _SCALED_TAIL.fullmatch(name) if numbered else None
    if tail is not None and (scaled := scaled_unit(tail["scaled"])) is not None and _fits(_bare(tail), scaled[1]):
        return NameAndUnit(tail["name"].strip(" ,_"), scaled[1], factor=scaled[0])
    shared = _SHARED_TAIL.fullmatch(name) if numbered and "/" in name else None
    if shared is not None and is_unit(shared["unit"]) and _fits(_bare(shared), shared["unit"]):
        return NameAndUnit(shared["name"].strip(" ,_"), unknown=shared["said"])
    for pattern in _TAILS:
        match = pattern.match(name)
        if match is None:
            continue
        unit, rest = match["unit"], match["name"].strip(" ,_")
        bare = _bare(match)
        lost = _LOST_STROKES.get(unit.lower())
        if lost and channel_of(bare, "") == "velocity":
            return NameAndUnit(rest, lost)
        if _fits(bare, unit):
            return NameAndUnit(rest, unit)
    return NameAndUnit(name)


def _bare(match: re.Match[str]) -> str:
    return plain(spaced(match["name"]))


def _fits(bare: str, unit: str) -> bool:
    """Whether a name's end is the unit of what the rest of it names."""
    kinds = kinds_of(unit)
    channel = channel_of(bare, unit) if bare else None
    if channel is None and "length" in kinds and {*bare.split()} & TRAVEL_SENSORS:
        return True
    if channel is None and "force" in kinds and (bare in TOTAL or bare.rstrip(".") in MEANS):
        return True  # of the cells beside it, or of repeats
    if channel is None and "velocity" in kinds and "/" in clean_unit(unit) and bare:
        return True  # nothing but a speed is so much a second, whatever the word beside it means elsewhere
    if channel is None and "pressure" in kinds and bare:
        return True  # and nothing but a pressure is so many bar or psi
    return KIND[channel] in kinds if channel else "force" in kinds and direction_of(bare) is not None


def _cut(name: str, content: str) -> str:
    return re.sub(r"[\[({<]" + re.escape(content) + r"[\])}>]", " ", name).strip()


def _looks_like_unit(content: str, name: str) -> bool:
    """Whether bracketed text stands where a unit stands although it is none."""
    word = plain(content).rstrip(".")
    if not word or " " in word or word.isdigit() or direction_of(word) or word in LESSER or word in OTHER:
        return False
    if any(word in words for words in (*CHANNEL_WORDS.values(), *TABLE_WORDS.values())) or clicks_of(content):
        return False
    return f"[{content}]" in name or len(word) <= _LONGEST_WORD
