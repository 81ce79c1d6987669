"""Many files become one where they are collected, and do together what they did apart."""

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest
import rjsmin

from soapbench import one_file
from soapbench.bootstrap.places import ROOT
from soapbench.static import PAGE_SCRIPTS, PAGE_SHEETS, HashedStaticFiles

STATIC = Path(ROOT, "static")


def read(path):
    return (STATIC / path).read_text()


def of(**texts):
    return lambda path: texts[path.removesuffix(".js")]


def run(script):
    node = shutil.which("node")
    if not node:
        pytest.skip("there is no node here to run the script with")
    return subprocess.run(
        [node, "--input-type=module", "-e", script], capture_output=True, text=True, check=True
    ).stdout


def test_modules_in_one_file_do_what_they_did_apart():
    modules = of(
        page='import { count as add, LIMIT } from "./a.js";\nimport { twice } from "./b.js";\n'
        "console.log(JSON.stringify([twice(add()), add(), LIMIT]));\n",
        a="let n = 0;\nexport const LIMIT = 9;\nexport function count() {\n  return (n += 1);\n}\n",
        b='import { count } from "./a.js";\nconst n = 10;\nexport function twice(x) {\n  return n * x * count();\n}\n',
    )

    assert json.loads(run(one_file.script(modules, "page.js"))) == [20, 3, 9]


def test_a_module_that_two_others_need_stands_once():
    modules = of(page='import "./a.js";\nimport "./b.js";\n', a='import { c } from "./c.js";\nc();\n',
                 b='import { c } from "./c.js";\nc();\n', c="export function c() {}\n")  # fmt: skip

    assert one_file.script(modules, "page.js").count("function c()") == 1


@pytest.mark.parametrize("line", ["export default 1;", 'import * as b from "./b.js";', 'export { b } from "./b.js";'])
def test_a_module_in_another_style_is_refused_by_its_line(line):
    with pytest.raises(ValueError, match=re.escape(line)):
        one_file.script(of(page=f"{line}\n", b=""), "page.js")


def test_a_circle_of_modules_is_refused():
    modules = of(a='import { b } from "./b.js";\nexport const a = b;\n', b='import { a } from "./a.js";\n')

    with pytest.raises(ValueError, match=r"a\.js imports itself by way of b\.js"):
        one_file.script(modules, "a.js")


@pytest.mark.parametrize("page", PAGE_SCRIPTS)
def test_the_script_of_a_page_is_whole(page):
    script = one_file.script(read, page)

    assert not re.search(r"^(import|export)\b", script, re.MULTILINE)
    assert len(one_file.parts(read, page)) >= 3


@pytest.mark.parametrize("page", PAGE_SHEETS)
def test_the_sheet_of_a_page_is_whole(page):
    sheet = one_file.sheet(read, page)

    assert "@import" not in sheet and len(sheet) > 4_000


def literals_inside_literals(script):
    """Return what stands before each template literal that opens inside another."""
    found, open_ones = [], []
    for match in re.finditer(r"\\.|`|\$\{|[{}]", script):
        mark, top = match[0], open_ones[-1] if open_ones else ""
        if mark == "`" and top == "`":
            open_ones.pop()
        elif mark == "`":
            found += [script[max(match.start() - 40, 0) : match.end()]] if "`" in open_ones else []
            open_ones.append(mark)
        elif mark == "${" or (mark == "{" and top in ("${", "{")):
            open_ones.append(mark)
        elif mark == "}" and top in ("${", "{"):
            open_ones.pop()
    return found


def test_no_template_literal_stands_in_another():
    # What makes the scripts small would take the inner one for code, and its spaces away.
    assert literals_inside_literals("`a${b ? `c d` : 1}`")
    for path in sorted((STATIC / "js").rglob("*.js")):
        code = re.sub(r"/\*.*?\*/|(?<!:)//[^\n]*", "", path.read_text(), flags=re.DOTALL)
        assert literals_inside_literals(code) == [], path.name


def test_what_is_collected_is_small_and_still_a_script(tmp_path):
    words = "/** A comment. */\nexport function shown(value) {\n  return `${value} g  of fats`;\n}\n"
    (tmp_path / "a.js").write_text(words)
    files = HashedStaticFiles(location=tmp_path)

    done = list(files.post_process({"a.js": (files, "a.js")}))

    assert [found for _name, _hashed, found in done if isinstance(found, Exception)] == []
    collected = (tmp_path / files.stored_name("a.js")).read_text()
    assert collected == rjsmin.jsmin(words) and "`${value} g  of fats`" in collected
