"""What serve prints: where the app is, and a QR code that lets the phone in."""

import io

import segno

from soapbench.workshop.entry import LINK_HOURS


def lines(port: int, phone_address: str | None, *, lan: bool) -> list[str]:
    """Return the lines that tell the addresses."""
    told = ["", "soapbench is ready.", "", f"  At this machine:  http://localhost:{port}/"]
    if phone_address:
        told.append(f"  On a phone:       {phone_address}")
        told.append("  The phone must be on the same network. The link signs in as the owner and is good for")
        told.append(f"  {LINK_HOURS} hours: show it to nobody else, and start again for a new one.")
    elif lan:
        told.append("  On a phone:       this machine is on no network; connect it, then start again.")
    return [*told, "", "  Ctrl+C stops it."]


def qr(address: str, *, colours: bool) -> str:
    """Return the address as a QR code drawn with block characters.

    With colours it is black on white on any terminal; without, it needs a dark one, as most are.
    """
    drawn = io.StringIO()
    segno.make(address, error="l", micro=False).terminal(drawn, compact=True)
    lines = drawn.getvalue().splitlines()
    return "\n".join(f"\x1b[97;40m{line}\x1b[0m" if colours else line for line in lines)
