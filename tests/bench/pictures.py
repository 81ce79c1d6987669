"""Photos and recordings that nobody took: made for the tests, small, and some of them hostile."""

import struct
import zlib
from io import BytesIO

from PIL import Image

OGG = b"OggS\x00\x02" + bytes(20) + b"\x01\x13OpusHead" + bytes(200)
WEBM = b"\x1a\x45\xdf\xa3\x9f\x42\x86\x81\x01\x42\x82\x84webm" + bytes(200)
M4A = b"\x00\x00\x00\x20ftypM4A \x00\x00\x00\x00" + bytes(200)
PLACE = b"\x00\x00\x00\x1e\xa9xyz\x00\x12\x15\xc7+48.8577+002.295/"


def with_place(size=(400, 300), colour=(180, 60, 40), orientation=1):
    """Return a JPEG as a phone takes it: with place, time, camera, a comment and a small picture of itself."""
    image = Image.new("RGB", size, colour)
    exif = Image.Exif()
    exif[0x010F], exif[0x0110], exif[0x0112] = "Invented Camera", "Secret Model", orientation
    exif.get_ifd(0x8769)[0x9003] = "2026:11:25 10:12:00"
    exif.get_ifd(0x8825).update({1: "N", 2: (48.0, 51.0, 29.0), 3: "E", 4: (2.0, 17.0, 40.0)})
    out = BytesIO()
    image.save(out, "JPEG", exif=exif, comment=b"taken at home", xmp=b"<x:xmpmeta>secret garden</x:xmpmeta>")
    return out.getvalue()


def plain(form="PNG", size=(40, 30), mode="RGB"):
    out = BytesIO()
    Image.new(mode, size).save(out, form)
    return out.getvalue()


def bomb(width=50_000, height=50_000):
    """Return a PNG of a few hundred bytes that says it unpacks to gigabytes."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", zlib.compress(bytes(99))) + _chunk(b"IEND", b"")
    )


def _chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
