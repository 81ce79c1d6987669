"""A photograph from outside: known by its content, turned upright, made smaller, left with nothing but its pixels."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO

from PIL import Image, ImageOps, UnidentifiedImageError

from soapbench.bench.refusal import Refused
from soapbench.science.words import mark, say

MOST_BYTES = 15 * 1024 * 1024
MOST_PIXELS = 60_000_000  # more than the camera of a phone gives; a file that unpacks to more is no photo
LONGEST_SIDE = 1600  # px
QUALITY = 82
FORMATS = ("JPEG", "PNG", "WEBP")
NO_PHOTO = mark("This is no photo that can be read here. Take a JPEG, PNG or WebP.")
TOO_MANY_PIXELS = mark("This photo has too many pixels. Take a smaller one, up to 60 million.")
TOO_LARGE = mark("This photo is too large. Take one of up to 15 MB.")


@dataclass(frozen=True)
class Photo:
    data: bytes  # JPEG
    width: int
    height: int


def clean_photo(data: bytes) -> Photo:
    """Return the photo as a new JPEG of at most 1600 px on its longer side.

    Only the pixels go over: no place, no time, no camera, no comment, no colour profile.

    Raises:
        Refused: too large, no photo, or one that would unpack to more than 60 million pixels.
    """
    if len(data) > MOST_BYTES:
        raise Refused(say(TOO_LARGE), "file")
    try:
        return _as_jpeg(_pixels(data))
    except Refused:
        raise
    except UnidentifiedImageError as error:
        raise Refused(say(NO_PHOTO), "file") from error
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise Refused(say(TOO_MANY_PIXELS), "file") from error
    except Exception as error:  # a file made to do harm may raise anything in a decoder
        raise Refused(say(NO_PHOTO), "file") from error


def _pixels(data: bytes) -> Image.Image:
    with Image.open(BytesIO(data), formats=FORMATS) as image:
        if image.width * image.height > MOST_PIXELS:  # told by the head of the file, before anything is unpacked
            raise Refused(say(TOO_MANY_PIXELS), "file")
        image.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))  # a JPEG need not be unpacked at its full size
        upright = ImageOps.exif_transpose(image)
        upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        return upright.convert("RGBA" if "transparency" in upright.info or upright.mode in ("RGBA", "LA") else "RGB")


def _as_jpeg(image: Image.Image) -> Photo:
    clean = Image.new("RGB", image.size, "white")
    clean.paste(image, mask=image if image.mode == "RGBA" else None)
    out = BytesIO()
    clean.save(out, "JPEG", quality=QUALITY, optimize=True)
    return Photo(out.getvalue(), clean.width, clean.height)
