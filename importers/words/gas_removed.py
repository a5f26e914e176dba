"""Whether a line says that gas force is taken out of a file's numbers, or still in them."""

from __future__ import annotations

from importers.patterns import regex

_GAS_OUT = regex(
    r"\b(?:gas|gaskraft|gaz|n2|static|gas/static)\b.{0,30}?\b(?P<how>removed|subtracted|compensated|corrected|zeroed"
    r"|tared|deducted|taken out|nulled|abgezogen|entfernt|kompensiert|herausgerechnet"
    r"|soustraite?|deduite?|compensee?|corrigee?|restada|eliminada|descontada|"
    r"compensada|sottratta|rimossa|compensata|included|enthalten|incluse?|incluida|inclusa)\b"
)
_WITHOUT = regex(
    r"\b(?:without|excl\w*\.?|less|minus|ohne|exkl\w*\.?|sans|hors|senza|sin|utan|uden|uten)\s+(?:the\s+)?(?:static\s+)?"
    r"(?:gas|gaskraft|gasdruck|gaz)(?:\s+(?:force|forces|spring))?$|\b(?:gas|gaskraft)[\s-]*(?:free|less|frei)\b"
)
_WITH = regex(
    r"\b(?:incl\w*|inkl\w*|einschl\w*|compris)\.?\s+(?:the\s+)?(?:static\s+)?(?:gas|gaskraft|gaz)"
    r"(?:\s+(?:force|forces))?$"
)
_GAS_IN = frozenset(("included", "enthalten", "inclus", "incluse", "incluida", "inclusa"))
_NO = regex(r"\b(?:not|no|nicht|non|pas|sin|false|nein|off|0)\b")


def gas_removed(bare: str) -> bool | None:
    """Return whether a plain line says that gas force is taken out of the numbers; None where it says nothing."""
    match = _GAS_OUT.search(bare)
    if match is None:
        return True if _WITHOUT.search(bare) else False if _WITH.search(bare) else None
    removed = match["how"] not in _GAS_IN
    return not removed if _NO.search(bare[match.start() :]) else removed
