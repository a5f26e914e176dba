"""``dynoan read``: what is in rig files and how it was understood, keeping nothing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, WRONG, Call, command
from dynoan.cli.reading_options import reading_options
from dynoan.errors import DynoanError

if TYPE_CHECKING:
    from dynoan.model.importing import ReadOptions
    from dynoan.model.sweep import Sweep


@command(epilog="Example:  dynoan read FL-03_gravel_lsc6_lsr8.csv --plot fl03.png")
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path))
@reading_options
@click.option(
    "--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw force against velocity to a PNG or SVG file."
)
def read(call: Call, files: tuple[Path, ...], plot: Path | None, options: ReadOptions) -> int:
    """Show what is in rig files and how it was understood, keeping nothing.

    Units, signs, columns and clicks are found in each file; every decision is shown with its evidence. What you state
    by an option wins over the file.
    """
    options = with_layouts(call, options)
    found = []
    kept: list[tuple[Path, Sweep]] = []
    for path in files:
        sweeps, error = _sweeps(call, path, options)
        found.append({"path": str(path), "error": error, "sweeps": [sweep_json(s) for s in sweeps]})
        kept += [(path, sweep) for sweep in sweeps]
        _show(call, path, sweeps, error)
    if plot is not None and kept:
        from dynoan.cli.read_plot import draw

        draw(plot, [s for _, s in kept], call.shown_units)
        call.note(f"picture: {plot}")
    failed = any(f["error"] for f in found)
    return call.result({"files": found, **({"plot": str(plot)} if plot and kept else {})}, WRONG if failed else DONE)


def with_layouts(call: Call, options: ReadOptions) -> ReadOptions:
    """Return the options with the team's own layouts, where a library is at hand."""
    from dataclasses import replace

    from dynoan.errors import LookupFault
    from dynoan.library import Library

    try:
        library = Library.find(call.library)
    except LookupFault:
        if call.library is not None:
            raise
        return options
    return replace(options, layouts=library.layouts())


def _sweeps(call: Call, path: Path, options: ReadOptions) -> tuple[tuple[Sweep, ...], str | None]:
    from dynoan.reading import read as read_file

    try:
        return read_file(path, options), None
    except DynoanError as error:
        return (), " ".join(str(error).split())
    except MemoryError:
        return (), f"{path.name}: not enough memory to read this file; split it"
    except OSError as error:
        return (), f"{path}: {error.strerror or error}"
    except Exception as error:
        if call.debug:
            raise
        return (), f"{path.name}: a fault of the program ({type(error).__name__}: {error}); --debug shows where"


def _show(call: Call, path: Path, sweeps: tuple[Sweep, ...], error: str | None) -> None:
    if error:
        click.echo(f"dynoan: {error}", err=True)
        return
    from dynoan.cli.read_card import show_card

    for sweep in sweeps:
        for warning in sweep.warnings:
            text = f"{path.name}{f' ({sweep.source.part})' if sweep.source.part else ''}: {warning}"
            if call.json:
                call.warn(text)
        if not call.json:
            show_card(call, sweep)


def sweep_json(sweep: Sweep) -> dict[str, Any]:
    """Return one sweep as the JSON that others rely on."""
    from dynoan.reading import peaks

    sides = {
        way: {"peak_velocity_m_s": peak.velocity, "peak_force_n": peak.force} for way, peak in peaks(sweep).items()
    }
    channels = {
        channel: {"column": d.column, "unit": d.unit, "sign": d.sign, "evidence": d.evidence}
        for channel, d in sweep.decisions.items() if channel in sweep.channels
    }  # fmt: skip
    return {
        "layout": sweep.layout, "shock": sweep.shock, "pack": sweep.pack, "clicks": dict(sweep.clicks),
        "samples": sweep.samples, "rate_hz": sweep.rate, **sides, "channels": channels, "part": sweep.source.part,
        "importer": sweep.source.importer, "date": sweep.date, "temperature_c": sweep.temperature,
        "gas_pressure_pa": sweep.gas_pressure, "stroke_m": sweep.stroke, "gas_removed": sweep.gas_removed,
        "facts": dict(sweep.facts), "warnings": list(sweep.warnings),
    }  # fmt: skip
