"""Cases of one kind: the first few are tried in every run, the rest in the thorough one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest


def often(count: int, cases: Iterable[Any]) -> list[Any]:
    """Return cases of a test with one argument, all but the first `count` marked thorough."""
    return [case if i < count else pytest.param(case, marks=pytest.mark.thorough) for i, case in enumerate(cases)]


def often_together(count: int, cases: Iterable[tuple[Any, ...]]) -> list[Any]:
    """Return cases of a test with several arguments, all but the first `count` marked thorough."""
    return [case if i < count else pytest.param(*case, marks=pytest.mark.thorough) for i, case in enumerate(cases)]
