"""The catalogues of messages: made new from the code, checked, written, compiled. Babel reads and writes them."""

from __future__ import annotations

import re
import string
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.catalog import Message as Entry
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from django.conf import settings

from soapbench.workshop.management.messages import Message, of_app, of_scripts

LANGUAGES = ("de",)
NO_DATE = datetime(2026, 1, 1, tzinfo=UTC)  # no clock in the files: the same messages are the same bytes
_PERCENT = re.compile(r"%(?:\(\w+\))?[sd]")
DOMAINS = {"django": of_app, "djangojs": of_scripts}


def renewed(language: str, domain: str) -> Catalog:
    """Return the messages of the code as they are now, with the translations that are kept for them."""
    kept, fresh = kept_catalogue(language, domain), catalogue_of(DOMAINS[domain](), language)
    for entry in fresh:
        old = kept.get(entry.id, entry.context) if entry.id else None
        if old is not None:
            entry.string = old.string
    return fresh


def catalogue_of(messages: Iterable[Message], language: str) -> Catalog:
    """Return an empty catalogue of these messages in the order of their texts, each with the files it stands in."""
    places: dict[tuple[str, str, str], set[str]] = {}
    for one in messages:
        places.setdefault((one.text, one.context, one.many), set()).add(one.place)
    with_many = {(text, context) for text, context, many in places if many}
    catalogue = _empty(language)
    for text, context, many in sorted(places):
        if not many and (text, context) in with_many:
            continue  # said with a count elsewhere: one entry serves both
        where = [(place, 0) for place in sorted(places[text, context, many])]
        catalogue.add((text, many) if many else text, context=context or None, locations=where)
    return catalogue


def _empty(language: str) -> Catalog:
    return Catalog(
        locale=language,
        header_comment="",
        project="soapbench",
        version="1",
        msgid_bugs_address="soapbench",
        creation_date=NO_DATE,
        revision_date=NO_DATE,
        last_translator="soapbench",
        language_team="soapbench",
        charset="utf-8",
        fuzzy=False,
    )


def kept_catalogue(language: str, domain: str) -> Catalog:
    """Return what is in the repository, or nothing where there is none yet."""
    path = _path(language, domain, "po")
    if not path.exists():
        return Catalog(locale=language)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def write(catalogue: Catalog, language: str, domain: str) -> None:
    """Write the catalogue for people (.po) and, beside it, for the app (.mo)."""
    for suffix in ("po", "mo"):
        _path(language, domain, suffix).parent.mkdir(parents=True, exist_ok=True)
    with _path(language, domain, "po").open("wb") as file:
        write_po(file, catalogue, width=120, omit_header=False, include_lineno=False, sort_output=False)
    _path(language, domain, "mo").write_bytes(compiled(catalogue))


def compiled(catalogue: Catalog) -> bytes:
    """Return the catalogue as the app reads it."""
    file = BytesIO()
    write_mo(file, catalogue)
    return file.getvalue()


def missing(catalogue: Catalog) -> list[str]:
    """Return the messages without a translation that can be used."""
    return [str(entry.id) for entry in entries(catalogue) if entry.fuzzy or not all(translations(entry))]


def differing(catalogue: Catalog) -> list[str]:
    """Return the translated messages whose named places are not those of the English."""
    return [str(entry.id) for entry in entries(catalogue) if any(translations(entry)) and not _fits(entry)]


def entries(catalogue: Catalog) -> Iterator[Entry]:
    return (entry for entry in catalogue if entry.id)


def translations(entry: Entry) -> tuple[str, ...]:
    """Return the translation, or each of its numbers."""
    return (entry.string,) if isinstance(entry.string, str) else tuple(entry.string or ("",))


def _fits(entry: Entry) -> bool:
    ids = (entry.id,) if isinstance(entry.id, str) else tuple(entry.id)
    wanted = set[str]().union(*map(places_in, ids)) | ({"count"} if len(ids) > 1 else set())
    needed = wanted - {"count"}  # "one bar" need not say its number
    return all(needed <= places_in(text) <= wanted for text in translations(entry))


def places_in(text: str) -> set[str]:
    """Return the named places of a message, those of %-formatting too."""
    try:
        named = {name for _text, name, _spec, _conversion in string.Formatter().parse(text) if name is not None}
    except ValueError:  # a brace of its own
        named = set()
    return named | set(_PERCENT.findall(text))


def _path(language: str, domain: str, suffix: str) -> Path:
    return Path(settings.LOCALE_PATHS[0], language, "LC_MESSAGES", f"{domain}.{suffix}")
