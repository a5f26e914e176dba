"""Public functions of the core say what they return and in which unit, and which errors they raise themselves."""

from __future__ import annotations

import ast
import re
from functools import cache

from tests.arrows import sources

PACKAGES = ("dynoan.analysis", "dynoan.jobs", "dynoan.model")
#: return annotations with numbers in them, which have a unit, "[1]" where they have none
NUMBERS = re.compile(r"\b(?:float|FloatArray|NDArray)\b")
UNIT = re.compile(r"\[[^\]]+\]")
SAYS = re.compile(r"\b(?:[Rr]eturns?|[Yy]ield|[Rr]aise)\b")


MODULES = {module: path for module, path in sources().items() if module.startswith(PACKAGES)}


@cache
def public(module: str) -> dict[str, ast.FunctionDef]:
    """Return the public functions of a module, methods of its public classes among them."""
    tree = ast.parse(MODULES[module].read_text(encoding="utf-8"))
    classes = [n for n in ast.walk(tree) if isinstance(n, ast.ClassDef) and not n.name.startswith("_")]
    return {
        f"{getattr(scope, 'name', '')}.{node.name}".lstrip("."): node
        for scope in [tree, *classes] for node in scope.body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    }  # fmt: skip


def is_property(node: ast.FunctionDef) -> bool:
    return any("property" in ast.dump(d) for d in node.decorator_list)


def lacking(node: ast.FunctionDef) -> str:
    """Return what a docstring lacks of what its function gives, empty where nothing."""
    text = ast.get_docstring(node) or ""
    if not text:
        return "no docstring"
    gives = ast.unparse(node.returns) if node.returns is not None else ""
    if gives not in ("", "None") and not is_property(node) and not SAYS.search(text):
        return f"gives {gives}, but does not say what: {text!r}"
    if NUMBERS.search(gives) and "Callable" not in gives and not UNIT.search(text):
        return f"gives {gives}, but no unit in brackets: {text!r}"
    return ""


def own_errors(node: ast.FunctionDef) -> set[str]:
    found = set()
    for inner in ast.walk(node):
        if isinstance(inner, ast.Raise) and isinstance(inner.exc, ast.Call) and isinstance(inner.exc.func, ast.Name):
            found.add(inner.exc.func.id)
    # What a function gives to be raised is named by its own annotation.
    return {name for name in found if name[0].isupper()} - {"NotImplementedError", "AttributeError"}


def unsaid(node: ast.FunctionDef) -> set[str]:
    text = ast.get_docstring(node) or ""
    return {error for error in own_errors(node) if error not in text}


def test_there_are_functions():
    assert sum(len(public(module)) for module in MODULES) > 300


def everywhere(fault):
    """Return what a rule finds in the public functions of all modules, by module and name."""
    found = {f"{module}.{name}": fault(node) for module in MODULES for name, node in public(module).items()}
    return {name: what for name, what in found.items() if what}


def test_public_functions_say_what_they_give():
    assert everywhere(lacking) == {}


def test_public_functions_name_the_errors_they_raise():
    assert everywhere(unsaid) == {}


def test_what_is_lacking_is_seen():
    def of(source: str) -> ast.FunctionDef:
        (node,) = ast.parse(source).body
        assert isinstance(node, ast.FunctionDef)
        return node

    assert lacking(of("def f() -> float: pass")) == "no docstring"
    assert "does not say what" in lacking(of("def f() -> int:\n 'A number.'"))
    assert "no unit" in lacking(of("def f() -> float:\n 'Return a length.'"))
    assert lacking(of("def f() -> float:\n 'Return a length. [m]'")) == ""
    assert unsaid(of("def f():\n 'Do it.'\n raise FitError('x')")) == {"FitError"}
    assert unsaid(of("def f():\n 'Do it.'\n raise fault_of('x')")) == set()
