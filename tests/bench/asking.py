"""Asks the bench over HTTP: one event as a script sends it, or as a plain form does."""

import html
import json
import re

from django.utils import timezone

from soapbench.bench.ids import new_id

# One good payload for each kind of event.
GOOD = {
    "attached": {"what": "photo", "sha256": "0f" * 32, "media": "image/jpeg", "size": 5},
    "started": {"cautions_read": True},
    "ticked": {"item": "tool:scale"},
    "done": {"note": "all here"},
    "scale-checked": {"known_g": 200, "read_g": 200.1},
    "postponed": {"why": "no time today"},
    "weighed": {"line": "fat:olive", "mass_g": 394.0},
    "part-weighed": {"line": "fat:olive", "mass_g": 200.0},
    "remedied": {"code": "C2", "decision": "Leave it"},
    "settled": {"choice": "planned"},
    "read": {"pot": "lye", "temp_c": 80},
    "pot-checked": {"mass_g": 994.0},
    "trace-seen": {"trace": "thin"},
    "rest-tested": {"oil_film": False, "thickens_as_it_cools": False},
    "split": {"portion": "B", "mass_g": 400},
    "drawn": {"path": "zigzag", "tool": "skewer", "passes": 5},
    "changed": {"what": "other", "why": "a visitor", "decision": "go on"},
    "noted": {"text": "a remark"},
    "took-back": {"event": "0" * 36},
    "looked": {"gel": "yes"},
    "firmness-checked": {"is_firm": False, "crumbles": True, "note": "at the ends"},
    "paused": {"why": "the door"},
    "resumed": {"checked": "it is in"},
    "rinsed": {"is_running": True, "where": "skin"},
    "taken-in-hand": {},
    "given-back": {},
    "credited": {"event": "0" * 36, "by": "Ada"},
    "decided": {"events": ["0" * 36, "1" * 36], "counts": ["0" * 36]},
    "cut": {"bars": 10, "mass_g": 1300},
    "cure-weighed": {"bars": 3, "mass_g": 400},
    "tested": {"method": "pH of a 1 % solution", "value": 9.6, "passed": True},
    "released": {"bars": 10},
    "rejected": {"reason": "cracked"},
    "stopped": {"reason": "spilt", "made_safe": "neutralised"},
}


def address(run):
    return f"/bench/{run.pk}/events/"


def envelope(kind, payload, **changes):
    """Return an event as a script sends it."""
    return {
        "id": new_id(),
        "kind": kind,
        "prompt": "",
        "payload": payload,
        "happened_at": timezone.now().isoformat(),
        "device": "phone",
        **changes,
    }


def send(client, run, kind, payload, **changes):
    """Post one event as JSON."""
    return post(client, run, json.dumps(envelope(kind, payload, **changes)))


def post(client, run, body, content_type="application/json"):
    return client.post(address(run), body, content_type=content_type)


def submit(client, run, kind, prompt, **fields):
    """Post one event as the plain form of a prompt does."""
    return client.post(address(run), {"id": new_id(), "kind": kind, "prompt": prompt, **fields})


def words_of(response):
    """Return what the page says, without its marks."""
    text = re.sub(r"<script.*?</script>", "", response.content.decode(), flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def shown_key(response):
    """Return the key of the prompt that the page shows."""
    return re.search(r'data-prompt="([^"]+)" *>', response.content.decode()).group(1)
