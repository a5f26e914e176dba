"""Who may ask: only this machine's own browser, with the token it was opened with; and what pages may do."""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import RedirectResponse, Response

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST_BODY = 128 << 20  #: of one request: a rig's file of two million rows has some 100 MB [bytes]
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY, "X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}  # fmt: skip
SAFE = frozenset({"GET", "HEAD"})
ENTRANCE = "/enter"


@dataclass
class Keys:
    """What opens the window: a token for the first address, good for once, and the cookie it becomes."""

    hosts: frozenset[str]  #: every Host this window answers to, with its port
    port: int
    token: str | None = field(default_factory=lambda: secrets.token_urlsafe(24))
    cookie: str = field(default_factory=lambda: secrets.token_urlsafe(32))
    password: str | None = None  #: asked for where other machines can reach the window

    @property
    def cookie_name(self) -> str:
        """The cookie's name: cookies do not know ports, and two windows may be open."""
        return f"dynoan_{self.port}"

    def spend(self, token: str) -> bool:
        """Tell whether this is the token, which is then worth nothing any more."""
        if self.token is None or not hmac.compare_digest(token.encode(), self.token.encode()):
            return False
        self.token = None
        return True

    def knows(self, cookies: str) -> bool:
        """Tell whether a Cookie header holds the cookie."""
        try:
            found = SimpleCookie(cookies).get(self.cookie_name)
        except CookieError:
            return False
        return found is not None and hmac.compare_digest(found.value.encode(), self.cookie.encode())

    def admit(self) -> Response:
        """Return the answer that hands the cookie over and leads to the first page."""
        answer = RedirectResponse("/", status_code=303)
        answer.set_cookie(self.cookie_name, self.cookie, httponly=True, samesite="strict", path="/")
        return answer


class Guard:
    """Stands before the window: refuses foreign hosts, foreign pages, strangers, and what is too large."""

    def __init__(self, app: ASGIApp, keys: Keys) -> None:
        self._app = app
        self._keys = keys

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self._app(scope, receive, send)
            return
        refusal = self._refusal(scope)
        app = self._app if refusal is None else refusal
        await app(scope, _bounded(receive), _with_headers(send, scope["path"]))

    def _refusal(self, scope: Scope) -> Response | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if host not in self._keys.hosts:
            return _no("This window answers to this machine alone.", 421)
        if scope["method"] not in SAFE and not _same_origin(headers, host):
            return _no("This did not come from one of the window's own pages, so nothing was changed.", 403)
        if _too_long(headers):
            return _no(f"More than {MOST_BODY >> 20} MB at once: send fewer or smaller files.", 413)
        if scope["path"] == ENTRANCE or scope["path"].startswith("/static/"):
            return None
        if not self._keys.knows(headers.get("cookie", "")):
            if self._keys.password is not None and "text/html" in headers.get("accept", ""):
                return RedirectResponse(ENTRANCE, 303)  # where the password is asked
            return _no("This window was opened with an address of its own: run 'dynoan open' again and use that.", 403)
        return None


def _same_origin(headers: Mapping[str, str], host: str) -> bool:
    site = headers.get("sec-fetch-site", "same-origin")
    return headers.get("origin") == f"http://{host}" and site in ("same-origin", "none")


def _too_long(headers: Mapping[str, str]) -> bool:
    length = headers.get("content-length", "0")
    return not length.isdecimal() or int(length) > MOST_BODY


def _no(text: str, status: int) -> Response:
    return Response(f"{text}\n", status, media_type="text/plain", headers={"Connection": "close"})


def _bounded(receive: Receive) -> Receive:
    """Return a way to receive a body that ends as if the browser had gone once it is too long."""
    taken = 0

    async def bounded() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        return {"type": "http.disconnect"} if taken > MOST_BODY else message

    return bounded


def _with_headers(send: Send, path: str) -> Send:
    async def send_with(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("Cache-Control", "max-age=600" if path.startswith("/static/") else "no-store")
        await send(message)

    return send_with
