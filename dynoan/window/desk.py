"""What all screens of the window share: the library, what is told, what can be taken back, what is fitted beside."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager, nullcontext, suppress
from dataclasses import dataclass
from functools import partial
from typing import Any

from dynoan.errors import CallError, DynoanError
from dynoan.jobs.answering import Answer
from dynoan.jobs.undo import Contents, LibraryChange, contents, marks, take_back
from dynoan.library import Library, files, marker
from dynoan.window.at_hand import LibraryAtHand
from dynoan.window.cards import Cards
from dynoan.window.dropped import Dropped
from dynoan.window.fitting_ahead import fit_table
from dynoan.window.pages_under_way import PagesUnderWay
from dynoan.window.sharing import RestingWorkers, beside
from dynoan.window.undo_shelf import Undoable, UndoShelf
from dynoan.window.working import Work, Works
from dynoan.workbench import Workbench
from dynoan.workbench.fitting_jobs import Progress

AT_ONCE = 300  #: sweeps that are fitted unasked when a library is opened: some 20 s of work
A_MOMENT = 0.3  #: until what is loaded ahead begins: the page comes first [s]
TOLD = 4  #: packs that are named while they are fitted; of more their number is told
MANY = 10  #: sweeps from which it is worth while to start worker processes, as `fitting_jobs` has it
#: what a curve needs, down to what a worker would load with the first one; what maps need comes after curves
_OF_WORKERS = (
    "dynoan.workbench.fitting_jobs", "dynoan.library.sweep_file", "dynoan.analysis.fitting.fit",
    "dynoan.analysis.health.session", "h5py",
)  # fmt: skip


#: what is done after a change was taken back, from what lay there and what was noted for it
Then = Callable[["Desk", Contents, Any], None]


@dataclass(frozen=True)
class Said:
    """A line told on the next page, and whether it can be taken back."""

    text: str
    wrong: bool = False
    undo: bool = False


class Desk(LibraryAtHand):
    """What all screens share."""

    def __init__(self, library: Library) -> None:
        from dynoan.show import presenting

        Answer.presenter = presenting
        super().__init__(library)
        self.works = Works()
        self.workers = RestingWorkers(*_OF_WORKERS)
        self.dropped = Dropped(library.path)
        self.cards = Cards(self.dropped)
        self.logs = Dropped(library.path, "logs")  #: of travel, for reports
        self.launches = Dropped(library.path, "launches")  #: logs of them, to learn from
        self._shelf = UndoShelf(library.path)
        self.thens: dict[str, Then] = {}
        self._said: list[Said] = []
        self._packs_of: dict[int, frozenset[str]] = {}  #: whose click maps a work makes
        self.halted: Work | None = None  #: what somebody stopped: it is begun anew when he says so
        self._loading: threading.Timer | None = None  #: of what reads and fits files
        self._pages = PagesUnderWay()

    # What is said, and taken back

    def say(self, text: str, *, wrong: bool = False, undo: bool = False) -> None:
        """Tell something on the next page that is shown."""
        self._said.append(Said(text, wrong, undo))

    def heard(self) -> list[Said]:
        """Return what is to be told, once."""
        said, self._said = self._said, []
        return said

    @contextmanager
    def change(
        self, words: str | Callable[[], str], places: Iterable[str] = (), then: str = "",
        facts: Mapping[str, Any] | None = None,
    ) -> Iterator[set[str]]:  # fmt: skip
        """Remember what lies at some places before and after a change; new files may be added to the set on the way.

        `words` that only the end of it can tell are asked for then. `then` names one of `thens`, called with `facts`
        after it was taken back; they may be filled on the way too.
        """
        with self._lock:
            touched = set(places)
            before = contents(self.library, touched)
            made: set[str] = set()
            try:
                yield made
            finally:
                after = contents(self.library, touched | made)
                old = before | dict.fromkeys(made - touched)
                differing = [p for p in after if after[p] != old[p]]
                if differing or facts:
                    now, was = marks({p: after[p] for p in differing}), {p: old[p] for p in differing}
                    told = words if isinstance(words, str) else words()
                    self._shelf.put(Undoable(LibraryChange(told, was, now), then, facts))
                self.halted = None
                self._bench.forget()

    def note_change(self, words: str, then: str, facts: Mapping[str, Any]) -> None:
        """Remember a change that touched no file of the library: one of `thens` takes it back, from `facts`."""
        with self._lock:
            self._shelf.put(Undoable(LibraryChange(words, {}, {}), then, facts))

    def write(self, place: str, data: bytes) -> None:
        """Write a file of the library; within `change`, so that it can be taken back."""
        path = self.path / place
        marker.make_folder(self.path, path.parent)
        files.replace(path, data)

    @property
    def last_change(self) -> str | None:
        """What Undo would take back, in words."""
        return self._shelf.last

    def undo(self) -> None:
        """Take the last change back and say so."""
        with self._lock:
            try:
                one = self._shelf.read()
                if one is None:
                    raise CallError("There is nothing to take back.")
                lay = contents(self.library, one.change.after)
                self._take_back(one.change)
                self.say(f"Taken back: {one.change.words}.")
                if one.then in self.thens:
                    self.thens[one.then](self, lay, one.facts)
            except DynoanError as error:
                self.say(str(error), wrong=True)
            self._bench.forget()

    def _take_back(self, change: LibraryChange) -> None:
        """Take a change back; it stays on the shelf only where the disk refused it, to be tried again."""
        try:
            take_back(self.library, change)
        except CallError:
            self._shelf.forget()
            raise
        self._shelf.forget()

    # Click maps

    def packs_not_ready(self, packs: Iterable[str]) -> list[str]:
        """Return the packs whose click maps are not at hand yet."""
        with self.bench() as bench:
            known = {r.pack for r in bench.records}
            return [p for p in packs if p in known and p not in self.faults and not bench.has_map(p)]

    def packs_not_fitted(self, packs: Iterable[str]) -> list[str]:
        """Return the packs of which not even all tested curves are at hand yet."""
        with self.bench() as bench:
            return [p for p in self.packs_not_ready(packs) if bench.fitted(p) is None]

    def prepare(self, packs: Iterable[str]) -> Work | None:
        """Begin to fit the click maps of packs; None where all are at hand, and what was stopped while it is."""
        wanted = self.packs_not_ready(packs)
        if not wanted or self.halted is not None:
            return self.halted if wanted else None
        for work in self.works.under_way():
            if set(wanted) <= self._packs_of.get(work.number, frozenset()) and not work.stopping.is_set():
                return work  # they are among those that are fitted now
        names = ", ".join(wanted)
        told = names if len(wanted) <= TOLD else f"{len(wanted)} packs"
        work = self.works.begin(
            f"maps {names}", f"Fitting curves and clicks of {told}", lambda work: self._fit(work, wanted), lane="maps"
        )
        self._packs_of[work.number] = frozenset(wanted)
        return work

    def prepare_all(self) -> Work | None:
        """Begin to fit everything, where it is not too much to do unasked."""
        with self.bench() as bench:
            few = len(bench.records) <= AT_ONCE
            packs = self.packs() if few else ()
        return self.prepare(packs)

    def halt(self, number: int) -> None:
        """Stop a work; maps are not begun anew by a page that needs them."""
        self.works.stop(number)
        if number in self._packs_of:
            self.halted = self.works.get(number)

    def _fit(self, work: Work, packs: list[str]) -> None:
        bench = self.own_bench(work)
        wanted = [p for p in packs if p in self.packs()]
        many = sum(r.pack in wanted for r in bench.records) >= MANY
        with self.workers.at_hand() if many else nullcontext():
            # All curves first: they are shown as soon as they are there, and clicks can be turned a moment later.
            for step in (Workbench.fit_curves, Workbench.make_map):
                beside(work, {pack: partial(self._make, step, pack) for pack in wanted})
        for pack in packs:  # one by one, so that a pack that fails does not hide the others
            work.progress(f"pack {pack}", packs.index(pack), len(packs))
            try:
                bench.click_map(pack)
                with self.bench() as mine:
                    mine.click_map(pack)
            except DynoanError as error:
                self.faults[pack] = str(error)

    def _make(self, step: Callable[[Workbench, str], None], pack: str, progress: Progress) -> None:
        with suppress(DynoanError):
            step(Workbench(Library(self.path), lambda _: None, progress), pack)

    def ready_to_read(self, load: Callable[[], None]) -> None:
        """Load what reads files, and begin what fits them, a moment after their page was shown: the first file dropped
        need not wait for either. The processes end where none comes.
        """
        if self._loading is None or not self._loading.is_alive():
            self._loading = threading.Timer(A_MOMENT, self._load, (load,))
            self._loading.daemon = True
            self._loading.start()

    def page_first(self) -> AbstractContextManager[None]:
        """Have what is loaded ahead wait while a page is made, and a moment longer, while a browser draws it."""
        return self._pages.one()

    def _load(self, load: Callable[[], None]) -> None:
        if not self._pages.wait_for_none(A_MOMENT):
            return
        self.workers.warm()
        load()

    def fit_ahead(self) -> None:
        """Begin to fit the curves of dropped files that are ready, so that they are there once somebody keeps them."""
        self.workers.warm()
        fit = partial(fit_table, self, self.dropped, self.workers)
        self.works.begin("ahead", "Fitting curves of the files dropped", fit, lane="maps")

    def close(self) -> None:
        """Stop all work, and end what does it."""
        if self._loading is not None:
            self._loading.cancel()
        self._pages.end_waiting()
        self.works.close()
        self.workers.drop()
