"""Files of rigs the importer never saw: odd in the ways of the trade, from a damper known by a formula."""

from __future__ import annotations

import inspect
from collections.abc import Callable

from tests.importers.strangers import fifth, fourth, odd, second, seventh, sixth, tables, third, traces
from tests.importers.strangers.making import File

MAKERS: dict[str, Callable[[], File]] = {
    name: maker
    for module in (traces, tables, odd, second, third, fourth, fifth, sixth, seventh)
    for name, maker in inspect.getmembers(module, inspect.isfunction)
    if maker.__module__ == module.__name__ and not name.startswith("_")
}
