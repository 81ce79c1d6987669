"""HTTPS with Python's own ssl: the handshake is a worker's task, and whoever speaks plain HTTP is told where to go."""

from __future__ import annotations

import os
import socket
import ssl
from contextlib import suppress
from typing import Any

from cheroot.server import HTTPConnection
from cheroot.ssl.builtin import BuiltinSSLAdapter
from django.conf import settings

from soapbench.workshop.management.certificates import Papers

PATIENCE_S = 1.0


class Adapter(BuiltinSSLAdapter):
    """Cheroot's adapter, but a phone that falls silent in the middle of its handshake holds up nobody else."""

    def wrap(self, sock: socket.socket) -> tuple[ssl.SSLSocket, dict[str, Any]]:
        wrapped = self.context.wrap_socket(sock, server_side=True, do_handshake_on_connect=False)
        return wrapped, {"wsgi.url_scheme": "https", "HTTPS": "on"}

    def renew(self, papers: Papers) -> None:
        """Show new phones the new certificate; connections that are open go on."""
        self.context.load_cert_chain(papers.leaf, papers.leaf_key)


def adapter(papers: Papers) -> Adapter:
    """Return the adapter that shows these certificates, TLS 1.2 and newer."""
    made = Adapter(str(papers.leaf), str(papers.leaf_key))
    made.context.minimum_version = ssl.TLSVersion.TLSv1_2
    return made


class Connection(HTTPConnection):
    """One connection, shaken hands on by the worker that answers it."""

    is_greeted = False

    def communicate(self) -> bool:
        if not self.is_greeted and not self._greet():
            return False
        self.is_greeted = True
        try:
            return bool(super().communicate())  # type: ignore[no-untyped-call]
        except ssl.SSLError:  # gone while it was told what went wrong
            return False

    def _greet(self) -> bool:
        try:
            self.socket.do_handshake()
        except ssl.SSLError as error:
            if error.reason == "HTTP_REQUEST":
                self._send_on()
            return False
        except OSError:  # gone, or too slow
            return False
        return True

    def _send_on(self) -> None:
        """Answer a browser that has an old http:// address with the way to the page that helps."""
        head = [
            "HTTP/1.1 302 Found",
            f"Location: {settings.DOOR_ADDRESS}phone/",
            "Content-Length: 0",
            "Connection: close",
        ]
        with suppress(OSError), socket.socket(fileno=os.dup(self.socket.fileno())) as bare:
            bare.settimeout(PATIENCE_S)
            bare.recv(65536)  # unread bytes would make the system drop the answer
            bare.sendall("\r\n".join([*head, "", ""]).encode())
            bare.shutdown(socket.SHUT_WR)
