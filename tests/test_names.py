"""One name, one thing: no two public classes of one name in the packages."""

from __future__ import annotations

from collections import defaultdict

from tests.arrows import read, sources


def homes() -> dict[str, list[str]]:
    """Return the modules in which each public class is written, by its name."""
    found: dict[str, list[str]] = defaultdict(list)
    for module, path in sources().items():
        for name in read(path).classes:
            found[name].append(module)
    return found


def test_no_two_public_classes_share_a_name():
    classes = homes()
    assert len(classes) > 200
    assert {name: where for name, where in classes.items() if len(where) > 1} == {}
