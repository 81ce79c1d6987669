"""Static files with their digest in the name, ES module imports included, and as small as a slow network wants them."""

import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from django.contrib.staticfiles.finders import find
from django.contrib.staticfiles.storage import staticfiles_storage
from django.core.files.storage import FileSystemStorage
from whitenoise.storage import CompressedManifestStaticFilesStorage

from soapbench import one_file

EXTENSION, PATTERNS = CompressedManifestStaticFilesStorage._js_module_import_aggregation_patterns
PAGE_SCRIPTS = ("js/page.js", "js/bench-page.js")
PAGE_SHEETS = ("css/page.css", "css/bench-page.css")
MINIFIED = ".min."


class HashedStaticFiles(CompressedManifestStaticFilesStorage):
    support_js_module_import_aggregation = True
    # Not import("…"): here it stands in JSDoc types alone. These may point back to the module that imports them, and
    # two digests that each hold the other never come to rest.
    _js_module_import_aggregation_patterns = (
        EXTENSION,
        tuple((pattern, template) for pattern, template in PATTERNS if not template.startswith("import(")),
    )
    max_post_process_passes = 12  # one for each step of the longest chain of imports, with room to grow

    def post_process(self, paths: dict[str, Any], dry_run: bool = False, **options: Any) -> Iterator[Any]:
        """Make scripts and sheets small, then do as always; yields a name, its hashed name, and whether it is done."""
        with tempfile.TemporaryDirectory() as folder:
            smaller = Smaller(Path(folder), paths)
            yield from super().post_process({**paths, **smaller.files()}, dry_run, **options)


class Smaller:
    """Small copies, in a folder, of the static files that are found."""

    def __init__(self, folder: Path, paths: dict[str, tuple[FileSystemStorage, str]]) -> None:
        self.folder, self.paths, self.storage = folder, paths, FileSystemStorage(location=folder)

    def files(self) -> dict[str, tuple[FileSystemStorage, str]]:
        """Make the copies and return them as Django names found files: the storage and the path in it, by name."""
        return {name: (self.storage, name) for name in self.paths if self._is_made(name)}

    def _is_made(self, name: str) -> bool:
        text = self._text(name)
        if text is None:
            return False
        target = self.folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text)
        return True

    def _text(self, name: str) -> str | None:
        import rcssmin  # only where files are collected: a start that has nothing to collect does not wait for them
        import rjsmin

        if MINIFIED in name:
            return None
        if name.endswith(".css"):
            return str(rcssmin.cssmin(one_file.sheet(self._read, name)))
        if name.endswith(".js"):
            whole = one_file.script(self._read, name) if name in PAGE_SCRIPTS else self._read(name)
            return str(rjsmin.jsmin(whole))
        return None

    def _read(self, name: str) -> str:
        storage, path = self.paths[name]
        with storage.open(path) as file:
            return bytes(file.read()).decode()


def gathered() -> set[str]:
    """Return the names of the files that no page asks for, because they are served inside another one."""
    if not isinstance(staticfiles_storage, HashedStaticFiles):
        return set()
    return set().union(*(one_file.parts(_source, name) for name in (*PAGE_SCRIPTS, *PAGE_SHEETS)))


def _source(name: str) -> str:
    path = find(name)
    if not isinstance(path, str):
        raise FileNotFoundError(name)
    return Path(path).read_text()
