import importlib.util
import os
import re

import pytest

from soapbench.bootstrap import install
from soapbench.bootstrap.trouble import Trouble


def test_a_folder_that_may_not_be_written_to_is_named(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "access", lambda path, mode: False)

    with pytest.raises(Trouble, match=re.escape(f"may not write to {tmp_path}")):
        install.check_folder(str(tmp_path))


def test_a_python_without_ensurepip_names_the_debian_package(monkeypatch):
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None if name == "ensurepip" else object())

    with pytest.raises(Trouble, match="sudo apt install python3-venv"):
        install.check_modules()


def test_what_stands_in_the_way_of_an_environment_is_told_with_its_place(tmp_path):
    in_the_way = tmp_path / ".venv"
    in_the_way.write_text("a file, not a folder")

    with pytest.raises(Trouble, match=re.escape(str(in_the_way))):
        install.make(str(in_the_way))
