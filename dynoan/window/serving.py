"""Starting the window: the library, a free port, the browser, and a clean end on Ctrl-C."""

from __future__ import annotations

import contextlib
import secrets
import socket
import sys
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import uvicorn

from dynoan.batch.memory import keep_small
from dynoan.errors import CallError, LookupFault
from dynoan.library import Library
from dynoan.units import Shown
from dynoan.window.app import make_app
from dynoan.window.desk import Desk
from dynoan.window.guarding import ENTRANCE, Keys

if TYPE_CHECKING:
    from dynoan.window.api import Asks

HERE = "127.0.0.1"
ALL_ADDRESSES = ("0.0.0.0", "::")
FIRST_PORT, PORTS = 8320, 40  #: where to begin to look for a free port, and how many to try
HOME_LIBRARY = "dynoan library"


@dataclass(frozen=True)
class WindowAsked:
    """How the window is to be opened."""

    host: str | None = None  #: None: this machine alone
    port: int | None = None
    browser: bool = True
    units: Shown = "metric"


@dataclass(frozen=True)
class Opened:
    """Where the window is."""

    address: str  #: with its token, which is good for once
    library: Path
    password: str | None  #: where other machines can come in


def chosen_library(folder: Path | None) -> Library:
    """Return the library to open: the folder named, else the one found from here, else one in the home folder.

    Raises
    ------
    LibraryError
        If the folder holds other things, or cannot be written.
    """
    if folder is not None:
        return Library.open_or_create(folder.absolute())
    try:
        return Library.find()
    except LookupFault as error:
        if error.need != "library":
            raise
        return Library.open_or_create(Path.home() / HOME_LIBRARY)


def serve(library: Library, wanted: WindowAsked, asks: Asks, tell: Callable[[Opened], None]) -> None:
    """Open the window, tell where it is, and stay until Ctrl-C.

    Raises
    ------
    CallError
        If no port is free, or the host is none of this machine's.
    """
    keep_small()
    listening = _listen(wanted.host or HERE, wanted.port)
    names, port = names_of(wanted.host), listening.getsockname()[1]
    password = secrets.token_urlsafe(9) if wanted.host is not None else None
    keys = Keys(frozenset(f"{name}:{port}" for name in names), port, password=password)
    desk = Desk(library)
    desk.units = wanted.units
    address = f"http://{names[0]}:{port}{ENTRANCE}?token={keys.token}"
    tell(Opened(address, library.path, password))
    if wanted.browser and not webbrowser.open(address):
        print("No browser would open; type that address into one.", file=sys.stderr)
    desk.prepare_all()
    config = uvicorn.Config(
        make_app(desk, keys, asks), log_level="warning", access_log=False, server_header=False, date_header=False,
        lifespan="off", timeout_graceful_shutdown=2, timeout_keep_alive=30, limit_concurrency=200,
    )  # fmt: skip
    try:
        with contextlib.suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[listening])
    finally:
        desk.close()


def names_of(host: str | None) -> tuple[str, ...]:
    """Return what a browser may call the window by, without the port; the first is the one that is told.

    Parameters
    ----------
    host
        The address that it listens on; None for this machine alone. One that stands for all addresses of the machine
        is called by each of them.
    """
    if host is None:
        return (HERE, "localhost")
    if host not in ALL_ADDRESSES:
        return (_in_address(host),)
    own, found = socket.gethostname().lower(), list[str]()
    with contextlib.suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as outward:
        outward.connect(("192.0.2.1", 9))  # nothing is sent: it tells by which address this machine would
        found.append(outward.getsockname()[0])
    with contextlib.suppress(OSError):
        found += [str(info[4][0]).partition("%")[0] for info in socket.getaddrinfo(own, None)]
    return tuple(dict.fromkeys([*map(_in_address, found), HERE, "localhost", own, f"{own}.local"]))


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host.lower()


def _listen(host: str, port: int | None) -> socket.socket:
    first = FIRST_PORT if port is None else port
    for number in range(first, min(first + PORTS, 65536)):
        listening = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
        if sys.platform != "win32":  # there it would let two windows share a port
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((host, number))
            listening.listen(128)
        except OSError as error:
            listening.close()
            if isinstance(error, socket.gaierror) or error.errno in (99, 10049):  # no address of this machine
                raise CallError(
                    f"no address of this machine ({error.strerror or error})", where=host, part="host"
                ) from None
            continue
        return listening
    raise CallError(f"no free port from {first} on", hint="name another", part="port")
