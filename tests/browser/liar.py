"""Machines that answer instead of the server: a hotspot's sign-in page, a broken proxy, half an answer, none."""

import threading
import urllib.error
import urllib.request
from collections.abc import Callable
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

PAGE = b"<!doctype html><title>Welcome to Harbour Wifi</title><form><button>Sign in</button></form>"
HALF = b'{"entries": [{"position": 1, "ent'


class Liar:
    """Answers every request on a port in one way. `asked` holds method and path of each, `bodies` what was sent."""

    def __init__(self, port: int, way: Callable[[BaseHTTPRequestHandler, bytes], None]) -> None:
        self.asked: list[str] = []
        self.bodies: list[bytes] = []
        self.url = f"http://127.0.0.1:{port}"
        self._over = threading.Event()
        liar = self

        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def answer(self) -> None:
                body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
                liar.asked.append(f"{self.command} {self.path}")
                liar.bodies.append(body)
                self.close_connection = True
                way(self, body)

            do_GET = do_POST = do_DELETE = answer

            def log_message(self, *_: object) -> None:
                """Not on the terminal."""

        self._server = ThreadingHTTPServer(("127.0.0.1", port), Handler)
        self._server.daemon_threads = True
        self._thread = threading.Thread(target=self._server.serve_forever, daemon=True)

    def __enter__(self) -> "Liar":
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._over.set()
        self._server.shutdown()
        self._server.server_close()


def page_with_200(handler: BaseHTTPRequestHandler, _: bytes) -> None:
    """As a captive portal does."""
    _send(handler, 200, "text/html; charset=utf-8", PAGE, len(PAGE))


def page_called_json(handler: BaseHTTPRequestHandler, _: bytes) -> None:
    _send(handler, 200, "application/json", PAGE, len(PAGE))


def bad_gateway(handler: BaseHTTPRequestHandler, _: bytes) -> None:
    _send(handler, 502, "text/html", b"<h1>502 Bad Gateway</h1>", 24)


def half_an_answer(handler: BaseHTTPRequestHandler, _: bytes) -> None:
    _send(handler, 200, "application/json", HALF, 4000)


def losing_first(lost: str, server: str) -> Callable[[BaseHTTPRequestHandler, bytes], None]:
    """The server's own files, but the first time the worker asks for this one nothing comes."""
    gone: list[str] = []

    def way(handler: BaseHTTPRequestHandler, _: bytes) -> None:
        if handler.path == lost and handler.headers.get("Sec-Fetch-Dest") == "empty" and not gone:
            gone.append(lost)
            return
        try:
            with urllib.request.urlopen(server + handler.path) as reply:
                status, headers, body = reply.status, reply.headers, reply.read()
        except urllib.error.HTTPError as refused:
            status, headers, body = refused.code, refused.headers, refused.read()
        handler.send_response(status)
        for name, value in headers.items():
            if name.lower() not in ("date", "server", "connection"):
                handler.send_header(name, value)
        handler.end_headers()
        handler.wfile.write(body)

    return way


def _send(handler: BaseHTTPRequestHandler, status: int, kind: str, body: bytes, said: int) -> None:
    handler.send_response(status)
    handler.send_header("Content-Type", kind)
    handler.send_header("Content-Length", str(said))
    handler.end_headers()
    handler.wfile.write(body)
