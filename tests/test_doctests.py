"""The examples in docstrings, run as they stand, in a folder that holds the demo's library as `demo`."""

from __future__ import annotations

import doctest
import pkgutil
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

import pytest

import dynoan
from tests.golden.grounds import made_demo
from tests.once import copied

MODULES = [m.name for m in pkgutil.walk_packages(dynoan.__path__, "dynoan.") if not m.name.endswith("__main__")]


@pytest.fixture(scope="module")
def demo_folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("doctests")
    copied(tmp_path_factory.getbasetemp(), "demo", made_demo, folder / "demo")
    return folder


def examples(module: str) -> list[doctest.DocTest]:
    return [t for t in doctest.DocTestFinder(exclude_empty=True).find(import_module(module)) if t.examples]


def written(module: str) -> bool:
    """Return whether a module's text holds an example, without importing it."""
    found = find_spec(module)
    assert found is not None
    assert found.origin is not None
    return ">>>" in Path(found.origin).read_text(encoding="utf-8")


WITH_EXAMPLES = [name for name in MODULES if written(name)]
NEEDS_LIBRARY = [name for name in WITH_EXAMPLES if name.startswith("dynoan.interface")]


@pytest.mark.parametrize("name", [m for m in WITH_EXAMPLES if m not in NEEDS_LIBRARY])
def test_examples_of_a_module(name):
    held(name)


@pytest.mark.parametrize("name", NEEDS_LIBRARY)
def test_examples_of_the_python_door(name, demo_folder, monkeypatch):
    monkeypatch.chdir(demo_folder)
    held(name)


def held(name: str) -> None:
    runner = doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS)
    for test in examples(name):
        test.globs |= {"dynoan": dynoan}
        runner.run(test)
    assert runner.failures == 0


def test_there_are_examples():
    assert sum(len(examples(name)) for name in MODULES) > 5
