"""Take the pictures of README.md: one batch of the demo at phone size, from a fresh start.

    .venv/bin/python tests/pictures.py

Starts the app on an empty data folder, does a batch as a maker would, and writes fixtures/pictures/*.png.
"""

import os
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from soapbench.bootstrap import chromium  # noqa: E402
from tests.browser.hand import Hand  # noqa: E402
from tests.conftest import ARGUMENTS  # noqa: E402

PICTURES = ROOT / "fixtures" / "pictures"
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True, "device_scale_factor": 1}
COLOURS = 64  # flat screens need no more, and the pictures stay small
# The prompt that each picture shows.
PROMPTS = {
    "weigh": "weigh:fat:olive",
    "lye": "alkali-into-water",
    "cool": "cool",
    "split": "split:B",
    "pour": "pour:2",
    "draw": "draw",
    "release": "release",
}


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def started(port, folder):
    """Return the running server once it answers."""
    environment = {**os.environ, "SOAPBENCH_DATA": folder}
    command = [sys.executable, str(ROOT / "manage.py"), "serve", "--port", str(port), "--host", "127.0.0.1"]
    server = subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL)
    for _ in range(120):
        try:
            urllib.request.urlopen(f"http://127.0.0.1:{port}/healthz", timeout=1)
            return server
        except OSError:
            time.sleep(0.5)
    server.terminate()
    raise SystemExit("The app did not start. Run 'python3 manage.py serve' and see why.")


def keep(page, name):
    page.wait_for_timeout(300)
    path = PICTURES / f"{name}.png"
    page.screenshot(path=path)
    Image.open(path).convert("RGB").quantize(COLOURS).save(path, optimize=True)


def take(page):
    page.goto("/bars/ebb-line/")
    keep(page, "bar")
    page.get_by_role("link", name="Make this bar").tap()
    keep(page, "choose")
    page.get_by_label("I have read this").check()
    page.get_by_role("button", name="Begin this batch").tap()
    hand = Hand(page)
    for name, prompt in PROMPTS.items():
        hand.until(prompt)
        if name == "cool":
            hand.read("lye", 61)
            hand.read("fats", 43)
        keep(page, name)
    hand.hold()
    page.get_by_role("link", name="Open the record").tap()
    keep(page, "record")


def main():
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        port = free_port()
        server = started(port, folder)
        browser = playwright.chromium.launch(executable_path=chromium.find(), args=ARGUMENTS)
        try:
            take(browser.new_context(base_url=f"http://127.0.0.1:{port}", **PHONE).new_page())
        finally:
            browser.close()
            server.terminate()
            server.wait()


if __name__ == "__main__":
    main()
