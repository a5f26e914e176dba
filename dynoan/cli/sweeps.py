"""``dynoan sweeps``, ``edit``, ``remove`` and ``check``: what the library holds, and putting it right."""

from __future__ import annotations

from typing import Any

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.errors import CallError


@command(epilog="Example:  dynoan sweeps pack=gravel shock=FL-01")
@click.argument("filters", metavar="[KEY=VALUE]...", nargs=-1)
def sweeps(call: Call, filters: tuple[str, ...]) -> int:
    """List the sweeps the library holds: all, or those that fit every KEY=VALUE.

    Keys: shock, pack, date, and adjusters (lsc, hsc, lsr, hsr, c, r, cr). Clicks are as each shock's file counts them.
    """
    from dynoan.jobs.sweeps import SweepsQuestion, answer

    return call.show(answer(call.workbench(), SweepsQuestion.asked(*filters)))


EDIT_EPILOG = """\b
Examples:
  dynoan edit 3ad091 --pack gravel --clicks lsc=6,lsr=8
  dynoan edit --rename-pack P2 gravel
"""


@command(epilog=EDIT_EPILOG)
@click.argument("sweep", metavar="ID", required=False)
@click.option("--shock", help="The shock it was.")
@click.option("--pack", help="The valve pack that was in it.")
@click.option("--clicks", help="Clicks such as lsc=6,lsr=8; adjusters not named keep theirs. '' takes all away.")
@click.option("--date", help="When it was tested, such as 2026-05-02.")
@click.option("--temperature", help='Temperature stated for the run, such as "35 °C".')
@click.option("--rename-pack", nargs=2, metavar="OLD NEW", help="Rename a pack in all sweeps, cars and setups.")
@click.option("--merge", is_flag=True, help="With --rename-pack: NEW is a pack already, and the same one.")
def edit(call: Call, sweep: str | None, rename_pack: tuple[str, str] | None, merge: bool, **right: Any) -> int:
    """Correct what a kept sweep says of itself, or a pack's name. ID may be the beginning of an id.

    The id, the channels and the rig's own bytes stay as they are. Empty text ('') takes a fact away.
    """
    from dynoan.jobs.edit import EditQuestion, answer

    if (sweep is None) == (rename_pack is None):
        raise CallError("name either a sweep's ID or --rename-pack OLD NEW")
    if rename_pack is not None:
        from dynoan.jobs import rename_pack as renaming

        return call.show(renaming.answer(call.workbench(), renaming.RenamePackQuestion(*rename_pack, merge)))
    assert sweep is not None

    question = EditQuestion.asked(sweep, **right)
    return call.show(answer(call.workbench(), question))


@command(epilog="Example:  dynoan remove 3ad091 88c1f2")
@click.argument("sweeps", metavar="ID...", nargs=-1, required=True)
def remove(call: Call, sweeps: tuple[str, ...]) -> int:
    """Take sweeps out of the library for good, with the rig's bytes they hold. IDs may be beginnings of ids."""
    from dynoan.jobs.remove import RemoveQuestion, answer

    return call.show(answer(call.workbench(), RemoveQuestion(sweeps)))


@command(epilog="Example:  dynoan check")
def check(call: Call) -> int:
    """Verify every file of the library: checksums, formats, and the text that people edit.

    Exit 1 where one is faulty; each faulty file is named with what is wrong and what to do.
    """
    from dynoan.jobs.check import CheckQuestion, answer

    return call.show(answer(call.workbench(), CheckQuestion()))
