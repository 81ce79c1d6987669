"""Reads a record as a maker does: its sections as lines of text."""

from dataclasses import replace

from soapbench.logbook.blocks import Cell
from soapbench.logbook.given import Given
from soapbench.logbook.record import make_record

DIGEST = "ab" * 32


def given(hand, **changes):
    made = Given(
        id="an-id",
        code="20261125-IB-1",
        made_at=hand.now,
        made_by="Ada",
        status_word=hand.state.status,
        plan=hand.plan,
        state=hand.state,
        facts=tuple(hand.facts),
        head_digest=DIGEST,
    )
    return replace(made, **changes)


def record(hand, **changes):
    return make_record(given(hand, **changes))


def section(record, key):
    return next((one for one in record.sections if one.key == key), None)


def lines(record, key):
    """Return every row of a section as one text: values, remarks and all."""
    found = section(record, key)
    return [text for block in (found.blocks if found else ()) for text in _lines(block)]


def _lines(block):
    if block.kind == "words":
        return [block.text]
    if block.kind == "figure":
        return [f"{block.caption} ({block.note})"]
    if block.kind == "curve":
        return [block.chart.sentence]
    if block.kind == "code":
        return [f"{block.caption} ({block.text})"]
    rows = block.rows if block.kind == "table" else [(Cell(name), cell) for name, cell in block.rows]
    return [" | ".join(f"{cell.text} ({cell.note})" if cell.note else cell.text for cell in row) for row in rows]


def line(record, key, start):
    """Return the row of a section that begins with these words."""
    found = [text for text in lines(record, key) if text.startswith(start)]
    assert found, f"{start!r} is not in {lines(record, key)}"
    return found[0]


def tones(record, key):
    return [block.tone for block in section(record, key).blocks if block.kind == "words"]
