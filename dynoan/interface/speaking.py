"""What errors and warnings say to a script: parameters and methods where they speak of the command line."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import wraps
from typing import TYPE_CHECKING, Any, TypeVar

from dynoan.errors import DynoanError
from dynoan.show.text.restated import restated

if TYPE_CHECKING:
    from dynoan.units import Shown

F = TypeVar("F", bound=Callable[..., Any])
#: a command with what follows it: words in capitals stand for something, options begin with dashes
_COMMAND = re.compile(r"('?)\bdynoan ([a-z]+)((?: (?:[A-Z][A-Z-]*\b|--[a-z-]+))*)\1")
#: an option of a channel, such as --column force=NAME
_BY_CHANNEL = re.compile(r"--(column|unit) (\w+)=('[^']*'|[\w/]+)")
_OPTION = re.compile(r"--([a-z][a-z-]*)(?: ('[^']*'|\"[^\"]*\"|[A-Z]{2,}\b))?")
#: parameters that are named otherwise than the option
NAMES = {"column": "columns", "unit": "units", "library": "path"}


def spoken(text: str, units: Shown) -> str:
    """Return a text as a script's author can use it, in the units people are shown.

    >>> spoken("name one with --column force=NAME; see 'dynoan sweeps'", "metric")
    'name one with columns={"force": "NAME"}; see lib.sweeps()'
    >>> spoken("add it with dynoan edit ID --date", "metric")
    'add it with lib.edit(…)'
    """
    text = _COMMAND.sub(lambda m: f"lib.{m[2]}({'…' if m[3] else ''})", restated(text, units))
    text = _BY_CHANNEL.sub(lambda m: f'{_name(m[1])}={{"{m[2]}": "{_bare(m[3])}"}}', text)
    return _OPTION.sub(lambda m: f"{_name(m[1])}=" + (f'"{_bare(m[2])}"' if m[2] else "…"), text)


def _name(option: str) -> str:
    return NAMES.get(option, option.replace("-", "_"))


def _bare(text: str) -> str:
    return text.strip("'\"")


def to_scripts(method: F) -> F:
    """Return a method whose errors speak to a script's author, in the units of the library it belongs to."""

    @wraps(method)
    def asked(self: Any, *args: Any, **kwargs: Any) -> Any:
        try:
            return method(self, *args, **kwargs)
        except DynoanError as error:
            units = self._bench.library.units
            raise error.again(told=lambda text: spoken(text, units)).with_traceback(error.__traceback__) from None

    return asked  # type: ignore[return-value]
