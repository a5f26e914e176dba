"""``dynoan sweeps``, ``edit``, ``remove`` and ``check``: what the library holds, and putting it right."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, NO, Call, command
from dynoan.errors import CallError, QuantityError

if TYPE_CHECKING:
    from dynoan.library import Library, SweepRecord

# A table fitted to the terminal takes seconds beyond this many rows.
FITTED = 300


def record_json(record: SweepRecord) -> dict[str, Any]:
    """Return one sweep's line in the list as JSON."""
    return {
        "id": record.id, "shock": record.shock, "pack": record.pack, "clicks": dict(record.clicks),
        "layout": record.layout, "date": record.date, "temperature_c": record.temperature,
        "gas_pressure_pa": record.gas_pressure, "samples": record.samples, "source": record.source,
        "part": record.part, "sha256": record.sha256, "added": record.added, "file": record.file,
    }  # fmt: skip


def show_records(call: Call, records: Sequence[SweepRecord]) -> None:
    """Print sweeps as a table for people."""
    from dynoan.model.shock import clicks_text
    from dynoan.show.text.tables import plain_text, table
    from dynoan.units import shown

    if call.json:
        return
    pressure = shown("pressure", call.shown_units)
    columns = ["id", "shock", "pack", "clicks", "date", "°C", "layout", "samples", "from"]
    more = ["gas", "added", "SHA-256"] if call.verbose else []
    rows = []
    for r in records:
        degrees = "" if r.temperature is None else f"{r.temperature:.0f}"
        source = f"{r.source} ({r.part})" if r.part else r.source
        setting = [r.shock or "–", r.pack or "–", clicks_text(r.clicks) or "–"]
        row = [r.id, *setting, (r.date or "–")[:16], degrees, r.layout, str(r.samples), source]
        gas = "" if r.gas_pressure is None else pressure.text(r.gas_pressure)
        rows.append(row + ([gas, r.added, r.sha256[:12]] if call.verbose else []))
    if len(rows) <= FITTED:
        table(columns + more, rows)
    else:
        sys.stdout.write(plain_text(columns + more, rows))


@command(epilog="Example:  dynoan sweeps pack=gravel shock=FL-01")
@click.argument("filters", metavar="[KEY=VALUE]...", nargs=-1)
def sweeps(call: Call, filters: tuple[str, ...]) -> int:
    """List the sweeps the library holds: all, or those that fit every KEY=VALUE.

    Keys: shock, pack, date, and adjusters (lsc, hsc, lsr, hsr, c, r, cr). Clicks are as each shock's file counts them.
    """
    from dynoan.library.names import printable

    library = call.workbench().library
    records = library.records()
    chosen = choose_records(records, filters)
    for fault in library.faults():
        call.warn(f"{printable(fault.file)}: left out: {printable(fault.fault)} (see: dynoan check)")
    if chosen:
        show_records(call, chosen)
        call.note(f"sweeps: {len(chosen)} of {len(records)}" if filters else f"sweeps: {len(records)}")
    else:
        text = f"no sweep of {len(records)} fits {' '.join(filters)}" if records else "no sweeps yet"
        call.say(
            text + ("" if records else "; keep some with: dynoan add FILE --shock NAME --pack NAME --clicks lsc=6")
        )
    return call.result({"sweeps": [record_json(r) for r in chosen]})


def choose_records(records: Sequence[SweepRecord], filters: Sequence[str]) -> list[SweepRecord]:
    """Return the records that fit every filter such as "pack=gravel" or "shock=FL-01,lsc=6"."""
    from dynoan.workbench.resolving import parse_wanted

    wanted = parse_wanted(",".join(filters))
    return [
        r
        for r in records
        if wanted.shock in (None, r.shock)
        and wanted.pack in (None, r.pack)
        and (wanted.date is None or (r.date or "").startswith(wanted.date))
        and all(r.clicks.get(name) == click for name, click in wanted.clicks.items())
    ]


@command(epilog="Example:  dynoan edit 3ad091 --pack gravel --clicks lsc=6,lsr=8")
@click.argument("sweep", metavar="ID")
@click.option("--shock", help="The shock it was.")
@click.option("--pack", help="The valve pack that was in it.")
@click.option("--clicks", help="Clicks such as lsc=6,lsr=8; adjusters not named keep theirs. '' takes all away.")
@click.option("--date", help="When it was tested, such as 2026-05-02.")
@click.option("--temperature", help='Temperature stated for the run, such as "35 °C".')
def edit(
    call: Call, sweep: str, shock: str | None, pack: str | None, clicks: str | None, date: str | None,
    temperature: str | None,
) -> int:  # fmt: skip
    """Correct what a kept sweep says of itself. ID may be the beginning of an id.

    The id, the channels and the rig's own bytes stay as they are. Empty text ('') takes a fact away.
    """
    from dynoan.units import parse

    if (shock, pack, clicks, date, temperature) == (None,) * 5:
        raise CallError("nothing to correct; give --shock, --pack, --clicks, --date or --temperature")
    degrees = None if temperature is None else parse(temperature, "temperature", where="--temperature")
    library = call.workbench().library
    before = library.record(sweep)
    merged = None if clicks is None else merged_clicks(before, clicks)
    if merged is not None:
        check_clicks(library, shock or before.shock, merged)
    record = library.edit(before.id, shock=shock, pack=pack, clicks=merged, date=date, temperature=degrees)
    show_records(call, [record])
    return call.result({"sweeps": [record_json(record)]})


def merged_clicks(record: SweepRecord, text: str) -> dict[str, int]:
    """Return a sweep's clicks with those in text put in their place; none where the text is empty."""
    from dynoan.model.shock import parse_clicks

    return dict(record.clicks) | parse_clicks(text) if text.strip() else {}


def check_clicks(library: Library, shock: str | None, clicks: Mapping[str, int], *, where: str = "") -> None:
    """Refuse clicks that the shock does not have, where a file states which it has."""
    if not shock or not clicks or not library.has_shock_file(shock):
        return
    try:
        library.shock(shock).check(clicks)
    except (CallError, QuantityError) as error:
        place = "" if not where or str(error).startswith("shocks/") else f"{where}: "
        raise CallError(f"{place}{error}") from None


@command(epilog="Example:  dynoan remove 3ad091 88c1f2")
@click.argument("sweeps", metavar="ID...", nargs=-1, required=True)
def remove(call: Call, sweeps: tuple[str, ...]) -> int:
    """Take sweeps out of the library for good, with the rig's bytes they hold. IDs may be beginnings of ids."""
    library = call.workbench().library
    ids = list(dict.fromkeys(library.full_id(sweep) for sweep in sweeps))
    for sweep_id in ids:
        library.remove(sweep_id)
        call.say(f"removed {sweep_id}")
    return call.result({"removed": ids})


@command(epilog="Example:  dynoan check")
def check(call: Call) -> int:
    """Verify every file of the library: checksums, formats, and the text that people edit.

    Exit 1 where one is faulty; each faulty file is named with what is wrong and what to do.
    """
    from dynoan.library.names import printable

    report = call.workbench().library.check()
    for fault in report.faults:
        call.say(f"{printable(fault.file)}: {printable(fault.fault)}")
    if report.faults:
        call.say(f"{len(report.faults)} of {report.files} files faulty; the others are sound")
    else:
        call.say(f"{report.files} files, all sound")
    faults = [{"file": fault.file, "fault": fault.fault} for fault in report.faults]
    return call.result({"files": report.files, "faults": faults}, NO if faults else DONE)
