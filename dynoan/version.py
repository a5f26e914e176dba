"""The version of this program. pyproject.toml names the same; a test holds them together."""

from __future__ import annotations

__version__ = "0.1.0"
