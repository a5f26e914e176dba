"""The house of the importers: which room may look into which, one name for one thing, thresholds in one file."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable
from functools import cache
from graphlib import TopologicalSorter
from importlib import import_module
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "importers").rglob("*.py"))
#: rooms in the order in which a file travels through them; each may look back only
ROOMS = (
    "assumptions",
    "words",
    "decoding",
    "grid",
    "header",
    "tables",
    "records",
    "stated",
    "parts",
    "channels",
    "sweeps",
    "workbooks",
)
HEAVY = {
    "pyarrow",
    "openpyxl",
    "pandas",
    "scipy",
    "h5py",
    "nptdms",
    "asammdf",
    "python_calamine",
    "html",
    "concurrent",
    "subprocess",
}
#: what few files need, and what needs much: the parser of pages, archives, processes, a dozen files for small tables
HEAVY_OF_OURS = {
    "importers.decoding.page_lines",
    "importers.records.hdf5_file",
    "importers.records.json_file",
    "importers.records.mat_file",
    "importers.records.mdf_file",
    "importers.records.numpy_file",
    "importers.records.tdms_file",
    "importers.tables.blocks",
    "importers.tables.plainer",
    "importers.workbooks",
}


@cache
def trees() -> dict[Path, ast.Module]:
    return {path: ast.parse(path.read_text("utf-8")) for path in FILES}


def name_of(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


NAMES = {name_of(path) for path in FILES}


def imports(tree: ast.AST) -> set[str]:
    """The modules of the importers that a tree imports, at its top or within functions."""
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            whole = {f"{node.module}.{alias.name}" for alias in node.names}
            found |= {name if name in NAMES else node.module for name in whole}
    return {name for name in found if name.split(".")[0] == "importers"}


def test_no_two_files_rely_on_one_another():
    graph = {name_of(path): imports(tree) for path, tree in trees().items()}
    assert len(list(TopologicalSorter(graph).static_order())) == len(FILES)


def looked_ahead(path: Path) -> set[str]:
    """The later rooms' modules that a file imports."""
    room = name_of(path).split(".")[1] if "." in name_of(path) else ""
    later = ROOMS[ROOMS.index(room) + 1 :] if room in ROOMS else ()
    return {name for name in imports(trees()[path]) if name.partition(".")[2].split(".")[0] in later}


def past_the_door(path: Path) -> set[str]:
    """What a file takes from inside another room; `words` and `assumptions` are many small rooms for all."""
    own = name_of(path).rpartition(".")[0]
    inside = {name for name in imports(trees()[path]) if name.count(".") > 1 and not name.startswith(own)}
    for_all = ("importers.words.", "importers.assumptions.", "importers.grid.cells")
    return {name for name in inside if not name.startswith(for_all)}


def light_within_functions(path: Path) -> set[str]:
    """What a file imports within functions though it is not heavy."""
    functions = [n for n in ast.walk(trees()[path]) if isinstance(n, ast.FunctionDef)]
    inner = [n for f in functions for n in ast.walk(f) if isinstance(n, ast.Import | ast.ImportFrom)]
    names = {(n.module or "") if isinstance(n, ast.ImportFrom) else n.names[0].name for n in inner}
    return {name.split(".")[0] for name in names - HEAVY_OF_OURS} - HEAVY


@pytest.mark.parametrize(
    "fault", [looked_ahead, past_the_door, light_within_functions], ids=lambda fault: fault.__name__
)
def test_no_file_has_the_fault(fault: Callable[[Path], set[str]]):
    assert {name_of(path): found for path in FILES if (found := fault(path))} == {}


def test_one_class_name_for_one_thing():
    ours = [n.name for tree in trees().values() for n in ast.walk(tree) if isinstance(n, ast.ClassDef)]
    assert len(ours) == len(set(ours))


def test_a_door_says_what_goes_in_what_comes_out_and_who_calls():
    for room in ROOMS[1:]:
        said = ast.get_docstring(trees()[ROOT / "importers" / room / "__init__.py"])
        assert re.search(r"\bIn goe?s?\b", said), room
        assert re.search(r"\bOut comes?\b", said), room
        assert "alled by" in said or "ask here" in said, room
        assert len(said.splitlines()) <= 8, room


ASSUMED = sorted((ROOT / "importers" / "assumptions").glob("[a-z]*.py"))
KINDS = re.compile(
    r"; (judged\b.*: \S+ \S+ |measured on |numerics: |common practice, no source$|by definition of the units$)"
)


def said_of_values() -> dict[str, str]:
    """What is written above each line of values, by that line."""
    found: dict[str, str] = {}
    for path in ASSUMED:
        above: list[str] = []
        for line in path.read_text("utf-8").splitlines():
            if re.match(r"[A-Z][A-Z0-9_, ]* = ", line):
                found[line] = " ".join(above)
            above = [*above, line.removeprefix("#: ")] if line.startswith("#: ") else []
    return found


def test_every_assumption_has_a_unit_a_use_and_a_source():
    values = said_of_values()
    assert len(values) > 80
    for value, said in values.items():
        unit, _, rest = said.removeprefix("[").partition("] ")
        assert said.startswith("["), value
        assert unit, value
        assert KINDS.search(rest), value
        assert len(rest.split(";")[0].split()) >= 3, value


def test_every_assumption_decides_something():
    names = {name for path in ASSUMED for name in vars(import_module(name_of(path))) if name.isupper()}
    used = " ".join(path.read_text("utf-8") for path in FILES if path.parent.name != "assumptions")
    assert {name for name in names if not re.search(rf"\b{name}\b", used)} == set()
    assert len({value.split(" = ")[0] for value in said_of_values()}) == len(said_of_values())


def test_what_is_late_is_right_and_no_room_compiles_while_it_is_imported():
    """A wrong pattern would be found out by whoever first brings such a file: all are compiled here."""
    late = [v for name in NAMES for v in vars(import_module(name)).values() if type(v).__name__ == "_Late"]
    assert len(late) > 100
    for one in late:
        assert one.flags == re.compile(one.pattern, one.flags).flags
    at_once = [
        f"{name_of(path)}:{node.lineno}"
        for path, tree in trees().items()
        for top in tree.body
        if not isinstance(top, (ast.FunctionDef, ast.ClassDef))
        for node in ast.walk(top)
        if isinstance(node, ast.Attribute) and node.attr == "compile"
    ]
    assert at_once == []
