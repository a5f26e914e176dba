"""Sweeps into the library one file at a time, and what a person should know of each."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict

from dynoan.errors import DynoanError
from dynoan.jobs.ahead import doubted
from dynoan.jobs.kept import check_clicks
from dynoan.jobs.recounting import as_its_shock_counts
from dynoan.library import Library, SweepRecord
from dynoan.library.names import printable
from dynoan.model.shock import clicks_text
from dynoan.model.sweep import Sweep

if TYPE_CHECKING:
    from dynoan.library import Added

#: so many names of files are told
_NAMES = 3
#: an id that a line names, and what stands for it while lines are held against one another
_ID, _PLACE = re.compile(r"(?<=dynoan edit )[0-9a-f]+"), "\0"


@dataclass(frozen=True)
class KeptSweep:
    """A sweep as the library holds it, whether this brought it in, and what a person should know of it."""

    path: Path
    record: SweepRecord
    new: bool
    completed: tuple[str, ...] = ()  #: what it was kept without before and is known of it now
    remarks: tuple[str, ...] = ()


class NewlyKnown(TypedDict, total=False):
    """What a sweep says of itself, as `Library.edit` takes it."""

    shock: str
    pack: str
    clicks: Mapping[str, int]
    date: str
    temperature: float


def keep_sweeps(
    library: Library, path: Path, sweeps: Sequence[Sweep], original: bytes, kept: list[KeptSweep], *,
    complete: bool = True,
) -> str | None:  # fmt: skip
    """Keep the sweeps of one file with its bytes, adding them to `kept`; return the one line that says why not, if so.

    Parameters
    ----------
    library
        Where to.
    path
        What to call the file.
    sweeps
        What is in it.
    original
        Its bytes.
    kept
        Gets what is kept.
    complete
        Whether a sweep that was kept before is told what it lacked and is known now.
    """
    try:
        sweeps = [as_its_shock_counts(library, sweep) for sweep in sweeps]
        for sweep in sweeps:
            check_clicks(library, sweep.shock, sweep.clicks, where=path.name)
        for sweep in sweeps:
            added = library.add(sweep, original)
            record = library.record(added.id)
            lacking = _lacking(record, sweep) if complete and not added.new else {}
            if lacking:
                record = library.edit(added.id, **lacking)
            kept.append(KeptSweep(path, record, added.new, tuple(lacking), _remarks(record, sweep, added)))
    except DynoanError as error:
        return str(error)
    return None


def _lacking(record: SweepRecord, sweep: Sweep) -> NewlyKnown:
    """Return what a sweep kept before says nothing of and the same sweep read again tells."""
    told: NewlyKnown = {}
    if not record.shock and sweep.shock:
        told["shock"] = sweep.shock
    if not record.pack and sweep.pack:
        told["pack"] = sweep.pack
    if not record.clicks and sweep.clicks:
        told["clicks"] = sweep.clicks
    if not record.date and sweep.date:
        told["date"] = sweep.date
    if record.temperature is None and sweep.temperature is not None:
        told["temperature"] = sweep.temperature
    return told


def _remarks(record: SweepRecord, sweep: Sweep, added: Added) -> tuple[str, ...]:
    """Return what a person should know of a sweep just kept, or kept before."""
    edit = f"dynoan edit {added.id}"
    if not added.new:
        held = {"shock": record.shock, "pack": record.pack, "clicks": clicks_text(record.clicks)}
        given = {"shock": sweep.shock, "pack": sweep.pack, "clicks": clicks_text(sweep.clicks)}
        other = [k for k in held if given[k] and given[k] != held[k]]
        return tuple(
            f"{sweep.source.name}: kept before with {k} {held[k] or 'unknown'}, not {given[k]}; to correct it: "
            f"{edit} --{k} {given[k]}"
            for k in other
        )
    missing = [k for k, v in (("shock", sweep.shock), ("pack", sweep.pack), ("clicks", sweep.clicks)) if not v]
    said = tuple(f"{sweep.source.name}: {text}" for text in (*sweep.warnings, *doubted([sweep.date])))
    if not missing:
        return said
    options = " ".join(f"--{k} {'lsc=6,lsr=8' if k == 'clicks' else 'NAME'}" for k in missing)
    return (
        *said,
        f"{sweep.source.name}: kept without {_listed(missing)}; say it with: {edit} {options}",
    )


def _listed(words: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def told_together(kept: Iterable[KeptSweep]) -> tuple[str, ...]:
    """Return what a person should know of sweeps, one line for all files of which the same is to be said."""
    alike: dict[str, dict[str, str]] = {}
    for sweep in kept:
        for remark in sweep.remarks:
            name, text = sweep.record.source, remark
            if remark.startswith(f"{name}: "):
                text = remark[len(name) + 2 :]
            else:
                name = ""
            found = _ID.search(text)
            alike.setdefault(_ID.sub(_PLACE, text), {})[name] = found[0] if found else ""
    out = []
    for text, names in alike.items():
        said = text.replace(_PLACE, " ".join(dict.fromkeys(names.values())))
        out.append(printable(f"{named_together(list(names))}{said}"))
    return tuple(dict.fromkeys(out))


def named_together(names: Sequence[str]) -> str:
    """Return names of files as a line begins with them, of many the first few; nothing for one without a name."""
    if list(names) == [""]:
        return ""
    some = ", ".join(names[:_NAMES])
    return f"{some}: " if len(names) <= _NAMES else f"{len(names)} files ({some}, …): "
