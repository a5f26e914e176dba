"""Packs and clicks written into a car file's own text: its comments, order and all other lines stay as they are."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from dynoan.errors import LibraryError
from dynoan.library.car_file import car_from_text
from dynoan.model.car import AXLES, CORNERS, Car, axle_of
from dynoan.model.shock import clicks_text

_TABLE = re.compile(r"^\s*\[\s*(?P<name>[^\[\]]+?)\s*\]\s*(#.*)?$")


@dataclass(frozen=True)
class CornerSetting:
    """What goes on one corner."""

    pack: str
    clicks: Mapping[str, int]  #: as the shock's file counts them


@dataclass(frozen=True)
class LineChange:
    """One line of a car file that changes; the old one is empty where it is added."""

    table: str  #: such as "front" or "fl"
    old: str
    new: str


def with_settings(text: str, file: str, settings: Mapping[str, CornerSetting]) -> tuple[str, tuple[LineChange, ...]]:
    """Return a car file's text with other packs and clicks, and the lines that change.

    Both corners of an axle alike stand under the axle where its table states that key already, else with the corners.

    Raises
    ------
    LibraryError
        If the file is written so that the lines cannot be changed safely; nothing is.
    """
    lines = text.split("\n")
    changes: list[LineChange] = []
    wanted = {c: {"pack": s.pack, "clicks": clicks_text(s.clicks)} for c, s in settings.items()}
    for axle in AXLES:
        corners = [c for c in CORNERS if axle_of(c) == axle and c in wanted]
        for key in ("pack", "clicks"):
            values = {wanted[c][key] for c in corners}
            shared = len(corners) == 2 and len(values) == 1 and _line_of(lines, axle, key) is not None
            own = [c for c in corners if not shared or _line_of(lines, c, key) is not None]
            for table in ([axle] if shared else []) + own:
                _put(lines, table, key, wanted[corners[0] if table == axle else table][key], changes)
    made = "\n".join(lines)
    _hold(car_from_text(made, file), settings, file)
    return made, tuple(changes)


def _span(lines: list[str], table: str) -> range | None:
    """Return the lines of a table behind its head."""
    begin = next((i for i, line in enumerate(lines) if (m := _TABLE.match(line)) and m["name"] == table), None)
    if begin is None:
        return None
    end = next((i for i in range(begin + 1, len(lines)) if lines[i].lstrip().startswith("[")), len(lines))
    return range(begin + 1, end)


def _line_of(lines: list[str], table: str, key: str) -> int | None:
    return next((i for i in _span(lines, table) or () if re.match(rf"\s*{key}\s*=", lines[i])), None)


def _put(lines: list[str], table: str, key: str, value: str, changes: list[LineChange]) -> None:
    at = _line_of(lines, table, key)
    if at is not None:
        found = re.match(rf'(\s*{key}\s*=\s*)"[^"]*"(.*)$', lines[at])
        new = f'{key} = "{value}"' if found is None else f'{found[1]}"{value}"{found[2]}'
        if new != lines[at]:
            changes.append(LineChange(table, lines[at].strip(), new.strip()))
            lines[at] = new
        return
    span, new = _span(lines, table), f'{key} = "{value}"'
    if span is None:
        lines += ["", f"[{table}]", new]
    else:
        last = max(
            (i for i in span if lines[i].strip() and not lines[i].lstrip().startswith("#")), default=span.start - 1
        )
        lines.insert(last + 1, new)
    changes.append(LineChange(table, "", new))


def _hold(car: Car, settings: Mapping[str, CornerSetting], file: str) -> None:
    for name, setting in settings.items():
        corner = car.corners[name]
        if corner.pack != setting.pack or dict(corner.clicks) != dict(setting.clicks):
            raise LibraryError(
                f"[{name}] is written so that it cannot be changed safely",
                where=file,
                hint="put pack and clicks in by hand",
            )
