"""The sheet of planned runs to hand to a dyno shop: a page to print, plain text, or CSV with blanks to fill."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from dynoan.errors import CallError
from dynoan.show.text.tables import csv_text, plain_text
from dynoan.units import Shown, shown

#: what the shop fills in, in order
BLANKS = ("date", "shock", "temperature at start °C", "temperature at end °C", "gas pressure", "file", "remarks")
SUFFIXES = (".html", ".txt", ".csv")


@dataclass(frozen=True)
class SheetRun:
    """One run on the sheet."""

    clicks: Mapping[str, int]  #: as the shock counts
    speeds: Sequence[float]  #: [m/s]


@dataclass(frozen=True)
class Sheet:
    """What the sheet says."""

    pack: str
    counted: str  #: how clicks are counted, in words
    runs: Sequence[SheetRun]
    team: str = ""
    shock: str = ""


def sheet_text(sheet: Sheet, suffix: str, units: Shown = "metric") -> str:
    """Return the sheet as HTML, text or CSV by a file's suffix.

    Raises
    ------
    CallError
        If the suffix is none of these.
    """
    if suffix == ".html":
        return _html(sheet, units)
    if suffix == ".txt":
        return _text(sheet, units)
    if suffix == ".csv":
        return _csv(sheet, units)
    raise CallError(f"--sheet: a sheet is written as {', '.join(SUFFIXES)}; end the name with one of these")


def _names(sheet: Sheet) -> list[str]:
    return list(dict.fromkeys(name for run in sheet.runs for name in run.clicks))


def _speeds(run: SheetRun, units: Shown) -> str:
    velocity = shown("velocity", units)
    digits = 1 if units == "us" else 0
    return " ".join(f"{velocity.number(s):.{digits}f}" for s in run.speeds)


def _heading(sheet: Sheet) -> str:
    return f"Dyno runs for pack {sheet.pack}" + (f" in shock {sheet.shock}" if sheet.shock else "")


def _notes(sheet: Sheet, units: Shown) -> list[str]:
    unit = shown("velocity", units).unit
    return [
        f"Clicks: {sheet.counted}. Set each adjuster from its stop, always turning the same way onto the click.",
        f"Peak velocities in {unit}; at each at least three whole cycles, the slow ones first.",
        "Warm the shock up first, and write down its temperature at the start and the end of each run.",
        "Record time, displacement and force (and velocity, where there is a channel) without filters; do not take gas "
        "force out, or say so.",
        "Put shock, pack and clicks into the file's name or its head.",
    ]


def _csv(sheet: Sheet, units: Shown) -> str:
    names, unit = _names(sheet), shown("velocity", units).unit
    columns = ["run", "pack", *names, f"peak velocities {unit}", *BLANKS]
    rows = [
        [
            i,
            sheet.pack,
            *(run.clicks.get(n, "") for n in names),
            _speeds(run, units),
            *(_filled(b, sheet) for b in BLANKS),
        ]
        for i, run in enumerate(sheet.runs, start=1)
    ]
    return csv_text(columns, rows)


def _filled(blank: str, sheet: Sheet) -> str:
    return sheet.shock if blank == "shock" else ""


def _text(sheet: Sheet, units: Shown) -> str:
    names, unit = _names(sheet), shown("velocity", units).unit
    columns = ["run", *names, f"peak velocities {unit}", "date", "°C start", "°C end", "file"]
    rows = [
        [str(i), *(str(run.clicks.get(n, "")) for n in names), _speeds(run, units), *["________"] * 4]
        for i, run in enumerate(sheet.runs, start=1)
    ]
    notes = "\n".join(f"- {line}" for line in _notes(sheet, units))
    return f"{_heading(sheet)}\n{sheet.team}\n\n{plain_text(columns, rows)}\n{notes}\n"


def _html(sheet: Sheet, units: Shown) -> str:
    names, unit = _names(sheet), shown("velocity", units).unit
    head = "".join(f"<th>{escape(c)}</th>" for c in ("run", *names, f"peak velocities {unit}", *BLANKS))
    body = "".join(
        "<tr>" + f"<td>{i}</td>" + "".join(f"<td class=n>{run.clicks.get(n, '')}</td>" for n in names)
        + f"<td class=s>{escape(_speeds(run, units))}</td>"
        + "".join(f"<td class=b>{escape(_filled(b, sheet))}</td>" for b in BLANKS) + "</tr>"
        for i, run in enumerate(sheet.runs, start=1)
    )  # fmt: skip
    notes = "".join(f"<li>{escape(line)}</li>" for line in _notes(sheet, units))
    title = escape(_heading(sheet))
    return (
        f'<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f"<title>{title}</title><style>{_STYLE}</style><h1>{title}</h1><p>{escape(sheet.team)}</p>"
        f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table><ul>{notes}</ul></html>\n"
    )


_STYLE = (
    "@page{size:A4 landscape;margin:12mm}body{font:13px/1.4 sans-serif;color:#1c2733;margin:1.5em}h1{font-size:1.4em;"
    "margin:0}table{border-collapse:collapse;width:100%}th,td{border:1px solid #5a6673;padding:.5em .4em;"
    "text-align:left;vertical-align:top}th{font-size:.85em;background:#eef1f3}td{height:2.6em}td.n{font-size:1.3em;font-weight:bold;"
    "text-align:center}td.s{max-width:11em}td.b{min-width:4.5em}"
)
