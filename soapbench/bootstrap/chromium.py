"""The Chromium or Chrome that browser tests drive: find it, or install it where that is easy."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

VARIABLE = "SOAPBENCH_CHROMIUM"
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
MAC = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
)
WINDOWS = (r"Google\Chrome\Application\chrome.exe", r"Chromium\Application\chrome.exe")
WINDOWS_ROOTS = ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")
HOW_TO = (
    "install Chromium or Chrome (on Debian: 'sudo apt install chromium'), "
    f"or set {VARIABLE} to the path of one, and run the tests again"
)


def find() -> str | None:
    """Return the path of the browser, or None. What SOAPBENCH_CHROMIUM says goes before all."""
    chosen = os.environ.get(VARIABLE, "")
    if chosen:
        return None if chosen == "none" else shutil.which(chosen)
    on_path = (shutil.which(name) for name in NAMES)
    usual = (place for place in usual_places() if Path(place).is_file())
    return next((path for path in [*on_path, *usual] if path), None)


def usual_places() -> list[str]:
    """Return where macOS and Windows keep browsers, which are not on the path there."""
    roots = [os.environ[name] for name in WINDOWS_ROOTS if os.environ.get(name)]
    return [*MAC, *(f"{root}\\{rest}" for root in roots for rest in WINDOWS)]


def why_none() -> str:
    """Return why there is no browser and what to do, as half a sentence."""
    chosen = os.environ.get(VARIABLE, "")
    if chosen == "none":
        return f"{VARIABLE} is 'none'; unset it to run them"
    if chosen:
        return f"{VARIABLE} is {chosen}, and there is no such program; correct it or unset it"
    return f"no Chromium or Chrome was found; {HOW_TO}"


def can_install() -> bool:
    """Return whether installing takes no question to anybody: root on a system with apt-get."""
    return sys.platform == "linux" and os.geteuid() == 0 and shutil.which("apt-get") is not None


def find_or_install() -> str | None:
    """Return the path of the browser, installing Debian's where there is none and we may."""
    found = find()
    if found or os.environ.get(VARIABLE) or not can_install():
        return found
    print("Installing Chromium for the browser tests with apt-get.", flush=True)
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for words in (["update"], ["install", "--yes", "--no-install-recommends", "chromium"]):
        done = subprocess.run(["apt-get", "-qq", *words], env=quiet, capture_output=True, text=True)
        if done.returncode:
            print(f"It did not work: {(done.stderr.strip().splitlines() or ['no reason given'])[-1]}")
            return None
    return find()
