"""Logs of launches that were sent to learn from: they lie in the library's caches until others are sent, with what is
said of their columns, so that a refusal or a reload costs nobody the files."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from starlette.datastructures import UploadFile

from dynoan.errors import CallError, DynoanError
from dynoan.jobs.learn import LearnQuestion
from dynoan.jobs.learn.logs import OF_CAR, learn_log
from dynoan.model.car import CORNER_NAMES, CORNERS
from dynoan.reading import read_log_bytes
from dynoan.window.dropped_file import DroppedFile, SaidOfFile
from dynoan.window.table_changes import table_change

if TYPE_CHECKING:
    from collections.abc import Mapping

    from starlette.datastructures import FormData

    from dynoan.model.log import Log
    from dynoan.window.desk import Desk

OF_CORNERS = ("scale", "zero")
#: what a column may be of, in words: a corner's shock, or the car as a whole
COLUMNS_OF = CORNER_NAMES | {"acceleration": "acceleration", "speed": "speed"}
PARTS = (*CORNERS, *OF_CAR)
MOST_TEXT = 200  #: characters of one answer
#: what is said beside an error, by what it needs
_WHERE = {
    "corner": "choose below which column is which shock",
    "scale": "say below what one unit of it means, such as 25 mm per V",
}


@dataclass(frozen=True)
class LaunchLogs:
    """The logs that lie here, what is said of them, and the columns they all have."""

    files: tuple[DroppedFile, ...]
    said: Mapping[str, str]  #: `car`, `surface`, and of each part of `OF_CORNERS` for all or as "scale.fl"
    chosen: Mapping[str, str]  #: columns by one of `PARTS`
    columns: tuple[str, ...]

    @property
    def corners_chosen(self) -> bool:
        """Whether a column is named for any corner: then those without one are taken as not logged."""
        return any(corner in self.chosen for corner in CORNERS)


def lying(desk: Desk) -> LaunchLogs:
    """Return the logs that lie here."""
    files = tuple(desk.launches.files())
    facts = files[0].facts if files else SaidOfFile()
    return LaunchLogs(files, facts.plain, facts.columns, _columns(desk, files))


def _columns(desk: Desk, files: tuple[DroppedFile, ...]) -> tuple[str, ...]:
    key = f"columns of launches {[file.id for file in files]}"
    with desk.bench():
        known: tuple[str, ...] | None = desk.remembered.get(key)
        if known is None:
            try:
                names = [[column.name for column in _read(desk, file).columns] for file in files]
            except DynoanError:
                return ()
            known = tuple(name for name in names[0] if all(name in of for of in names)) if names else ()
            desk.remembered[key] = known
    return known


def _read(desk: Desk, file: DroppedFile) -> Log:
    return read_log_bytes(desk.launches.data(file), file.name)


def take(desk: Desk, form: FormData) -> None:
    """Lay logs that were sent here in the place of those before, and take what is said of them.

    Raises
    ------
    CallError
        If none was sent and none lies here.
    DynoanError
        If one cannot be read as a log, in which case nothing changes.
    """
    sent = [(one.filename, one.file.read()) for one in form.getlist("files")
            if isinstance(one, UploadFile) and one.filename]  # fmt: skip
    if not sent and not desk.launches.files():
        raise CallError("choose the log of a launch, or of several, first")
    for name, data in sent:
        read_log_bytes(data, name)
    with table_change(desk, _changed_words, "launches"):
        if sent:
            desk.launches.set_aside([file.id for file in desk.launches.files()])
        for name, data in sent:
            desk.launches.put(name, data, time.time())
        _state(desk, form)


def _changed_words(_count: int, _name: str) -> str:
    return "logs of launches changed"


def _state(desk: Desk, form: FormData) -> None:
    given = {str(k): v.strip()[:MOST_TEXT] for k, v in form.items() if isinstance(v, str)}
    keys = ("car", "surface", *OF_CORNERS, *(f"{part}.{of}" for part in OF_CORNERS for of in PARTS))
    plain = {key: given[key] for key in keys if given.get(key)}
    columns = {of: given[f"column.{of}"] for of in PARTS if given.get(f"column.{of}")}
    for file in desk.launches.files():
        desk.launches.state(file.id, SaidOfFile(plain, {}, columns))


def _of_all(found: LaunchLogs, part: str, of: str) -> str:
    """Return what is said of all shocks alike, empty for what is none."""
    return found.said.get(part, "") if of in CORNERS else ""


def question(desk: Desk) -> LearnQuestion:
    """Return what is asked of the logs that lie here, each of which holds a launch that can be read.

    Raises
    ------
    DynoanError
        If something of them must be said first, or said otherwise.
    """
    found = lying(desk)
    of_corners = {
        part: {of: text for of in PARTS if (text := found.said.get(f"{part}.{of}") or _of_all(found, part, of))}
        for part in OF_CORNERS
    }
    asked = LearnQuestion.asked(
        [_read(desk, file) for file in found.files], car=found.said.get("car", ""),
        surface=found.said.get("surface", ""), corner=found.chosen, scale=of_corners["scale"], zero=of_corners["zero"],
    )  # fmt: skip
    try:
        for log in asked.logs:
            learn_log(log, asked.hints)
    except DynoanError as error:
        if error.need in _WHERE:
            raise CallError(error.what, where=error.where, hint=_WHERE[error.need]) from None
        raise
    return asked
