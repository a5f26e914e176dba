"""The samples that are used, thinned: neighbours averaged so that a cycle has at most some hundred rows."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from dynoan.analysis.conditioning.assumptions import ENOUGH, FEWEST, ONE_SPEED
from dynoan.analysis.conditioning.channels.blocks import Block
from dynoan.analysis.conditioning.channels.kinks import kinks
from dynoan.analysis.conditioning.channels.record import Record
from dynoan.analysis.conditioning.channels.standing import pauses, stops, waits
from dynoan.analysis.conditioning.channels.velocity import StrokeMotion
from dynoan.analysis.conditioning.samples.gas_heat import unsettled
from dynoan.analysis.conditioning.samples.rubbing import LAWS
from dynoan.analysis.conditioning.samples.spans import FEWEST_ROWS, Span, averaged, span_of
from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.ranks import percentile

#: how well the channels of a rig can be held to lie in time once their lag is out [s], and share of a sample beside it
#: [1]; judged
TIMING, TIMING_SHARE = 2e-5, 0.05
#: strokes slower than this share of the fastest may be noise [1]; judged
A_STROKE = 0.1
#: speed jumps where it steps by so many times as much as before and after [1]; for how long either side of it nothing
#: is used [samples], [s]; judged: filters and sampling blur it
JUMP, JUMP_SAMPLES, JUMP_LASTS = 4.0, 2, 0.005
#: samples about jumps and corners are left out where so much of what moves remains in stretches [1]; else they are
#: none; judged: of a good record a twentieth goes
MOSTLY_FOLLOWED = 0.4
#: [samples] a shorter stretch says nothing; judged
FEWEST_IN_SPAN = 8
#: more rows than this add nothing to the bands; whole cycles are then left out, evenly
MOST_ROWS = 400_000
#: about how many runs of cycles are kept where some are left out [1]: slopes in time are worse at their ends; judged
RUNS = 30


@dataclass(frozen=True)
class Rows:
    """What the analysis works on: every array has one entry a row. SI."""

    time: FloatArray
    displacement: FloatArray | None
    velocity: FloatArray
    friction: FloatArray  #: unit friction by each of `rubbing.LAWS`, shape (n, laws) [1]
    force: FloatArray
    unsettled: FloatArray | None  #: travel less what gas has got used to, shape (n, times) [m]
    force_rate: FloatArray  #: time derivative of force, zero where time is unknown [N/s]
    temperature: FloatArray | None
    work: FloatArray  #: done on the shock up to each row, by what is not used too [J]
    window: FloatArray  #: that `force_rate` was taken over [rows]
    span: IntArray  #: rows of one span follow one another in time without a gap
    block: IntArray
    cycle: IntArray
    count: FloatArray  #: recorded samples averaged; none where a row only follows the motion between them
    variance: FloatArray  #: of the force: noise, and timing that is not known to a fraction of a sample [N²]
    white: FloatArray  #: of it what no row shares with its neighbours [N²]
    half: FloatArray  #: by how much velocity moves either way within a row, or may be off by its noise [m/s]

    def __len__(self) -> int:
        return len(self.force)

    def take(self, keep: BoolArray | IntArray) -> Rows:
        """Return some of the rows."""
        some = {name: value[keep] for name, value in vars(self).items() if value is not None}
        return replace(self, **some)


def rows_of(record: Record, blocks: tuple[Block, ...], motion: StrokeMotion) -> tuple[Rows, tuple[str, ...]]:
    """Return the rows of a record, and in words which samples they hold.

    Steady blocks alone are used where they hold three cycles or more and most of what moves; else all that moves.
    """
    still = pauses(motion.velocity, record.displacement, record.dt)
    steady = motion.steady
    if not steady:
        still |= stops(motion.velocity, record.displacement, record.dt)
    if record.displacement is not None and record.dt:
        still |= waits(record.displacement, record.displacement_noise, record.dt)
    use = record.good & ~still & (motion.settled if steady else True)
    label = _labels(blocks, record.samples, steady)
    jumps = use & _unfollowed(record, motion.velocity, label, steady=steady)
    kept = _stretches(use & ~jumps, label)
    if sum(b - a for a, b in kept) < MOSTLY_FOLLOWED * np.count_nonzero(use):
        # So many corners are those of few samples a turn.
        jumps[:] = False
        kept = _stretches(use, label)
    total = sum(int(record.own[a:b].sum()) for a, b in kept)
    starts = np.concatenate([np.asarray(b.bounds) for b in blocks])
    spans = [(a, b, int(label[a]), blocks[label[a]].period if steady else (b - a) / 20) for a, b in kept]
    parts = _spans(record, motion, spans)
    rows = _joined(record, parts, np.unique(starts))
    words = [used_words(record, blocks, (total, steady), int(still.sum()), int((jumps & record.own).sum()))]
    every = -(-len(rows) // MOST_ROWS)
    own = _of_cycles(rows, every) if every > 1 else np.arange(len(rows))
    if every > 1:
        rows = fewer(rows, every)
        words.append(f"one cycle in {every} is used, evenly spread: the record is longer than the bands need")
    return replace(rows, friction=_rubbed(parts, own)), tuple(words)


def _stretches(use: BoolArray, label: IntArray) -> list[tuple[int, int]]:
    """Return the first sample, and that after the last, of runs of one block in use that are long enough."""
    edges = np.flatnonzero(np.diff(np.where(use, label, -1), prepend=-2, append=-2))
    return [(int(a), int(b)) for a, b in pairwise(edges) if use[a] and b - a >= FEWEST_IN_SPAN]


def _spans(record: Record, motion: StrokeMotion, cut: list[tuple[int, int, int, float]]) -> list[Span]:
    """Return the rows of spans: the first sample of each, that after its last, its block and its period in samples."""
    heat = None if record.displacement is None else unsettled(record.displacement, record.dt)
    work = np.cumsum(np.maximum(record.force * motion.velocity, 0.0)) * (record.dt or 1.0)
    parts = []
    for a, b, block, period in cut:
        q = min(averaged(record, motion, (a, b), period), (b - a) // FEWEST_ROWS)
        parts.append(span_of(record, motion, (a, b, q), block, (heat, work)))
    return parts


def _rubbed(spans: list[Span], kept: IntArray) -> FloatArray:
    """Return the unit friction of rows that are kept, by their numbers among those of all spans, shape (rows, laws)."""
    ends = np.cumsum([len(span.index) for span in spans])
    cuts, out = np.searchsorted(kept, ends), np.empty((len(kept), len(LAWS)))
    firsts = np.append(0, cuts)[: len(spans)]
    for span, last, first, end in zip(spans, cuts, firsts, ends, strict=True):
        out[first:last] = span.rubbing.rows(kept[first:last] - (end - len(span.index)), span.averaged)
    return out


def _labels(blocks: tuple[Block, ...], n: int, steady: bool) -> IntArray:
    """Return the block of each sample; between steady blocks a sample goes with the nearer one."""
    numbers = [i for i, b in enumerate(blocks) if b.kind == "steady" or not steady]
    starts = np.array([blocks[i].start for i in numbers])
    stops = np.array([blocks[i].stop for i in numbers])
    cuts = (stops[:-1] + starts[1:]) // 2
    lengths = np.diff(np.concatenate([[0], cuts, [n]]))
    return np.repeat(np.array(numbers), lengths)


def _unfollowed(record: Record, velocity: FloatArray, label: IntArray, *, steady: bool) -> BoolArray:
    """Return which samples stand about a jump of speed from block to block, or about a sharp corner, shape (n,).

    No channel follows one, and a sample taken for what is beyond it has force far off.
    """
    step = np.abs(np.diff(velocity, prepend=velocity[:1], append=velocity[-1:]))  # that before each, and the last's
    at = np.flatnonzero(np.diff(label, prepend=label[:1]))
    beside = np.maximum(step[np.maximum(at - 1, 0)], step[np.minimum(at + 1, len(velocity))])
    out = np.zeros(len(velocity), dtype=bool)
    if steady:
        for cut in at[step[at] > JUMP * beside]:
            out[max(cut - 1, 0) : cut + 1] = True
    if record.displacement is not None and record.dt:
        for a, b in record.stretches or ((0, record.samples),):
            out[a:b] |= kinks(record.displacement[a:b], record.displacement_noise)
    if not record.dt or not out.any():
        return out
    from scipy.ndimage import binary_dilation  # a fresh process is spared it where nothing jumps

    reach = max(JUMP_SAMPLES, round(JUMP_LASTS / record.dt)) - 1
    return np.asarray(binary_dilation(out, iterations=reach))


def _joined(record: Record, spans: list[Span], starts: IntArray) -> Rows:
    def joined(name: str) -> FloatArray:
        return np.concatenate([np.empty(0), *(getattr(span, name) for span in spans)])

    index, force_rate, count = joined("index"), joined("force_rate"), joined("count")
    lengths = [len(span.index) for span in spans]
    number, heated = np.repeat(np.arange(len(spans)), lengths), record.displacement is not None
    block = np.repeat(np.array([span.block for span in spans], dtype=np.int64), lengths)
    cycle = np.searchsorted(starts, index, side="right")
    timing = TIMING + TIMING_SHARE * (record.dt or 0.0) if record.dt else 0.0
    white = record.force_noise**2 / np.maximum(count, 1.0) + record.force_step**2 / 12
    return Rows(
        time=index * (record.dt or 1.0),
        displacement=joined("displacement") if record.displacement is not None else None,
        velocity=joined("velocity"), force=joined("force"), force_rate=force_rate,
        friction=np.empty((len(index), 0)),  # of those alone that are kept: it is more than all others together
        unsettled=np.concatenate([one.unsettled for one in spans]) if spans and heated else None,
        work=joined("work"), temperature=joined("temperature") if record.temperature is not None else None,
        window=np.repeat(np.array([span.window for span in spans]), lengths),
        span=number, block=block, cycle=cycle, count=count, white=white,
        variance=white + (timing * force_rate) ** 2, half=joined("half"),
    )  # fmt: skip


def used_words(
    record: Record, blocks: tuple[Block, ...], used: tuple[int, bool], still: int, jumps: int = 0
) -> str:  # fmt: skip
    """Return in words what of a record is used: how many samples, whether of steady blocks alone.

    `still` samples stood, and at `jumps` speed jumped.
    """
    total, steady = used
    share = f"{total} of {int(record.own.sum())} samples"
    rest = ", standing still left out" if still else ""
    runs = [b for b in blocks if b.kind == "steady"]
    cycles = sum(b.cycles for b in runs)
    if not steady:
        if not cycles:
            return f"used {share}: no run of cycles at constant speed, so all that moves{rest}"
        where = "1 block" if len(runs) == 1 else f"{len(runs)} blocks"
        return (f"used {share}: all that moves, starting and stopping too, since its {cycles} cycles in {where} of "
                f"constant speed are few beside them{rest}")  # fmt: skip
    many = "1 block" if len(runs) == 1 else f"{len(runs)} blocks"
    ends = bool(total + jumps < record.own.sum())
    kinds = {"starting": ends, "stopping": ends, "standing still": ends and still > 0, "jumps of speed": jumps > 0}
    left = [kind for kind, out in kinds.items() if out]
    said = f"; {' and '.join([', '.join(left[:-1])] * (len(left) > 1) + left[-1:])} left out" if left else ""
    return f"used {share}: {cycles} cycles in {many} of constant speed{said}"


def enough(rows: Rows) -> Rows:
    """Return the rows themselves, or those of evenly spread cycles, some of each block."""
    every = -(-len(rows) // ENOUGH)
    return rows if every <= 1 else fewer(rows, every)


def fewer(rows: Rows, every: int) -> Rows:
    """Return the rows of one cycle in so many of each block, in runs of a few; a run is a span of its own."""
    at = _of_cycles(rows, every)
    out = rows.take(at)
    begins = (np.diff(at, prepend=at[0]) > 1) | (np.diff(out.span, prepend=out.span[0]) != 0)
    return replace(out, span=np.cumsum(begins))


def _of_cycles(rows: Rows, every: int) -> IntArray:
    """Return the numbers of the rows of one cycle in so many of each block, in runs of a few."""
    first = np.flatnonzero(np.diff(rows.block, prepend=-1))
    within = rows.cycle - rows.cycle[first][np.searchsorted(first, np.arange(len(rows)), side="right") - 1]
    cycles = 1 + int(np.count_nonzero(np.diff(rows.cycle)))
    run = max(1, cycles // (every * RUNS))
    return np.flatnonzero(within // run % every == 0)


def top_speeds(rows: Rows) -> list[float]:
    """Return about the highest speed of each block. [m/s]"""
    return [percentile(np.abs(rows.velocity[rows.block == b]), 80) for b in np.unique(rows.block)]


def one_speed(rows: Rows) -> bool:
    """Return whether all blocks reach about the same speed, stroke after stroke."""
    tops = top_speeds(rows)
    return max(tops) < ONE_SPEED * min(tops) and not _of_many_speeds(rows)


def _of_many_speeds(rows: Rows) -> bool:
    """Return whether strokes of one block differ so in speed: a sweep, or a course without cycles."""
    stroke = np.cumsum(np.diff(np.signbit(rows.velocity), prepend=np.signbit(rows.velocity[:1])))
    speed = np.abs(rows.velocity)
    peaks = np.zeros(int(stroke[-1]) + 1)
    np.maximum.at(peaks, stroke, speed)
    # Where the shock turns around, noise makes strokes of its own.
    slow, fast = np.percentile(peaks[peaks > A_STROKE * peaks.max()], [25, 75])
    return bool(fast > ONE_SPEED * slow)


def clusters(rows: Rows) -> IntArray:
    """Return numbers from 0 of rows that err together: whole cycles, or half cycles or twelfths where those are few."""
    turn = np.diff(np.signbit(rows.velocity), prepend=np.signbit(rows.velocity[:1])) | (
        np.diff(rows.span, prepend=0) != 0
    )
    twelfths = np.arange(len(rows)) * FEWEST * 3 // (2 * len(rows))
    for group in (np.cumsum(np.diff(rows.cycle, prepend=rows.cycle[0]) != 0), np.cumsum(turn), twelfths):
        if group[-1] + 1 >= FEWEST:
            break
    return np.asarray(group - group[0])
