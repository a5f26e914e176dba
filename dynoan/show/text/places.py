"""Where on the car something is, as people say it."""

from __future__ import annotations

import re

from dynoan.model.car import CORNER_NAMES

_ONE = f"(?:{'|'.join(CORNER_NAMES)})"
_CORNERS = re.compile(rf"^((?:car [^:]+: )?)({_ONE}(?:, {_ONE})*): ")


def placed(text: str) -> str:
    """Return a note with the corners it begins with written out.

    >>> placed("fr: FR-02 was never tested"), placed("car kestrel: rl: a guess")
    ('front right: FR-02 was never tested', 'car kestrel: rear left: a guess')
    >>> placed("fl, fr: clicks are not said"), placed("fl, fr, rl, rr: clicks are not said")
    ('front left, front right: clicks are not said', 'all corners: clicks are not said')
    """
    return _CORNERS.sub(lambda m: f"{m[1]}{_in_words(m[2].split(', '))}: ", text)


def _in_words(names: list[str]) -> str:
    return "all corners" if set(names) == set(CORNER_NAMES) else ", ".join(CORNER_NAMES[name] for name in names)
