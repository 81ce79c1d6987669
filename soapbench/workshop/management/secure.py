"""What `serve --secure` adds: certificates, the server that shows them, the plain door, and care while it runs."""

from __future__ import annotations

import time
from dataclasses import dataclass
from pathlib import Path
from threading import Thread
from typing import Any

from django.conf import settings
from django.utils import timezone

from soapbench.bootstrap import network
from soapbench.workshop.management import certificates, door, server

LOOK_EVERY_S = 600.0
DOOR_THREADS = 4


@dataclass
class Secured:
    """The secure address with its plain door."""

    host: str
    port: int
    papers: certificates.Papers
    main: server.Server
    plain: server.Server

    def start_care(self) -> None:
        """Serve the door, and look after the certificates, beside the main server; both end with the process."""
        Thread(target=self.plain.serve, daemon=True).start()
        Thread(target=self._care, daemon=True).start()

    def stop(self) -> None:
        self.plain.stop()

    def _care(self) -> None:
        while True:
            time.sleep(LOOK_EVERY_S)
            self.look()

    def look(self) -> None:
        """Renew the certificate when it grows old or this machine got another address, without a restart."""
        lan = network.lan_address() if self.host in network.EVERY_ADDRESS else None
        names = own_names(self.host, lan)
        papers = certificates.ensure(self.papers.folder, names, timezone.now())
        if not papers.is_new_leaf:
            return
        self.papers = papers
        self.main.ssl_adapter.renew(papers)
        settings.ALLOWED_HOSTS = [*settings.ALLOWED_HOSTS, *(n for n in names if n not in settings.ALLOWED_HOSTS)]
        tell_settings(self.host, self.port, lan, papers)


def own_names(host: str, lan: str | None) -> list[str]:
    """Return what the certificate is for: this machine's names first, then its addresses."""
    chosen = [] if host in network.EVERY_ADDRESS else [host]
    names = [*network.host_names(), *([lan] if lan else []), *chosen, "localhost", "127.0.0.1", "::1"]
    return list(dict.fromkeys(names))


def prepare(host: str, port: int, lan: str | None) -> certificates.Papers:
    """Make the certificates that are missing, and set the app to HTTPS."""
    network.check_port(host, door_of(port))
    papers = certificates.ensure(Path(settings.DATA_DIR, "tls"), own_names(host, lan), timezone.now())
    tell_settings(host, port, lan, papers)
    settings.SESSION_COOKIE_SECURE = settings.CSRF_COOKIE_SECURE = True
    # Names of their own: a browser lets no plain page overwrite a secure cookie, so after a return to plain HTTP
    # nobody could sign in until the old ones end.
    settings.SESSION_COOKIE_NAME, settings.CSRF_COOKIE_NAME = "secure_sessionid", "secure_csrftoken"
    return papers


def tell_settings(host: str, port: int, lan: str | None, papers: certificates.Papers) -> None:
    """Let the pages know the addresses and the root certificate."""
    name = lan or (host if host not in network.EVERY_ADDRESS else "localhost")
    settings.HOUSE_ADDRESS = f"https://{name}:{port}/"
    settings.DOOR_ADDRESS = f"http://{name}:{door_of(port)}/"
    settings.ROOT_CERTIFICATE = str(papers.root)
    settings.ROOT_FINGERPRINT = certificates.fingerprint(papers.root)


def door_of(port: int) -> int:
    """Return the port of the plain door."""
    return port + 1


def listen(host: str, port: int, threads: int, application: Any, papers: certificates.Papers) -> Secured:
    """Return both servers with their ports and threads, ready to run."""
    main = server.listen(host, port, threads, application, papers)
    plain = server.listen(host, door_of(port), DOOR_THREADS, door.Door(application, port))
    return Secured(host, port, papers, main, plain)
