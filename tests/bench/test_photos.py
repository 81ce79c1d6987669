"""What is kept of a photo: its pixels. What is kept of anything else: nothing."""

from io import BytesIO

import pytest
from PIL import Image

from soapbench.bench import photos
from soapbench.bench.photos import clean_photo
from soapbench.bench.refusal import Refused
from tests.bench.pictures import OGG, bomb, plain, with_place


def opened(photo):
    return Image.open(BytesIO(photo.data))


def test_the_photo_of_the_tests_does_say_where_it_was_taken():
    exif = Image.open(BytesIO(with_place())).getexif()

    assert exif.get_ifd(0x8825)[1] == "N"


def test_place_time_camera_and_comment_are_gone():
    photo = clean_photo(with_place())
    image = opened(photo)

    assert dict(image.getexif()) == {}
    assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression"}
    for secret in (b"Exif", b"Invented Camera", b"2026:11:25", b"taken at home", b"secret garden"):
        assert secret not in photo.data


def test_the_picture_itself_stays():
    photo = clean_photo(with_place(colour=(180, 60, 40)))
    found = opened(photo).getpixel((200, 150))

    assert (photo.width, photo.height) == (400, 300)
    assert all(abs(one - other) <= 4 for one, other in zip(found, (180, 60, 40), strict=True))


def test_a_photo_taken_upright_stands_upright():
    photo = clean_photo(with_place(size=(400, 300), orientation=6))

    assert (photo.width, photo.height) == opened(photo).size == (300, 400)


@pytest.mark.parametrize(("size", "kept"), [((3200, 1200), (1600, 600)), ((1200, 3200), (600, 1600)), ((9, 5), (9, 5))])
def test_the_longer_side_is_sixteen_hundred_pixels_at_most(size, kept):
    photo = clean_photo(plain("JPEG", size))

    assert (photo.width, photo.height) == kept


@pytest.mark.parametrize("mode", ["RGB", "RGBA", "L", "LA", "P", "1", "I;16"])
def test_any_kind_of_pixels_becomes_a_jpeg(mode):
    assert opened(clean_photo(plain("PNG", mode=mode))).format == "JPEG"


def test_what_is_see_through_stands_on_white():
    out = BytesIO()
    Image.new("RGBA", (8, 8), (0, 0, 0, 0)).save(out, "PNG")

    assert min(opened(clean_photo(out.getvalue())).getpixel((4, 4))) >= 250


def test_a_file_that_would_unpack_to_gigabytes_is_refused_before_it_is_unpacked():
    data = bomb()

    assert len(data) < 500
    with pytest.raises(Refused, match="too many pixels"):
        clean_photo(data)


def test_a_file_just_over_the_limit_of_pixels_is_refused():
    with pytest.raises(Refused, match="too many pixels"):
        clean_photo(bomb(10_000, photos.MOST_PIXELS // 10_000 + 1))


HOSTILE = {
    "nothing": b"",
    "words": b"this is no photo",
    "a page": b"<html><script>alert(1)</script></html>",
    "a drawing that runs scripts": b'<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>',
    "a recording": OGG,
    "a GIF": plain("GIF"),
    "a TIFF": plain("TIFF"),
    "half a photo": with_place()[:900],
    "the head of a PNG": plain()[:20],
    "a broken checksum": plain()[:40] + b"\xff" + plain()[41:],
    "a size of nought": bomb(0, 0),
}


@pytest.mark.parametrize("data", HOSTILE.values(), ids=HOSTILE.keys())
def test_what_is_no_photo_is_refused_in_words(data):
    with pytest.raises(Refused, match="This is no photo that can be read here"):
        clean_photo(data)


def test_a_page_hidden_behind_a_photo_is_not_kept():
    photo = clean_photo(with_place() + b"<script>alert(1)</script>")

    assert b"<script>" not in photo.data


def test_more_bytes_than_a_photo_has_are_refused_unread():
    with pytest.raises(Refused, match="too large"):
        clean_photo(b"\xff\xd8\xff" + bytes(photos.MOST_BYTES))
