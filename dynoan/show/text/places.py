"""Where on the car something is, as people say it."""

from __future__ import annotations

import re

from dynoan.model.car import CORNER_NAMES

_CORNER = re.compile(rf"^((?:car [^:]+: )?)({'|'.join(CORNER_NAMES)}): ")


def placed(text: str) -> str:
    """Return a note with the corner it begins with written out.

    >>> placed("fr: FR-02 was never tested"), placed("car kestrel: rl: a guess")
    ('front right: FR-02 was never tested', 'car kestrel: rear left: a guess')
    """
    return _CORNER.sub(lambda m: f"{m[1]}{CORNER_NAMES[m[2]]}: ", text)
