"""What serve prints: where the app is, and QR codes that let the phone in."""

import io
from dataclasses import dataclass
from textwrap import wrap

import segno

from soapbench.workshop.entry import LINK_HOURS

NEW_ROOT = "  The root certificate is new: a phone that knew an older one has to be told again."
PAIRS_A_LINE = 8  # as phones show a fingerprint


@dataclass(frozen=True)
class Part:
    """Some lines, and the address whose QR code stands below them, "" for none."""

    lines: list[str]
    code: str = ""


def plain(port: int, phone: str | None, *, lan: bool) -> list[Part]:
    """Return what tells the addresses of a start without HTTPS."""
    return [Part([*_ready(port), *_phone(phone, lan=lan), "", "  Ctrl+C stops it."], phone or "")]


def secure(
    door: int, phone: str | None, first: str, fingerprint: str, *, lan: bool, is_new: bool = False
) -> list[Part]:
    """Return what tells the addresses of a start with HTTPS.

    Args:
        door: the port of plain HTTP.
        first: where a phone gets to know this machine.
        fingerprint: of the root certificate.
        is_new: whether this start made that certificate.
    """
    if not phone:
        return [Part([*_ready(door), *_phone(phone, lan=lan), "", "  Ctrl+C stops it."])]
    meet = [
        *_ready(door),
        "",
        *([NEW_ROOT, ""] if is_new else []),
        f"  1. Each phone, once:  {first}",
        "  It says how the phone gets to know this machine. The certificate that it offers must have this fingerprint:",
        *(f"    {line}" for line in wrap(fingerprint, PAIRS_A_LINE * 3)),
    ]
    return [
        Part(meet, first),
        Part(["", "  2. From then on:", *_phone(phone, lan=lan), "", "  Ctrl+C stops it."], phone),
    ]


def _ready(port: int) -> list[str]:
    return ["", "soapbench is ready.", "", f"  At this machine:  http://localhost:{port}/"]


def _phone(phone: str | None, *, lan: bool) -> list[str]:
    if phone:
        return [
            f"  On a phone:       {phone}",
            "  The phone must be on the same network. The link signs in as the owner and is good for",
            f"  {LINK_HOURS} hours: show it to nobody else, and start again for a new one.",
        ]
    return ["  On a phone:       this machine is on no network; connect it, then start again."] if lan else []


def qr(address: str, *, colours: bool) -> str:
    """Return the address as a QR code drawn with block characters.

    With colours it is black on white on any terminal; without, it needs a dark one, as most are.
    """
    drawn = io.StringIO()
    segno.make(address, error="l", micro=False).terminal(drawn, compact=True)
    lines = drawn.getvalue().splitlines()
    return "\n".join(f"\x1b[97;40m{line}\x1b[0m" if colours else line for line in lines)
