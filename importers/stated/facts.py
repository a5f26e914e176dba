"""What the lines around a table and the file's name state: shock, pack, clicks, temperature, gas, date, rate."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields
from pathlib import PurePath
from typing import Any

from dynoan.errors import QuantityError
from dynoan.units import parse
from importers.header.column import describe
from importers.header.finding import uncomment
from importers.words import keys
from importers.words.clicks import adjuster_of, clicks_of
from importers.words.dates import date_of
from importers.words.units import KIND, clean_unit, is_unit, kinds_of
from importers.words.vocabulary import TABLE_WORDS, plain

_GAS_OUT = re.compile(
    r"\b(?:gas|gaskraft|gaz|n2|static|gas/static)\b.{0,30}?\b(?P<how>removed|subtracted|compensated|corrected|zeroed"
    r"|tared|deducted|taken out|nulled|abgezogen|entfernt|kompensiert|herausgerechnet"
    r"|soustraite?|deduite?|compensee?|corrigee?|restada|eliminada|descontada|"
    r"compensada|sottratta|rimossa|compensata|included|enthalten|incluse?|incluida|inclusa)\b"
)
_GAS_IN = frozenset(("included", "enthalten", "inclus", "incluse", "incluida", "inclusa"))
_FROM_SOFT = re.compile(
    r"\b(?:from|ab|depuis|desde|da)\s+(?:full\s+|fully\s+|voll\s+)?"
    r"(?:soft|open|weich|offen|souple|ouvert|blando|abierto|morbido|aperto)"
)
_IN_BRACKETS = re.compile(r"[\[({].*?[\])}]")
_NO = re.compile(r"\b(?:not|no|nicht|non|pas|sin|false|nein|off|0)\b")


@dataclass(frozen=True)
class Facts:
    """What a file states beside its numbers. None or empty where it says nothing."""

    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)
    temperature: float | None = None  #: [°C]
    gas_pressure: float | None = None  #: [Pa]
    date: str | None = None
    stroke: float | None = None  #: [m]
    rate: float | None = None  #: [Hz]
    gas_removed: bool | None = None
    units: Mapping[str, str] = field(default_factory=dict)  #: channel to unit
    lines: Mapping[str, str] = field(default_factory=dict)  #: lines as they stood
    warnings: tuple[str, ...] = ()

    def over(self, other: Facts) -> Facts:
        """Return these facts, with another's where these say nothing."""
        merged: dict[str, Any] = {}
        for item in fields(self):
            mine, theirs = getattr(self, item.name), getattr(other, item.name)
            if isinstance(mine, Mapping):
                merged[item.name] = {**mine, **{k: v for k, v in theirs.items() if k not in mine}}
            elif isinstance(mine, tuple):
                merged[item.name] = tuple(dict.fromkeys((*mine, *theirs)))
            else:
                merged[item.name] = theirs if mine is None else mine
        return Facts(**merged)


def pairs(line: str) -> list[tuple[str, str]]:
    """Return the keys and values in a line, as they stood.

    >>> pairs("# Shock: FL-03; LSC = 6"), pairs("Gas pressure;10;bar")
    ([('Shock', 'FL-03'), ('LSC', '6')], [('Gas pressure', '10 bar')])
    """
    bare = uncomment(line).strip().strip('"')
    parts = [p.strip().strip('"') for p in re.split(r"[;\t|]|,(?=\s*[A-Za-zÀ-ÿ][^:=,]{0,40}[:=])|\s{3,}", bare)]
    if not any(re.search(r"[:=]", p) for p in parts):
        return _cell_pairs([p.strip().strip('"') for p in re.split(r"[;\t|,]|\s{2,}", bare)])
    found = []
    for i, part in enumerate(parts):
        match = re.match(r"\s*([^:=]{1,60}?)\s*[:=]+\s*(.*)$", part)
        if match is None:
            found += _inline(part)
            continue
        value = match[2].strip().strip(",").strip()
        if not value or value == ",":
            value = " ".join(p for p in parts[i + 1 : i + 3] if p and not re.search("[:=]", p))
        elif i + 1 < len(parts) and re.fullmatch(r"[-+\d.,]+", value) and is_unit(parts[i + 1]):
            value = f"{value} {parts[i + 1]}"
        found.append((match[1].strip(), value.strip('"')))
    return found


def _inline(line: str) -> list[tuple[str, str]]:
    """Return shock and pack named within a sentence: "shock FL-03 pack gravel"."""
    shock = re.search(
        r"(?i)\b(shock|damper|d[äa]mpfer|amortisseur|amortiguador|ammortizzatore|serial|s/n)\s+(?:no\.?\s+|id\s+)?([A-Za-z]*[-_]?\d[\w-]*)",
        line,
    )
    pack = re.search(r"(?i)\b((?:valve\s+)?pack|ventilpaket|paket|paquete|pacco)\s+([A-Za-z]\w*)(?=\s|[,;]|$)", line)
    return [(m[1], m[2]) for m in (shock, pack) if m]


