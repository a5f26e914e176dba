"""To come."""

from typing import Any

SHOWN: list[Any] = []
DONE: list[Any] = []
