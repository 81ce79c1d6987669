"""A server and a phone's browser as processes of their own, so that both can be killed as a power cut kills them."""

import os
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path
from typing import Any
from urllib.error import URLError
from urllib.request import urlopen

from soapbench.bootstrap import chromium

ROOT = Path(__file__).resolve().parents[3]
PATIENCE = 30.0
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
PHONE: dict[str, Any] = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def wait_for(found, what):
    """Return the first answer of `found` that is something."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        answer = found()
        if answer:
            return answer
        time.sleep(0.05)
    raise AssertionError(f"{what} did not come within {PATIENCE:g} s")


class Server:
    """soapbench as `serve` runs it, on a data folder of its own."""

    def __init__(self, data):
        self.data, self.port, self.process = Path(data), free_port(), None

    @property
    def url(self):
        return f"http://127.0.0.1:{self.port}"

    @property
    def environment(self):
        return {**os.environ, "SOAPBENCH_DATA": str(self.data), "DJANGO_SETTINGS_MODULE": "soapbench.settings"}

    def command(self, *words):
        return [sys.executable, "-W", "ignore", "-m", "django", *words]

    def prepare(self, template):
        """Fill the data folder from one that was prepared before, or prepare it and leave a copy."""
        if not Path(template).exists():
            for words in (["migrate", "-v0"], ["load_reference", "-v0"], ["load_demo", "-v0"]):
                subprocess.run(self.command(*words), cwd=ROOT, env=self.environment, check=True)
            subprocess.run(
                self.command("collectstatic", "--noinput", "-v0"), cwd=ROOT, env=self.environment, check=True
            )
            shutil.copytree(self.data, template)
        else:
            shutil.copytree(template, self.data, dirs_exist_ok=True)

    def start(self):
        words = self.command("serve", "--host", "127.0.0.1", "--port", str(self.port), "--no-qr")
        self.process = subprocess.Popen(
            words, cwd=ROOT, env=self.environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        wait_for(self.answers, "the server")

    def answers(self):
        try:
            with urlopen(f"{self.url}/healthz", timeout=2) as answer:
                return answer.status == 200
        except (URLError, OSError):
            return False

    def kill(self):
        """Kill it as `kill -9` does: nothing is tidied up."""
        if self.process is not None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()
            self.process = None

    def events(self):
        """Return id, position and kind of every event, straight from the file."""
        with sqlite3.connect(self.data / "soapbench.sqlite3") as database:
            return database.execute("SELECT id, position, kind FROM bench_event ORDER BY position").fetchall()

    def check_log(self):
        done = subprocess.run(self.command("check_log"), cwd=ROOT, env=self.environment, capture_output=True, text=True)
        return done.returncode, done.stdout + done.stderr


class Phone:
    """A Chromium with a profile that outlives it."""

    def __init__(self, playwright, profile):
        self.playwright, self.profile = playwright, Path(profile)

    def start(self):
        """Return its context, with all that it kept."""
        return self.playwright.chromium.launch_persistent_context(
            self.profile, executable_path=chromium.find(), args=list(FLAGS), **PHONE
        )

    def kill(self):
        """Kill it as a dead battery does."""
        for process in Path("/proc").iterdir():
            if process.name.isdigit() and str(self.profile) in command_of(process):
                with suppress(ProcessLookupError):
                    os.kill(int(process.name), signal.SIGKILL)


def command_of(process):
    try:
        return (process / "cmdline").read_bytes().decode(errors="replace")
    except OSError:  # it is gone already
        return ""
