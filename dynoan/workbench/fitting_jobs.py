"""Fitted curves and click maps: from the cache where they are there, else made, many at once on all cores."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from dynoan.workbench.codec import decode, encode
from dynoan.workbench.fitting_keys import key_of, stamp, told_key

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.tested.setting import Tested
    from dynoan.analysis.health.session import RecordState
    from dynoan.library import Library, SweepRecord
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.curve import Curve
    from dynoan.model.shock import Adjuster
    from dynoan.model.sweep import Sweep

T = TypeVar("T")
J = TypeVar("J")
R = TypeVar("R")
#: starting processes takes longer than fitting fewer than this in one
WORTH_PROCESSES = {"curve": 10, "told": 10, "map": 3, "setting": 1000}
LABELS = {"curve": "fitting curves", "told": "reading wear", "map": "fitting click maps", "setting": "looking up"}
#: what is kept in memory of each kind beside what is in use, the least lately asked go first: the cache on the disk
#: gives them again; a click map takes some 5 MB
KEPT = {"curve": 400, "told": 400, "map": 4, "setting": 200}
#: called with what is being done, the number done and the number of all
Progress = Callable[[str, int, int], None]


@dataclass(frozen=True)
class CurveJob:
    """The sweeps of one setting, their files as bytes: a cluster's workers may not see the library's disk."""

    ids: tuple[str, ...]
    files: tuple[bytes, ...]
    rod: float | None = None  #: of the shock, where its file states it [m]
    pressure: float | None = None  #: gauge, of the shock's file, for sweeps that state none [Pa]


@dataclass(frozen=True)
class MapJob:
    """The tested curves of one pack."""

    pack: str
    adjusters: tuple[Adjuster, ...]
    tested: tuple[Tested, ...]


class FittedSetting(NamedTuple):
    """What comes of fitting a setting, each encoded."""

    curve: bytes
    told: tuple[bytes, ...]  #: of each sweep, as `told_by` gives it; none where it takes conditioning by itself


def fit_curve(job: CurveJob) -> FittedSetting:
    """Return the pooled curve of a setting and what each of its sweeps tells beside it. Runs in a worker."""
    from dynoan.library.sweep_file import decode as decode_sweep

    sweeps = [decode_sweep(data, f"sweeps/{i}.h5").sweep for i, data in zip(job.ids, job.files, strict=True)]
    curve, states = curve_and_told(sweeps, job.rod, job.pressure)
    named = replace(curve, sweeps=job.ids, what=sweeps[0].setting_text)
    return FittedSetting(encode(named), tuple(encode(state) for state in states))


def curve_and_told(
    sweeps: Sequence[Sweep], rod: float | None, pressure: float | None
) -> tuple[Curve, tuple[RecordState, ...]]:
    """Return the curve of a setting, and what each sweep tells beside it where each was conditioned by itself. SI."""
    from dynoan.analysis.fitting.fit import fit_records
    from dynoan.analysis.health.session import told

    curve, parts = fit_records(sweeps, rod, pressure)
    apart = len(parts) == len(sweeps) and all(sweep.layout != "peaks" for sweep in sweeps)
    return curve, tuple(told(part) for part in parts) if apart else ()


def told_by(job: CurveJob) -> bytes:
    """Return what one sweep tells of its shock beside the curve, encoded. Runs in a worker."""
    from dynoan.analysis.conditioning.condition import condition
    from dynoan.analysis.health.session import told
    from dynoan.library.sweep_file import decode as decode_sweep

    return encode(told(condition(decode_sweep(job.files[0], f"sweeps/{job.ids[0]}.h5").sweep)))


def fit_click_map(job: MapJob) -> bytes:
    """Return the click map of a pack, encoded. Runs in a worker."""
    from dynoan.analysis.clickmap.mapping import fit_map

    return encode(fit_map(job.pack, job.adjusters, job.tested))


@dataclass
class Fits:
    """The fitted curves and click maps of one library."""

    library: Library
    progress: Progress = lambda _label, _done, _all: None
    cluster: str | None = None
    _known: dict[str, dict[str, object]] = field(default_factory=dict)  #: what was read already, by kind and key

    def curves(
        self, groups: Sequence[Sequence[SweepRecord]], coming: Mapping[str, bytes] = MappingProxyType({})
    ) -> list[Curve]:
        """Return the pooled curve of each group of sweeps of one setting.

        Parameters
        ----------
        groups
            The sweeps of each setting.
        coming
            By id, the files of those that are not in the library yet.
        """
        from dynoan.model.curve import Curve

        def jobs(which: Sequence[int]) -> Iterator[CurveJob]:
            for i in which:
                files = tuple(coming.get(r.id) or self.library.sweep_bytes(r) for r in groups[i])
                yield CurveJob(tuple(r.id for r in groups[i]), files, *gas[i])

        def took(i: int, fitted: FittedSetting) -> bytes:
            for record, state in zip(groups[i], fitted.told, strict=False):
                self.library.cache("told", key_of(told_key(record)), state)
            return fitted.curve

        self.library.hold_sound(record for group in groups for record in group if record.id not in coming)
        gas = [self._gas(group) for group in groups]
        keys = [self._curve_key(group) for group in groups]
        return self._made("curve", keys, Curve, fit_curve, jobs, took)

    def known_curves(self, groups: Sequence[Sequence[SweepRecord]]) -> list[Curve] | None:
        """Return the pooled curves of groups that were fitted before, None where one would have to be fitted."""
        from dynoan.model.curve import Curve

        self.library.hold_sound(record for group in groups for record in group)
        found = [self._cached("curve", key_of(self._curve_key(group)), Curve) for group in groups]
        return None if any(curve is None for curve in found) else [curve for curve in found if curve is not None]

    def _curve_key(self, group: Sequence[SweepRecord]) -> str:
        return json.dumps([*(stamp(r) for r in group), self._gas(group)])

    def told(self, records: Sequence[SweepRecord]) -> list[RecordState]:
        """Return what each sweep tells of its shock beside the curve. SI."""
        from dynoan.analysis.health.session import RecordState

        self.library.hold_sound(records)
        keys = [told_key(r) for r in records]

        def jobs(which: Sequence[int]) -> Iterator[CurveJob]:
            return (CurveJob((records[i].id,), (self.library.sweep_bytes(records[i]),)) for i in which)

        return self._made("told", keys, RecordState, told_by, jobs, _as_it_is)

    def _gas(self, group: Sequence[SweepRecord]) -> tuple[float | None, float | None]:
        """Return rod [m] and gas pressure [Pa] of the shock's file; only peak tables need them."""
        names = {record.shock for record in group if record.layout == "peaks"}
        name = names.pop() if len(names) == 1 else None
        if name is None:
            return None, None
        shock = self.library.shock(name)
        return shock.rod_diameter, shock.gas_pressure

    def maps(self, jobs: Sequence[Callable[[], MapJob]], keys: Sequence[str]) -> list[ClickMap]:
        """Return the click map of each pack; a job is made only where no cache holds its map."""
        from dynoan.model.clickmap import ClickMap

        return self._made("map", keys, ClickMap, fit_click_map, lambda which: (jobs[i]() for i in which), _as_it_is)

    def known_map(self, key: str) -> ClickMap | None:
        """Return a click map that was made before, None where it would have to be made."""
        from dynoan.model.clickmap import ClickMap

        return self._cached("map", key_of(key), ClickMap)

    def setting(self, map_key: str, click_map: ClickMap, setting: Mapping[str, int], shock: str | None) -> Curve:
        """Return the curve of a click map at clicks from closed; its pieces take longer to find than to read."""
        from dynoan.analysis.clickmap.at_clicks import curve_at
        from dynoan.model.curve import Curve

        key = json.dumps([map_key, sorted(setting.items()), shock])
        return self._made(
            "setting",
            [key],
            Curve,
            encode,
            lambda which: (curve_at(click_map, setting, shock=shock) for _ in which),
            _as_it_is,
        )[0]

    def _made(
        self, kind: str, contents: Sequence[str], type_: type[T], function: Callable[[J], R],
        jobs: Callable[[Sequence[int]], Iterable[J]], took: Callable[[int, R], bytes],
    ) -> list[T]:  # fmt: skip
        """Return what is kept under contents' keys, else made; `took` makes of a worker's answer what is to be kept."""
        keys = [key_of(content) for content in contents]
        found = {i: value for i, key in enumerate(keys) if (value := self._cached(kind, key, type_)) is not None}
        missing = [i for i in range(len(keys)) if i not in found]
        for i, made in zip(missing, self._run(kind, function, jobs(missing), len(missing)), strict=True):
            data = took(i, made)
            self.library.cache(kind, keys[i], data)
            found[i] = decode(type_, data)
        return [found[i] for i in range(len(keys))]

    def _cached(self, kind: str, key: str, type_: type[T]) -> T | None:
        kept = self._known.setdefault(kind, {})
        if isinstance(known := kept.pop(key, None), type_):
            kept[key] = known  # the newest stand last
            return known
        data = self.library.cached(kind, key)
        try:
            found = None if data is None else decode(type_, data)
        except ValueError:
            return None  # a damaged cache is made again
        if found is not None:
            kept[key] = found
            for old in list(kept)[: -KEPT[kind]]:
                kept.pop(old, None)
        return found

    def _run(self, kind: str, function: Callable[[J], R], jobs: Iterable[J], count: int) -> Iterator[R]:
        if not count:
            return
        from dynoan.batch import are_kept, cores, iterate

        # Processes that stand ready take even one: the threads of this process would get in one another's way.
        workers = cores() if are_kept() and kind != "setting" else None if count >= WORTH_PROCESSES[kind] else 1
        for done, made in enumerate(iterate(function, jobs, workers, cluster=self.cluster), 1):
            self.progress(LABELS[kind], done, count)
            yield made


def _as_it_is(_: int, data: bytes) -> bytes:
    return data
