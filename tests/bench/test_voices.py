"""A recording is known by its bytes."""

import pytest

from soapbench.bench import voices
from soapbench.bench.refusal import Refused
from soapbench.bench.voices import media_of_voice
from tests.bench.pictures import M4A, OGG, PLACE, WEBM, with_place


@pytest.mark.parametrize(("data", "media"), [(WEBM, "audio/webm"), (OGG, "audio/ogg"), (M4A, "audio/mp4")])
def test_the_bytes_say_what_it_is(data, media):
    assert media_of_voice(data) == media


STRANGE = {
    "nothing": b"",
    "a photo": with_place(),
    "words": b"hello",
    "a page": b"<html>",
    "Matroska": WEBM.replace(b"webm", b"mkv "),
    "a still of HEIC": M4A.replace(b"M4A ", b"heic"),
    "Ogg of another kind": b"OggS" + bytes(200),
}


@pytest.mark.parametrize("data", STRANGE.values(), ids=STRANGE.keys())
def test_anything_else_is_refused(data):
    with pytest.raises(Refused, match="no recording that can be played here"):
        media_of_voice(data)


def test_a_recording_that_says_where_it_was_made_is_refused():
    with pytest.raises(Refused, match="says where it was made"):
        media_of_voice(M4A + PLACE)


def test_more_than_two_megabytes_are_refused():
    assert media_of_voice(WEBM + bytes(voices.MOST_BYTES - len(WEBM))) == "audio/webm"
    with pytest.raises(Refused, match="too large"):
        media_of_voice(WEBM + bytes(voices.MOST_BYTES))
