"""The card of each sweep that `read` found, with a small plot in the terminal's width."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import numpy as np

from dynoan.jobs.read import FileRead, ReadAnswer, SweepRead
from dynoan.model.shock import clicks_text
from dynoan.show.text.blocks import Block, Look, Note, Paragraph, blank
from dynoan.show.text.facts_left import facts_left
from dynoan.units import Shown, degrees, shown

if TYPE_CHECKING:
    from dynoan.model.arrays import FloatArray
    from dynoan.model.sweep import Sweep

_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
_ROWS = 9
#: a record that spans so many times what its samples would take pauses, or was sampled less often in places
_SLOWER = 1.1


def blocks(answer: ReadAnswer, look: Look) -> list[Block]:
    """Return a card a sweep, and why a file holds none."""
    found = [block for file in answer.files for block in _file(file, look)]
    if answer.layout is not None:
        found.append(Note(f"layout kept: {answer.layout}; files with this header are read so from now on"))
    return found


def _file(file: FileRead, look: Look) -> list[Block]:
    if file.error is not None:
        return [Note(file.error, failed=True)]
    return [block for found in file.sweeps for block in (*card(found, look), blank())]


def card(found: SweepRead, look: Look) -> list[Block]:
    """Return what a sweep is, how each column was understood, its peaks, a small plot, and what to mind."""
    sweep, units = found.sweep, look.units
    part = f" ({sweep.source.part})" if sweep.source.part else ""
    lines = [f"{sweep.source.name}{part}: {_what(sweep)}", f"  setting   {_setting(sweep)}"]
    if stated := _stated(sweep, units):
        lines.append(f"  stated    {stated}")
    if not look.more and (left := facts_left(sweep, f"{_setting(sweep)} {stated}")):
        lines.append(f"  file says {left.text(' (-v)')}")
    for channel, d in sweep.decisions.items():
        turned = ", turned round" if d.sign < 0 else ""
        unit = f" in {d.unit}" if d.unit else ""
        lines.append(f"  {channel:<12} '{d.column}'{unit}{turned}: {d.evidence}")
    lines.append(f"  peaks     {_peaks(found, units)}")
    minded = [f"  mind: {warning}" for warning in sweep.warnings]
    if look.more:
        minded += [f"  file says: {key}{f' = {value}' if value else ''}" for key, value in sweep.facts.items()]
    drawn = [f"  {line}" for line in plot(found, units)]
    return [Paragraph("\n".join(part), drawn=part is drawn) for part in (lines, drawn, minded) if part]


def _what(sweep: Sweep) -> str:
    if sweep.layout == "peaks":
        return f"peak table, {sweep.samples} points"
    if sweep.rate is None:
        return f"trace, {sweep.samples} samples, sample rate not known"
    lasts = sweep.samples / sweep.rate
    time = sweep.channels.get("time")
    spanned = lasts if time is None else float(time[-1] - time[0]) + 1 / sweep.rate
    # Times that jump back or are missing span nothing to go by.
    lasts = spanned if lasts < spanned <= _SLOWER * lasts else lasts
    if spanned > _SLOWER * lasts:
        return f"trace, {sweep.samples} samples at up to {sweep.rate:.5g} Hz in {spanned:.1f} s"
    return f"trace, {sweep.samples} samples at {sweep.rate:.5g} Hz, {lasts:.1f} s"


def _setting(sweep: Sweep) -> str:
    clicks = clicks_text(sweep.clicks) or "no clicks stated"
    return f"shock {sweep.shock or 'not stated'}, pack {sweep.pack or 'not stated'}, {clicks}"


def _stated(sweep: Sweep, units: Shown) -> str:
    gas = None if sweep.gas_removed is None else ("gas force taken out" if sweep.gas_removed else "gas force still in")
    found = [
        sweep.date,
        None if sweep.temperature is None else degrees(sweep.temperature, units),
        None if sweep.gas_pressure is None else f"gas {shown('pressure', units).text(sweep.gas_pressure)}",
        None if sweep.stroke is None else f"stroke {shown('length', units).text(sweep.stroke)}",
        gas,
    ]
    return ", ".join(f for f in found if f)


def _peaks(found: SweepRead, units: Shown) -> str:
    force, speed = shown("force", units), shown("velocity", units)
    texts = []
    for way, peak in found.peaks.items():
        if peak.force is None and peak.velocity is None:
            texts.append(f"no {way}")
            continue
        at = f" at up to {speed.text(peak.velocity)}" if peak.velocity is not None else ""
        texts.append(f"{way} {force.text(peak.force) if peak.force is not None else '–'}{at}")
    still_in = found.sweep.layout == "trace" and found.sweep.gas_removed is not True
    return "; ".join(texts) + (" (as read, gas force still in)" if still_in else " (as read)")


def plot(found: SweepRead, units: Shown) -> list[str]:
    """Return force over velocity as lines of braille dots, no wider than the terminal."""
    v, force = found.velocity, found.sweep.channels["force"]
    if v is None:
        return []
    width = max(20, min(shutil.get_terminal_size((80, 24)).columns - 16, 64))
    ok = np.isfinite(v) & np.isfinite(force)
    cells = _cells(v[ok], force[ok], width)
    speed, load = shown("velocity", units), shown("force", units)
    high, low = float(force[ok].max()), float(force[ok].min())
    labels = [load.text(high), *[""] * (_ROWS - 2), load.text(low)]
    room = max(9, *map(len, labels))
    lines = [f"{label:>{room}} │{row}" for label, row in zip(labels, cells, strict=True)]
    left, right = speed.text(float(v[ok].min())), speed.text(float(v[ok].max()))
    return [*lines, f"{'':>{room}} └{'─' * width}", f"{'':>{room + 2}}{left}{right:>{max(1, width - len(left))}}"]


def _cells(v: FloatArray, force: FloatArray, width: int) -> list[str]:
    x = np.minimum((2 * width * (v - v.min()) / max(float(np.ptp(v)), 1e-12)).astype(int), 2 * width - 1)
    y = np.minimum((4 * _ROWS * (force.max() - force) / max(float(np.ptp(force)), 1e-12)).astype(int), 4 * _ROWS - 1)
    seen = np.zeros((4 * _ROWS, 2 * width), bool)
    seen[y, x] = True
    rows = []
    for r in range(_ROWS):
        block = seen[4 * r : 4 * r + 4]
        codes = sum(block[i, j::2].astype(int) * _DOTS[i][j] for i in range(4) for j in range(2))
        rows.append("".join(chr(0x2800 + int(c)) if c else " " for c in codes).rstrip())  # type: ignore[union-attr]
    return rows
