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
    """List the sweeps the library holds: all, or those that fit every KEY=VALUE or name of a shock or pack.

    Keys: shock, pack, date, and adjusters (lsc, hsc, lsr, hsr, c, r, cr). Clicks are as each shock's file counts them.
    """
    from dynoan.jobs.sweeps import SweepsQuestion, answer

    return call.show(answer(call.workbench(), SweepsQuestion.asked(*filters)))


EDIT_EPILOG = """\b
Examples:
  dynoan edit 3ad091 --pack gravel --clicks lsc=6,lsr=8
  dynoan edit 3ad091 88c1f2 --date 2026-05-02
  dynoan edit --rename-pack P2 gravel
"""


@command(epilog=EDIT_EPILOG)
@click.argument("sweeps", metavar="ID...", nargs=-1)
@click.option("--shock", help="The shock it was.")
@click.option("--pack", help="The valve pack that was in it.")
@click.option("--clicks", help="Clicks such as lsc=6,lsr=8; adjusters not named keep theirs. '' takes all away.")
@click.option("--date", help="When it was tested, such as 2026-05-02.")
@click.option("--temperature", help='Temperature stated for the run, such as "35 °C".')
@click.option("--rename-pack", nargs=2, metavar="OLD NEW", help="Rename a pack in all sweeps, cars and setups.")
@click.option("--merge", is_flag=True, help="With --rename-pack: NEW is a pack already, and the same one.")
def edit(call: Call, sweeps: tuple[str, ...], rename_pack: tuple[str, str] | None, merge: bool, **right: Any) -> int:
    """Correct what kept sweeps say of themselves, or a pack's name. IDs may be beginnings of ids.

    The ids, the channels and the rig's own bytes stay as they are. Empty text ('') takes a fact away.
    """
    from dynoan.jobs.edit import EditQuestion, answer

    if (not sweeps) == (rename_pack is None):
        raise CallError("name either sweeps' IDs or --rename-pack OLD NEW")
    if rename_pack is not None:
        from dynoan.jobs import rename_pack as renaming

        return call.show(renaming.answer(call.workbench(), renaming.RenamePackQuestion(*rename_pack, merge)))
    return call.show(answer(call.workbench(), EditQuestion.asked(*sweeps, **right)))


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
