"""What serve prints: where the app is, and a QR code that lets the phone in."""

import io

import segno


def lines(port: int, phone_address: str | None, *, open_to_network: bool) -> list[str]:
    """Return the lines that tell the addresses."""
    told = ["", "soapbench is ready.", "", f"  At this machine:  http://localhost:{port}/"]
    if phone_address:
        told.append(f"  On a phone:       {phone_address}")
        told.append("  The phone must be on the same network. This link signs in: show it to your own people only.")
    elif open_to_network:
        told.append("  On a phone:       this machine is on no network; connect it, then start again.")
    return [*told, "", "  Ctrl+C stops it."]


def qr(address: str) -> str:
    """Return the address as a QR code drawn with block characters."""
    drawn = io.StringIO()
    segno.make(address, error="l", micro=False).terminal(drawn, compact=True)
    return drawn.getvalue()
