"""A photo or a voice note: taken in once, proven by the log, shown to its own workshop."""

import hashlib
import json
from io import StringIO
from pathlib import Path

import pytest
import time_machine
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command

from soapbench.bench import uploads
from soapbench.bench.events import facts_of, state_of
from soapbench.bench.ids import new_id
from soapbench.bench.integrity import verify
from soapbench.bench.models import Attachment
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from tests.bench.pictures import OGG, bomb, with_place

SCRIPT = {"HTTP_ACCEPT": "application/json"}


@pytest.fixture(autouse=True)
def media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path / "media"
    return settings.MEDIA_ROOT


@pytest.fixture(autouse=True)
def clock():
    """The time at which the photos of these tests are taken."""
    with time_machine.travel("2026-11-25T09:30:00+00:00"):
        yield


def send(maker, run, data=None, *, what="photo", id=None, prompt="materials", name="../../evil.html", **more):
    fields = {"id": str(id or new_id()), "prompt": prompt, "what": what, **more.pop("fields", {})}
    if data != b"":
        file = with_place() if data is None else data
        fields["file"] = SimpleUploadedFile(name, file, content_type="text/html")
    return maker.post(f"/bench/{run.pk}/attachments/", fields, **more)


def address_of(run):
    return f"/bench/{run.pk}/attachments/{Attachment.objects.get(run=run).pk}/"


def files(media):
    return [path for path in media.rglob("*") if path.is_file()]


def test_a_photo_is_kept_with_its_fact(maker, begun, media):
    answer = send(maker, begun, **SCRIPT, fields={"words": "the wet jug", "happened_at": "2026-11-25T10:12:00+01:00"})
    fact, (file,) = facts_of(begun)[-1], files(media)

    assert answer.status_code == 200, answer.content
    assert answer.json()["accepted"] == [fact.id]
    assert (fact.kind, fact.prompt, fact.payload["words"]) == ("attached", "materials", "the wet jug")
    assert fact.payload["sha256"] == hashlib.sha256(file.read_bytes()).hexdigest() == file.stem
    assert (fact.payload["media"], fact.payload["size"]) == ("image/jpeg", file.stat().st_size)
    assert b"Exif" not in file.read_bytes()


def test_the_same_photo_sent_twice_is_one(maker, begun, media):
    id = new_id()
    first, second = (send(maker, begun, id=id, **SCRIPT) for _ in range(2))

    assert first.json()["position"] == second.json()["position"]
    assert Attachment.objects.count() == len(files(media)) == 1


def test_a_plain_form_leads_back_to_the_page(maker, begun):
    answer = send(maker, begun)

    assert (answer.status_code, answer["Location"]) == (302, f"/bench/{begun.pk}/")


def test_the_photo_stands_at_its_prompt_and_only_there(maker, begun):
    send(maker, begun, fields={"words": "the wet jug"})
    page = maker.get(f"/bench/{begun.pk}/?at=tools")
    with_photo = [each.prompt.key for each in page.context["page"].prompts if each.attached]

    assert with_photo == ["materials"]
    assert f'src="{address_of(begun)}"' in page.content.decode()


def test_a_photo_can_be_taken_back_and_stays_in_the_log(maker, begun, bench, media):
    send(maker, begun)
    bench.tap("took-back", event=facts_of(begun)[-1].id)
    begun.refresh_from_db()

    assert state_of(begun).attachments == ()
    assert len(files(media)) == 1 and verify(begun) is None


REFUSED = {
    "a page": (b"<html><script>", "photo", "This is no photo that can be read here"),
    "a bomb": (bomb(), "photo", "This photo has too many pixels"),
    "a recording as a photo": (OGG, "photo", "This is no photo that can be read here"),
    "a photo as a recording": (None, "voice", "This is no recording that can be played here"),
    "neither": (None, "video", "Say whether this is a photo or a voice note"),
    "no file": (b"", "photo", "There is no file in this"),
}


@pytest.mark.parametrize(("data", "what", "sentence"), REFUSED.values(), ids=REFUSED.keys())
def test_what_cannot_be_kept_is_refused_in_words_and_leaves_nothing(maker, begun, media, data, what, sentence):
    before = len(facts_of(begun))
    script = send(maker, begun, data, what=what, **SCRIPT)
    page = send(maker, begun, data, what=what, fields={"words": "my caption"})

    assert (script.status_code, page.status_code) == (422, 422)
    assert sentence in script.json()["sentence"] and sentence in page.content.decode()
    assert len(facts_of(begun)) == before and files(media) == []


def test_a_caption_is_kept_when_its_photo_is_refused(maker, begun):
    page = send(maker, begun, b"no photo", fields={"words": "my caption"})

    assert 'value="my caption"' in page.content.decode().split('id="note"')[1]


def test_a_file_larger_than_any_photo_is_not_read(maker, begun, media, monkeypatch):
    monkeypatch.setattr(uploads, "MOST_WITH_FORM", 2000)
    answer = send(maker, begun, bytes(5000), **SCRIPT)

    assert answer.status_code == 413
    assert "too large" in answer.json()["sentence"] and files(media) == []


def test_a_caption_that_is_too_long_is_refused_with_its_photo(maker, begun, media):
    answer = send(maker, begun, **SCRIPT, fields={"words": "w" * 201})

    assert (answer.status_code, answer.json()["field"]) == (422, "words")
    assert files(media) == []


