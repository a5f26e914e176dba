"""``dynoan new``: a car or shock file to fill in, and everything that is wrong with one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command

if TYPE_CHECKING:
    from dynoan.jobs.new import FileKind
    from dynoan.workbench import Workbench

EPILOG = """\b
Examples:
  dynoan new car club
  dynoan new shock FL-21 --adjusters c,r
  dynoan new car club --ask
"""


@command(epilog=EPILOG)
@click.argument("kind", type=click.Choice(["shock", "car"]), metavar="shock|car")
@click.argument("name")
@click.option("--ask", is_flag=True, help="Ask for each value; Enter leaves one out.")
@click.option("--adjusters", help="The adjusters a shock has, such as c,r or lsc,hsc,lsr,hsr.")
def new(call: Call, kind: FileKind, name: str, ask: bool, adjusters: str | None) -> int:
    """Write the file of a shock or a car NAME to fill in, in the library's units; or check the one that is there.

    Everything that is wrong is named at once, with its line and what would be right; exit 1 where a file is faulty.
    With --library naming a new or an empty folder, that becomes a library.
    """
    from dynoan.jobs.new import NewQuestion, answer, is_there

    bench = _bench(call)
    question = NewQuestion.asked(kind, name, {}, adjusters)
    if ask and not is_there(bench, kind, name):
        from dynoan.cli.new_asking import ask_for

        question = ask_for(bench, question)
    return call.show(answer(bench, question))


def _bench(call: Call) -> Workbench:
    from dynoan.library import Library, marker

    if call.library is not None and not (call.library / marker.NAME).is_file() and marker.is_free(call.library):
        Library.open_or_create(call.library, units=call.units or "metric")
        call.note(f"made a new library in {call.library}")
    return call.workbench()
