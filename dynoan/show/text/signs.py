"""Differences with their sign and shares in percent, as people read them."""

from __future__ import annotations


def signed(value: float, digits: int = 0) -> str:
    """Return a number with its sign, what rounds to nothing without one.

    >>> signed(3.04, 1), signed(-0.04, 1), signed(-7.6)
    ('+3.0', '0.0', '-8')
    """
    text = f"{value:+.{digits}f}"
    return text[1:] if not float(text) else text


def percent(share: float) -> str:
    """Return a share in whole percent.

    >>> percent(0.374)
    '37 %'
    """
    return f"{100 * share:.0f} %"
