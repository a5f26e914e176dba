"""Which file imports which, read from the sources: at the top, inside functions, and by `import_module`."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[1]
PACKAGES = ("dynoan", "importers")


@dataclass(frozen=True)
class Import:
    """One import: of what, in which line, and whether only the type checker sees it."""

    name: str  #: dotted, as far as it is known before running
    line: int
    types_only: bool = False


@cache
def sources() -> dict[str, Path]:
    """Return every module of the packages by its dotted name."""
    found = {}
    for package in PACKAGES:
        for path in sorted((ROOT / package).rglob("*.py")):
            parts = path.relative_to(ROOT).with_suffix("").parts
            found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


@dataclass(frozen=True)
class Read:
    """What a file holds that tests ask for: to take all files apart takes two seconds."""

    imports: tuple[Import, ...]  #: wherever they stand
    classes: tuple[str, ...]  #: public ones


def imports(path: Path) -> tuple[Import, ...]:
    """Return all imports of a file, wherever they stand."""
    return read(path).imports


@cache
def read(path: Path) -> Read:
    """Return what a file holds."""
    nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    guarded = {
        id(inner)
        for node in nodes
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)
        for statement in node.body
        for inner in ast.walk(statement)
    }
    return Read(
        tuple(Import(name, node.lineno, id(node) in guarded) for node in nodes for name in _named(node)),
        tuple(node.name for node in nodes if isinstance(node, ast.ClassDef) and not node.name.startswith("_")),
    )


def _named(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom):
        assert node.level == 0, "relative imports hide where an arrow ends"
        yield from (f"{node.module}.{alias.name}" for alias in node.names)
    elif isinstance(node, ast.Call) and _called(node.func) in {"import_module", "__import__"} and node.args:
        yield _prefix(node.args[0])


def _called(function: ast.expr) -> str:
    return function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")


def _prefix(argument: ast.expr) -> str:
    """Return what is known of a module's name: all of a text, the text before the first value of an f-string."""
    if isinstance(argument, ast.Constant):
        return str(argument.value)
    if isinstance(argument, ast.JoinedStr) and argument.values and isinstance(argument.values[0], ast.Constant):
        return str(argument.values[0].value).rstrip(".")
    return "?"


def target(name: str, known: dict[str, Path]) -> str | None:
    """Return the module of ours that an imported name lies in; None where it is none of ours."""
    parts = name.split(".")
    if parts[0] not in PACKAGES:
        return None
    for end in range(len(parts), 0, -1):
        if ".".join(parts[:end]) in known:
            return ".".join(parts[:end])
    return parts[0]


@cache
def arrows(*, types: bool) -> dict[str, set[str]]:
    """Return for each module the modules of ours it imports; with `types` also what only the type checker sees."""
    known = sources()
    found: dict[str, set[str]] = {}
    for module, path in known.items():
        ends = {target(i.name, known) for i in imports(path) if types or not i.types_only}
        found[module] = {end for end in ends if end is not None and end != module}
    return found


def with_fronts(graph: dict[str, set[str]]) -> dict[str, set[str]]:
    """Return the arrows with those to fronts of packages: to import a part from outside runs ``__init__`` first."""
    known = sources()
    found = {}
    for module, ends in graph.items():
        parts = [end.split(".") for end in ends]
        fronts = {".".join(p[:n]) for p in parts for n in range(2, len(p))} & set(known)
        found[module] = ends | {f for f in fronts if module != f and not module.startswith(f + ".")}
    return found


def circles(graph: dict[str, set[str]]) -> list[list[str]]:
    """Return the groups of modules that import one another in a circle (Tarjan's strongly connected components)."""
    index: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []
    found: list[list[str]] = []

    def visit(node: str) -> None:
        index[node] = low[node] = len(index)
        stack.append(node)
        for end in sorted(graph.get(node, ())):
            if end not in index:
                visit(end)
                low[node] = min(low[node], low[end])
            elif end in stack:
                low[node] = min(low[node], index[end])
        if low[node] == index[node]:
            group = []
            while True:
                group.append(stack.pop())
                if group[-1] == node:
                    break
            if len(group) > 1:
                found.append(sorted(group))

    for node in sorted(graph):
        if node not in index:
            visit(node)
    return found
