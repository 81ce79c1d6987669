"""The web server: many threads in one process, enough for a workshop."""

from __future__ import annotations

import gc
import logging
import signal
import ssl
import sys
from collections.abc import Callable
from threading import Thread
from typing import TYPE_CHECKING, Any

from cheroot import wsgi

from soapbench.bootstrap.trouble import Trouble

if TYPE_CHECKING:
    from soapbench.workshop.management.certificates import Papers

log = logging.getLogger(__name__)


class Server(wsgi.Server):
    """Cheroot's server, with what it has to say sent to the log instead of the maker's terminal."""

    def error_log(self, msg: str = "", level: int = logging.INFO, traceback: bool = False) -> None:
        if isinstance(sys.exc_info()[1], ssl.SSLError):
            level = logging.DEBUG  # a phone that went away in the middle, no fault of anybody
        log.log(level, msg, exc_info=traceback)


def listen(host: str, port: int, threads: int, application: Any, papers: Papers | None = None) -> Server:
    """Return a server that has its port and its threads, and only needs to be run; with certificates, one for HTTPS.

    Raises:
        Trouble: somebody took the port meanwhile.
    """
    server = Server((host, port), application, numthreads=threads, server_name="soapbench", request_queue_size=64)
    if papers is not None:
        _make_secure(server, papers)
    try:
        server.prepare()
    except OSError as error:
        raise Trouble(f"Port {port} could not be opened: choose another, for instance --port {port + 1}.") from error
    return server


def _make_secure(server: Server, papers: Papers) -> None:
    from soapbench.workshop.management import tls  # a plain start need not wait for it

    server.ssl_adapter = tls.adapter(papers)
    server.ConnectionClass = tls.Connection


def run(server: Server, announce: Callable[[], None]) -> None:
    """Serve until Ctrl+C, or until the system asks for the end; let running requests finish.

    What announce prints comes beside the first answers: drawing a QR code need not hold them up.
    """
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    gc.freeze()  # what is loaded by now stays: no collection need look at it again
    gc.enable()
    Thread(target=announce, daemon=True).start()
    try:
        server.serve()
    except KeyboardInterrupt:
        server.stop()
