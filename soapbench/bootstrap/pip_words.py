"""What pip said, in one plain sentence."""

import sys
from pathlib import Path

from soapbench.bootstrap.trouble import Trouble

NO_NETWORK = (
    "NewConnectionError",
    "NameResolutionError",
    "Temporary failure in name resolution",
    "Name or service not known",
    "getaddrinfo failed",
    "Connection refused",
    "Connection reset",
    "Connection aborted",
    "ConnectTimeoutError",
    "ReadTimeoutError",
    "Network is unreachable",
    "Max retries exceeded",
    "ProxyError",
)
NO_TRUST = ("CERTIFICATE_VERIFY_FAILED", "SSLError")
OTHER_BYTES = ("DO NOT MATCH THE HASHES", "hashes are required")
NO_BUILD = ("No matching distribution found",)
NO_SPACE = ("No space left on device",)


def trouble(words: str, log: Path) -> Trouble:
    """Return the sentence for what pip printed; the whole of it is in the log."""
    for signs, sentence in sentences():
        if any(sign in words for sign in signs):
            return Trouble(sentence)
    last = ([line for line in words.splitlines() if line.strip()] or ["it gave no reason"])[-1].strip()
    return Trouble(f"The packages could not be installed ({last}): all that pip said is in {log}.")


def sentences() -> list[tuple[tuple[str, ...], str]]:
    """Return signs and sentences, the surest first: a lost network also ends in 'no matching'."""
    version = ".".join(map(str, sys.version_info[:2]))
    return [
        (
            OTHER_BYTES,
            "A fetched package is not the one pinned, so nothing of it was used: try another network.",
        ),
        (NO_SPACE, "The disk is full: free about 1 GB, then start again."),
        (
            NO_TRUST,
            "The package index could not be reached safely (its certificate is not trusted here): "
            "set the machine's clock, or tell pip about your network's certificate, then start again.",
        ),
        (
            NO_NETWORK,
            "The first start needs the network once, and the package index could not be reached: "
            "connect this machine to the internet, then start again.",
        ),
        (
            NO_BUILD,
            f"Some package is not ready-built for this machine and Python {version}, or the package index could not "
            "be reached: check the network, or use Python 3.11 to 3.13 on 64-bit Linux, macOS or Windows.",
        ),
    ]
