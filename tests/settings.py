"""The app's settings, with what a test must not touch or wait for."""

import atexit
import os
import shutil
import tempfile

# Before the settings are read: the maker's own data folder stays out of it.
os.environ["SOAPBENCH_DATA"] = tempfile.mkdtemp(prefix="soapbench-tests-")
atexit.register(shutil.rmtree, os.environ["SOAPBENCH_DATA"], ignore_errors=True)

from soapbench.settings import *  # noqa: E402, F403
from soapbench.settings import DATA_DIR, DATABASES, SQLITE_OPTIONS, STATIC_ROOT, STORAGES  # noqa: E402

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # safe ones are slow by design
# Plain names, so that nothing needs collecting; tests of the hashed names ask for them.
STORAGES = {**STORAGES, "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}}
STATIC_ROOT.mkdir()  # whitenoise warns of a folder that is not there, and a warning is an error here
# A file, as at the bench: in memory, the server that browsers talk to would share one connection with the test, and a
# request that comes late could undo what the test had just cleared away.
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    DATABASES["default"]["TEST"] = {"NAME": DATA_DIR / "tests.sqlite3"}
    DATABASES["default"]["OPTIONS"] = {
        **SQLITE_OPTIONS,
        "init_command": "PRAGMA synchronous=OFF; PRAGMA foreign_keys=ON;",
    }
