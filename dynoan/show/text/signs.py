"""Differences with their sign, as people read them."""

from __future__ import annotations


def signed(value: float, digits: int = 0) -> str:
    """Return a number with its sign, what rounds to nothing without one.

    >>> signed(3.04, 1), signed(-0.04, 1), signed(-7.6)
    ('+3.0', '0.0', '-8')
    """
    text = f"{value:+.{digits}f}"
    return text[1:] if not float(text) else text
