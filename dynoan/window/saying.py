"""What people say of dropped files, from the fields of a card or the rows of the table."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

from dynoan.jobs.read.look import clicks_in
from dynoan.model.shock import ADJUSTERS, clicks_text, parse_clicks
from dynoan.window.dropped_file import SaidOfFile

if TYPE_CHECKING:
    from starlette.datastructures import FormData

    from dynoan.window.desk import Desk
    from dynoan.window.looks import Card

PLAIN = ("shock", "pack", "date", "positive", "rate", "decimal", "delimiter")


def of_one(desk: Desk, file_id: str, form: FormData) -> None:
    """Take what the fields of one file's card say.

    Raises
    ------
    CallError
        If the file is not on the table any more.
    """
    given: dict[str, str] = {}
    for name, value in form.multi_items():  # a button that answers stands beside a field of its name left empty
        given[name] = str(value).strip() or given.get(name, "")
    _state(desk, file_id, given)


def of_rows(desk: Desk, form: FormData, cards: Callable[[], Iterable[Card]]) -> None:
    """Take what the rows of the table say; the row above goes where a row is empty and nothing is known.

    Raises
    ------
    CallError
        If one of the files is not on the table any more.
    """
    above = {k.removeprefix("fill."): str(v).strip() for k, v in form.items() if k.startswith("fill.")}
    rows: dict[str, dict[str, str]] = {}
    for key, value in form.multi_items():
        head, _, rest = key.partition(".")
        file_id, _, part = rest.partition(".")
        if head == "row" and part:
            rows.setdefault(file_id, {})[part] = str(value)
    here = {card.file.id: card for card in cards()} if rows else {}
    for file_id, row in rows.items():
        card = here.get(file_id)
        known = card.known if card else set()
        if card and row.get("date") == card.date[:10] and "date" not in card.file.facts.plain:
            del row["date"]  # shown as the file has it: nobody said it
        free = {k: v for k, v in above.items() if v and not row.get(k, "").strip() and k not in known}
        _state(desk, file_id, row | free)


def _state(desk: Desk, file_id: str, given: Mapping[str, str]) -> None:
    file = desk.dropped.get(file_id)
    facts = _facts(file.facts, given)
    if facts != file.facts:
        desk.dropped.state(file_id, facts)


def _facts(old: SaidOfFile, given: Mapping[str, str]) -> SaidOfFile:
    """Return facts with what a form says in the place of what was said; an empty field takes it back."""
    plain, units, columns = dict(old.plain), dict(old.units), dict(old.columns)
    for key, text in given.items():
        part, _, channel = key.partition(".")
        value = text.strip()
        if part in PLAIN:
            plain[part] = value
        elif part == "unit":
            units[channel] = value
        elif part == "column":
            columns[channel] = value
    if any(name in given for name in ADJUSTERS):
        before = parse_clicks(plain.get("clicks", ""))
        left = {n: c for n, c in before.items() if n not in given}
        plain["clicks"] = clicks_text(left | clicks_in(given))
    drop_empty = ({k: v for k, v in part.items() if v} for part in (plain, units, columns))
    return SaidOfFile(*drop_empty)
