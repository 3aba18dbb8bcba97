"""The preview's server: an edition served on this machine alone, with what is needed to follow changes put in.

Nothing of what it puts into pages is ever written to disk.
"""

import secrets
import socket
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import quote, unquote, urlsplit

from daterun.preview.overlay import FOLLOW, STYLE, plain_page, put_in

HOST = "127.0.0.1"
_PORTS_TRIED = 20
_STILL_HERE = 15.0
"""Seconds after which a waiting browser is told that the server is still there."""

_PATIENCE = 60.0
"""Seconds that a client may take over asking or taking; one that takes longer is let go."""

MOST_AT_ONCE = 200
"""Connections held at once, each by a thread. A browser keeps some six to one host; one let go asks again."""

_OWN = "/.daterun/"

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".xml": "application/xml",
    ".txt": "text/plain; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".svg": "image/svg+xml",
    ".jpg": "image/jpeg",
    ".png": "image/png",
    ".avif": "image/avif",
    ".webp": "image/webp",
    ".woff2": "font/woff2",
    ".pdf": "application/pdf",
}


class Showing:
    """What is shown now: the folder of the edition, and the problems that stand in the way of a newer one.

    The base is the path at which the site will lie, such as ``/coins/``, so that its whole links lead here too.
    """

    def __init__(self, root: Path, base: str = "") -> None:
        self.root = root
        self.base = base
        self.problems = ""
        self._first = secrets.token_hex(4)
        self._changes = 0
        self._ended = False
        self._changed = threading.Condition()

    @property
    def version(self) -> str:
        """Name what is shown; another server never gives the same name."""
        return f"{self._first}-{self._changes}"

    def change(self, problems: str) -> None:
        """Take note of a change, and tell every browser; the problems are a report, "" where there are none."""
        with self._changed:
            self.problems = problems
            self._changes += 1
            self._changed.notify_all()

    def end(self) -> None:
        with self._changed:
            self._ended = True
            self._changed.notify_all()

    def look_up(self) -> None:
        """Let everybody who waits ask again whether there is anything left to wait for."""
        with self._changed:
            self._changed.notify_all()

    def wait(self, seen: str, seconds: float, is_over: Callable[[], bool] = lambda: False) -> str | None:
        """Wait until what is shown is another than was seen, or the time is up; None once it is over."""
        with self._changed:
            self._changed.wait_for(lambda: self._ended or is_over() or self.version != seen, seconds)
            return None if self._ended or is_over() else self.version


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    request_queue_size = 128

    def __init__(self, port: int, showing: Showing) -> None:
        super().__init__((HOST, port), _Handler)
        self.showing = showing
        self._connections: dict[socket.socket, None] = {}
        self._counting = threading.Lock()

    def process_request(self, request: Any, client_address: Any) -> None:
        """Take a connection on; where there are too many, the one that has been there longest is let go."""
        with self._counting:
            self._connections[request] = None
            oldest = next(iter(self._connections)) if len(self._connections) > MOST_AT_ONCE else None
            if oldest is not None:
                del self._connections[oldest]
        if oldest is not None:
            with suppress(OSError):
                oldest.shutdown(socket.SHUT_RDWR)
            self.showing.look_up()
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        with self._counting:
            self._connections.pop(request, None)
        super().shutdown_request(request)

    def has_let_go(self, request: Any) -> bool:
        return request not in self._connections

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Pass over clients that are gone; anything else is a fault of ours."""
        if not isinstance(sys.exception(), OSError):
            super().handle_error(request, client_address)


class _Handler(BaseHTTPRequestHandler):
    server: _Server
    protocol_version = "HTTP/1.1"
    server_version = "Daterun"
    sys_version = ""
    timeout = _PATIENCE

    def do_GET(self) -> None:
        try:
            self._answer()
        except (ConnectionError, TimeoutError):
            self.close_connection = True

    def do_HEAD(self) -> None:
        self.do_GET()

    def log_message(self, format: str, *args: object) -> None:
        """Keep quiet: the terminal is for builds and problems."""

    def _answer(self) -> None:
        if not self._is_for_us():
            self._send(HTTPStatus.MISDIRECTED_REQUEST, b"This is not the host you asked for.\n", ".txt")
            return
        path = unquote(urlsplit(self.path).path, errors="replace")
        if path == f"{_OWN}changes":
            self._tell_changes()
        elif path == f"{_OWN}follow.js":
            self._send(HTTPStatus.OK, FOLLOW.encode(), ".js")
        elif path == f"{_OWN}problems.css":
            self._send(HTTPStatus.OK, STYLE.encode(), ".css")
        else:
            self._send_file(path)

    def _is_for_us(self) -> bool:
        """Tell whether the browser meant this machine: another name may be a trick to read a keeper's edition."""
        port = self.server.server_address[1]
        names = (HOST, "localhost", "[::1]")
        ours = {f"{name}:{port}" for name in names} | (set(names) if port == 80 else set())
        origin = self.headers.get("Origin")
        if origin is not None and origin.casefold() not in {f"http://{name}" for name in ours}:
            return False
        if self.headers.get("Sec-Fetch-Site", "") in ("cross-site", "same-site") and not self._is_a_visit():
            return False
        return self.headers.get("Host", "").casefold() in ours

    def _is_a_visit(self) -> bool:
        """Tell whether somebody follows a link to here, which shows nothing to the page that they come from."""
        said = (self.headers.get("Sec-Fetch-Mode"), self.headers.get("Sec-Fetch-Dest"))
        return said == ("navigate", "document")

    def _send_file(self, path: str) -> None:
        showing = self.server.showing
        if not (showing.root / "index.html").is_file():
            page = plain_page(showing.problems)
            self._send_page(HTTPStatus.SERVICE_UNAVAILABLE, page, problems="")
            return
        found = find_file(showing.root, path, showing.base)
        if found is None:
            self._send_lost()
        elif found.is_dir():
            self._redirect(quote(path) + "/")
        elif found.suffix == ".html":
            self._send_page(HTTPStatus.OK, found.read_text(encoding="utf-8"), showing.problems)
        else:
            self._send(HTTPStatus.OK, found.read_bytes(), found.suffix)

    def _send_lost(self) -> None:
        showing = self.server.showing
        lost = showing.root / "404.html"
        page = (
            lost.read_text(encoding="utf-8") if lost.is_file() else plain_page("", "There is no such page.")
        )
        self._send_page(HTTPStatus.NOT_FOUND, page, showing.problems, is_lost=True)

    def _send_page(self, status: HTTPStatus, page: str, problems: str, is_lost: bool = False) -> None:
        html = put_in(page, self.server.showing.version, problems, is_lost)
        self._send(status, html.encode(), ".html")

    def _redirect(self, address: str) -> None:
        self.send_response(HTTPStatus.MOVED_PERMANENTLY)
        self.send_header("Location", address)
        self.send_header("Cache-Control", "no-store")
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _send(self, status: HTTPStatus, data: bytes, suffix: str) -> None:
        self.send_response(status)
        self.send_header("Content-Type", TYPES.get(suffix.casefold(), "application/octet-stream"))
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.send_header("Content-Security-Policy", "frame-ancestors 'none'")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(data)

    def _tell_changes(self) -> None:
        """Tell a browser the version shown, at once and at every change, until it leaves."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Connection", "close")
        self.end_headers()
        self.close_connection = True
        if self.command == "HEAD":
            return
        version: str | None = self.server.showing.version
        seen = ""
        while version is not None:
            self.wfile.write(f"data: {version}\n\n".encode() if version != seen else b": still here\n\n")
            self.wfile.flush()
            seen = version
            version = self.server.showing.wait(
                seen, _STILL_HERE, lambda: self.server.has_let_go(self.connection)
            )


def find_file(root: Path, path: str, base: str = "") -> Path | None:
    """Find what an address of the site names: a file, or a folder that is asked for without its last stroke.

    None for what is not there, what is hidden, and whatever lies outside the folder.
    """
    for begin in dict.fromkeys(("/", base or "/")):
        if not path.startswith(begin):
            continue
        found = _find_below(root, path[len(begin) :])
        if found is not None:
            return found
    return None


def _find_below(root: Path, address: str) -> Path | None:
    steps = address.split("/")
    if any(each.startswith(".") or "\\" in each or "\0" in each or ":" in each for each in steps):
        return None
    if any(not each for each in steps[:-1]):
        return None
    wanted = root.joinpath(*steps)
    if not address or address.endswith("/"):
        wanted = wanted / "index.html"
    try:
        if not wanted.resolve().is_relative_to(root.resolve()):
            return None
        if wanted.is_file():
            return wanted
        return wanted if (wanted / "index.html").is_file() else None
    except (OSError, ValueError):
        return None


@contextmanager
def serve(showing: Showing, port: int) -> Iterator[str]:
    """Serve what is shown while the work within goes on; yield its address.

    A port that is taken gives way to the next that is free.
    """
    server = _open(showing, port)
    thread = threading.Thread(target=server.serve_forever, args=(0.05,), name="preview", daemon=True)
    thread.start()
    try:
        yield f"http://{HOST}:{server.server_address[1]}/"
    finally:
        showing.end()
        server.shutdown()
        server.server_close()
        thread.join()


def _open(showing: Showing, port: int) -> _Server:
    for tried in range(port, min(port + _PORTS_TRIED, 65536)) if port else ():
        try:
            return _Server(tried, showing)
        except OSError:
            continue
    return _Server(0, showing)
