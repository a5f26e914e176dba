"""Keeps files of cars and shocks that were dropped beside the runs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from dynoan.errors import CallError
from dynoan.jobs.undo import text_place

if TYPE_CHECKING:
    from dynoan.window.desk import Desk
    from dynoan.window.looks import Card


def keep_described(desk: Desk, cards: Iterable[Card], made: set[str]) -> list[str]:
    """Write files of cars and shocks into the library, each place into `made`; return what was kept, in words.

    Raises
    ------
    CallError
        If the library has one of a name that says something else.
    """
    kept = []
    for card in cards:
        one = card.described
        if one is None:
            continue
        data, known = desk.dropped.data(card.file), desk.library.text_names(one.folder)
        place = text_place(one.folder, one.name)
        if one.name in known and (desk.path / place).read_bytes() != data:
            raise CallError(
                f"the library has a {one.kind} {one.name} that says something else",
                hint="take this file off, or give it another name and drop it again",
            )
        made.add(place)
        desk.write(place, data)
        kept.append(f"{one.kind} {one.name}")
    return kept
