"""Two sample rates for one file, "Rate (Hz):,500,250": nobody can tell which is the record's, unless it has times."""

from __future__ import annotations

import re
from collections.abc import Callable

from importers.patterns import regex
from importers.stated.facts import StatedFacts

_NUMBER = r"\d+(?:[.,]\d+)?"
_AND = r"\b(?:and|und|et|y|e|or|oder|to|vs\.?)\b"
_UNIT = rf"(?!{_AND})[^\W\d_]{{1,5}}(?:/[^\W\d_]{{1,3}})?"
_BETWEEN = rf"\s*(?:,\s|[;/|&+]|{_AND})\s*|\s+"
_SEVERAL = regex(rf"{_NUMBER}\s?(?:{_UNIT})?(?:(?:{_BETWEEN}){_NUMBER}\s?(?:{_UNIT})?)+")
_ONE = regex(rf"(?P<number>{_NUMBER})\s?(?P<unit>{_UNIT})?")
_GROUPED = regex(r"\d{1,2}(?: \d{3})+\s?(?:\D.*)?")  #: "10 000 Hz"
#: the second rate of a sentence: "sampled at 500 Hz and 250 Hz"
_MORE = regex(r"\s*(?:/|&|\+|\b(?:and|und|et|y|e|or|oder)\b)\s*(\d[\d.,]*\s*k?hz)\b(?!\s*[a-z])", re.I)


class RatesApart(str):
    """A warning that a file states several sample rates, which times in it settle."""

    __slots__ = ()

    @classmethod
    def of(cls, said: str, rates: tuple[float, ...]) -> RatesApart:
        """Return the warning by what the file says and its rates. [Hz]"""
        shown = " and ".join(f"{rate:.6g} Hz" for rate in rates)
        return cls(f"'{said[:60]}' states the sample rates {shown}, and no time column tells which is this record's")


def several_rates(value: str, rate_of: Callable[[str], float | None]) -> tuple[float, ...]:
    """Return the different sample rates that a value gives; none where it is a single one or something else. [Hz]

    Parameters
    ----------
    value
        Numbers with or without units; one without has that of the next that has one.
    rate_of
        What a number and its unit are.

    >>> several_rates("500 and 250 Hz", lambda said: float(said.split()[0]))
    (500.0, 250.0)
    >>> several_rates("10 000 Hz", float), several_rates("500 Hz", float)
    ((), ())
    """
    if not _SEVERAL.fullmatch(value) or _GROUPED.fullmatch(value):
        return ()
    rates, unit = list[float | None](), ""
    for one in reversed([*_ONE.finditer(value)]):
        unit = one["unit"] or unit
        rates.append(rate_of(f"{one['number']} {unit}".strip()))
    found = tuple(dict.fromkeys(rate for rate in reversed(rates) if rate))
    return found if len(found) > 1 and None not in rates else ()


def facts_of_rates(said: str, rates: tuple[float, ...]) -> StatedFacts:
    """Return the rate that something says, or that it says several and cannot be believed of any."""
    if len(rates) < 2:
        return StatedFacts(rate=rates[0] if rates else None)
    return StatedFacts(warnings=(RatesApart.of(said, rates),))


def rates_apart(facts: StatedFacts) -> RatesApart | None:
    """Return the warning that several rates are stated, where facts hold no rate that settles it."""
    if facts.rate is not None:
        return None
    return next((said for said in facts.warnings if isinstance(said, RatesApart)), None)


def second_rate(line: str, end: int) -> str:
    """Return the rate that a sentence names behind one that ends there; empty where it names no other."""
    found = _MORE.match(line, end)
    return found[1] if found else ""
