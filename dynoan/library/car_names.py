"""Shocks and packs that a car's file names and the library knows nothing of: most often a slip of the pen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from dynoan.errors import typed
from dynoan.library.faults import TextFault, line_of, mended_tables
from dynoan.library.names import meant, printable
from dynoan.model.car import AXLES, CORNERS

MOST = 8  #: names told of those that are known


def unknown_names(text: str, file: str, shocks: Sequence[str], packs: Sequence[str]) -> tuple[TextFault, ...]:
    """Return a fault for each shock and pack that the text of a car's file names and nothing in the library knows.

    Nothing is told of shocks while the library knows none, nor of packs; a text that cannot be read has other faults.
    """
    found, data = [], mended_tables(text, file)[0] or {}
    for key, known in (("shock", shocks), ("pack", packs)):
        for table in (*AXLES, *CORNERS) if known else ():
            name = _stated(data, table, key)
            if name and name not in known:
                found.append(TextFault(line_of(text, f"{table}.{key}"), f"{table}.{key}", _words(key, name, known)))
    return tuple(found)


def _stated(data: Mapping[str, Any], table: str, key: str) -> str:
    """Return the name that stands there, empty where none does."""
    inside = data.get(table)
    value = inside.get(key, "") if isinstance(inside, Mapping) else ""
    return value.strip() if isinstance(value, str) else ""


def _words(key: str, name: str, known: Sequence[str]) -> str:
    near, some = meant(name, known), ", ".join(map(printable, known[:MOST]))
    slip = f"did you mean '{printable(near)}'?" if near else f"known are {some}{', …' if len(known) > MOST else ''};"
    where = "run and no shock file knows" if key == "shock" else "run was made with"
    mend = f"dynoan new shock {typed(printable(name))}" if key == "shock" else "dynoan add FILE, once it is tested"
    return f"no {where} '{printable(name)}'; {slip} if the name is right: {mend}"
