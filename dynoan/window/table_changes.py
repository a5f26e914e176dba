"""What changes on the tables of dropped files and of logs, so that Undo lays all there as it lay before."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from dynoan.errors import CallError
from dynoan.window.dropped_file import DroppedFile, card_dict, card_from
from dynoan.window.rendering import plural

if TYPE_CHECKING:
    from dynoan.jobs.undo import Contents
    from dynoan.window.desk import Desk
    from dynoan.window.dropped import Dropped

AS_BEFORE = "tables as before"  #: the name of what is done after such a change was taken back
#: a table's files that are gone, those that came, and the cards of those of which something else is said now
GONE, COME, SAID = "gone", "come", "said"


def _tables(desk: Desk) -> dict[str, Dropped]:
    return {"dropped": desk.dropped, "logs": desk.logs, "launches": desk.launches}


@contextmanager
def noted(desk: Desk, facts: dict[str, Any], *names: str) -> Iterator[None]:
    """Note in `facts` what changes on tables meanwhile, whether or not it ends with an error."""
    tables = _tables(desk)
    before = {name: _lying(tables[name]) for name in names}
    try:
        yield
    finally:
        for name, old in before.items():
            new = _lying(tables[name])
            differing = {i: card_dict(f) for i, f in old.items() if i in new and new[i].facts != f.facts}
            found = {GONE: sorted(old.keys() - new), COME: sorted(new.keys() - old), SAID: differing}
            if any(found.values()):
                facts[name] = found


@contextmanager
def table_change(desk: Desk, words: Callable[[int, str], str], *names: str) -> Iterator[None]:
    """Remember what changes on tables meanwhile; `words` says so, of how many files and the name of one."""
    facts: dict[str, Any] = {}
    tables = _tables(desk)
    called = {i: f.name for name in names for i, f in _lying(tables[name]).items()}
    try:
        with noted(desk, facts, *names):
            yield
    finally:
        touched = sorted({i for found in facts.values() for part in found.values() for i in part})
        if touched:
            called |= {i: f.name for name in names for i, f in _lying(tables[name]).items()}
            desk.note_change(words(len(touched), called[touched[0]]), AS_BEFORE, facts)


def said_of(count: int, name: str) -> str:
    """Return in words that something else is said of files now."""
    return f"what is said of {name if count == 1 else plural(count, 'file')}"


def as_before(desk: Desk, _: Contents, facts: Any) -> None:
    """Lay all on the tables as it lay before a change."""
    lost = 0
    for name, table in _tables(desk).items():
        found = (facts or {}).get(name, {})
        table.set_aside(map(str, found.get(COME, ())))
        lost += table.lay_again(map(str, found.get(GONE, ())))
        for file_id, card in found.get(SAID, {}).items():
            old = card_from(card)
            if old is not None:
                try:
                    table.state(str(file_id), old.facts)
                except CallError:
                    lost += 1
    if lost:
        desk.say(f"Of {plural(lost, 'file')} nothing is left here: drop them again.", wrong=True)


def _lying(table: Dropped) -> dict[str, DroppedFile]:
    return {file.id: file for file in table.files()}
