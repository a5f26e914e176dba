"""What a sweep must be before it is kept: names that can be shown, clicks that can be set, channels that fit."""

from __future__ import annotations

import hashlib
import math
from dataclasses import replace

import numpy as np

from dynoan.errors import QuantityError
from dynoan.library.hdf5 import CHANNEL_NAME, MAX_CHANNELS, MAX_SAMPLES
from dynoan.library.names import LONGEST_TEXT, check_name
from dynoan.model.shock import ADJUSTERS
from dynoan.model.sweep import Sweep

MOST_CLICKS = 999
_LONGEST_FACT = 2000
_MOST_FACTS = 500
_ODD_NAME = 255


def sound_sweep(sweep: Sweep) -> Sweep:
    """Return a sweep fit to be kept, with facts that are too long cut short.

    Raises
    ------
    CallError
        If a shock's or pack's name is empty, over long, or holds characters that cannot be seen.
    QuantityError
        If clicks or channels cannot be.
    """
    where = sweep.source.name
    for what, name in (("shock", sweep.shock), ("pack", sweep.pack)):
        if name is not None:
            check_name(name, f"{where}: {what}", longest=LONGEST_TEXT)
    for adjuster, click in sweep.clicks.items():
        if adjuster not in ADJUSTERS or not 0 <= click <= MOST_CLICKS or click != int(click):
            raise QuantityError(
                f"{adjuster}={click} cannot be",
                where=where,
                hint=f"adjusters are {', '.join(ADJUSTERS)}, whole clicks 0 to {MOST_CLICKS}",
            )
    _check_channels(sweep)
    facts = dict(list(sweep.facts.items())[:_MOST_FACTS])
    return replace(
        sweep, source=replace(sweep.source, name=where[-_ODD_NAME:], part=_short(sweep.source.part)),
        clicks={name: int(click) for name, click in sweep.clicks.items()},
        temperature=_finite(sweep.temperature), gas_pressure=_finite(sweep.gas_pressure),
        stroke=_finite(sweep.stroke), rate=_finite(sweep.rate),
        facts={k[:_LONGEST_FACT]: v[:_LONGEST_FACT] for k, v in facts.items()},
    )  # fmt: skip


def _check_channels(sweep: Sweep) -> None:
    where = sweep.source.name
    if "force" not in sweep.channels or not 1 <= sweep.samples <= MAX_SAMPLES:
        raise QuantityError(f"a sweep needs a force channel of 1 to {MAX_SAMPLES} samples", where=where)
    if len(sweep.channels) > MAX_CHANNELS or not all(CHANNEL_NAME.fullmatch(name) for name in sweep.channels):
        raise QuantityError(f"a sweep has at most {MAX_CHANNELS} channels, named like 'force'", where=where)
    for name, values in sweep.channels.items():
        if np.shape(values) != (sweep.samples,):
            raise QuantityError(f"channel '{name}' has not as many samples as the force", where=where)


def _short(part: str) -> str:
    """Return a part's name, cut where it is over long so that different ones stay different."""
    if len(part) <= _ODD_NAME:
        return part
    return f"{part[:200]}… {hashlib.sha256(part.encode('utf-8', 'surrogatepass')).hexdigest()[:16]}"


def _finite(value: float | None) -> float | None:
    return None if value is None or not math.isfinite(value) else float(value)
