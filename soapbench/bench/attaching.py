"""A photo or a voice note becomes a file and a fact: the fact carries the digest, so that the log proves the file."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Literal

from django.db import transaction

from soapbench.bench import events as log
from soapbench.bench.files import digest_of_data, keep
from soapbench.bench.forms import Incoming
from soapbench.bench.kinds import Attached
from soapbench.bench.models import Attachment, Run
from soapbench.bench.photos import clean_photo
from soapbench.bench.refusal import Refused
from soapbench.bench.voices import ENDINGS, media_of_voice
from soapbench.science.words import mark, say
from soapbench.workshop.models import Person

What = Literal["photo", "voice"]
NO_WHAT = mark("Say whether this is a photo or a voice note.")


@dataclass(frozen=True)
class Ready:
    """A file as it will be kept."""

    what: What
    data: bytes
    media: Literal["image/jpeg", "audio/webm", "audio/ogg", "audio/mp4"]
    ending: str
    width: int | None = None
    height: int | None = None


def ready(what: str, data: bytes) -> Ready:
    """Return a file that came from outside as it may be kept.

    Raises:
        Refused: it is not what it is said to be, too large, or carries more than it should.
    """
    if what == "photo":
        photo = clean_photo(data)
        return Ready("photo", photo.data, "image/jpeg", "jpg", photo.width, photo.height)
    if what == "voice":
        media = media_of_voice(data)
        return Ready("voice", data, media, ENDINGS[media])  # type: ignore[arg-type]  # one of the three
    raise Refused(say(NO_WHAT), "what")


def attach(run: Run, incoming: Incoming, data: bytes, by: Person) -> log.Appended:
    """Keep a file with its fact, both or neither. The same id twice is one attachment.

    Raises:
        Refused: the file or the moment is not acceptable.
        OSError: the file could not be written.
    """
    if Attachment.objects.filter(pk=incoming.id, run=run).exists():
        return _append(run, incoming, {}, by)
    file = ready(str(incoming.payload.get("what", "")), data)
    digest = digest_of_data(file.data)
    words = str(incoming.payload.get("words", ""))
    payload = Attached(file.what, digest, file.media, len(file.data), words)
    with transaction.atomic():
        done = _append(run, incoming, asdict(payload), by)
        if done.was_new:
            _keep(run, done, file, digest)
    return done


def _append(run: Run, incoming: Incoming, payload: dict[str, object], by: Person) -> log.Appended:
    return log.append(
        run,
        id=incoming.id,
        kind="attached",
        prompt=incoming.prompt,
        payload=payload,
        happened_at=incoming.happened_at,
        device=incoming.device,
        device_at=incoming.device_at,
        by=by,
    )


def _keep(run: Run, done: log.Appended, file: Ready, digest: str) -> None:
    Attachment.objects.create(
        event=done.event,
        run=run,
        what=file.what,
        sha256=digest,
        media=file.media,
        size=len(file.data),
        width=file.width,
        height=file.height,
        file=keep(file.data, digest, file.ending),
    )
