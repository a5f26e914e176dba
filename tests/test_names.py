"""One name, one thing: no two public classes of one name in the packages."""

from __future__ import annotations

import ast
from collections import defaultdict

from tests.arrows import sources


def homes() -> dict[str, list[str]]:
    """Return the modules in which each public class is written, by its name."""
    found: dict[str, list[str]] = defaultdict(list)
    for module, path in sources().items():
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                found[node.name].append(module)
    return found


def test_no_two_public_classes_share_a_name():
    classes = homes()
    assert len(classes) > 200
    assert {name: where for name, where in classes.items() if len(where) > 1} == {}
