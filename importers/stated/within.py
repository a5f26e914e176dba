"""Gas, rod and temperature within a title or a sentence: "Test 2, LSC 5, gas 10 bar, rod 16 mm, 35 °C"."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.quantities import quantity
from importers.words.clicks import clicks_of
from importers.words.dates import date_of
from importers.words.keys import GAS, OIL, ROD, TEMPERATURE
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit
from importers.words.warm_ends import warm_end

_FOUND = regex(
    r"(?P<key>[^\W\d_]\w*(?:\s[^\W\d_]\w*){0,2})\s?[:=]?\s*"
    r"(?P<value>(?<![\d.,])[-+]?\d+(?:[.,]\d+)?\s?(?:°\s?[CF]|[Dd]eg\s?[CF]|bar|psi|kPa|MPa|mm|in|\"|C|F)(?!\w|/(?!\d)))"
)
#: a temperature that is a whole cell
_LONE = regex(r"(?:^|[,;\t|]|\s{2,})\s*(?P<value>[-+]?\d+(?:[.,]\d+)?\s?(?:°|[Dd]eg\.?)\s?[CF])\s*(?=$|[,;\t|]|\s{2,})")
#: a cell of its own in Fahrenheit, which no clicks are in
_LONE_FAHRENHEIT = regex(
    r"(?:^|[,;\t|]|\s{2,})\s*(?P<value>(?:[4-9]\d|1\d\d|2[0-4]\d)\s?°?\s?F)\s*(?=$|[,;\t|]|\s{2,})"
)
#: "Tested 6/21/2026 at 85 F"
_TESTED_AT = regex(
    r"(?i)\b(?:tested|measured|run|gepr[uü]ft|gemessen)\b.{0,40}?\s(?:at|@|bei)\s(?P<value>[-+]?\d+(?:[.,]\d+)?\s?(?:°\s?)?[CF])"
    r"(?![\w/])"
)
#: "Cold 18 C", "warm, 45 °C"
_TEMPERED = regex(
    r"(?i)^\W*(?:cold|cool|warm|hot|kalt|hei(?:ß|ss)|froid|ti[eè]de|chaud|freddo|tiepido|caldo|fr[ií]o|templado|caliente|kall"
    r"|varm|koud|heet)(?:\s+run)?[\s,:=(@-]+(?P<value>[-+]?\d+(?:[.,]\d+)?\s?°?\s?[CF])\W*$"
)
#: a warmth beside the day of a test: "3 novembre 2025, 25 °C"
_BESIDE_DAY = regex(r"[,;/]\s+(?P<value>[-+]?\d+(?:[.,]\d+)?\s?°\s?[CF])\W*$")
#: what may stand between two of them
_BETWEEN = word_set("with, and, at, on, und, mit, bei, et, avec, y, con, e, clicks, click")
#: what may stand before a temperature: "Óleo a 30 °C"
_AT = word_set("a, at, of, bei, von, de, di, vid, ved, op, om, van, o, w, pri, przy, при")
_KINDS = ((GAS, "gas_pressure", "pressure"), (ROD, "rod", "length"), (TEMPERATURE | OIL, "temperature", "temperature"))
_UNTOLD = "beside the clicks may be a temperature and may be clicks: not taken; state it"
_MOST = 300  #: longer lines are prose [characters]


def facts_within(line: str, decimal: str, *, of_shock: bool = False) -> StatedFacts:
    """Return the quantities that stand behind their names within a line.

    Parameters
    ----------
    line
        As it stood.
    decimal
        The decimal mark of the table.
    of_shock
        Whether the line names a shock or a pack, beside which a cell of a temperature alone is the shock's.

    >>> found = facts_within("Test 2, LSC 5, gas 10 bar, rod 16 mm, 35 °C", ".")
    >>> found.gas_pressure, found.rod, found.temperature
    (1000000.0, 0.016, 35.0)
    """
    found: dict[str, float | None] = {}
    if len(line) > _MOST:
        return StatedFacts()
    clicked = bool(clicks_of(line))
    for match in _FOUND.finditer(line):
        words = plain(match["key"]).split()
        while words and (words[0] in _BETWEEN or is_unit(words[0])):
            words = words[1:]
        for keys, fact, kind in _KINDS:
            # Beside clicks the air is the reservoir's.
            named = words[:-1] if fact == "temperature" and words[-1:] and words[-1] in _AT else words
            if " ".join(named) in keys or (keys is GAS and clicked and words == ["air"]):
                found.setdefault(fact, quantity(match["value"], kind, decimal))
    lone = (
        _TEMPERED.search(line)
        or _beside_day(line)
        or _LONE_FAHRENHEIT.search(line)
        or (_LONE.search(line) if clicked or of_shock else None)
        or (_TESTED_AT.search(line))
    )
    if lone and "temperature" not in found:
        found["temperature"] = quantity(lone["value"], "temperature", decimal)
    facts = StatedFacts(**found)  # type: ignore[arg-type]
    return facts if facts.temperature is not None or not clicked else facts.over(warmth_beside_clicks(line, decimal))


def warmth_beside_clicks(line: str, decimal: str) -> StatedFacts:
    """Return the temperature that a line about clicks ends with, "reb 12, 20C", and what else it may be."""
    warm = warm_end(line)
    beside = clicks_of(warm.rest) if warm else {}
    if warm is None or not beside:
        return StatedFacts()
    if warm.is_warmth(beside):
        doubt = f"'{warm.said}' was taken as {warm.quantity} and not as clicks of compression: state them if they are"
        said = () if warm.is_sure(beside) else (doubt,)
        return StatedFacts(temperature=quantity(warm.quantity, "temperature", decimal), warnings=said)
    if clicks_of(line) == beside:
        return StatedFacts(warnings=(f"'{warm.said}' {_UNTOLD}",))
    return StatedFacts(warnings=(f"'{warm.said}' was taken as clicks and may be {warm.quantity}: state it if it is",))


def _beside_day(line: str) -> re.Match[str] | None:
    """Return the temperature that a line holds behind a day and nothing else."""
    found = _BESIDE_DAY.search(line) if "°" in line else None
    return found if found and date_of(line[: found.start()].strip(' "#*')) else None
