"""Regular expressions that are compiled when they are first asked: most files need less than half of them."""

from __future__ import annotations

import re
from typing import Any, AnyStr, Generic, cast


class _Late(Generic[AnyStr]):
    """Looks like what `re.compile` returns; what is asked of it once is as fast as there from then on."""

    def __init__(self, pattern: AnyStr, flags: int) -> None:
        self.pattern: AnyStr = pattern
        self._flags = flags

    def __getattr__(self, name: str) -> Any:
        if name == "_compiled":
            self._compiled: re.Pattern[AnyStr] = re.compile(self.pattern, self._flags)
            return self._compiled
        found = getattr(self._compiled, name)
        setattr(self, name, found)
        return found


def regex(pattern: AnyStr, flags: int = 0) -> re.Pattern[AnyStr]:
    """Return a pattern as `re.compile` does, compiled when it is first used; a wrong one is found out only then."""
    return cast("re.Pattern[AnyStr]", _Late(pattern, flags))
