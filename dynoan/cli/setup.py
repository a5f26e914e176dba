"""``dynoan setup``: what was on the car, on which surface, and how it went. Facts only."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import NO, Call, command
from dynoan.errors import CallError

if TYPE_CHECKING:
    from dynoan.library import Library
    from dynoan.model.setup import Setup


@click.group(epilog="Example:  dynoan setup record kestrel --surface loose --good")
def setup() -> None:
    """Record, list, compare and recall setups: what was on the car, on which surface, and how it went."""


def setup_json(setup: Setup) -> dict[str, Any]:
    """Return a setup's facts as JSON."""
    corners = {
        name: {"shock": c.shock, "pack": c.pack, "clicks": dict(c.clicks), "spring_n_m": c.spring, "mass_kg": c.mass}
        for name, c in setup.car.corners.items()
    }
    return {
        "name": setup.name, "car": setup.car.name, "date": setup.date, "surface": setup.surface,
        "temperature_c": setup.temperature, "result": setup.result, "good": setup.good, "remarks": setup.remarks,
        "recorded": setup.recorded, "file": setup.file, "corners": corners,
    }  # fmt: skip


def show_setups(call: Call, setups: list[Setup]) -> None:
    """Print setups as a table for people, one line each."""
    from dynoan.show.text.tables import table

    if call.json:
        return
    verdicts = {True: "good", False: "bad", None: ""}
    columns = ["name", "date", "car", "surface", "°C", "verdict", "result", "remarks"]
    rows = []
    for s in setups:
        degrees = "" if s.temperature is None else f"{s.temperature:.0f}"
        remarks = " ".join(s.remarks.split())
        short = remarks if len(remarks) <= 60 or call.verbose else remarks[:59] + "…"
        words = [verdicts[s.good], s.result or "", short]
        rows.append([s.name, s.date[:16], s.car.name, s.surface or "", degrees, *words])
    table(columns, rows)


@command(
    short_help="Keep what is on a car now, and how it went.",
    epilog='Example:  dynoan setup record kestrel --surface loose --temperature "18 °C" --result "2nd of 9" --good',
)
@click.argument("car", required=False)
@click.option("--surface", help="What was driven on, in the team's words, such as loose.")
@click.option("--temperature", help='Air or track, as the team notes it, such as "18 °C".')
@click.option("--result", help="A time, a place, whatever tells how it went.")
@click.option("--good/--bad", default=None, help="The team's own verdict; recall goes by it.")
@click.option("--remarks", help="Anything else worth keeping.")
@click.option("--date", help="When; today where left out.")
@click.option("--from", "source", type=click.Path(path_type=Path), help="A setup file, as the trackside page saves it.")
def record(call: Call, car: str | None, source: Path | None, **facts: Any) -> int:
    """Keep what is on CAR now, word for word as its file has it, with how it went."""
    library = call.workbench().library
    if (car is None) == (source is None):
        raise CallError("name either a CAR or a file with --from, such as: dynoan setup record kestrel")
    made, car_text = _from_car(library, car, facts) if car else _from_file(source, facts)  # type: ignore[arg-type]
    kept = library.record_setup(made, car_text)
    call.say(f"kept as {kept.name} ({kept.file})")
    show_setups(call, [kept])
    return call.result({"setup": setup_json(kept)})


def _from_car(library: Library, name: str, facts: dict[str, Any]) -> tuple[Setup, str]:
    from dynoan.model.setup import Setup

    car = library.car(name)
    made = Setup(name="", car=car, date=datetime.datetime.now().isoformat(timespec="seconds"))
    return _with_facts(made, facts), library.car_text(name)


def _from_file(source: Path, facts: dict[str, Any]) -> tuple[Setup, str]:
    from dynoan.library.setup_file import car_text_of, setup_from_text
    from dynoan.library.tables import read_text

    text = read_text(source, str(source))
    return _with_facts(setup_from_text(text, str(source), source.stem), facts), car_text_of(text, str(source))


def _with_facts(made: Setup, facts: dict[str, Any]) -> Setup:
    """Return a setup with what the command line states in place of what it said before."""
    from dataclasses import replace

    from dynoan.library.setup_file import check_date
    from dynoan.units import parse

    given = {key: value for key, value in facts.items() if value is not None}
    if "temperature" in given:
        given["temperature"] = parse(given["temperature"], "temperature", where="--temperature")
    if "date" in given:
        given["date"] = check_date(given["date"], "--date")
    return replace(made, **given)


