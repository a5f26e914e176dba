"""What a package outside the analysis takes for granted says its unit and its source, and is used."""

from __future__ import annotations

import re
from importlib import import_module

import pytest

from tests.arrows import ROOT

#: folders whose `assumptions.py` is held here; the analysis and the importers hold their own
FOLDERS = [
    str(file.parent.relative_to(ROOT))
    for package in ("model", "jobs")
    for file in sorted((ROOT / "dynoan" / package).rglob("assumptions.py"))
]
SOURCE = re.compile(r"\(.*\b\d{4}\)|\bjudged: \w+|\bmeasured on\b|\bnumerics: \w+|\bcommon practice, no source\b")


def said(folder: str) -> dict[str, str]:
    """What is written above each line of values, by that line's names."""
    found: dict[str, str] = {}
    above: list[str] = []
    for line in (ROOT / folder / "assumptions.py").read_text("utf-8").splitlines():
        if (names := re.match(r"([A-Z][A-Z0-9_, ]*) = ", line)) is not None:
            found |= dict.fromkeys(names[1].split(", "), " ".join(above))
        above = [*above, line.removeprefix("#: ")] if line.startswith("#: ") else []
    return found


@pytest.mark.parametrize("folder", FOLDERS)
def test_every_assumption_has_a_unit_and_a_source(folder):
    texts = said(folder)
    module = import_module(f"{folder.replace('/', '.')}.assumptions")
    assert set(texts) == {name for name in vars(module) if name.isupper()}
    assert {name for name, text in texts.items() if not re.match(r"\[[^\]]+\] \w+", text)} == set()
    assert {name for name, text in texts.items() if not SOURCE.search(text)} == set()


@pytest.mark.parametrize("folder", FOLDERS)
def test_every_assumption_decides_something(folder):
    code = " ".join(p.read_text("utf-8") for p in (ROOT / "dynoan").rglob("*.py") if p.name != "assumptions.py")
    assert {name for name in said(folder) if not re.search(rf"\b{name}\b", code)} == set()
