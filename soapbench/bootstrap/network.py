"""This machine's address on its network, and whether a port is free."""

import errno
import os
import re
import socket

from soapbench.bootstrap.trouble import Trouble

# Letters, digits and hyphens, as RFC 1123 wants host names; a system may let its owner write anything.
HOST_NAME = re.compile(r"(?!-)[a-z0-9-]{1,63}(?<!-)(\.(?!-)[a-z0-9-]{1,63}(?<!-))*")
EVERY_ADDRESS = ("0.0.0.0", "::")


def lan_address() -> str | None:
    """Return the address under which phones on the same network reach this machine, if there is one.

    Asks the system which address it would send from; nothing is sent. 192.0.2.1 is set aside
    for documentation (RFC 5737), so it leads out by the usual way.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return None
        address = str(probe.getsockname()[0])
    return None if address.startswith(("127.", "0.")) else address


def host_names() -> list[str]:
    """Return the names under which this machine may be reached: its own, and the one with .local (RFC 6762)."""
    own = socket.gethostname().lower().rstrip(".")
    names = [own, f"{own.partition('.')[0]}.local"]
    return list(dict.fromkeys(name for name in names if HOST_NAME.fullmatch(name)))


def check_port(host: str, port: int) -> None:
    """Raise Trouble when the server could not listen there."""
    if not 0 < port < 65536:
        raise Trouble(f"{port} is no port: choose one from 1024 to 65535, for instance --port 8080.")
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as probe:
        if os.name != "nt":  # as the server itself does: a port just left is free; on Windows it would mean sharing
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as error:
            raise Trouble(_why(error, host, port)) from error


def _why(error: OSError, host: str, port: int) -> str:
    match error.errno:
        case errno.EADDRINUSE:
            return (
                f"Port {port} is in use, perhaps by a soapbench that already runs: "
                f"stop that one, or choose another port with --port {port + 1}."
            )
        case errno.EACCES:
            return f"Port {port} is kept for the system: choose one above 1023, for instance --port 8000."
    return f"{host} is not an address of this machine: leave --host out, or use --host 127.0.0.1."
