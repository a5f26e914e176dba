"""What a subject of the analysis takes for granted stands in one file, said in full, and is used."""

from __future__ import annotations

import re
from importlib import import_module
from pathlib import Path

import pytest

ANALYSIS = Path(__file__).parents[2] / "dynoan" / "analysis"
PACKAGES = ("knees", "fitting", "health", "trials")
#: where a number may come from: a work and its year, or one of these
SOURCE = re.compile(r"\([A-Z][^()]*, \d{4}\)|\bjudged\b|\bcommon practice, no source\b")
VALUE = re.compile(r"([A-Z][A-Z_0-9]*(?:, [A-Z][A-Z_0-9]*)*) = ")


def said(package: str) -> dict[str, str]:
    """Return what is written above each constant of a package's assumptions, by name."""
    found: dict[str, str] = {}
    above: list[str] = []
    for line in (ANALYSIS / package / "assumptions.py").read_text(encoding="utf-8").splitlines():
        if (value := VALUE.match(line)) is not None:
            found |= dict.fromkeys(value[1].split(", "), " ".join(above))
        above = [*above, line.removeprefix("#: ")] if line.startswith("#: ") else []
    return found


@pytest.mark.parametrize("package", PACKAGES)
def test_every_assumption_has_a_unit_and_a_source(package):
    texts = said(package)
    constants = {name for name in vars(import_module(f"dynoan.analysis.{package}.assumptions")) if name.isupper()}
    assert set(texts) == constants
    assert {name for name, text in texts.items() if not re.search(r"\[[^\]]+\]", text)} == set()
    assert {name for name, text in texts.items() if not SOURCE.search(text)} == set()


@pytest.mark.parametrize("package", PACKAGES)
def test_every_assumption_decides_something(package):
    code = " ".join(p.read_text(encoding="utf-8") for p in (ANALYSIS / package).glob("*.py") if p.stem != "assumptions")
    assert {name for name in said(package) if not re.search(rf"\b{name}\b", code)} == set()


@pytest.mark.parametrize("file", sorted(ANALYSIS.glob("*/assumptions.py")), ids=lambda file: file.parent.name)
def test_no_assumption_is_given_twice(file):
    """The later of two would quietly rule where the earlier one is meant."""
    lines = file.read_text(encoding="utf-8").splitlines()
    given = [name for line in lines if (value := VALUE.match(line)) for name in value[1].split(", ")]
    assert [name for name in set(given) if given.count(name) > 1] == []
