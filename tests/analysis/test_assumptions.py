"""What a subject of the analysis takes for granted stands in one file, said in full, and is used."""

from __future__ import annotations

import ast
import re
from importlib import import_module
from pathlib import Path

import pytest

from dynoan import units

ANALYSIS = Path(__file__).parents[2] / "dynoan" / "analysis"
FILES = sorted([*ANALYSIS.rglob("*assumptions.py"), *ANALYSIS.rglob("assumptions/[a-z]*.py")])
#: where a number may come from: a work and its year, or one of these
SOURCE = re.compile(
    r"\([A-Z][^()]*, \d{4}\)|\b(judged|common practice, no source|measured on|numerics)\b", re.IGNORECASE
)
VALUE = re.compile(r"([A-Z][A-Z_0-9]*(?:(?:, | = )[A-Z][A-Z_0-9]*)*)(?:: [^=]+)? = ")


def names(line: str) -> list[str]:
    """Return the constants that a line of the source gives a value to."""
    value = VALUE.match(line)
    return re.split(", | = ", value[1]) if value is not None else []


def said(text: str) -> dict[str, str]:
    """Return what is written above each constant of a source, by name; lines that follow at once share it."""
    found: dict[str, str] = {}
    above: list[str] = []
    given = False
    for line in text.splitlines():
        if line.startswith("#: "):
            above, given = [*([] if given else above), line.removeprefix("#: ")], False
        elif named := names(line):
            found |= dict.fromkeys(named, " ".join([*above, line.partition("  #: ")[2]]).strip())
            given = True
        elif not line or line.startswith("# "):
            above = []
    return found


def subject(file: Path) -> str:
    """Return which package of the analysis a file of assumptions belongs to."""
    return file.relative_to(ANALYSIS).parts[0]


def of(packages: tuple[str, ...]) -> list[Path]:
    return [file for file in FILES if subject(file) in packages]


def called(file: Path) -> str:
    return file.relative_to(ANALYSIS).with_suffix("").as_posix()


def module(file: Path) -> str:
    return ".".join(("dynoan", "analysis", *file.relative_to(ANALYSIS).with_suffix("").parts))


@pytest.mark.parametrize("file", FILES, ids=called)
def test_every_assumption_has_a_unit_and_a_source(file):
    texts = said(file.read_text(encoding="utf-8"))
    constants = {name for name in vars(import_module(module(file))) if name.isupper() and name[0] != "_"}
    assert constants
    assert set(texts) >= constants - set(vars(units))  # what is only imported is no assumption
    assert {name for name, text in texts.items() if not re.search(r"\[[^\]]+\]", text)} == set()
    assert {name for name, text in texts.items() if not SOURCE.search(text)} == set()


def test_an_assumption_without_a_source_is_seen():
    texts = said(
        "#: judged [1]\nA = 1.0\n\nB: float = 2.0\n#: of a shock [m]\nC, D = 3.0, 4.0\nE = F = 5.0\n\nG = 6.0  #: [s]\n"
    )
    assert texts == {"A": "judged [1]", "B": "", **dict.fromkeys("CDEF", "of a shock [m]"), "G": "[s]"}


def decimals(text: str) -> set[str]:
    """Return the public constants of a source whose value holds a number with decimals."""
    given = [node for node in ast.parse(text).body if isinstance(node, ast.Assign | ast.AnnAssign) and node.value]
    return {
        name
        for node in given if any(isinstance(n, ast.Constant) and isinstance(n.value, float) for n in ast.walk(node))
        for name in names(ast.unparse(node)) if name[0] != "_"
    }  # fmt: skip


def test_a_number_beside_the_code_says_its_unit_and_its_source_too():
    """What one module alone asks for may stand in it; places, counts and layouts are whole numbers."""
    unsaid = {}
    layouts = set(ANALYSIS.rglob("layout.py"))
    for file in set(ANALYSIS.rglob("*.py")) - set(FILES) - layouts:
        text = file.read_text(encoding="utf-8")
        above = {name: said(text)[name] for name in decimals(text)}
        lacking = {n for n, told in above.items() if not re.search(r"\[[^\]]+\]", told) or not SOURCE.search(told)}
        unsaid |= {called(file): lacking} if lacking else {}
    assert unsaid == {}


def uses(package: str) -> str:
    """Return the code of a package and of all that asks for its assumptions."""
    asks = re.compile(rf"dynoan\.analysis\.{package}(\..*assumptions\b.* import|.* import assumptions)")
    texts = ((p, p.read_text(encoding="utf-8")) for p in ANALYSIS.parent.rglob("*.py") if p not in FILES)
    return " ".join(text for p, text in texts if ANALYSIS / package in p.parents or asks.search(text))


@pytest.mark.parametrize("package", sorted({subject(file) for file in FILES}))
def test_every_assumption_decides_something(package):
    files = [file.read_text(encoding="utf-8") for file in of((package,))]
    values = [line.partition(" = ")[2] for text in files for line in text.splitlines()]
    code = " ".join([uses(package), *values])
    own = [name for text in files for name in said(text)]
    assert {name for name in own if not re.search(rf"\b{name}\b", code)} == set()


@pytest.mark.parametrize("package", sorted({subject(file) for file in FILES}))
def test_no_assumption_is_given_twice(package):
    """The later of two would quietly rule where the earlier one is meant."""
    given = [
        n for file in of((package,)) for line in file.read_text(encoding="utf-8").splitlines() for n in names(line)
    ]
    assert [name for name in set(given) if given.count(name) > 1] == []
