"""The grounds, made once a session and worker."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.golden.commands import LINES
from tests.golden.grounds import Grounds

HERE = Path(__file__).parent
ORDER = {line.slug: n for n, line in enumerate(LINES)}
LAST = ("test_golden_terminal",)  #: looks at what another asked for


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let what one line says as JSON, as text and in a terminal be asked by one worker: it is reckoned once then."""
    places = [n for n, item in enumerate(items) if item.path.parent == HERE and _slug(item)]
    ordered = sorted((items[n] for n in places), key=lambda item: (ORDER[_slug(item)], item.path.stem in LAST))
    for n, item in zip(places, ordered, strict=True):
        items[n] = item


def _slug(item: pytest.Item) -> str:
    """Return the line that a test holds; of none where it shares more than the grounds with its neighbours."""
    given = item.callspec.params if isinstance(item, pytest.Function) and hasattr(item, "callspec") else {}
    return given["line"].slug if "line" in given and "folders" not in item.fixturenames else ""


@pytest.fixture(scope="session")
def grounds(tmp_path_factory: pytest.TempPathFactory) -> Grounds:
    return Grounds(tmp_path_factory.mktemp("golden"), tmp_path_factory.getbasetemp())
