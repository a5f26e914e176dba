"""Curves of the files on the table, fitted before anybody keeps them: each process takes the next once it is free."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from threading import Condition
from typing import TYPE_CHECKING

from dynoan.errors import DynoanError
from dynoan.window.sharing import RestingWorkers, beside

if TYPE_CHECKING:
    from dynoan.model.sweep import Sweep
    from dynoan.window.at_hand import LibraryAtHand
    from dynoan.window.dropped import Dropped
    from dynoan.window.dropped_file import DroppedFile
    from dynoan.window.working import Work
    from dynoan.workbench import Workbench
    from dynoan.workbench.fitting_jobs import Progress

AHEAD = 60  #: dropped files whose curves are fitted before anybody keeps them: some 15 s of work for two cores
A_GLANCE = 0.1  #: after which it is seen that another file was laid on the table while others are fitted [s]


class Waiting:
    """The files on the table that nobody has taken to fit; several threads take from it."""

    def __init__(self, dropped: Dropped) -> None:
        self._dropped = dropped
        self._taken: set[str] = set()
        self._busy = 0
        self._changed = Condition()
        self._of_setting: dict[str, list[DroppedFile]] = defaultdict(list)

    @property
    def progress(self) -> tuple[int, int]:
        """How many are done, and how many were taken."""
        with self._changed:
            return len(self._taken) - self._busy, len(self._taken)

    def take(self, stopped: Callable[[], bool]) -> DroppedFile | None:
        """Return the next file; where none is there wait for one as long as others are fitted. None at the end."""
        with self._changed:
            while len(self._taken) < AHEAD and not stopped():
                for file in self._dropped.files():
                    if repr(file) not in self._taken:
                        self._taken.add(repr(file))
                        self._busy += 1
                        return file
                if not self._busy:
                    break
                self._changed.wait(A_GLANCE)
            return None

    def give_back(self) -> None:
        """Tell that a file that was taken is done."""
        with self._changed:
            self._busy -= 1
            self._changed.notify_all()

    def of_same_setting(self, sweep: Sweep, file: DroppedFile) -> list[DroppedFile]:
        """Return the files taken before with runs of a sweep's setting: they make one curve. The file is noted."""
        with self._changed:
            others = [other for other in self._of_setting[sweep.setting_text] if other.id != file.id]
            self._of_setting[sweep.setting_text] = [*others, file]
            return others


@dataclass(frozen=True)
class _Table:
    """What fits the files, where they lie, and which of them nobody has taken."""

    library: LibraryAtHand
    dropped: Dropped
    waiting: Waiting

    def sweeps_of(self, file: DroppedFile) -> list[tuple[Sweep, bytes]]:
        with self.library.bench() as bench:
            looked = self.dropped.look(bench, file)
        return [(found.sweep, looked.question.brought.data) for found in looked.sweeps]


def fit_table(library: LibraryAtHand, dropped: Dropped, workers: RestingWorkers, work: Work) -> None:
    """Fit the curves of what lies on the table, and of what is laid there meanwhile."""
    table = _Table(library, dropped, Waiting(dropped))
    with workers.at_hand():
        parts = {str(i): partial(_take_turns, table, work) for i in range(workers.workers)}
        beside(work, parts, at_once=len(parts))


def _take_turns(table: _Table, work: Work, _: Progress) -> None:
    bench, waiting = table.library.own_bench(work, tells=False), table.waiting
    while (file := waiting.take(work.stopping.is_set)) is not None:
        try:
            _fit(table, bench, file)
        finally:
            waiting.give_back()
        work.progress("fitting curves", *waiting.progress)


def _fit(table: _Table, bench: Workbench, file: DroppedFile) -> None:
    coming = table.sweeps_of(file)
    together = {other.id: other for sweep, _ in coming for other in table.waiting.of_same_setting(sweep, file)}
    settings = {sweep.setting_text for sweep, _ in coming}
    for other in together.values():
        coming += [(sweep, data) for sweep, data in table.sweeps_of(other) if sweep.setting_text in settings]
    try:
        bench.fit_ahead(coming)
    except DynoanError:  # what cannot be fitted says so once it is kept; here it hides no other
        for alone in coming:
            with suppress(DynoanError):
                bench.fit_ahead([alone])
