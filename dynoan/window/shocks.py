"""The files of shocks and cars as text that people edit: changed in place, remarks left where they are."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.undo import text_place
from dynoan.library.shock_file import shock_from_text
from dynoan.library.text_edit import Value, with_values
from dynoan.model.shock import ADJUSTERS

if TYPE_CHECKING:
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
                raise CallError(f"'{text}' is no number of clicks", where=adjuster)
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
            raise error.again(kind=CallError) from None
        with desk.change(f"clicks of {name} stated", [place]):
            desk.write(place, changed.encode())
