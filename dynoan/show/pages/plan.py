"""The sheet of planned runs to hand to a dyno shop: a page to print, plain text, or CSV with blanks to fill."""

from __future__ import annotations

from html import escape

from dynoan.jobs.plan import PlanAnswer, sheet_form
from dynoan.show.pages.page import policy
from dynoan.show.text.plan import speeds_head, speeds_text
from dynoan.show.text.tables import csv_text, plain_text
from dynoan.units import Shown, degree_unit, shown

#: what the shop fills in, in order
BLANKS = ("date", "shock", "temperature at start", "temperature at end", "gas pressure", "file", "remarks")


def page(answer: PlanAnswer, units: Shown = "metric", form: str = ".html") -> str:
    """Return the sheet as HTML, text or CSV, as the ending of a file's name says.

    Raises
    ------
    CallError
        If the ending is none of these.
    """
    return FORMS[sheet_form(form)](answer, units)


def _blank_heads(units: Shown) -> list[str]:
    """Return the heads of what is filled in, temperatures and pressure with their unit."""
    unit = {"temperature": degree_unit(units), "gas": shown("pressure", units).unit}
    return [f"{b} {u}" if (u := unit.get(b.split()[0])) else b for b in BLANKS]


def _names(answer: PlanAnswer) -> list[str]:
    return list(dict.fromkeys(name for run in answer.to_run for name in answer.clicks(run)))


def _shock(answer: PlanAnswer) -> str:
    return answer.counting.name if answer.counting.stated else ""


def _heading(answer: PlanAnswer) -> str:
    return f"Dyno runs for pack {answer.plan.pack}" + (f" in shock {_shock(answer)}" if _shock(answer) else "")


def _notes(answer: PlanAnswer, units: Shown) -> list[str]:
    unit = shown("velocity", units).unit
    return [
        f"Clicks: {answer.counting.counted_words()}. Set each adjuster from its stop, always turning the same way onto "
        "the click.",
        f"Peak velocities in {unit}; at each at least three whole cycles, the slow ones first.",
        "Warm the shock up first, and write down its temperature at the start and the end of each run.",
        "Record time, displacement and force (and velocity, where there is a channel) without filters; do not take gas "
        "force out, or say so.",
        "Put shock, pack and clicks into the file's name or its head.",
    ]


def _csv(answer: PlanAnswer, units: Shown) -> str:
    names = _names(answer)
    columns = ["run", "pack", *names, speeds_head(units), *_blank_heads(units)]
    rows = [
        [
            i,
            answer.plan.pack,
            *(answer.clicks(run).get(n, "") for n in names),
            speeds_text(run.speeds, units),
            *(_filled(b, answer) for b in BLANKS),
        ]
        for i, run in enumerate(answer.to_run, start=1)
    ]
    return csv_text(columns, rows)


def _filled(blank: str, answer: PlanAnswer) -> str:
    return _shock(answer) if blank == "shock" else ""


def _text(answer: PlanAnswer, units: Shown) -> str:
    names = _names(answer)
    columns = [
        "run",
        *names,
        speeds_head(units),
        "date",
        f"{degree_unit(units)} start",
        f"{degree_unit(units)} end",
        "file",
    ]
    rows = [
        [
            str(i),
            *(str(answer.clicks(run).get(n, "")) for n in names),
            speeds_text(run.speeds, units),
            *["________"] * 4,
        ]
        for i, run in enumerate(answer.to_run, start=1)
    ]
    notes = "\n".join(f"- {line}" for line in _notes(answer, units))
    return f"{_heading(answer)}\n{answer.team}\n\n{plain_text(columns, rows)}\n{notes}\n"


def _html(answer: PlanAnswer, units: Shown) -> str:
    names = _names(answer)
    head = "".join(f"<th>{escape(c)}</th>" for c in ("run", *names, speeds_head(units), *_blank_heads(units)))
    body = "".join(
        "<tr>" + f"<td>{i}</td>" + "".join(f"<td class=n>{answer.clicks(run).get(n, '')}</td>" for n in names)
        + f"<td class=s>{escape(speeds_text(run.speeds, units))}</td>"
        + "".join(f"<td class=b>{escape(_filled(b, answer))}</td>" for b in BLANKS) + "</tr>"
        for i, run in enumerate(answer.to_run, start=1)
    )  # fmt: skip
    notes = "".join(f"<li>{escape(line)}</li>" for line in _notes(answer, units))
    title = escape(_heading(answer))
    return (
        f'<!doctype html><html lang="en"><meta charset="utf-8"><meta name="generator" content="dynoan plan">'
        f'<meta http-equiv="Content-Security-Policy" content="{policy(_STYLE)}">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{title}</title><style>{_STYLE}</style><h1>{title}</h1><p>{escape(answer.team)}</p>"
        f'<div class=scroll tabindex=0 role=region aria-label="Runs to test"><table><thead><tr>{head}</tr></thead>'
        f"<tbody>{body}</tbody></table></div><ul>{notes}</ul></html>\n"
    )


_STYLE = (
    "@page{size:A4 landscape;margin:12mm}body{font:13px/1.4 sans-serif;color:#1c2733;margin:1.5em}h1{font-size:1.4em;"
    "margin:0}table{border-collapse:collapse;width:100%}th,td{border:1px solid #5a6673;padding:.5em .4em;"
    "text-align:left;vertical-align:top}th{font-size:.85em;background:#eef1f3}td{height:2.6em}td.n{font-size:1.3em;font-weight:bold;"
    "text-align:center}td.s{max-width:11em}td.b{min-width:4.5em}.scroll{overflow-x:auto}h1,p,li{overflow-wrap:anywhere}"
    "tr{break-inside:avoid}@media print{.scroll{overflow:visible}body{margin:0}}"
)
FORMS = {".html": _html, ".txt": _text, ".csv": _csv}
