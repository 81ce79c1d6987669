"""The words of the manual."""

SERVE = """\
Start soapbench on this machine for it and the phones on its network.

The first start makes the environment in .venv, installs the pinned packages there, makes the
database, and loads the reference data and an invented demo workshop. Later starts take well
under a second and touch no network. Whoever sits at this machine needs no password; a phone
gets in by the QR code, which carries a signed link. Ctrl+C stops it, and nothing is lost.

A browser lets a page work without the network, and keep the screen on, only at a secure
address. With --secure, soapbench makes one: a root certificate of this machine's own, which
each phone has to be told of once (the page /phone/ says how), and with it certificates for the
machine's address and names, renewed by themselves. The port after --port then speaks plain
HTTP: to a new phone that page alone, to a browser at this machine the whole app."""

SERVE_MORE = """\
examples:
  python3 manage.py serve
  python3 manage.py serve --port 8080 --no-qr
  python3 manage.py serve --no-demo               the first time: asks whose workshop it is
  python3 manage.py serve --host 127.0.0.1        this machine only, no phone
  python3 manage.py serve --secure                HTTPS on port 8000, plain HTTP for new phones on 8001

files:
  .venv/                  what was installed; safe to remove, the next start makes it again
  .data/                  database, photographs, collected static files, the secret: back this up
  .data/tls/              made by --secure: root and machine certificates, their keys for your eyes only
  .env                    settings, one NAME=value a line, if there is such a file

environment variables:
  SOAPBENCH_DATA          folder for what soapbench keeps (.data)
  SOAPBENCH_DATABASE      address of another database than the SQLite file there
  SOAPBENCH_HOSTS         host names to answer to besides this machine's own, with commas between
  SOAPBENCH_TIME_ZONE     time zone of the workshop, such as Europe/Paris (UTC)
  SOAPBENCH_TRUST_THIS_MACHINE=0   ask for a password at this machine, too
  All others are in DEVELOPERS.md.

addresses:
  /healthz                answers 200 once soapbench is ready
  /phone/                 how a phone gets to know this machine, and how to undo it

exit codes:
  0  stopped by Ctrl+C or by the system
  1  could not start; one sentence says why and what to do
  2  an option is wrong
"""

TEST = """\
Run every test of soapbench, in a real browser too where there is one.

Installs the pinned test tools into .venv the first time. Browser tests use the Chromium or
Chrome of this machine. Where there is none, it is installed on Debian and Ubuntu when you are
root; elsewhere those tests are skipped, and the last lines say so and what to do about it."""

TEST_MORE = """\
examples:
  python3 manage.py test                          everything
  python3 manage.py test -k alkali                tests with 'alkali' in their name
  python3 manage.py test tests/science            one folder
  python3 manage.py test -m "not browser"         without a browser
  python3 manage.py test -x -vv                   stop at the first failure, show each name

files:
  tests/requirements.lock   the pinned test tools
  tests/                    mirrors soapbench/; tests/browser/ drives a browser

environment variables:
  SOAPBENCH_CHROMIUM=PATH        the browser to use; 'none' to use none
  SOAPBENCH_BROWSER_REQUIRED=1   fail, rather than skip, when a browser test cannot run

exit codes:
  0  all tests passed; skipped ones are told at the end
  1  a test failed, or one sentence says what is wrong
  2  stopped by hand
  4  pytest did not understand an option
  5  no test has that name
"""

GATE = """\
Run every check that a change must pass, the cheapest first, and stop at the first that fails.

In order: format and lint of Python (ruff), template syntax (djade), direction of imports
(import-linter), forgotten migrations, tests of the scripts (node), types in the scripts (tsc),
types in Python (mypy), then 'python3 manage.py test'. Where Node.js or npm is missing, what
needs them is skipped, and the last lines say so."""

GATE_MORE = """\
examples:
  python3 manage.py gate
  python3 manage.py gate --no-tests               the quick checks only
  python3 manage.py gate --keep-going             everything that is wrong, not just the first

files:
  pyproject.toml                     settings of every Python tool, and the import contracts
  tests/js/*.json                    settings of the checks of scripts, and what they pin
  tests/js/node_modules/             made by npm at the first run

environment variables:
  those of 'python3 manage.py test'

exit codes:
  0  every check passed; skipped ones are told at the end
  1  a check failed, or one sentence says what is wrong
"""
