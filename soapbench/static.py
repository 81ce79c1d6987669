"""Static files with their digest in the name, ES module imports included."""

from whitenoise.storage import CompressedManifestStaticFilesStorage

EXTENSION, PATTERNS = CompressedManifestStaticFilesStorage._js_module_import_aggregation_patterns


class HashedStaticFiles(CompressedManifestStaticFilesStorage):
    support_js_module_import_aggregation = True
    # Not import("…"): here it stands in JSDoc types alone. These may point back to the module that imports them, and
    # two digests that each hold the other never come to rest.
    _js_module_import_aggregation_patterns = (
        EXTENSION,
        tuple((pattern, template) for pattern, template in PATTERNS if not template.startswith("import(")),
    )
    max_post_process_passes = 12  # one for each step of the longest chain of imports, with room to grow
