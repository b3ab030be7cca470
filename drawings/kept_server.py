"""The server of the page: on this machine only, and nothing but the page and its news."""

from __future__ import annotations

import json
import re
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from drawings.kept_news import News
from drawings.kept_page import kept_page

# No other machine can reach this address.
HOST = "127.0.0.1"

_FILE = re.compile(r"/(?P<name>[0-9a-f]{20}\.(?P<kind>glb|svg))")
_TYPES = {"glb": "model/gltf-binary", "svg": "image/svg+xml"}
_SVG_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
# Seconds after which a page that was left is noticed.
_PULSE = 5.0


class KeptServer(ThreadingHTTPServer):
    """Serves the news of one script.

    Args:
        news: What there is to show.
        port: The port; 0 lets the system choose.
    """

    daemon_threads = True
    block_on_close = False

    def __init__(self, news: News, port: int) -> None:
        self.news = news
        super().__init__((HOST, port), _Handler)

    @property
    def address(self) -> str:
        """Where the page is."""
        return f"http://{HOST}:{self.server_port}/"


class _Handler(BaseHTTPRequestHandler):
    server: KeptServer
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """Answer the page, its news, or one of its files."""
        port = self.server.server_port
        # A page of another name that resolves to this address has no business here.
        if self.headers.get("Host") not in {f"{HOST}:{port}", f"localhost:{port}"}:
            self._refuse(HTTPStatus.FORBIDDEN)
        elif self.path == "/":
            page, policy = kept_page()
            policy += "; frame-ancestors 'none'"
            self._give(page.encode("utf-8"), "text/html; charset=utf-8", policy)
        elif self.path == "/news":
            self._give_news()
        elif (asked := _FILE.fullmatch(self.path)) and (
            content := self.server.news.file(asked["name"])
        ):
            self._give(content, _TYPES[asked["kind"]], _SVG_POLICY)
        else:
            self._refuse(HTTPStatus.NOT_FOUND)

    def _give(self, content: bytes, kind: str, policy: str) -> None:
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Content-Security-Policy", policy)
        self._safe_headers()
        self.end_headers()
        self.wfile.write(content)

    def _refuse(self, status: HTTPStatus) -> None:
        self.send_response(status)
        self.send_header("Content-Length", "0")
        self._safe_headers()
        self.end_headers()

    def _safe_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.send_header("Referrer-Policy", "no-referrer")

    def _give_news(self) -> None:
        """All that there is, then what comes (HTML Living Standard, Server-sent events)."""
        news = self.server.news
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Connection", "close")
        self._safe_headers()
        self.end_headers()
        self.close_connection = True
        seen = 0
        try:
            while not news.is_over:
                items = news.since(seen, _PULSE)
                for item in items:
                    seen = item.number
                    told = json.dumps({"slot": item.slot, "content": item.content})
                    self.wfile.write(f"data: {told}\n\n".encode("ascii"))
                if not items:
                    self.wfile.write(b": still here\n\n")
                self.wfile.flush()
        except OSError:
            # The page was closed.
            return

    def log_message(self, format: str, *args: Any) -> None:  # noqa: A002, ANN401 - the library's
        """Say nothing: the maker's terminal is for the maker's script."""
