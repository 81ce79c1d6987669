"""What the pages weigh on a phone: the run page cold over slow 4G, and Lighthouse on every main page.

Run it with the environment's Python, Chromium installed:

    .venv/bin/python -m tests.benchmarks.phone_pages
    .venv/bin/python -m tests.benchmarks.phone_pages --lighthouse PATH_TO_LIGHTHOUSE

The first needs nothing else. Lighthouse is a tool of its own (version 12.2.3 was used; about 110 MB of node modules),
so it is not among the requirements: install it where you like and give the path of its command.
Prints every figure beside its limit; exit code 1 when one is over.

Slow 4G is what the browser's own developer tools mean by it: 1.6 Mbit/s less a tenth, and 3.75 times a round trip of
150 ms before each answer. The processor is slowed down four times.
"""

import argparse
import json
import os
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page, sync_playwright

from soapbench.bootstrap import chromium
from tests.browser.storm.processes import FLAGS, PHONE, Server

PAINT_MS, TAP_MS, TRANSFER_KB, SCORE = 1800.0, 50.0, 150.0, 98
SLOW_4G = {
    "offline": False,
    "latency": 150 * 3.75,
    "downloadThroughput": 1.6e6 * 0.9 / 8,
    "uploadThroughput": 7.5e5 / 8,
}
SLOWDOWN = 4
PAGES = ("/", "/bench/new/ebb-line/", "/bars/", "/bars/ebb-line/", "/shelf/", "/rack/", "/logbook/", "/workshop/")
CATEGORIES = ("performance", "accessibility", "best-practices")
OBSERVE = """
    window.seen = { paint: 0, taps: [] };
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) window.seen.paint = entry.startTime;
    }).observe({ type: "largest-contentful-paint", buffered: true });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) if (entry.interactionId) window.seen.taps.push(entry.duration);
    }).observe({ type: "event", durationThreshold: 16, buffered: true });
"""


@contextmanager
def served(folder: Path) -> Iterator[Server]:
    """The demo workshop behind `serve`, as a maker starts it."""
    server = Server(folder / "data")
    server.data.mkdir()
    server.prepare(folder / "template")
    server.start()
    try:
        yield server
    finally:
        server.kill()


def begin(browser: Browser, address: str) -> str:
    """Begin a batch of the bar with four portions and return the path of its page."""
    page = browser.new_context(**PHONE).new_page()
    page.goto(f"{address}/bench/new/ebb-line/")
    page.get_by_label("I have read this").check()
    page.get_by_role("button", name="Begin this batch").tap()
    page.wait_for_url("**/bench/*-*/")
    page.wait_for_selector("[data-run][data-live=true]")
    path = str(page.evaluate("location.pathname"))
    page.context.close()
    return path


def cold(browser: Browser, address: str, path: str) -> dict[str, Any]:
    """Open the page with nothing kept, over slow 4G with a slow processor, and tap once; returns what was seen."""
    page = browser.new_context(**PHONE, service_workers="block").new_page()
    session = page.context.new_cdp_session(page)
    received: list[float] = []
    session.on("Network.loadingFinished", lambda event: received.append(event["encodedDataLength"]))
    session.send("Network.enable")
    session.send("Network.emulateNetworkConditions", SLOW_4G)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
    page.add_init_script(OBSERVE)
    page.goto(address + path)
    page.wait_for_selector("[data-run][data-live=true]")
    live_ms = page.evaluate("performance.now()")
    page.wait_for_load_state("networkidle")
    seen: dict[str, Any] = tap(page)
    blocking = page.evaluate(
        "[...document.scripts].filter((one) => one.src && !one.async && !one.defer && one.type !== 'module').length"
    )
    page.context.close()
    return {**seen, "live_ms": live_ms, "kb": sum(received) / 1000, "requests": len(received), "blocking": blocking}


def tap(page: Page) -> dict[str, Any]:
    """Tick rows and open and close a panel, as a thumb does; returns the largest paint and the slowest tap in ms."""
    for row in range(3):
        page.locator("[data-prompt]:not([hidden]) .tick-row").nth(row).tap()
        page.wait_for_timeout(500)
    page.get_by_role("button", name="All prompts").tap()
    page.wait_for_timeout(500)
    found: dict[str, Any] = page.evaluate(
        "({ paint_ms: window.seen.paint, tap_ms: Math.max(0, ...window.seen.taps), taps: window.seen.taps.length })"
    )
    return found


def lighthouse(command: str, address: str) -> dict[str, float]:
    """Return the scores of one page, of 100."""
    with tempfile.TemporaryDirectory() as folder:
        answer = Path(folder) / "answer.json"
        subprocess.run(
            [
                command,
                address,
                "--quiet",
                "--output=json",
                f"--output-path={answer}",
                f"--only-categories={','.join(CATEGORIES)}",
                f"--chrome-flags=--headless {' '.join(FLAGS)}",
            ],
            env={**os.environ, "CHROME_PATH": str(chromium.find())},
            check=True,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        found = json.loads(answer.read_text())["categories"]
    return {name: round(100 * found[name]["score"]) for name in CATEGORIES}


def line(name: str, value: float, limit: float, unit: str, at_least: bool = False) -> bool:
    """Print one figure beside its limit and return whether it is kept."""
    kept = value >= limit if at_least else value <= limit
    bound = f"{'at least' if at_least else 'at most'} {limit:g}"
    print(f"  {name:<40} {value:8.0f} {unit:<3} {bound}{'' if kept else '  OVER'}")
    return kept


def weigh_run(browser: Browser, address: str, path: str) -> bool:
    """Print what the run page costs, and return whether every limit is kept."""
    seen = cold(browser, address, path)
    print("\nrun page, cold, slow 4G, processor 4 times slower")
    kept = [
        line("largest paint", seen["paint_ms"], PAINT_MS, "ms"),
        line(f"slowest of {seen['taps']} taps", seen["tap_ms"], TAP_MS, "ms"),
        line("transfer, compressed", seen["kb"], TRANSFER_KB, "kB"),
        line("scripts that block", seen["blocking"], 0, ""),
    ]
    print(f"  it takes taps after {seen['live_ms']:.0f} ms; {seen['requests']} requests")
    return all(kept)


def score_pages(command: str, address: str, paths: tuple[str, ...]) -> bool:
    """Print the scores of every page, and return whether every limit is kept."""
    print("\nLighthouse, phone")
    kept = []
    for path in paths:
        for name, score in lighthouse(command, address + path).items():
            kept.append(line(f"{path[:24]} {name}", score, SCORE, "", at_least=True))
    return all(kept)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--lighthouse", metavar="PATH", help="the command of Lighthouse")
    options = parser.parse_args()
    with (
        tempfile.TemporaryDirectory(prefix="pages-") as folder,
        served(Path(folder)) as server,
        sync_playwright() as playwright,
    ):
        browser = playwright.chromium.launch(executable_path=chromium.find(), args=list(FLAGS))
        path = begin(browser, server.url)
        kept = weigh_run(browser, server.url, path)
        browser.close()
        if options.lighthouse:
            kept = score_pages(options.lighthouse, server.url, (path, *PAGES)) and kept
    return not kept


if __name__ == "__main__":
    raise SystemExit(main())
