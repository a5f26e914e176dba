"""The cards of all files on the table, remembered longer than their rows, which take a hundred times as much memory."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import TYPE_CHECKING

from dynoan.units import Shown
from dynoan.window.dropped import Dropped
from dynoan.window.dropped_file import DroppedFile
from dynoan.window.looks import Card, card_of

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


class Cards:
    """What was made of the files that lie there."""

    def __init__(self, dropped: Dropped) -> None:
        self._dropped = dropped
        self._made: dict[str, tuple[str, Card]] = {}

    def all(self, bench: Workbench, known: Collection[str], units: Shown) -> list[Card]:
        """Return the card of each file, in the order in which they came; `known` are SHA-256 the library holds."""
        lying = self._dropped.files()
        here = {file.id for file in lying}
        self._made = {file_id: one for file_id, one in self._made.items() if file_id in here}
        cards = [self._card(bench, file, units) for file in lying]
        return [replace(card, duplicate=card.sha256 in known) for card in cards]

    def _card(self, bench: Workbench, file: DroppedFile, units: Shown) -> Card:
        key = repr((file.facts, bench.layouts(), units))
        known = self._made.get(file.id)
        if known is not None and known[0] == key:
            return known[1]
        made = card_of(file, self._dropped.look(bench, file), units)
        if made.sha256:  # what could not be looked at is looked at again
            self._made[file.id] = (key, made)
        return made
