"""The one gate: every check that a change must pass, the cheapest first."""

import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from soapbench.bootstrap import places

ROOT = Path(places.ROOT)

SCRIPT_TOOLS = ROOT / "tests" / "js"  # what checks the scripts; they themselves need no build
NO_NODE = "Node.js or npm was not found; install Node.js 20 or newer, and run the gate again"
NO_TYPESCRIPT = "npm could not fetch the pinned TypeScript; connect to the internet, and run the gate again"
IMPORTS = "from importlinter.cli import lint_imports_command; lint_imports_command()"


@dataclass(frozen=True)
class Check:
    """One check: a name and what to run. A skipped one says why instead."""

    name: str
    command: Sequence[str] = ()
    skipped: str = ""
    shown: bool = False  # print as it goes, for what takes long


@dataclass
class Outcome:
    """What became of the checks."""

    failed: list[str] = field(default_factory=list)
    skipped: list[Check] = field(default_factory=list)


def checks(*, with_tests: bool) -> list[Check]:
    """Return the checks in their order."""
    python = [sys.executable, "-m"]
    manage = [sys.executable, str(ROOT / "manage.py")]
    found = [
        Check("format", [*python, "ruff", "format", "--check", "."]),
        Check("lint", [*python, "ruff", "check", "."]),
        templates(),
        Check("imports", [sys.executable, "-c", IMPORTS]),
        Check("migrations", [*manage, "makemigrations", "--check", "--dry-run"]),
        *scripts(),
        Check("types", [*python, "mypy"]),
    ]
    return [*found, Check("tests", [*manage, "test"], shown=True)] if with_tests else found


def templates() -> Check:
    """Return the check of template syntax."""
    djade = Path(sys.executable).with_name("djade")
    files = sorted(str(path.relative_to(ROOT)) for path in (ROOT / "templates").rglob("*.html"))
    if not files:
        return Check("templates", skipped="there is no template")
    return Check("templates", [str(djade), "--check", "--target-version", "5.2", *files])


def scripts() -> list[Check]:
    """Return the checks that need Node.js: tests of the pure modules, and types from their JSDoc."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if not node or not npm:
        return [Check("script tests", skipped=NO_NODE), Check("script types", skipped=NO_NODE)]
    return [script_tests(node), script_types(node, npm)]


def script_tests(node: str) -> Check:
    """Return the tests of the modules that touch no page."""
    files = sorted(str(path.relative_to(ROOT)) for path in SCRIPT_TOOLS.glob("*.test.js"))
    if not files:
        return Check("script tests", skipped="there is none in tests/js")
    return Check("script tests", [node, "--test", *files])


def script_types(node: str, npm: str) -> Check:
    """Return the check of the types in JSDoc, by the TypeScript that package-lock.json pins."""
    kept, pinned = SCRIPT_TOOLS / "node_modules" / ".package-lock.json", SCRIPT_TOOLS / "package-lock.json"
    if not kept.exists() or kept.stat().st_mtime < pinned.stat().st_mtime:
        fetch = [npm, "ci", "--silent", "--no-audit", "--no-fund"]
        if subprocess.run(fetch, cwd=SCRIPT_TOOLS, capture_output=True).returncode:
            return Check("script types", skipped=NO_TYPESCRIPT)
    compiler = SCRIPT_TOOLS / "node_modules" / "typescript" / "bin" / "tsc"
    return Check("script types", [node, str(compiler), "--project", str(SCRIPT_TOOLS / "jsconfig.json")])


def run(found: list[Check], *, keep_going: bool, say: Callable[[str], object] = print) -> Outcome:
    """Run the checks and return what became of them."""
    outcome = Outcome()
    for check in found:
        if check.skipped:
            outcome.skipped.append(check)
        elif not passes(check, say):
            outcome.failed.append(check.name)
            if not keep_going:
                break
    return outcome


def passes(check: Check, say: Callable[[str], object]) -> bool:
    """Run one check; print what it said when it failed."""
    began = time.monotonic()
    done = subprocess.run(check.command, cwd=ROOT, capture_output=not check.shown, text=True)
    verdict = "failed" if done.returncode else "passed"
    say(f"{check.name:<14} {verdict}  {time.monotonic() - began:5.1f} s")
    if done.returncode and not check.shown:
        say((done.stdout + done.stderr).rstrip())
    return not done.returncode
