"""One device in a storm: its page of the run, what its network does, and which taps it has acknowledged."""

from tests.browser.hand import Hand

KNOWN = """async () => {
  const open = indexedDB.open("soapbench");
  const database = await new Promise((done, fail) => {
    open.onsuccess = () => done(open.result);
    open.onerror = () => fail(open.error);
  });
  const all = (store, key) => new Promise((done) => {
    const request = database.transaction(store).objectStore(store)[key === undefined ? "getAll" : "get"](key);
    request.onsuccess = () => done(request.result);
  });
  const run = document.querySelector("[data-run]").dataset.run;
  const kept = await all("events");
  const known = (await all("marks", `known:${run}`))?.facts ?? [];
  const told = JSON.parse(document.getElementById("fact-documents").textContent);
  database.close();
  return { kept: kept.map(({ id }) => id), refused: kept.filter(({ refused }) => refused).map(({ refused }) => refused),
           known: [...told, ...known].map(({ id, position }) => [position, id]) };
}"""
# A clock that is wrong by what the test has put into the device's storage.
WRONG_CLOCK = """(() => {
  const right = Date;
  const wrong = () => right.now() + Number(localStorage.getItem("wrong-by") ?? 0);
  globalThis.Date = class extends right {
    constructor(...given) { given.length ? super(...given) : super(wrong()); }
    static now() { return wrong(); }
  };
})()"""


class Device:
    """A phone on the page of one run."""

    def __init__(self, phone, url, run=""):
        self.phone, self.url, self.run = phone, url, run
        self.acknowledged = set()
        self.mode = "plain"
        self.open()

    def open(self):
        context = self.phone.start()
        context.add_init_script(WRONG_CLOCK)
        context.route("**/events/", self.deliver)
        self.page = context.pages[0] if context.pages else context.new_page()
        self.page.set_default_timeout(20_000)

    def go_to_run(self):
        self.page.goto(f"{self.url}/bench/{self.run}/")
        self.hand = Hand(self.page)

    def deliver(self, route):
        """Bring an event to the server as the network of this moment does."""
        mode, self.mode = self.mode, "plain"
        if mode == "plain":
            route.continue_()
            return
        try:
            answer = route.fetch()
        except Exception:  # the server is away: that is a lost request
            route.abort()
            return
        if mode == "twice":
            answer = route.fetch()
        route.abort() if mode == "lost" else route.fulfill(response=answer)

    def note_taps(self):
        """Take note of every tap that the device holds by now; from here on none may be lost."""
        found = self.page.evaluate(KNOWN)
        self.acknowledged |= {*found["kept"], *(id for _position, id in found["known"])}
        return found

    def kill(self):
        self.phone.kill()
