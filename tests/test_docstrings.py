"""Public functions of the core say what they return and in which unit, and which errors they raise themselves."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from tests.arrows import sources

PACKAGES = ("dynoan.analysis", "dynoan.jobs", "dynoan.model")
#: return annotations that are numbers and so have a unit, "[1]" where they have none
NUMBERS = {"float", "FloatArray", "NDArray", "tuple[float, float]", "tuple[FloatArray, FloatArray]",
           "tuple[FloatArray, FloatArray, FloatArray]", "float | None", "FloatArray | None"}  # fmt: skip
UNIT = re.compile(r"\[[^\]]+\]")
SAYS = re.compile(r"\b(?:[Rr]eturns?|[Yy]ield|[Rr]aise)\b")


def public() -> Iterator[tuple[str, ast.FunctionDef]]:
    for module, path in sources().items():
        if module.startswith(PACKAGES):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            classes = [n for n in ast.walk(tree) if isinstance(n, ast.ClassDef) and not n.name.startswith("_")]
            for scope in [tree, *classes]:
                for node in scope.body:
                    if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                        yield f"{module}:{getattr(scope, 'name', '')}.{node.name}".replace(":.", ":"), node


FUNCTIONS = dict(public())


def is_property(node: ast.FunctionDef) -> bool:
    return any("property" in ast.dump(d) for d in node.decorator_list)


def test_there_are_functions():
    assert len(FUNCTIONS) > 300


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_public_function_says_what_it_gives(name):
    node = FUNCTIONS[name]
    text = ast.get_docstring(node) or ""
    assert text, "no docstring"
    gives = ast.unparse(node.returns) if node.returns is not None else ""
    if gives not in ("", "None") and not is_property(node):
        assert SAYS.search(text), f"gives {gives}, but does not say what: {text!r}"
    if gives in NUMBERS:
        assert UNIT.search(text), f"gives {gives}, but no unit in brackets: {text!r}"


def own_errors(node: ast.FunctionDef) -> set[str]:
    found = set()
    for inner in ast.walk(node):
        if isinstance(inner, ast.Raise) and isinstance(inner.exc, ast.Call) and isinstance(inner.exc.func, ast.Name):
            found.add(inner.exc.func.id)
    return {name for name in found if not name.startswith("_")} - {"NotImplementedError", "AttributeError"}


@pytest.mark.parametrize("name", [n for n, node in FUNCTIONS.items() if own_errors(node)])
def test_a_public_function_names_the_errors_it_raises(name):
    text = ast.get_docstring(FUNCTIONS[name]) or ""
    missing = {error for error in own_errors(FUNCTIONS[name]) if error not in text}
    assert not missing, f"raises {missing} without a word"
