"""The files of shocks and cars as text that people edit: changed in place, remarks left where they are."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import TYPE_CHECKING

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.undo import text_place
from dynoan.library.shock_file import shock_from_text
from dynoan.library.text_edit import Value, with_values
from dynoan.model.shock import ADJUSTERS

if TYPE_CHECKING:
    from dynoan.library import Library
    from dynoan.window.desk import Desk

COUNTED = ("from closed", "from soft")


def say_counting(desk: Desk, name: str, given: Mapping[str, str]) -> None:
    """Write how many clicks a shock's adjusters have and how they are counted into its file.

    Raises
    ------
    CallError
        If nothing is given, or the file would be wrong.
    """
    values: dict[tuple[str, ...], Value | None] = {}
    counted = given.get("counted", COUNTED[0])
    for adjuster in ADJUSTERS:
        text = given.get(f"last.{adjuster}", "").strip()
        if text:
            if not text.isdecimal():
                raise CallError(f"{adjuster}: '{text}' is no number of clicks")
            values["adjusters", adjuster, "clicks"] = int(text)
            values["adjusters", adjuster, "counted"] = given.get(f"counted.{adjuster}", counted)
    if not values:
        raise CallError("write how many clicks at least one adjuster has")
    with desk.bench() as bench:
        place = text_place("shocks", name)
        text = (bench.library.path / place).read_text("utf-8") if bench.library.has_shock_file(name) else ""
        changed = with_values(text, values)
        try:
            shock_from_text(changed, place, name)
        except QuantityError as error:
            raise CallError(str(error)) from None
        with desk.change(f"clicks of {name} stated", [place]):
            desk.write(place, changed.encode())


def rewritten(library: Library, old: str, new: str) -> dict[str, str]:
    """Return the files of cars that wear a pack, by their place, with its new name."""
    out = {}
    for name in library.cars():
        text = library.car_text(name)
        try:
            data = tomllib.loads(text)
        except tomllib.TOMLDecodeError:
            continue
        tables = {part: table for part, table in data.items() if isinstance(table, dict)}
        worn: dict[tuple[str, ...], Value | None] = {
            (part, "pack"): new for part, table in tables.items() if table.get("pack") == old
        }
        if worn:
            out[text_place("cars", name)] = with_values(text, worn)
    return out
