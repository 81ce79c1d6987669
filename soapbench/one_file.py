"""One file out of many: a script with all that it imports, a style sheet with the sheets that it imports.

On a slow network each file costs a wait of its own. The sources stay apart and run as they are, in a browser and in
tests; this gathers them where they are collected for serving. It knows the house's way of writing a module (named
imports, exported functions and constants, no circle) and refuses any other.
"""

import re
from collections.abc import Callable
from pathlib import PurePosixPath

IMPORTED_SHEET = re.compile(r'^@import "([^"]+)";\n', re.MULTILINE)
IMPORT = re.compile(r'^import (?:\{([^}]*)\} from )?"(\.[^"]+)";\n', re.MULTILINE)
EXPORT = re.compile(r"^export (?=(?:async function|function|const) (\w+))", re.MULTILINE)
TYPES_ONLY = "export {};\n"
LEFT_OVER = re.compile(r"^(?:import|export)\b.*", re.MULTILINE)

Read = Callable[[str], str]  # from the path of a static file to its text


def sheet(read: Read, path: str) -> str:
    """Return a style sheet with the sheets that it imports in their places."""
    return IMPORTED_SHEET.sub(lambda found: read(_beside(path, found[1])), read(path))


def script(read: Read, path: str) -> str:
    """Return one module that does what the one at the path does with all that it imports.

    Raises:
        ValueError: a module imports or exports in a way that is not known here, or imports itself by a detour.
    """
    gathered: dict[str, str] = {}
    _gather(read, path, gathered, above=())
    return "".join(gathered.values())


def parts(read: Read, path: str) -> set[str]:
    """Return the paths of all that a script or a style sheet imports, at first hand or later."""
    pattern = IMPORTED_SHEET if path.endswith(".css") else IMPORT
    found = {_beside(path, match.groups()[-1]) for match in pattern.finditer(read(path))}
    return found.union(*(parts(read, each) for each in found))


def _gather(read: Read, path: str, gathered: dict[str, str], above: tuple[str, ...]) -> str:
    """Put a module behind all that it needs, once, and return the name that stands for it."""
    if path in above:
        raise ValueError(f"{path} imports itself by way of {', '.join(above[above.index(path) + 1 :])}.")
    if path not in gathered:
        text = IMPORT.sub(
            lambda found: _taken(found[1], _gather(read, _beside(path, found[2]), gathered, (*above, path))),
            read(path),
        )
        gathered[path] = _closed(path, text.replace(TYPES_ONLY, ""))
    return _name(path)


def _taken(names: str | None, module: str) -> str:
    """Return the line that takes names from a module; one that is imported for what it does has none."""
    return f"const {{{names.replace(' as ', ': ')}}} = {module};\n" if names else ""


def _closed(path: str, text: str) -> str:
    """Return the module as a function that has run: its own names stay its own."""
    exported = EXPORT.findall(text)
    body = EXPORT.sub("", text)
    if strange := LEFT_OVER.search(body):
        raise ValueError(f"{path} cannot be gathered with others because of this line: {strange[0]}")
    if not exported:  # it runs for what it does, and may wait while it does
        return f"(async () => {{\n{body}}})();\n"
    return f"const {_name(path)} = (() => {{\n{body}return {{ {', '.join(exported)} }};\n}})();\n"


def _name(path: str) -> str:
    return "_" + re.sub(r"\W", "_", path.removesuffix(".js"))


def _beside(path: str, name: str) -> str:
    """Return the path of a file that is named from beside another."""
    parts: list[str] = list(PurePosixPath(path).parent.parts)
    for part in PurePosixPath(name).parts:
        if part == "..":
            parts.pop()
        else:
            parts.append(part)
    return "/".join(parts)
