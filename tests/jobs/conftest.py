"""What the tests of jobs share."""

from __future__ import annotations

import pytest

from dynoan.library import Library


@pytest.fixture
def library(tmp_path):
    return Library.create(tmp_path / "lib")
