"""The scripts find one another under their hashed names."""

import re
from pathlib import Path

from soapbench.bootstrap.places import ROOT
from soapbench.static import HashedStaticFiles

SCRIPTS = Path(ROOT, "static", "js")


def test_no_script_imports_while_it_runs():
    # Such an import would keep its plain name; in the types of a comment that does no harm.
    code = [re.sub(r"/\*.*?\*/", "", path.read_text(), flags=re.DOTALL) for path in SCRIPTS.rglob("*.js")]

    assert code and not [text for text in code if re.search(r"\bimport\(", text)]


def test_types_that_point_back_are_no_cycle(tmp_path):
    (tmp_path / "a.js").write_text('import { b } from "./b.js";\nexport const a = b;\n')
    (tmp_path / "b.js").write_text('/** @type {import("./a.js").a} */\nexport const b = 1;\n')
    files = HashedStaticFiles(location=tmp_path)

    found = list(files.post_process({name: (files, name) for name in ("a.js", "b.js")}))

    assert [done for _name, _hashed, done in found if isinstance(done, Exception)] == []
    assert re.search(r'from "./b\.\w{12}\.js"', (tmp_path / files.stored_name("a.js")).read_text())
