"""What launches tell of the car, asked on the Log book: logs go up, the answer is reckoned beside the requests."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from html import escape
from typing import TYPE_CHECKING

from dynoan.errors import CallError
from dynoan.jobs import learn
from dynoan.library.car_learned import with_learned
from dynoan.model.car import AXLES
from dynoan.show import presenting
from dynoan.window import launch_logs
from dynoan.window.carfields import FIELDS
from dynoan.window.carfile import CarText, flat, text_of
from dynoan.window.changing import shown_first
from dynoan.window.rendering import minus

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.window.desk import Desk
    from dynoan.window.working import Work

_KEPT = "learned"
#: values that no field of the car's form has, in words
_WORDS = {
    "pitch_inertia": "Inertia in pitch", "body": "Height of the links' ends at the body", "grip": "Grip",
    "damping": "Damping, as a share of the dyno's curve",
}  # fmt: skip


@dataclass(frozen=True)
class LearnShown:
    """The last answer, as the page shows it."""

    answer: learn.LearnAnswer
    html: str

    @property
    def car(self) -> str:
        """The car's name."""
        return self.answer.question.car

    @property
    def writable(self) -> bool:
        """Whether something is told that may go into the car's file."""
        return bool(self.answer.changes) and self.answer.sound


def last_learned(desk: Desk) -> LearnShown | None:
    """Return the last answer that still holds; None where there is none."""
    with desk.bench():
        found: LearnShown | None = desk.remembered.get(_KEPT)
    return found


def ask(desk: Desk, form: FormData, _: Request) -> str:
    """Begin to learn from logs that were sent, or from those that lie here with what is said of them now."""
    launch_logs.take(desk, form)
    asked = launch_logs.question(desk)
    with desk.bench():
        stamp = desk.stamp()
    logs, said = asked.logs, launch_logs.lying(desk)
    mark = hashlib.sha256(repr((said.files, said.said)).encode()).hexdigest()[:8]

    def run(work: Work) -> None:
        found = replace(learn.answer(desk.own_bench(work), asked, work.watch), units=desk.units)
        shown = LearnShown(found, _plain(presenting.html(found, desk.units), found))
        with desk.bench():
            if desk.stamp() == stamp:
                desk.remembered[_KEPT] = shown

    desk.works.begin(
        f"learn {asked.car} {asked.surface} {mark} {stamp}", f"Learning from {len(logs)} launches", run, lane="pages"
    )
    return "/log#learn"


def _plain(text: str, found: learn.LearnAnswer) -> str:
    """Return what an answer says with the car form's words in the place of keys and commands."""
    keys = sorted((v.before.key for v in found.values), key=len, reverse=True)
    for key in keys:
        text = text.replace(f">{key}<", f">{_in_words(key)}<").replace(f"{key}:", f"{_in_words(key)}:")
    told = escape("With --write the car's file would change so")
    return (
        minus(text)
        .replace(told, "The car's file would change so")
        .replace(": dynoan bounce", "; the command “dynoan bounce” reads its log")
    )


def _in_words(key: str) -> str:
    place, _, part = key.rpartition(".")
    field = FIELDS.get(key)
    words = field.words if field else _WORDS.get(part, part.replace("_", " "))
    return f"{words}, {place}" if place in AXLES else words


def take_over(desk: Desk, _form: FormData, _request: Request) -> str:
    """Show what the car's file would be with what was told, before it is written."""
    shown = last_learned(desk)
    if shown is None or not shown.writable:
        raise CallError("nothing that may be written was told, or the library changed since: ask again")
    with desk.bench():
        before = text_of(desk, shown.car)
        after, _ = with_learned(before, f"cars/{shown.car}.toml", shown.answer.new_values)
    return shown_first(desk, CarText(shown.car, before, after, flat(after)))


DONE = [("/log/learn", ask), ("/log/learned", take_over)]
