"""Every message that a page may show, gathered from Python, templates, scripts and the reference data.

Babel reads and writes the catalogues; it is a test tool. The app itself needs only the compiled files, which are kept
in the repository, so that a bare machine with nothing but Python speaks every language.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.template import Engine
from django.template.base import Node, NodeList, Template
from django.templatetags.i18n import BlockTranslateNode, TranslateNode
from django.utils.translation import trim_whitespace

from soapbench.workshop.management.reference_words import words_of_reference

ONE = {"_", "gettext", "gettext_lazy", "later", "say", "mark"}
TWO = {"ngettext", "plural"}
# The checks of soapbench.science.errors: where the name and the unit stand, which open their sentences.
CHECKS = {
    "number": (1,),
    "positive": (1, 2),
    "not_negative": (1, 2),
    "fraction": (1,),
    "between": (3, 4),
    "a_temperature": (1,),
    "chosen": (2,),
}
IN_SCRIPT = re.compile(r'\btranslated\(\s*("(?:[^"\\]|\\.)*")')
IN_FILTER = re.compile(r"""\b_\((?:"([^"]+)"|'([^']+)')\)""")


@dataclass(frozen=True, order=True)
class Message:
    """One message: the English, its plural, its context, the file where it stands."""

    text: str
    place: str
    context: str = ""
    many: str = ""


def of_app() -> Iterator[Message]:
    """Return the messages that the server says, each as often as it stands somewhere."""
    for path in sorted(Path(settings.BASE_DIR, "soapbench").rglob("*.py")):
        yield from of_python(path.read_text(encoding="utf-8"), _place(path))
    for path in sorted(Path(settings.BASE_DIR, "templates").rglob("*.html")):
        yield from of_template(path.read_text(encoding="utf-8"), _place(path))
    for context, text, place in words_of_reference():
        yield Message(text, place, context)


def of_scripts() -> Iterator[Message]:
    """Return the messages that a page's script says."""
    for path in sorted(Path(settings.BASE_DIR, "static", "js").rglob("*.js")):
        for found in IN_SCRIPT.findall(path.read_text(encoding="utf-8")):
            yield Message(ast.literal_eval(found), _place(path))


def of_python(source: str, place: str) -> Iterator[Message]:
    """Return the messages of one module."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            yield from _of_call(name, [_texts(argument) for argument in node.args], place)


def _of_call(name: str, given: list[list[str]], place: str) -> Iterator[Message]:
    if name in ONE and given:
        yield from (Message(text, place) for text in given[0])
    elif name in TWO and len(given) > 1:
        yield from (Message(one, place, many=many) for one, many in zip(given[0], given[1], strict=False))
    elif name in ("word", "pgettext") and len(given) > 1:
        yield from (Message(text, place, context) for context in given[0] for text in given[1])
    elif name in CHECKS:
        yield from (
            Message(text, place) for at in CHECKS[name] for texts in given[at : at + 1] for text in texts if text
        )


def _texts(node: ast.expr) -> list[str]:
    """Return the literal texts that an argument may be."""
    if isinstance(node, ast.IfExp):
        return [*_texts(node.body), *_texts(node.orelse)]
    return [node.value] if isinstance(node, ast.Constant) and isinstance(node.value, str) else []


def of_template(source: str, place: str) -> Iterator[Message]:
    """Return the messages of one template."""
    for node in _nodes(Template(source, engine=Engine.get_default()).nodelist):
        if isinstance(node, TranslateNode):
            literal = getattr(node.filter_expression.var, "literal", None)
            if isinstance(literal, str):
                yield Message(str(literal), place)
        elif isinstance(node, BlockTranslateNode):
            yield _of_block(node, place)
    yield from (Message(one or other, place) for one, other in IN_FILTER.findall(source))


def _nodes(nodes: NodeList) -> Iterator[Node]:
    for node in nodes:
        yield node
        for name in (*node.child_nodelists, "nodelist"):
            inner = getattr(node, name, None)
            if isinstance(inner, NodeList):
                yield from _nodes(inner)


def _of_block(node: BlockTranslateNode, place: str) -> Message:
    one, _names = node.render_token_list(node.singular)
    many = node.render_token_list(node.plural)[0] if node.plural else ""
    if node.trimmed:
        one, many = trim_whitespace(one), trim_whitespace(many)
    return Message(one, place, many=many)


def _place(path: Path) -> str:
    return path.relative_to(settings.BASE_DIR).as_posix()
