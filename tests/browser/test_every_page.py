"""Every page that a link leads to is there, shows no fault to axe in light and dark, and never scrolls sideways."""

import re
from urllib.parse import urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.urls import Resolver404, resolve

from tests.browser.conftest import played_to

STARTS = ("/", "/shelf/", "/bars/", "/rack/", "/logbook/", "/workshop/", "/about/numbers/", "/offline/")
NO_PAGE = re.compile(r"\.(pdf|css|js|svg|png|webmanifest|ics|json|csv|zip|crt|pem)$|^/(static|enter|sign-out)")
LINK = re.compile(r'(?:href|src)="([^"#]+)')
MOST = 400
DESK = {"viewport": {"width": 1280, "height": 900}, "has_touch": False, "is_mobile": False, "device_scale_factor": 1}


def kind_of(path):
    """Return the name of the route: pages of one route are of one kind, and one of each is looked at."""
    try:
        return resolve(path).view_name
    except Resolver404:
        return path


@pytest.fixture
def pages(client, world, settings):
    """Follow every link from the places on; return the first address of each kind of page."""
    settings.TRUST_THIS_MACHINE = True
    for key in ("weigh:fat:olive", "rest", "cure", "release"):
        played_to(world, key)
    found, seen, ahead = {}, set(), list(STARTS)
    while ahead and len(seen) < MOST:
        path = ahead.pop(0)
        if path in seen or NO_PAGE.search(path):
            continue
        seen.add(path)
        answer = client.get(path)
        assert answer.status_code in (200, 302), f"{path} answers {answer.status_code}"
        if answer.status_code == 200 and answer.headers.get("Content-Type", "").startswith("text/html"):
            found.setdefault(kind_of(path), path)
            ahead += [path for path in links_of(answer) if kind_of(path) not in found or len(seen) < MOST // 2]
    return found


def links_of(answer):
    for address in LINK.findall(answer.content.decode()):
        parts = urlsplit(address)
        if not parts.scheme and not parts.netloc and parts.path.startswith("/"):
            yield parts.path


def test_every_page_is_there_and_without_fault(pages, open_phone):
    """One test, for following every link takes longer than looking at what is found."""
    assert len(pages) > 20  # else the links were not followed
    narrow = {"viewport": {"width": 320, "height": 740}}
    assert [faults(open_phone(**ways), pages) for ways in ({}, {"color_scheme": "dark"}, DESK)] == [[], [], []]
    assert too_wide(open_phone(**narrow), pages) == []


def faults(page, pages):
    """Return what axe finds, with the page and the first element."""
    found = []
    for path in pages.values():
        page.goto(path)
        violations = Axe().run(page).response["violations"]
        found += [(path, fault["id"], fault["nodes"][0]["target"]) for fault in violations]
    return found


def too_wide(page, pages):
    found = []
    for path in pages.values():
        page.goto(path)
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            found.append(path)
    return found
