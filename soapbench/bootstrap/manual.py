"""The manual of the commands that are our own; readable before anything is installed."""

from argparse import ArgumentParser, RawDescriptionHelpFormatter

from soapbench.bootstrap import manual_pages as pages

OVERVIEW = """\
soapbench takes a batch of cold-process soap from a chosen formula to released bars.

  python3 manage.py serve     start it, and show the address and a QR code for the phone
  python3 manage.py test      run every test, in a real browser too where there is one
  python3 manage.py gate      check format, lint, templates, imports and types, then run every test

Add --help to any of these for its manual. Every other Django command works as well, for
instance 'python3 manage.py migrate'; 'python3 manage.py help --commands' lists them.
The first start makes its own environment in .venv and needs the network once.
"""


def page(words: list[str]) -> str | None:
    """Return the page that the words after manage.py ask for; None when it is Django's to give."""
    topics = [word for word in words if word not in ("-h", "--help", "help")]
    if not topics:
        return OVERVIEW
    make_parser = PARSERS.get(topics[0])
    return make_parser().format_help() if make_parser else None


def _parser(name: str, description: str, more: str, usage: str | None = None) -> ArgumentParser:
    return ArgumentParser(
        prog=f"python3 manage.py {name}",
        usage=usage,
        description=description,
        epilog=more,
        formatter_class=RawDescriptionHelpFormatter,
    )


def serve_parser() -> ArgumentParser:
    """Return the parser of serve."""
    parser = _parser("serve", pages.SERVE, pages.SERVE_MORE)
    add_serve_arguments(parser)
    return parser


def add_serve_arguments(parser: ArgumentParser) -> None:
    """Add what serve understands."""
    parser.add_argument("--port", type=int, default=8000, metavar="N", help="port to listen on (8000)")
    parser.add_argument(
        "--host",
        default="0.0.0.0",
        metavar="ADDRESS",
        help="address to listen on: 0.0.0.0 for every phone on this network (so if not given), "
        "127.0.0.1 for this machine only",
    )
    parser.add_argument("--threads", type=int, default=8, metavar="N", help="requests answered at once (8)")
    parser.add_argument(
        "--secure",
        action="store_true",
        help="serve HTTPS with a certificate of this machine's own, so that phones start without the network and "
        "keep their screen on; plain HTTP on the next port shows a new phone how to get to know this machine",
    )
    parser.add_argument("--no-qr", action="store_true", help="print no QR code")
    parser.add_argument("--no-demo", action="store_true", help="begin with a workshop of your own, not with the demo")


def test_parser() -> ArgumentParser:
    """Return the parser of test; what it does not know goes to pytest."""
    return _parser("test", pages.TEST, pages.TEST_MORE, "python3 manage.py test [-h] [what pytest understands ...]")


def gate_parser() -> ArgumentParser:
    """Return the parser of gate."""
    parser = _parser("gate", pages.GATE, pages.GATE_MORE)
    add_gate_arguments(parser)
    return parser


def add_gate_arguments(parser: ArgumentParser) -> None:
    """Add what gate understands."""
    parser.add_argument("--keep-going", action="store_true", help="go on after a check that failed; fail at the end")
    parser.add_argument("--no-tests", action="store_true", help="leave out the tests of 'python3 manage.py test'")


PARSERS = {"serve": serve_parser, "test": test_parser, "gate": gate_parser}
