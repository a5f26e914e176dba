"""From an answer to what is seen: the shell and the pages ask here whatever the job."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

import pytest

from dynoan.jobs.answering import Answer, PageAnswer
from dynoan.show import presenting


@dataclass(frozen=True, kw_only=True)
class Made(Answer):
    """An answer with a table, of a job nobody has."""

    job: ClassVar[str] = "no such job"
    table: tuple[Mapping[str, Any], ...] = ()

    def rows(self) -> Sequence[Mapping[str, Any]]:
        return self.table

    def to_dict(self) -> dict[str, Any]:
        return {"table": list(self.table)}


@dataclass(frozen=True, kw_only=True)
class Listed(Made):
    """One that says its columns beforehand."""

    columns: ClassVar[tuple[str, ...] | None] = ("a", "b")


def read(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


def test_csv_keeps_a_column_that_a_later_row_alone_has_as_the_frame_does():
    found = Made(table=({"a": 1}, {"a": 2, "b": "x,y"}))
    assert read(presenting.csv(found)) == [["a", "b"], ["1", ""], ["2", "x,y"]]
    assert list(found.to_frame().columns) == ["a", "b"]


def test_an_empty_table_keeps_the_columns_that_were_said():
    assert read(presenting.csv(Listed())) == [["a", "b"]]
    assert list(Listed().to_frame().columns) == ["a", "b"]
    assert list(Made().to_frame().columns) == []


def test_numbers_keep_every_digit():
    assert float(read(presenting.csv(Made(table=({"a": 0.1 + 0.2},))))[1][0]) == 0.1 + 0.2


def test_a_job_without_a_picture_says_so():
    with pytest.raises(NotImplementedError, match="no such job has no picture"):
        presenting.figure(Made())


def test_an_answer_no_door_has_opened_says_how_to_see_it(monkeypatch):
    monkeypatch.setattr(Answer, "presenter", None)  # as before any door of this process was opened
    for ask in (Made().plot, Made().sentences, PageAnswer().page):
        with pytest.raises(NotImplementedError, match=r"dynoan\.open"):
            ask()
    assert Made()._repr_html_() == "<pre>no such job</pre>"