@command(name="list", epilog="Example:  dynoan setup list --surface loose")
@click.option("--surface", help="Only setups of this surface.")
def list_setups(call: Call, surface: str | None) -> int:
    """List the setups kept, oldest first."""
    found = [s for s in _readable(call) if _same(surface, s.surface)]
    if found:
        show_setups(call, found)
    else:
        on = f" on {surface}" if surface else ""
        call.say(f"no setups{on} yet; keep one with: dynoan setup record CAR --surface NAME --good")
    return call.result({"setups": [setup_json(s) for s in found]})


@command(epilog="Example:  dynoan setup compare 2026-05-02-kestrel 2026-06-13-kestrel")
@click.argument("one")
@click.argument("other")
def compare(call: Call, one: str, other: str) -> int:
    """Show what differs between two setups."""
    from dynoan.library.differences import differences
    from dynoan.show.text.tables import table

    library = call.workbench().library
    first, second = library.setup(one), library.setup(other)
    found = differences(first, second, call.shown_units)
    if found:
        if not call.json:
            table(["what", first.name, second.name], [[d.what, d.one, d.other] for d in found])
    else:
        call.say(f"{first.name} and {second.name} do not differ")
    listed = [{"what": d.what, "a": d.one_value, "b": d.other_value} for d in found]
    return call.result({"a": first.name, "b": second.name, "differences": listed})


@command(
    short_help="Show the last good setup, or take its car back.",
    epilog="Example:  dynoan setup recall --surface loose --to cars/kestrel-again.toml",
)
@click.argument("name", required=False)
@click.option("--surface", help="The last good setup of this surface.")
@click.option("--car", help="Only setups of this car.")
@click.option("--to", "target", type=click.Path(path_type=Path), help="Write the car of it as this car file.")
@click.option("--force", is_flag=True, help="Write over the file that is there.")
def recall(
    call: Call, name: str | None, surface: str | None, car: str | None, target: Path | None, force: bool
) -> int:  # fmt: skip
    """Show the last good setup, of a surface or of all, or the one NAMEd; with --to, write its car as a car file."""
    library = call.workbench().library
    if name:
        found: Setup | None = library.setup(name)
    else:
        found = next((s for s in reversed(_readable(call)) if _fits(s, surface, car)), None)
    if found is None:
        what = " ".join(filter(None, ("no good setup", f"on {surface}" if surface else "", f"of {car}" if car else "")))
        call.say(f"{what} is kept; dynoan setup list shows what is, and --good marks one when it is recorded")
        return call.result({"setup": None}, NO)
    text = library.setup_text(found.name)
    if target is None:
        call.say(text.rstrip("\n"))
    else:
        _write_car(text, found, target, force=force)
        call.say(f"wrote the car of {found.name} to {target}")
    return call.result({"setup": setup_json(found), "text": text, "written": None if target is None else str(target)})


def _fits(setup: Setup, surface: str | None, car: str | None) -> bool:
    return setup.good is True and _same(surface, setup.surface) and _same(car, setup.car.name)


def _same(wanted: str | None, found: str | None) -> bool:
    return wanted is None or wanted.casefold() == (found or "").casefold()


def _write_car(text: str, found: Setup, target: Path, *, force: bool) -> None:
    from dynoan.library import files
    from dynoan.library.setup_file import car_text_of

    data = car_text_of(text, found.file).encode()
    if target.suffix != ".toml":
        raise CallError(f"--to {target}: a car file ends in .toml, such as cars/{found.car.name}.toml")
    if force:
        files.replace(target, data)
    elif not files.write_new(target, data):
        raise CallError(f"--to {target}: there is such a file; name another, or write over it with --force")


def _readable(call: Call) -> list[Setup]:
    """Return the setups that can be read; warn of each that cannot."""
    from dynoan.library.names import printable

    setups, faults = call.workbench().library.readable_setups()
    for fault in faults:
        call.warn(f"{printable(fault.file)}: left out: {printable(fault.fault)}")
    return list(setups)


for _part in (record, list_setups, compare, recall):
    setup.add_command(_part)