@pytest.mark.parametrize("fields", [{"id": "x"}, {"happened_at": "yesterday"}, {"prompt": "p" * 200}])
def test_a_form_that_lost_a_part_is_told(maker, begun, fields):
    answer = send(maker, begun, **SCRIPT, fields=fields)

    assert answer.status_code == 422 and "lost a part" in answer.json()["sentence"]


def test_a_disk_that_is_full_is_told_and_nothing_is_recorded(maker, begun, monkeypatch):
    def full(self, *args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    before = len(facts_of(begun))
    answer = send(maker, begun, **SCRIPT)

    assert answer.status_code == 503 and "Make room" in answer.json()["sentence"]
    assert len(facts_of(begun)) == before and not Attachment.objects.exists()


def test_the_fact_alone_is_refused_without_its_file(maker, begun):
    payload = {"what": "photo", "sha256": "0" * 64, "media": "image/jpeg", "size": 5}
    event = {"id": str(new_id()), "kind": "attached", "payload": payload, "happened_at": "2026-11-25T09:31:00+00:00"}
    answer = maker.post(f"/bench/{begun.pk}/events/", json.dumps(event), content_type="application/json")

    assert answer.status_code == 422 and "comes with its file" in answer.json()["sentence"]


def test_a_closed_batch_still_takes_a_photo(maker, begun, bench):
    bench.tap("stopped", reason="the loaf fell", made_safe="wiped up")

    assert send(maker, begun, prompt="", **SCRIPT).status_code == 200


def test_the_file_is_given_out_so_that_it_can_do_no_harm(maker, begun):
    send(maker, begun)
    answer = maker.get(address_of(begun))

    assert answer.getvalue().startswith(b"\xff\xd8\xff")
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert (
        answer["Content-Security-Policy"].startswith("default-src 'none'")
        and "sandbox" in answer["Content-Security-Policy"]
    )
    assert answer["Content-Disposition"].startswith('inline; filename="photo-')
    assert "private" in answer["Cache-Control"]


def test_another_workshop_sees_nothing_and_adds_nothing(maker, begun, client, stranger):
    send(maker, begun)
    address = address_of(begun)
    client.force_login(stranger)

    assert client.get(address).status_code == 404
    assert send(client, begun).status_code == 404


def test_nobody_sees_it_without_signing_in(maker, begun, client):
    send(maker, begun)
    address = address_of(begun)
    client.logout()

    assert client.get(address).status_code == 302


def test_a_file_of_one_batch_is_not_found_under_another(maker, begun, revision, ada):
    send(maker, begun)
    other = start_run(revision, SizeAsked("fats", 1000.0), ada)

    assert maker.get(address_of(begun).replace(str(begun.pk), str(other.pk))).status_code == 404


PARTS = [
    ("bytes=0-3", "bytes 0-3/{}", 4),
    ("bytes=10-", "bytes 10-{last}/{}", -10),
    ("bytes=-4", "bytes {from4}-{last}/{}", 4),
]


@pytest.mark.parametrize(("asked", "told", "count"), PARTS)
def test_a_player_gets_the_part_that_it_asks_for(maker, begun, asked, told, count):
    send(maker, begun, OGG, what="voice")
    answer, size = maker.get(address_of(begun), HTTP_RANGE=asked), len(OGG)

    assert (answer.status_code, answer["Content-Type"]) == (206, "audio/ogg")
    assert answer["Content-Range"] == told.format(size, last=size - 1, from4=size - 4)
    assert len(answer.content) == (count if count > 0 else size + count)


@pytest.mark.parametrize("asked", ["bytes=9999-", "bytes=5-2", "bytes=-0"])
def test_a_part_that_is_not_there_is_told(maker, begun, asked):
    send(maker, begun, OGG, what="voice")
    answer = maker.get(address_of(begun), HTTP_RANGE=asked)

    assert (answer.status_code, answer["Content-Range"]) == (416, f"bytes */{len(OGG)}")


@pytest.mark.parametrize("asked", ["bytes=0-1,3-4", "lines=1-2", "bytes=-", "bytes=a-b"])
def test_any_other_wish_is_answered_with_the_whole_file(maker, begun, asked):
    send(maker, begun, OGG, what="voice")
    answer = maker.get(address_of(begun), HTTP_RANGE=asked)

    assert (answer.status_code, answer.getvalue()) == (200, OGG)


def test_the_log_proves_the_file(maker, begun, media):
    send(maker, begun)
    begun.refresh_from_db()
    assert verify(begun) is None
    (file,) = files(media)
    file.write_bytes(file.read_bytes() + b"x")

    broken = verify(begun)
    assert (broken.position, "its file was changed" in broken.sentence) == (2, True)


def test_check_log_names_a_file_that_is_gone(maker, begun, media):
    send(maker, begun)
    files(media)[0].unlink()
    out = StringIO()
    with pytest.raises(CommandError):
        call_command("check_log", stdout=out)

    assert f"Entry 2 of {begun.code} does not fit: its file is missing." in out.getvalue()


def test_a_file_that_is_gone_is_told_in_words(maker, begun, media):
    send(maker, begun)
    files(media)[0].unlink()
    answer = maker.get(address_of(begun))

    assert answer.status_code == 404 and "not there any more" in answer.content.decode()
