"""Each importer knows its own files and declines the others'; packages add importers by an entry point."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest

from dynoan import reading
from dynoan.errors import ReadError
from dynoan.installed import installed_points
from dynoan.model.importing import LayoutCard, ReadOptions, Verdict
from dynoan.reading import read, read_bytes
from importers import EXCEL, TEXT
from tests.importers.broken import BROKEN, file, rows

CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
FILES = sorted(p for p in CORPUS.iterdir() if not p.name.endswith(".truth.json"))


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.name)
def test_one_importer_takes_each_file(path):
    head = path.read_bytes()[: reading.HEAD]
    book = path.suffix == ".xlsx"
    assert EXCEL.recognises(head, path.name).yes is book
    assert TEXT.recognises(head, path.name).yes is not book


@pytest.mark.parametrize("kind", ["empty", "binary", "picture", "web page without a table", "prose"])
def test_foreign_files_are_declined_with_a_reason(kind):
    for importer in (TEXT, EXCEL):
        verdict = importer.recognises(BROKEN[kind][0], "file.bin")
        assert not verdict.yes
        assert verdict.reason


class Shouting:
    """An importer of a package, for files that begin with RIG!."""

    name = "shouting"

    def recognises(self, head: bytes, name: str) -> Verdict:
        return Verdict(head.startswith(b"RIG!"), "begins with RIG!")

    def read(self, data: bytes, name: str, options: ReadOptions):
        (sweep,) = TEXT.read(data.removeprefix(b"RIG!\n"), name, options)
        return (replace(sweep, source=replace(sweep.source, importer=self.name)),)


def other(name, load):
    """An entry point of another distribution."""
    return SimpleNamespace(name=name, load=load)


def add(monkeypatch, *points):
    """Have other distributions name importers too."""
    found = installed_points("dynoan.importers", "dynoan")._replace(others={point.name: point for point in points})
    monkeypatch.setattr(reading, "installed_points", lambda *asked: {("dynoan.importers", "dynoan"): found}[asked])
    reading.importers.cache_clear()


@pytest.fixture
def installed(monkeypatch):
    add(monkeypatch, other("shouting", Shouting), other("text", lambda: 1 / 0))
    yield
    reading.importers.cache_clear()


@pytest.mark.usefixtures("installed")
def test_an_installed_importer_comes_before_the_built_in_ones():
    (sweep,) = read_bytes(b"RIG!\n" + file(), "run.rig")
    assert sweep.source.importer == "shouting"
    (sweep,) = read_bytes(file(), "run.csv")
    assert sweep.source.importer == "text"


def test_an_importer_that_cannot_be_loaded_is_named(monkeypatch):
    add(monkeypatch, other("shouting", lambda: 1 / 0))
    with pytest.raises(ReadError, match="'shouting' cannot be loaded"):
        read_bytes(file(), "run.csv")
    reading.importers.cache_clear()


CARD = LayoutCard(
    name="old rig", header=("Pos", "Load", "Clk"), columns={"displacement": "Pos", "force": "Load", "time": "Clk"},
    units={"displacement": "mm", "force": "lbf", "time": "ms"}, positive="rebound", delimiter=";", decimal=",",
)  # fmt: skip


def stubborn(header: str) -> bytes:
    form = "{t:.3f};{x:.3f};{f:.3f}"
    body = [r.replace(".", ",") for r in rows(form, t=1000 * __import__("numpy").arange(400) / 200)]
    return file(header, body)


def test_a_card_says_what_the_file_does_not():
    (sweep,) = read_bytes(stubborn("Clk;Pos;Load"), "run.txt", ReadOptions(layouts=(CARD,)))
    assert sweep.source.importer == "old rig"
    assert {c: d.unit for c, d in sweep.decisions.items()} == {"displacement": "mm", "force": "lbf", "time": "ms"}
    assert sweep.decisions["force"].sign == -1
    assert sweep.rate == pytest.approx(200)


def test_a_card_whose_header_does_not_match_is_left_alone():
    with pytest.raises(ReadError, match="unit"):
        read_bytes(stubborn("Time;Pos;Load"), "run.txt", ReadOptions(layouts=(CARD,)))


def test_what_the_user_states_wins_over_the_card():
    options = ReadOptions(layouts=(CARD,), units={"force": "N"}, positive="compression")
    (sweep,) = read_bytes(stubborn("Clk;Pos;Load"), "run.txt", options)
    assert sweep.decisions["force"].unit == "N"
    assert sweep.decisions["force"].sign == 1


@pytest.mark.parametrize("cut", [40, 400, 4000])
def test_a_damaged_workbook_is_refused(cut):
    data = (CORPUS / "workbook_sheets.xlsx").read_bytes()
    with pytest.raises(ReadError, match=r"book\.xlsx.*damaged"):
        read_bytes(data[:cut] + bytes(60), "book.xlsx")


def test_sheets_are_parts_of_the_source():
    sweeps = read(CORPUS / "workbook_sheets.xlsx")
    assert [s.source.part for s in sweeps] == ["C4 R8", "C5 R8"]
    assert {s.source.name for s in sweeps} == {"workbook_sheets.xlsx"}


def test_what_the_user_says_of_the_setting_wins_and_contradictions_warn():
    options = ReadOptions(shock="RL-09", clicks={"lsc": 3})
    (sweep,) = read_bytes(b"Shock: FL-01\nLSC 6 LSR 8\n" + file(), "run.csv", options)
    assert sweep.shock == "RL-09"
    assert sweep.clicks == {"lsc": 3, "lsr": 8}
    assert [w for w in sweep.warnings if "you were believed" in w] == [
        "the file says shock FL-01, you say RL-09: you were believed",
        "the file says lsc=6, you say lsc=3: you were believed",
    ]
