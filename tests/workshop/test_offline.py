"""The service worker, the manifest and the page for whatever is not kept, as the server gives them."""

import json

import pytest
from django.contrib.staticfiles import finders


def told_by(answer):
    return json.loads(answer.content.decode().partition("= ")[2].partition(";\n")[0])


@pytest.fixture
def worker(client, db):
    return client.get("/sw.js")


def test_the_worker_is_a_script_that_is_asked_for_anew_each_time(worker):
    assert worker.headers["Content-Type"] == "text/javascript"
    assert worker.headers["Cache-Control"] == "no-cache"


def test_every_file_that_the_worker_keeps_is_there(worker):
    for address in told_by(worker)["shell"]:
        assert finders.find(address.removeprefix("/static/")), address


def test_every_page_says_its_edition(client, worker):
    assert client.get("/offline/").headers["X-Soapbench-Edition"] == told_by(worker)["edition"]


def test_the_manifest_names_icons_that_are_there_in_their_sizes(client, db):
    manifest = client.get("/app.webmanifest").json()
    assert {icon["purpose"] for icon in manifest["icons"]} == {"any", "maskable", "monochrome"}
    for icon in manifest["icons"]:
        found = finders.find(icon["src"].removeprefix("/static/"))
        with open(found, "rb") as file:
            head = file.read(24)
        width = int.from_bytes(head[16:20], "big")
        assert icon["sizes"] == f"{width}x{width}"


def test_the_offline_page_needs_nobody_signed_in(client, db):
    answer = client.get("/offline/")
    assert answer.status_code == 200
    assert "This page needs the network" in answer.content.decode()
