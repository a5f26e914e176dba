"""What a record says in scalars: keys with their values, quantities with units, clicks listed by adjuster."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from importers.header import describe_column
from importers.words.adjusters import adjuster_of
from importers.words.spelling import plain

UNITS = ("unit", "units", "einheit", "einheiten", "unite", "unité", "unités", "unidad", "unidades", "unità", "unita",
         "unidade", "eenheid", "enhet", "jednostka", "jednotka", "yksikkö", "単位", "单位")  # fmt: skip
SETTINGS = (
    "clicks",
    "setting",
    "settings",
    "adjusters",
    "klicks",
    "clics",
    "scatti",
    "einstellung",
    "réglages",
    "ajustes",
)
_MOST_ADJUSTERS = 8  #: a shock has four, and preload or height beside them; a longer list is a table
FEW = 4  #: numbers, one an adjuster; a column has more
_MEASURED = ("time", "displacement", "velocity", "force")
_MOST_NOTES = 60  #: lines of a note; more are a column of words
_LONG = 200  #: longer texts are no facts [characters]


def unit_in(value: Mapping[Any, Any]) -> str:
    """Return the unit that stands in a mapping; empty where none does."""
    return next((one for k, one in value.items() if isinstance(one, str) and str(k).lower() in UNITS), "")


def is_settings(key: str, value: Any) -> bool:
    """Whether a value lists adjusters, each with its clicks, under a key for settings."""
    listed = key.lower() in SETTINGS and isinstance(value, list) and 0 < len(value) <= _MOST_ADJUSTERS
    return listed and all(_setting(one)[0] for one in value)


def _setting(value: Any) -> tuple[str, int]:
    """Return the adjuster and the clicks of {"adjuster": "LSC", "clicks": 6}; no adjuster of others."""
    parts = list(value.values()) if isinstance(value, Mapping) else []
    names = [v for v in parts if isinstance(v, str) and adjuster_of(plain(v))]
    clicks = [int(v) for v in parts if isinstance(v, int | float) and not isinstance(v, bool) and v == v // 1]
    return (names[0], clicks[0]) if len(names) == len(clicks) == 1 else ("", 0)


def quantity_in(value: Any) -> str:
    """Return {"value": 30, "unit": "°C"} as "30 °C"; empty for others."""
    if not isinstance(value, Mapping) or not isinstance(value.get("value"), int | float):
        return ""
    unit = unit_in(value)
    return f"{value['value']} {unit}" if unit else ""


def are_few(value: Any) -> bool:
    """Whether a value is a list or an array of a few numbers, fewer than a column has."""
    if isinstance(value, np.ndarray):
        return 0 < value.size <= FEW and value.ndim == 1 and value.dtype.kind in "iuf"
    numbers = isinstance(value, list) and 0 < len(value) <= FEW
    return numbers and all(isinstance(one, int | float) and not isinstance(one, bool) for one in value)


def are_notes(key: str, value: Any) -> bool:
    """Whether a value is a few texts, such as the lines of a note, and neither names nor units of columns."""
    if not isinstance(value, list) or not 0 < len(value) <= _MOST_NOTES or key.lower() in UNITS:
        return False
    texts = [one for one in value if isinstance(one, str) and one.strip()]
    named = sum(describe_column(0, one).channel in _MEASURED for one in texts)
    return len(texts) == len(value) and 2 * named < len(texts)


def facts(value: Any, columns: set[str]) -> tuple[str, ...]:
    """Return the scalars of a mapping as lines "key: value"."""
    if not isinstance(value, Mapping):
        return ()
    found = {str(k): v for k, v in value.items() if str(k) not in columns}
    plain_ones = {k: quantity_in(v) or v for k, v in found.items()}
    lines = [f"{k}: {v}" for k, v in plain_ones.items() if isinstance(v, str | int | float) and len(str(v)) < _LONG]
    for key, one in found.items():
        if are_notes(key, one):
            lines += [str(text) for text in one if len(str(text)) < _LONG]
        if key.lower() in SETTINGS and isinstance(one, Mapping):
            lines += [f"{k}={v}" for k, v in one.items() if isinstance(v, int)]
        elif key.lower() in SETTINGS and are_few(one):
            lines += [f"{key}: {' / '.join(f'{n:g}' for n in one)}"]
        elif is_settings(key, one):
            lines += [f"{name}: {n}" for name, n in map(_setting, one)]
    return tuple(" ".join(line.split()) for line in lines)
