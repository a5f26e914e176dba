"""Units as rigs write them at a column: "mm_s", "in/sec", "lbs.", "m·s⁻¹", "°C" and so on."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.units import FACTORS, normal_unit, to_celsius
from importers.patterns import regex

#: kind of quantity by channel
KIND = {"force": "force", "velocity": "velocity", "displacement": "length", "time": "time",
        "temperature": "temperature", "pressure": "pressure"}  # fmt: skip
CHANNEL = {kind: channel for channel, kind in KIND.items()}

_WORDS = (
    (r"毫米|밀리미터|\bмм", "mm"), (r"厘米|\bсм\b", "cm"), (r"毫秒|\bмс\b", "ms"), (r"秒|초|\bсек\b|\bс\b", "s"),
    (r"千牛|\bкн\b", "kn"), (r"牛顿?|ニュートン|뉴턴|\bн\b", "n"), (r"公斤力?|千克力?|\bкгс?\b", "kgf"),
    (r"米|\bм\b", "m"), (r"\bатм\b|\bбар\b", "bar"), (r"\bмпа\b", "mpa"), (r"\bкпа\b", "kpa"),
    (r"\b(?:newtons?)\b", "n"), (r"\bkilonewtons?\b", "kn"), (r"\bdecanewtons?\b", "dan"),
    (r"\b(?:pounds?|libras?|livres?|libbre)(?:[\s-]*(?:force|f))?\b", "lbf"), (r"\blbs?\.?[\s-]*f(?:orce)?\b", "lbf"),
    (r"\b(lbs?|kgs?)\.", r"\1"), (r"\bkgs\b", "kg"), (r"\bkg[\s·*.-]?f\b", "kgf"),
    (r"\bk(?:ilo)?lb[fs]\b", "kip"), (r"\bin\.(?=\s*/)", "in"), (r"\bkilopond\b", "kgf"), (r"#", "lb"),
    (r"\bmil+[ií]m(?:[eè]t(?:er|re)s?|etri|etros?|etres?)\b|\bmilim(?:etri?|etrů|etry)\b", "mm"),
    (r"\bcent(?:i|í)m(?:[eè]t(?:er|re)s?|etri|etros?)\b", "cm"),
    (r"\b(?:m[eè]t(?:er|re)s?|metri|metros?)\b", "m"), (r"\b(?:inches|inch|zoll|pouces?|pulgadas?|pollici)\b|''", "in"),
    (r"\b(?:tum|tommer?|tuumaa?|polegadas?|palců|palec)\b", "in"),
    (r"\bдюйм\w*|インチ|英寸|인치", "in"), (r"\bkilogram(?:me|m|o)?s?[\s-]*(?:force|f)?\b", "kgf"),
    (r"\b(?:gram(?:me)?s?|gramm|gramos?|grammi)[\s-]*(?:force|f)?\b", "gf"),
    (r"\bmicrons?\b", "µm"), (r"\bmicrom(?:et(?:er|re)s?)\b", "µm"),
    (r"\b(?:seconds?|secs?|sekunden?|sek|secondes?|segundos?|secondi|seg)\b\.?", "s"),
    (r"\b(?:milliseconds?|millis|millisekunden|millisecondes|milisegundos|millisecondi|msecs?)\b", "ms"),
    (r"\b(?:microseconds?|micros)\b", "µs"), (r"\b(?:minutes?|minuten?|minuti|minutos?)\b", "min"),
    (r"\b(?:deg(?:rees?)?|grad|grados|gradi|degres|degrés|gr|graden|grader|graus|gradu|stopni|stupňů|stupnu|astetta|fok)"
     r"[\s._]*(?:celsius|celsia|celsjusza|celsiusta|centigrade|c)\b|\bcelsius\b|\bcentigrade\b", "°c"),
    (r"\b(?:deg(?:rees?)?|grad|grados|gradi|degres)[\s._]*(?:fahrenheit|f)\b|\bfahrenheit\b", "°f"),
    (r"\bkelvin\b", "k"), (r"\bbars\b", "bar"), (r"\bpsig\b", "psi"), (r"\bbar[\s-]*g\b|\bbarg\b", "bar"),
)  # fmt: skip
_PER = (
    (r"\s*(?:per|pro|par|por|al)\s+", "/"), (r"(?<=[a-zµ])[\s.*·⋅_^]*s(?:ec)?\s*(?:\^?\s*[-−]\s*1|⁻¹)$", "/s"),
    (r"(?<=[a-z])[\s_]+(?=s$|sec$)", "/"), (r"^(m|mm|cm|in)ps$", r"\1/s"), (r"^fps$", "ft/s"), (r"^(mm|cm)s$", r"\1/s"),
    (r"^(?:in|inch)sec$", "in/s"), (r"^(?:pol|pulg|plg|pouce|poll|po)\.?/s(?:eg|ec)?\.?$", "in/s"),
    (r"^(?:pol|pulg|plg|po|pce)\.?$", "in"),
)  # fmt: skip
#: units of the tables, and millinewtons, which no person types and some boards write
_FACTORS = {**FACTORS, "force": FACTORS["force"] | {"mn": 1e-3}}
_MEGANEWTONS = "MN"  #: the one unit that differs from another by its capital alone: no shock's, so none here
_CHANGES = tuple((regex(pattern), to) for pattern, to in _WORDS + _PER)
_TEMPERATURES = {"°c": "°C", "c": "°C", "degc": "°C", "°f": "°F", "f": "°F", "degf": "°F", "k": "K"}


#: units that hold a unit of force or a length and are of no channel: of damping, rate, energy, acceleration
_DERIVED = regex(
    r"(?<![a-z])(?:(?:k|da)?n|lb[fs]?|kgf?)\s*(?:[·⋅*.-]?(?:s|sec|m|mm|in|ft))?(?:/|per)\s*(?:m|mm|cm|in|ft|s|sec)(?![a-z])"
    r"|(?<![a-z])(?:k?n|lb[fs]?)[·⋅*.-]?(?:m|mm|in|ft)(?![a-z])|(?<![a-z])(?:in|ft)[·⋅*.-]?lb[fs]?(?![a-z])"
    r"|(?<![a-z])(?:m|mm|cm|in|ft)\s*/\s*s(?:ec)?\s*(?:²|\^?\s*2|/\s*s)|(?<![a-z])(?:m|mm|in)[·*\s]*s\s*(?:⁻²|\^?-2)"
)


def derived_unit(text: str) -> str:
    """Return the unit of no channel, such as "N·s/m", "N/mm" or "m/s²", that ends a name or stands in its brackets.

    >>> derived_unit("Damping (N·s/m)"), derived_unit("Force N"), derived_unit("Spring N/mm")
    ('n·s/m', '', 'n/mm')
    """
    lowered = text.lower()
    for part in (*re.findall(r"[\[(]([^\])]{0,99})[\])]", lowered), lowered):
        found = [m for m in _DERIVED.finditer(part) if m.end() == len(part.rstrip())]
        if found:
            return found[-1][0]
    first = _DERIVED.match(lowered)  # "Ns/mm C"
    return first[0] if first and lowered[first.end() :][:1].isspace() else ""


class UnitScale(NamedTuple):
    """How numbers in a unit become SI, temperatures °C."""

    factor: float
    zero: float = 0.0  #: what is added after

    def si(self, values: FloatArray) -> FloatArray:
        """Return numbers in the unit as SI, in their shape; the same array where the unit is SI."""
        return values if self.factor == 1.0 and self.zero == 0.0 else values * self.factor + self.zero


@lru_cache(maxsize=4096)
def clean_unit(text: str) -> str:
    """Return a unit in the spelling of the unit tables, or the text itself in lower case where it is none.

    >>> clean_unit("mm_s"), clean_unit("inches per second"), clean_unit("Lbs."), clean_unit("m·s⁻¹")
    ('mm/s', 'in/s', 'lb', 'm/s')
    """
    bare = text.strip().strip("[](){}<>").strip()
    if bare == _MEGANEWTONS:
        return bare
    unit = bare.lower().replace("μ", "µ").replace("º", "°").replace("ç", "c")
    unit = unit.replace("℃", "°c").replace("℉", "°f")
    for pattern, to in _CHANGES:
        unit = pattern.sub(to, unit)
    return normal_unit(unit.strip(" .·")) if unit.strip(" .·") else ""


@lru_cache(maxsize=4096)
def kinds_of(text: str) -> frozenset[str]:
    """Return the kinds of quantity, of those a channel may have, that a text is a unit of."""
    unit = clean_unit(text)
    if not unit:
        return frozenset()
    found = {kind for kind in CHANNEL if kind != "temperature" and unit in _FACTORS[kind]}
    return frozenset(found | ({"temperature"} if unit in _TEMPERATURES else set()))


def is_unit(text: str, kind: str | None = None) -> bool:
    """Whether a text is a unit, of a kind where one is given."""
    kinds = kinds_of(text)
    return bool(kinds) if kind is None else kind in kinds


def scale_of(unit: str, kind: str) -> UnitScale:
    """Return what turns numbers in a unit into SI, temperatures into °C.

    Raises
    ------
    QuantityError
        If the text is no unit of that kind.
    """
    name = clean_unit(unit)
    name = "gf" if (name, kind) == ("g", "force") else name  # a scale's grams, where a force is meant
    if kind == "temperature":
        if name not in _TEMPERATURES:
            raise QuantityError(f"'{unit}' is no unit of temperature", hint="write it like '°C'")
        shown = _TEMPERATURES[name]
        zero = to_celsius(0.0, shown)
        return UnitScale(to_celsius(1.0, shown) - zero, zero)
    if name not in _FACTORS[kind]:
        raise QuantityError(f"'{unit}' is no unit of {kind}")
    return UnitScale(_FACTORS[kind][name])
