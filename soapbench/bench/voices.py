"""A voice note from outside: known by its first bytes, never by its name or by what the sender calls it."""

from __future__ import annotations

from soapbench.bench.refusal import Refused
from soapbench.science.words import mark, say

MOST_BYTES = 2 * 1024 * 1024  # a minute of speech is a fifth of it
HEAD = 4096  # what a container says about itself stands at its beginning
WEBM, OGG, MP4 = "audio/webm", "audio/ogg", "audio/mp4"
ENDINGS = {WEBM: "webm", OGG: "ogg", MP4: "m4a"}
MP4_BRANDS = (b"M4A ", b"M4B ", b"mp41", b"mp42", b"isom", b"iso2", b"iso4", b"iso5", b"iso6", b"dash")
PLACES = (b"\xa9xyz", b"loci", b"com.apple.quicktime.location")  # where a recorder writes down where it was
TOO_LARGE = mark("This recording is too large. Record up to a minute, 2 MB.")
NO_VOICE = mark("This is no recording that can be played here. Record it on this page, or take WebM, Ogg or M4A.")
HAS_PLACE = mark("This recording says where it was made. Record it on this page instead: that says no place.")


def media_of_voice(data: bytes) -> str:
    """Return the media type of a recording, told from its bytes.

    Raises:
        Refused: empty, too large, another kind of file, or one that carries the place where it was made.
    """
    if len(data) > MOST_BYTES:
        raise Refused(say(TOO_LARGE), "file")
    media = _media(data[:HEAD])
    if not media:
        raise Refused(say(NO_VOICE), "file")
    if any(mark in data for mark in PLACES):
        raise Refused(say(HAS_PLACE), "file")
    return media


def _media(head: bytes) -> str:
    if head.startswith(b"\x1a\x45\xdf\xa3") and b"webm" in head[:64]:
        return WEBM
    if head.startswith(b"OggS") and (b"OpusHead" in head[:128] or b"\x01vorbis" in head[:128]):
        return OGG
    if head[4:8] == b"ftyp" and head[8:12] in MP4_BRANDS:
        return MP4
    return ""
