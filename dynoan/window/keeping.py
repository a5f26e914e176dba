"""Keeps files of cars and shocks dropped beside the runs, tells what was kept, and lays all on the table again."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from dynoan.errors import CallError, LibraryError
from dynoan.jobs.keeping import KeptSweep, named_together
from dynoan.jobs.read.look import keep
from dynoan.jobs.undo import Contents, sweep_place, text_place
from dynoan.library.sweep_file import decode
from dynoan.window.dropped_file import DroppedFile, card_dict, card_from
from dynoan.window.rendering import plural

if TYPE_CHECKING:
    from dynoan.window.desk import Desk
    from dynoan.window.looks import Card
    from dynoan.workbench import Workbench

PORTION = 20  #: files kept at a time: no more of them in memory at once
_OF_ONE = "nothing was changed: "  #: what an error says of one file where others were kept


def keep_described(desk: Desk, cards: Iterable[Card], made: set[str], facts: dict[str, Any]) -> list[str]:
    """Write files of cars and shocks into the library; return what was kept, in words.

    Each place goes into `made`, and what was on the table, by the place, into `facts`.

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
        if one.name not in known:
            made.add(place)
            desk.write(place, data)
            facts[place] = card_dict(card.file)
        kept.append(f"{one.kind} {one.name}")
    return kept


def keep_runs(
    desk: Desk, bench: Workbench, files: Sequence[DroppedFile], made: set[str], facts: dict[str, Any]
) -> tuple[list[KeptSweep], dict[str, str]]:
    """Keep the runs of files; return them, and by file why others were not kept; `made` and `facts` as above."""
    kept: list[KeptSweep] = []
    failed: dict[str, str] = {}
    try:
        for begin in range(0, len(files), PORTION):
            some = files[begin : begin + PORTION]
            found = keep(bench, [desk.dropped.look(bench, f) for f in some], kept)
            failed |= {str(f.path): f.error for f in found.failed}
    finally:
        new, cards = [s for s in kept if s.new], {f.name: card_dict(f) for f in files}
        made.update(sweep_place(s.record.id) for s in new)
        facts |= {s.record.sha256: cards[str(s.path)] for s in new}
    return kept, failed


def tell_kept(desk: Desk, sweeps: Sequence[KeptSweep], failed: Mapping[str, str]) -> None:
    """Say which runs were kept, and of files that were not why, once for all of which the same is to be said."""
    new = sum(s.new for s in sweeps)
    old = len(sweeps) - new
    before = f" {plural(old, 'run')} {'was' if old == 1 else 'were'} in the library before." if old else ""
    if new:
        desk.say(f"{plural(new, 'new run')} kept.{before}", undo=True)
    elif old:
        desk.say(f"Nothing new:{before}")
    for line in _together(failed):
        desk.say(line, wrong=True)


def lay_back(desk: Desk, lay: Contents, facts: Any) -> None:
    """Lay the files of a keep that was taken back onto the table again, with what was said of them."""
    lost: dict[str, str] = {}
    for place, data in lay.items():
        if data is None:
            continue
        file: DroppedFile | None = None
        try:
            one = decode(data, place) if place.startswith("sweeps/") else None
            file = card_from((facts or {}).get(one.sweep.source.sha256 if one else place))
            if file is not None:
                again = desk.dropped.put(file.name, one.original if one else data, file.order)
                desk.dropped.state(again.id, file.facts)
        except LibraryError as error:
            lost[file.name if file else place] = f"{error}; it does not lie here again: drop it anew"
    for line in _together(lost):
        desk.say(line, wrong=True)


def _together(faults: Mapping[str, str]) -> list[str]:
    """Return a line for all files of which the same is to be said."""
    alike: dict[str, list[str]] = {}
    for name, text in faults.items():
        told = re.sub(rf"^(?:.*?sweeps[/\\][0-9a-f]+\.h5|{re.escape(name)}): ", "", text)
        alike.setdefault(told.replace(_OF_ONE, ""), []).append(name)
    return [f"{named_together(names)}{text}" for text, names in alike.items()]