def _cell_pairs(parts: list[str]) -> list[tuple[str, str]]:
    parts = [p for p in parts if p]
    if len(parts) == 2 and not parts[0][:1].isdigit():
        return [(parts[0], parts[1])]
    if len(parts) == 3 and re.fullmatch(r"[-+\d.,]+", parts[1]) and not is_unit(parts[0]):
        return [(parts[0], f"{parts[1]} {parts[2]}")]
    if len(parts) == 1:
        match = re.match(r"^([A-Za-zÀ-ÿ][A-Za-zÀ-ÿ /.]*?)\s+(\S*\d\S*(?:\s\S+)?|\S+)$", parts[0])
        return [(match[1], match[2])] if match and _known(plain(match[1])) else _inline(parts[0])
    return [(k, v) for k, v in zip(parts[::2], parts[1::2], strict=False) if _known(plain(k))]


def _known(key: str) -> bool:
    return key in keys.KNOWN


def from_lines(lines: Iterable[str], decimal: str = ".") -> Facts:
    """Return what lines of text state; the first to state a thing wins."""
    said: dict[str, Any] = {"clicks": {}, "units": {}, "lines": {}, "warnings": ()}
    for line in lines:
        _take(line.strip(), decimal, said)
    return Facts(**said)


def _take(line: str, decimal: str, said: dict[str, Any]) -> None:
    """Add what one line states to what is said."""
    found = pairs(line)
    _add(said["lines"], dict(found) if found else ({line: ""} if line else {}))
    _add(said["clicks"], clicks_of(_without_dates(line)))
    _add(said["units"], _units_in(line, found))
    bare = plain(line)
    gas = _gas_removed(bare)
    if gas is not None:
        said.setdefault("gas_removed", gas)
    if _FROM_SOFT.search(bare):
        said["warnings"] = ("the file counts clicks from soft; the shock's file must say so too",)
    for key, value in found:
        name = plain(_IN_BRACKETS.sub("", key)).strip(" .")
        _add(said, {k: v for k, v in _from_pair(name, key, value, decimal).items() if v is not None})


def _add(to: dict[str, Any], more: Mapping[str, Any]) -> None:
    for key, value in more.items():
        to.setdefault(key, value)


def _without_dates(line: str) -> str:
    return re.sub(r"\d{1,4}[-./]\d{1,2}[-./]\d{2,4}", " ", line)


def _from_pair(key: str, raw_key: str, value: str, decimal: str) -> dict[str, Any]:
    in_key = _IN_BRACKETS.search(raw_key)
    if in_key and re.fullmatch(r"[-+\d.,']+", value):
        value = f"{value} {in_key[0][1:-1]}"
    if not value:
        return {}
    if key in TABLE_WORDS["shock"] and not re.fullmatch(r"\d+([.,]\d+)?\s*(?:N|mm|lbf?)", value):
        return {"shock": value}
    if key in TABLE_WORDS["pack"] and adjuster_of(key) is None:
        return {"pack": value}
    return _from_quantity(key, value, decimal)


def _from_quantity(key: str, value: str, decimal: str) -> dict[str, Any]:
    if key in keys.DATE:
        return {"date": date_of(value)}
    if key in keys.TEMPERATURE:
        return {"temperature": _quantity(value, "temperature", decimal)}
    if key in keys.GAS:
        return {"gas_pressure": _quantity(value, "pressure", decimal)}
    if key in keys.STROKE:
        return {"stroke": _quantity(value, "length", decimal)}
    if key in keys.RATE:
        return {"rate": _rate(value, decimal)}
    if key in keys.INTERVAL:
        seconds = _quantity(value, "time", decimal)
        return {"rate": 1 / seconds if seconds and seconds > 0 else None}
    return {}


def _quantity(value: str, kind: str, decimal: str) -> float | None:
    match = re.match(r"^\s*([-+]?[\d.,']*\d)\s*(\S.*)?$", value)
    if match is None or not match[2]:
        return None
    number = match[1]
    if decimal == "," and re.fullmatch(r"\d{1,3}\.\d{3}", number):
        number = number.replace(".", "")
    unit = re.split(r"\s*(?:[,;(]|\bat\b|\bbei\b|@)", match[2])[0]
    try:
        return parse(f"{number} {clean_unit(unit)}", kind)
    except (QuantityError, ValueError):
        return None


