"""Units that stand in a line of their own: "oil_temp=44" beside "oil_temp_unit=degC"."""

from __future__ import annotations

from collections.abc import Sequence

from importers.patterns import regex
from importers.words.unit_text import is_unit

_UNIT_OF = regex(
    r"\W*(?P<key>[^\W\d][^:=,;\t]{0,40}?)[\s_.-]*(?:units?|einheit|unit[eé]s?|unidad|unit[aà]|eenheid|enhet|enhed|jednotka|jednostka)"
    r"\s*[:=,;\t]+\s*(?P<unit>[^\s:=,;\t][^:=,;\t]{0,12}?)\W*",
    2,
)
_NUMBER = regex(r"(?P<head>\W*(?P<key>[^\W\d][^:=,;\t]{0,40}?)\s*[:=,;\t]+\s*[-+]?\d+(?:[.,]\d+)?)[\s,;]*")


def with_units_beside(lines: Sequence[str]) -> list[str]:
    """Return lines with the unit behind each bare number whose key another line gives the unit of.

    >>> with_units_beside(["oil_temp=44", "oil_temp_unit=degC", "lsc=4"])
    ['oil_temp=44 degC', 'lsc=4']
    >>> with_units_beside(["oil_temp=44", "force_unit=N"])
    ['oil_temp=44', 'force_unit=N']
    """
    text = "\n".join(lines)
    if not ("nit" in text or "inhei" in text or "enh" in text or "edno" in text):
        return list(lines)
    units = {k: m for k, line in enumerate(lines) if (m := _UNIT_OF.fullmatch(line)) and is_unit(m["unit"])}
    numbers = {k: m for k, line in enumerate(lines) if (m := _NUMBER.fullmatch(line))} if units else {}
    by_key = {m["key"].strip().lower(): (k, m["unit"].strip()) for k, m in units.items()}
    out, used = list(lines), set()
    for k, m in numbers.items():
        at, unit = by_key.get(m["key"].strip().lower(), (-1, ""))
        if unit and at != k:
            out[k] = f"{m['head']} {unit}"
            used.add(at)
    return [line for k, line in enumerate(out) if k not in used]
