"""Set the stage for one storm, let it blow, and check what is left."""

import tempfile
from contextlib import ExitStack, contextmanager
from pathlib import Path

from tests.browser.hand import Hand
from tests.browser.storm.device import Device
from tests.browser.storm.processes import Phone, Server
from tests.browser.storm.schedule import Storm

BAR = "doorstep"


@contextmanager
def stage(seed, folder, playwright):
    """A fresh server with one batch begun, and two phones."""
    with ExitStack() as stack:
        place = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix=f"storm-{seed}-", dir=folder)))
        server = Server(place / "data")
        server.data.mkdir()
        server.prepare(Path(folder) / "template")
        server.start()
        stack.callback(server.kill)
        devices = []
        for name in ("first", "other"):
            phone = Phone(playwright, place / name)
            stack.callback(phone.kill)
            devices.append(Device(phone, server.url))
        run = begin(devices[0])
        for device in devices:
            device.run = run
        yield Storm(seed, server, *devices)


def begin(device):
    """Begin a batch, see it kept by the worker, and return its id."""
    page = device.page
    page.goto(f"{device.url}/bench/new/{BAR}/")
    page.get_by_label("I have read this").check()
    page.get_by_role("button", name="Begin this batch").tap()
    page.wait_for_url("**/bench/*-*/")
    device.hand = Hand(page)
    page.wait_for_function("() => navigator.serviceWorker.controller !== null", timeout=60_000)
    path = page.evaluate("location.pathname")
    page.evaluate("navigator.serviceWorker.controller.postMessage({ type: 'keep' })")
    page.wait_for_function("async (path) => Boolean(await caches.match(path))", arg=path)
    device.hand.settle()
    device.note_taps()
    return path.split("/")[2]


def blow(seed, folder, playwright):
    """Let one storm blow; raises AssertionError with the seed and what was done, when something was lost."""
    with stage(seed, folder, playwright) as storm:
        try:
            storm.blow()
            storm.calm_down()
            storm.check()
        except Exception as error:
            raise AssertionError(f"seed {seed}, {error}\nafter: {', '.join(storm.log)}") from error
        return len(storm.server.events()), storm.log
