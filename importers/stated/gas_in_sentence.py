"""Gas pressure within a sentence whose words say that it is the shock's: "monotube, 12 bar nitrogen"."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from importers.assumptions.stated import MOST_GAS_IN_SENTENCE
from importers.patterns import regex
from importers.stated.quantities import quantity
from importers.words.keys import GAS
from importers.words.spelling import plain, word_set

#: a pressure within a line
PRESSURE = regex(r"(?<![\w.])(?<!\d,)\d{1,3}(?:[.,]\d{1,2})?\s?(?:bars?|psi|MPa|kPa|kg/cm2)(?![\w/])", 2)
#: what an amount is of that is no shock's, or of another time
OF_OTHERS = regex(
    r"\b(?:tyres?|tires?|reifen\w*|pneu\w*|neumatico\w*|gomm[ae]|tool|supply|line|hydraulic\w*|hydraulik\w*|pump\w*|max\w*|min|ambient\w*"
    r"|room|lab|cell|raum\w*|umgebung\w*|hall\w*|outside|ambiante|ambiente|track|sensor|range|up to|limit"
    r"|was|were|vorher|rated|burst|proof|calibrat\w*|kalibr\w*|室温|실온)\b"
)
#: single words for the gas of a shock and for what holds it
_GAS = frozenset(word for key in GAS for word in (key, f"{key}s") if " " not in key and key not in (
    "charge", "carga", "druck", "pressure", "presion", "pression", "pressione", "pressao", "tlak", "paine", "tryck",
    "basınç",
)) | word_set("reservoirs, bladder, piggyback, ausgleichsbehalter, behalter, gasgefullt, gasgefuellt")  # fmt: skip
#: what is filled with gas too and is no shock
_NO_SHOCK = word_set("bottle, bottles, tank, cylinder, flasche, bouteille, spring, feder, ressort, regulator")
_CLAUSES = regex(r"[;|\t()]|[.,](?!\d)|\s[-–—/]\s")


def gas_in_sentences(lines: Iterable[str]) -> float | None:
    """Return the one gas pressure that clauses of lines state of the shock, in words for its gas. [Pa]

    >>> gas_in_sentences(["# monotube FL-03, 12 bar nitrogen"]), gas_in_sentences(["nitrogen bottle at 12 bar"])
    (1200000.0, None)
    """
    found = {amount for line in lines if PRESSURE.search(line) for amount in _of_shock(line)}
    return found.pop() if len(found) == 1 else None


def _of_shock(line: str) -> Iterator[float]:
    """Yield the pressures in clauses that speak of the shock's gas. [Pa]"""
    for clause in _CLAUSES.split(line):
        amounts, bare = PRESSURE.findall(clause), plain(clause)
        words = {*bare.split()}
        if len(amounts) != 1 or words.isdisjoint(_GAS) or words & _NO_SHOCK or OF_OTHERS.search(bare):
            continue
        amount = quantity(amounts[0], "pressure", ".")
        if amount is not None and amount <= MOST_GAS_IN_SENTENCE:
            yield amount