def _rate(value: str, decimal: str) -> float | None:
    value = re.sub(
        r"(?i)\b(?:samples?|s|sa|scans?|messwerte|punkte|points?|pts|muestras|campioni|echantillons|ech)\s*(?:/|per|pro|par|por|al)\s*(?:s|sec|second|sekunde|seconde|segundo|secondo)\b|\bsps\b|\bhertz\b",
        "Hz",
        value,
    )
    if re.fullmatch(r"[\d.,']+", value.strip()):
        value = f"{value.strip()} Hz"
    rate = _quantity(value, "frequency", decimal)
    return rate if rate and rate > 0 else None


def _gas_removed(bare: str) -> bool | None:
    match = _GAS_OUT.search(bare)
    if match is None:
        return None
    removed = match["how"] not in _GAS_IN
    return not removed if _NO.search(bare[match.start() :]) else removed


def _units_in(line: str, found_pairs: Sequence[tuple[str, str]]) -> dict[str, str]:
    """Return units that a line states for channels: "Units: N, mm, s", "Force unit: lbf", "forces in N"."""
    found: dict[str, str] = {}
    for key, value in found_pairs:
        name = plain(key)
        words = set(name.split())
        if name in keys.UNITS:
            found |= _by_kind(re.split(r"[,;|\s]+(?![^(]*\))", value))
        elif words & keys.UNITS or is_unit(value):
            channel = describe(0, " ".join(w for w in name.split() if w not in keys.UNITS)).channel
            if channel and KIND[channel] in kinds_of(value):
                found[channel] = value
    for name, unit in re.findall(r"(\w+)\s+(?:(?:is|are|sind|ist|values)\s+)?in\s+([^\s,;]+)", line):
        channel = describe(0, name.removesuffix("s") if name.endswith(("forces", "speeds")) else name).channel
        if channel and KIND[channel] in kinds_of(unit):
            found.setdefault(channel, unit)
    return found


def _by_kind(tokens: Sequence[str]) -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for token in tokens:
        kinds = kinds_of(token)
        if len(kinds) == 1:
            found.setdefault(next(iter(kinds)), []).append(token)
    return {c: found[k][0] for c, k in KIND.items() if len({clean_unit(t) for t in found.get(k, [])}) == 1}


def from_name(name: str) -> Facts:
    """Return what a file's name states: clicks, a shock such as FL-03, and the pack where one word is left over."""
    stem = PurePath(name).stem
    clicks = clicks_of(_without_dates(re.sub(r"\d{4}-?\d{2}-?\d{2}", " ", stem)))
    key = re.search(r"(?i)(?:^|[_\s.-])pack[=_-]?([A-Za-z]\w*?)(?=$|[_\s.,-])", stem)
    shock = _shock_in(stem)
    pack = key[1] if key and key[1].lower() not in keys.STOP else _left_over(stem, shock, clicks)
    return Facts(shock=shock, pack=pack, clicks=clicks)


def _shock_in(stem: str) -> str | None:
    """Return what looks like a shock's name in a file's name: FL-03, SN-1204, or a corner such as FL01."""
    for match in re.finditer(r"(?<![A-Za-z0-9])([A-Za-z]{1,4})-\d{1,4}(?![A-Za-z0-9])", stem):
        corner = match[1] in {"FL", "FR", "RL", "RR", "F", "R"}
        if corner or (plain(match[1]) not in keys.STOP and adjuster_of(match[1].lower()) is None):
            return match[0]
    corners = re.findall(r"(?<![A-Za-z0-9])(?:FL|FR|RL|RR|LF|RF|LR)\d{1,3}(?![A-Za-z0-9])", stem)
    return corners[0] if corners else None


def _left_over(stem: str, shock: str | None, clicks: Mapping[str, int]) -> str | None:
    if shock is None or not clicks:
        return None
    words = [w for w in re.split(r"[_\s,.=@]+|-", stem.replace(shock, " ")) if w]
    left = [
        w
        for w in words
        if re.fullmatch(r"[A-Za-z]{3,}", w) and w.lower() not in keys.STOP and not adjuster_of(w.lower())
    ]
    return left[0] if len(left) == 1 else None


def contradictions(stated: Facts, name: Facts) -> tuple[str, ...]:
    """Return warnings where a file's name and its lines disagree; the lines win."""
    out = [f"the file's name says {k}={v}, the file says {k}={stated.clicks[k]}: the file was believed"
           for k, v in name.clicks.items() if k in stated.clicks and stated.clicks[k] != v]  # fmt: skip
    if stated.shock and name.shock and plain(stated.shock) != plain(name.shock):
        out.append(f"the file's name says shock {name.shock}, the file says {stated.shock}: the file was believed")
    return tuple(out)


__all__ = ["Facts", "contradictions", "from_lines", "from_name", "pairs"]
