"""Several columns that could all be one channel: the one that names itself the measurement on the shock."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from importers.assumptions.parts import FILTERED_APART
from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.channels import EXTREMES, TABLE_WORDS, TOTAL
from importers.words.spelling import plain, word_set

_RAW = word_set(
    "raw, roh, rohwert, rohsignal, unfiltered, ungefiltert, brut, brute, crudo, cruda, grezzo, grezza, raa, ra, bruto,"
    " surowy, surowa"
)
_FILTERED = word_set(
    "filtered, filt, filter, gefiltert, smoothed, smooth, geglattet, filtre, filtree, filtrado, filtrada, filtrato,"
    " filtrata, lissee, lisse, lowpass, lp"
)
#: words of a column that says how far another goes or lies off
BESIDE = EXTREMES | word_set(
    "lsl, usl, lcl, ucl,"
    " δ, delta, diff, diff., difference, differenz, ecart, change, deviation, dev, err, error, uncertainty, spread,"
    " tol, ±, diferencia, differenza, abweichung, verschil"
)
#: words of what drives the shock on a rig, or measures at another place than on it
_MACHINE = word_set(
    "actuator, ram, machine, crosshead, piston actuator, cylinder, servo, table, crank, yoke, head, hydraulic, lvdt,"
    " zylinder, aktor, aktuator, maschine, traverse, verin, actuador, attuatore, drive, motor, stroke sensor,"
    " cell, loadcell, lever, kraftmessdose, messdose, hebel, levier, transducer"
)


def of_the_shock(found: Sequence[HeaderColumn]) -> HeaderColumn | None:
    """Return the one column called the shock's where all others are a total or of the machine that drives it."""
    words = [{*plain(c.text).split()} for c in found]
    aside = TOTAL | _MACHINE
    shock = [c for c, w in zip(found, words, strict=True) if w & TABLE_WORDS["shock"] and not w & aside]
    rest = [w for w in words if not w & TABLE_WORDS["shock"]]
    return shock[0] if len(shock) == 1 and rest and all(w & aside for w in rest) else None


def itself(found: Sequence[HeaderColumn]) -> HeaderColumn | None:
    """Return the one column that is no extreme, limit or difference where all others are: "min", "Comp", "Δ Comp"."""
    bare = [c for c in found if not {*plain(c.text).split()} & BESIDE]
    return bare[0] if len(bare) == 1 else None


def unfiltered(found: Sequence[HeaderColumn], table: ParsedTable) -> HeaderColumn | None:
    """Return the raw one of a raw and a filtered column of one unit that hold the same force, else None.

    A filter's lag opens the loop of force over speed; the fit takes noise as noise.
    """
    words = [{*plain(c.text).split()} for c in found]
    raw = [c for c, w in zip(found, words, strict=True) if w & _RAW and not w & _FILTERED]
    smooth = [c for c, w in zip(found, words, strict=True) if w & _FILTERED and not w & _RAW]
    if len(found) != 2 or len(raw) != 1 or len(smooth) != 1 or raw[0].unit != smooth[0].unit or not raw[0].unit:
        return None
    x, y = (table.values[c.index] for c in (raw[0], smooth[0]))
    apart = float(np.nanmedian(np.abs(x - y)))
    span = float(np.nanmax(y, initial=-np.inf) - np.nanmin(y, initial=np.inf))
    return raw[0] if apart < FILTERED_APART * span else None
