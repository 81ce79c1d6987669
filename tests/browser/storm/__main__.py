"""Let many storms blow: `python -m tests.browser.storm --count 200`. Prints every seed, and stops at none."""

import argparse
import random
import tempfile
import time

from playwright.sync_api import sync_playwright

from tests.browser.storm.blow import blow


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=None, help="the first seed; each storm takes the next one")
    options = parser.parse_args()
    first = random.randrange(1_000_000) if options.seed is None else options.seed
    lost = []
    with tempfile.TemporaryDirectory(prefix="storms-") as folder, sync_playwright() as playwright:
        for seed in range(first, first + options.count):
            began = time.monotonic()
            try:
                events, _log = blow(seed, folder, playwright)
                print(f"seed {seed}: {events} events agree, {time.monotonic() - began:.0f} s", flush=True)
            except Exception as error:  # whatever went wrong, the other storms blow too
                lost.append(seed)
                print(f"seed {seed}: {error}", flush=True)
    print(f"{options.count} storms from seed {first}: {len(lost)} lost something{f' ({lost})' if lost else ''}.")
    return bool(lost)


if __name__ == "__main__":
    raise SystemExit(main())
