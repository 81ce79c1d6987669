"""What happens in a storm, drawn from a seed, and what must be true after it."""

import random
from collections import Counter

ACTIONS = (
    ("tap", 10),
    ("offline", 2),
    ("online", 3),
    ("reload", 2),
    ("kill the browser", 1),
    ("kill the server", 1),
    ("deliver twice", 1),
    ("lose the answer", 2),
    ("clock", 1),
    ("the other device", 2),
)
STEPS = 18
HOURS = (-2, 0, 2)


def remark(device, text):
    """Write a remark as the panel of notes takes it."""
    page = device.page
    close_card(page)
    page.get_by_role("button", name="All prompts").tap()
    page.locator("#steps").get_by_role("button", name="Note, photo or voice").tap()
    page.locator("#note [name=text]").fill(text)
    page.get_by_role("button", name="Keep the remark").tap()
    page.locator("#note").wait_for(state="hidden")


def close_card(page):
    """Go on from the card that a clock which jumped has brought up."""
    card = page.locator("#hold-on")
    if card.is_visible():
        card.get_by_role("button", name="Go on", exact=True).tap()
        card.wait_for(state="hidden")


class Storm:
    """One run, two devices, one server; `log` tells what was done, for whoever reads a failure."""

    def __init__(self, seed, server, device, other):
        self.seed, self.random = seed, random.Random(seed)
        self.server, self.device, self.other = server, device, other
        self.is_offline = False
        self.log = []

    def blow(self):
        names, weights = zip(*ACTIONS, strict=True)
        for action in self.random.choices(names, weights, k=STEPS):
            self.log.append(action)
            getattr(self, action.replace(" ", "_"))()

    def tap(self):
        """Do the next prompt as planned."""
        close_card(self.device.page)
        self.device.hand.do_as_planned()
        self.device.note_taps()

    def offline(self):
        self.is_offline = True
        self.device.page.context.set_offline(True)

    def online(self):
        self.is_offline = False
        self.device.page.context.set_offline(False)

    def reload(self):
        self.device.page.reload()
        self.device.hand.page.wait_for_selector("[data-run][data-live=true]")
        self.device.hand.settle()
        self.device.note_taps()

    def kill_the_browser(self):
        self.device.note_taps()
        self.device.kill()
        self.device.open()
        if self.is_offline:
            self.offline()
        self.device.go_to_run()
        self.device.hand.settle()
        self.device.note_taps()

    def kill_the_server(self):
        self.server.kill()
        self.server.start()

    def deliver_twice(self):
        self.device.mode = "twice"

    def lose_the_answer(self):
        self.device.mode = "lost"

    def clock(self):
        hours = self.random.choice(HOURS)
        self.device.page.evaluate(f"localStorage.setItem('wrong-by', {hours * 3_600_000})")

    def the_other_device(self):
        """Somebody with another phone writes a remark into the same batch."""
        if self.other.page.url == "about:blank":
            self.other.go_to_run()
        remark(self.other, f"seen from the second phone {len(self.log)}")
        self.other.note_taps()

    def calm_down(self):
        """Bring everything back and wait until both devices have sent what they hold."""
        self.online()
        for device in (self.device, self.other):
            if device.page.url == "about:blank":
                continue
            device.page.reload()
            device.hand.page.wait_for_selector("[data-run][data-live=true]")
            device.hand.wait_until_saved()
            device.note_taps()

    def check(self):
        """Server and devices agree, and every acknowledged tap is there exactly once."""
        rows = self.server.events()
        ids = Counter(row[0].replace("-", "") for row in rows)
        assert set(ids.values()) == {1}
        assert [row[1] for row in rows] == list(range(1, len(rows) + 1))
        missing = {id for id in self.device.acknowledged | self.other.acknowledged if id.replace("-", "") not in ids}
        assert not missing, f"{len(missing)} acknowledged taps are lost"
        code, words = self.server.check_log()
        assert code == 0, words
        self.device.page.reload()
        self.device.hand.page.wait_for_selector("[data-run][data-live=true]")
        found = self.device.note_taps()
        assert found["kept"] == [], found["refused"]
        assert [id.replace("-", "") for _position, id in sorted(found["known"])][-1:] == [rows[-1][0].replace("-", "")]
