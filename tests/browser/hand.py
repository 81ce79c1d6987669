"""The maker's hand: what is tapped at each kind of prompt of the run page."""

HOLD_MS = 1150  # a little longer than the button asks for
SETTLED_MS = 850  # a step that has just appeared takes no tap for 800 ms


class Hand:
    """Taps through a run on an open run page, prompt by prompt."""

    def __init__(self, page):
        self.page = page
        self.is_offline = False  # then nothing is ever saved, and nobody waits for it
        page.wait_for_selector("[data-run][data-live=true]")

    @property
    def prompt(self):
        return self.page.locator("[data-prompt]:not([hidden])")

    @property
    def key(self):
        return self.prompt.get_attribute("data-prompt")

    @property
    def kind(self):
        kinds = self.prompt.get_attribute("class").split()
        return kinds[1].removeprefix("is-")

    def wait_for(self, key):
        """Wait until this prompt stands there and takes taps."""
        self.page.wait_for_selector(f'[data-prompt="{key}"]:not([hidden])')
        self.page.wait_for_timeout(SETTLED_MS)

    def wait_until_saved(self):
        if not self.is_offline:
            self.page.locator("[data-sign-words]", has_text="All saved").wait_for(timeout=60_000)

    def settle(self):
        """Wait until the prompt that stands there is the one that the last tap led to, and takes taps."""
        self.page.wait_for_timeout(SETTLED_MS)

    def until(self, key):
        """Do every prompt as planned until this one stands there."""
        self.settle()
        while self.key != key:
            self.do_as_planned()

    def do_as_planned(self):
        before = self.key
        WAYS.get(self.kind, Hand.act)(self)
        self.page.wait_for_selector(f'[data-prompt="{before}"][hidden]', state="attached")
        self.settle()

    def act(self):
        self.prompt.locator("button.is-main:visible").first.tap()

    def tick_all(self):
        """Tick what is ticked by itself, then confirm the rest together."""
        missing = self.prompt.locator("[data-alone] [data-tick][aria-pressed=false]")
        while count := missing.count():
            missing.first.tap()
            self.page.wait_for_function(
                "count => document.querySelectorAll("
                "'[data-prompt]:not([hidden]) [data-alone] [data-tick][aria-pressed=false]').length < count",
                arg=count,
            )
        self.prompt.locator("[data-event=done] button.is-main").tap()

    def try_scale(self):
        self.weigh()

    def figure(self):
        """Return the grams that the prompt asks for, as they stand there."""
        return "".join(self.prompt.locator(".key-figure").inner_text().split()).removesuffix("g")

    def type(self, grams):
        jar = self.prompt.locator("[name=jar]:not([data-wrong])")
        if jar.count() and not jar.is_checked():
            jar.locator("..").tap()
        for key in str(grams):
            self.prompt.locator(f'[data-key="{key}"]').tap()

    def weigh(self, grams=None):
        self.type(self.figure() if grams is None else grams)
        self.prompt.locator("[data-send]").tap()

    def weigh_part(self, grams):
        self.type(grams)
        self.prompt.locator("[data-part-key]").tap()
        self.settle()
        self.wait_until_saved()

    def settle_alkali(self):
        self.prompt.locator("[data-outs] button").first.tap()

    def open_ways(self):
        """Open what can be done about what is not as it should be; returns the panel."""
        self.prompt.locator("[data-off]:visible").locator("xpath=self::button | .//button").first.tap()
        panel = self.page.locator("#outs")
        panel.wait_for()
        return panel

    def choose_way(self, title):
        self.open_ways().get_by_role("button", name=title).tap()
        self.settle()
        self.wait_until_saved()

    def hold(self):
        where = self.prompt.locator("[data-hold-button]")
        where.scroll_into_view_if_needed()
        box = where.bounding_box()
        self.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        self.page.mouse.down()
        self.page.wait_for_timeout(HOLD_MS)
        self.page.mouse.up()

    def read(self, pot="lye", temp_c=None):
        section = self.prompt.locator(f"[data-reading={pot}]")
        if temp_c is None:
            self.tap_tile(section)
            return
        if not section.locator("details").evaluate("details => details.open"):
            section.locator("summary").tap()
        section.locator("details [name=temp_c]").fill(str(temp_c))
        section.get_by_role("button", name="Read").tap()
        section.locator(f"[data-last-reading={pot}]", has_text=f"{temp_c} °C").wait_for()

    def tap_tile(self, section):
        """Tap a temperature; where none is known yet, a coarse one first, then the exact one."""
        if section.locator("[data-coarse]").count():
            section.locator("[data-tile]").nth(6).tap()
            section.locator("[data-tiles]:not([data-coarse])").wait_for()
        section.locator("[data-tile]").nth(1).tap()

    def cool(self):
        self.read("lye", 40)
        self.read("fats", 39)
        self.prompt.get_by_role("button", name="Both are in the window").tap()

    def cut(self):
        self.prompt.locator("[name=mass_g]").fill("1430")
        self.prompt.locator("[name=offcuts_g]").fill("95")
        self.prompt.get_by_role("button", name="Cut").tap()

    def cure(self):
        self.prompt.locator("[name=bars]").fill("3")
        self.prompt.locator("[name=mass_g]").fill("451")
        self.prompt.get_by_role("button", name="Weighed").tap()
        self.wait_until_saved()
        self.prompt.get_by_role("button", name="Cured, it is ready").tap()

    def test(self):
        self.prompt.locator("[name=value]").fill("9.6")
        self.prompt.get_by_role("button", name="Passed", exact=True).tap()

    def change(self, kind, *, why, decision, **fields):
        """Write down what differs: the tile, its few fields, why, and what was decided."""
        form = self.open_change(kind)
        for name, value in fields.items():
            self.fill(form, name, value)
        if fields:
            form.get_by_role("button", name="Next").tap()
        answers = form.locator(".answers")
        answers.locator(".chip-choice", has_text=why).first.tap()
        answers.locator(".chip-choice", has_text=decision).first.tap()
        form.get_by_role("button", name="Write it down").tap()
        self.page.locator("[data-follows]").wait_for()
        self.wait_until_saved()

    def open_change(self, kind):
        """Open the screen of one kind of change and return its form."""
        self.page.locator(".dock [data-different]").tap()
        self.page.locator("#different").get_by_role("link", name=kind, exact=True).tap()
        return self.page.locator("#different form.change:visible")

    def fill(self, form, name, value):
        """Choose a chip, or type a number; what the prompt is about may be folded away."""
        chip = form.locator(f'[type=radio][name={name}][value="{value}"]')
        if chip.count() == 0:
            form.locator(f"[name={name}]").fill(value)
        elif not chip.is_checked():
            if not chip.is_visible():
                form.locator("[data-about] summary").tap()
            chip.locator("xpath=..").tap()


WAYS = {
    "tick": Hand.tick_all,
    "scale-check": Hand.try_scale,
    "weigh": Hand.weigh,
    "split": Hand.weigh,
    "pot-check": Hand.weigh,
    "settle": Hand.settle_alkali,
    "hold": Hand.hold,
    "pour": Hand.hold,
    "read": Hand.read,
    "cool": Hand.cool,
    "cut": Hand.cut,
    "cure": Hand.cure,
    "test": Hand.test,
    "release": Hand.hold,
}
