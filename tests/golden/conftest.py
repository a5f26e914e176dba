"""The grounds, made once a session and worker."""

from __future__ import annotations

import pytest

from tests.golden.grounds import Grounds


@pytest.fixture(scope="session")
def grounds(tmp_path_factory: pytest.TempPathFactory) -> Grounds:
    return Grounds(tmp_path_factory.mktemp("golden"), tmp_path_factory.getbasetemp())
