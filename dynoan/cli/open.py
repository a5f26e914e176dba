"""``dynoan open``: the window, everything in the browser."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from dynoan.cli.call import DONE, Call
from dynoan.cli.command import command

if TYPE_CHECKING:
    from dynoan.window.serving import Opened

EPILOG = """\b
Examples:
  dynoan open team
  dynoan open --no-browser --port 8320
  dynoan open team --install-shortcut
"""


@command(epilog=EPILOG, short_help="Open the window: everything in the browser, on this machine.")
@click.argument("folder", metavar="[LIBRARY]", type=click.Path(path_type=Path, file_okay=False), required=False)
@click.option("--no-browser", is_flag=True, help="Open no browser; print the address, which is good for once.")
@click.option("--port", type=click.IntRange(1, 65535), help="The port; the next free one where it is taken.")
@click.option("--host", help="An address other machines can reach; a password is then printed and asked for.")
@click.option("--install-shortcut", is_flag=True, help="Write a file to double-click, and say where it is.")
def open_window(
    call: Call, folder: Path | None, no_browser: bool, port: int | None, host: str | None, install_shortcut: bool
) -> int:
    """Open the window over LIBRARY: files, packs, curves, the car and the log book, in the browser.

    The browser talks to this machine alone, and no network is needed. A new or empty folder becomes a library.
    Without LIBRARY the one found from here is opened, else one is made in your home folder. Ctrl-C stops.
    """
    from dynoan.cli.asking import ask
    from dynoan.window.serving import WindowAsked, chosen_library, serve
    from dynoan.window.shortcut import install

    library = chosen_library(folder if folder is not None else call.library)
    if install_shortcut:
        path = install(library.path)
        call.say(f"shortcut: {path}   double-click it to open the window over {library.path}")
        return call.result({"shortcut": str(path), "library": str(library.path)})
    units = call.units or library.units
    serve(
        library, WindowAsked(host, port, not no_browser, units), ask, lambda found: _tell(call, found, alone=no_browser)
    )
    if sys.stderr.isatty():
        call.note("\ndynoan: stopped.")  # below the ^C that the terminal wrote
    return DONE


def _tell(call: Call, found: Opened, *, alone: bool) -> None:
    """Print the address; where no browser is opened it is the first line of standard output."""
    call.say(found.address)
    if not alone:
        call.say("The window opens in your browser. That address is good for once.")
    call.say(f"Library: {found.library}")
    if found.password is not None:
        call.say(f"Password, for other machines: {found.password}")
    call.say("Ctrl-C stops it.")
    call.result({"address": found.address, "library": str(found.library), "password": found.password})
    sys.stdout.flush()
