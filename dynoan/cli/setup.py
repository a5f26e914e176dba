"""``dynoan setup``: what was on the car, on which surface, and how it went. Facts only."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.errors import CallError


@click.group(epilog="Example:  dynoan setup record kestrel --surface loose --good")
def setup() -> None:
    """Record, list, compare and recall setups: what was on the car, on which surface, and how it went."""


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
@click.option("--from", "file", type=click.Path(path_type=Path), help="A setup file, as the trackside page saves it.")
def record(call: Call, car: str | None, **asked: Any) -> int:
    """Keep what is on CAR now, word for word as its file has it, with how it went."""
    from dynoan.jobs.setup.record import SetupRecordQuestion, answer

    return call.show(answer(call.workbench(), SetupRecordQuestion.asked(car, **asked)))


@command(name="list", epilog="Example:  dynoan setup list --by surface")
@click.option("--surface", help="Only setups of this surface.")
@click.option("--by", type=click.Choice(["surface"]), help="The season: changes, what followed, trials, baselines.")
def list_setups(call: Call, surface: str | None, by: str | None) -> int:
    """List the setups kept, oldest first; --by surface shows what was changed when, and which baseline stands best."""
    from dynoan.jobs.setup.listing import SetupListQuestion, answer

    return call.show(answer(call.workbench(), SetupListQuestion(surface, by_surface=by == "surface")))


@command(epilog="Example:  dynoan setup compare 2026-05-02-kestrel 2026-06-13-kestrel")
@click.argument("one")
@click.argument("other")
def compare(call: Call, one: str, other: str) -> int:
    """Show what differs between two setups."""
    from dynoan.jobs.setup.compare import SetupCompareQuestion, answer

    return call.show(answer(call.workbench(), SetupCompareQuestion(one, other)))


@command(
    short_help="Show the last good setup, or take its car back.",
    epilog="Example:  dynoan setup recall --surface loose --to cars/kestrel-again.toml",
)
@click.argument("name", required=False)
@click.option("--surface", help="The last good setup of this surface.")
@click.option("--car", help="Only setups of this car.")
@click.option("--to", "target", type=click.Path(path_type=Path), help="Write the car of it as this car file.")
@click.option("--card", is_flag=True, help="A card for whoever turns the screws: what goes on each corner.")
@click.option("--force", is_flag=True, help="Write over the file that is there, unless it is the library's.")
def recall(
    call: Call, name: str | None, surface: str | None, car: str | None, target: Path | None, card: bool, force: bool
) -> int:  # fmt: skip
    """Show the last good setup, of a surface or of all, or the one NAMEd; with --to, write its car as a car file."""
    from dynoan.jobs.setup.recall import SetupRecallQuestion, answer

    bench = call.workbench()
    found = answer(bench, SetupRecallQuestion(name, surface, car, card))
    if found.setup is None:
        return call.show(found)
    if target is None:
        return call.show(found, written={"written": None})
    _write_car(found.car_text, found.setup.car.name, target, bench.library.path, force=force)
    call.say(f"wrote the car of {found.setup.name} to {target}")
    for text in found.warnings:
        call.warn(text)
    return call.result(found.to_dict() | {"written": str(target)})


def _write_car(text: str, car: str, target: Path, library: Path, *, force: bool) -> None:
    from dynoan.output import write

    if target.suffix != ".toml":
        raise CallError(f"a car file ends in .toml, such as cars/{car}.toml", where=f"--to {target}")
    if target.exists() and not force:
        raise CallError(
            "there is such a file", where=f"--to {target}", hint="name another, or write over it with --force"
        )
    write(target, text.encode(), force=force, at_hand=[library], new_in="cars")


@command(
    short_help="Correct what a kept setup says of its day.",
    epilog='Example:  dynoan setup edit 2026-05-02-kestrel --result "2nd of 9" --good',
)
@click.argument("name")
@click.option("--surface", help="What was driven on.")
@click.option("--temperature", help='Air or track, such as "18 °C".')
@click.option("--result", help="How it went.")
@click.option("--good/--bad", default=None, help="The team's own verdict.")
@click.option("--remarks", help="Anything else.")
@click.option("--date", help="When it was.")
def edit(call: Call, name: str, **asked: Any) -> int:
    """Correct the facts of the setup NAME; the car in it stays as it was. An empty text ('') takes a fact away."""
    from dynoan.jobs.setup.edit import SetupEditQuestion, answer

    return call.show(answer(call.workbench(), SetupEditQuestion.asked(name, **asked)))


for _part in (record, list_setups, compare, recall, edit):
    setup.add_command(_part)
