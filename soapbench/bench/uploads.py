"""What may come in as a file: nothing is read to the end, or kept, that is larger than any file of ours."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec
from django.core.files.uploadedfile import UploadedFile
from django.core.files.uploadhandler import FileUploadHandler, SkipFile
from django.http import HttpRequest
from django.utils import timezone
from django.utils.translation import gettext as _

from soapbench.bench.forms import FORM_DEVICE, Incoming, Unreadable
from soapbench.bench.photos import MOST_BYTES
from soapbench.science.words import mark

MOST_WITH_FORM = MOST_BYTES + 64 * 1024
TOO_LARGE = mark("This file is too large. A photo may have up to 15 MB, a recording up to 2 MB.")
NO_FILE = mark("There is no file in this. Take the photo or the recording again.")
FIELDS = ("id", "prompt", "happened_at", "device", "device_at")


class SmallFilesOnly(FileUploadHandler):
    """Leaves out every file of a request that is larger than a file may be; stands before the other handlers."""

    whole_length = 0

    def handle_raw_input(
        self, input_data: Any, META: Any, content_length: int, boundary: Any, encoding: str | None = None
    ) -> None:
        self.whole_length = content_length

    def new_file(self, *args: Any, **kwargs: Any) -> None:
        super().new_file(*args, **kwargs)
        if self.whole_length > MOST_WITH_FORM:
            raise SkipFile()

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes:
        return raw_data

    def file_complete(self, file_size: int) -> UploadedFile[Any] | None:
        return None


def from_upload(request: HttpRequest) -> tuple[Incoming, bytes]:
    """Return the event of an upload, and its file.

    Raises:
        Unreadable: too large, no file, or the form has lost its id.
    """
    if int(request.META.get("CONTENT_LENGTH") or 0) > MOST_WITH_FORM:
        raise Unreadable(_(TOO_LARGE), "file", 413)
    file = request.FILES.get("file")
    if file is None or not file.size:
        raise Unreadable(_(NO_FILE), "file", 422)
    return _incoming(request.POST), file.read()


def _incoming(data: Mapping[str, str]) -> Incoming:
    given: dict[str, Any] = {name: data[name] for name in FIELDS if data.get(name)}
    have = data.get("have", "")
    document = {
        "happened_at": timezone.now(),
        "device": FORM_DEVICE,
        **given,
        "kind": "attached",
        "payload": {"what": data.get("what", ""), "words": data.get("words", "").strip()},
        "have": int(have) if have.isdecimal() and len(have) < 10 else 0,
    }
    try:
        return msgspec.convert(document, Incoming)
    except msgspec.ValidationError as error:
        raise Unreadable(_("This form has lost a part that it needs. Load the page again."), "id", 422) from error


def is_from_script(request: HttpRequest) -> bool:
    return "application/json" in request.headers.get("Accept", "")
