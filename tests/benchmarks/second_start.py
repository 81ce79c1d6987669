"""How long a second start takes, against a bare Django project under the same server.

Run it with the environment's Python, after a first start:

    .venv/bin/python tests/benchmarks/second_start.py

Both are timed from the start of the process to the first answer 200, in turn, on this machine:
a project fresh from `django-admin startproject` at its welcome page, with the environment's
Python and cheroot; and `python3 manage.py serve` at /healthz, the change of Python included.
The pages themselves are imported when first asked for, which the line "first page" adds.
Prints both medians and their ratio; exit code 1 when the ratio is above LIMIT.
"""

import os
import socket
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIMIT = 1.3
ROUNDS = 11
SERVE_BARE = "from cheroot.wsgi import Server; from bare.wsgi import application; import sys; "
SERVE_BARE += "Server(('127.0.0.1', int(sys.argv[1])), application).start()"


def seconds_until_200(command: list[str], port: int, path: str, **how) -> float:
    """Start the command, wait for its first answer 200, stop it, and return the seconds."""
    began = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **how)
    try:
        while not answers(f"http://127.0.0.1:{port}{path}"):
            if process.poll() is not None:
                sys.exit(f"It ended with exit code {process.returncode} before it answered: {' '.join(command)}")
            time.sleep(0.002)
        return time.perf_counter() - began
    finally:
        process.terminate()
        process.wait()


def answers(address: str) -> bool:
    try:
        return bool(urllib.request.urlopen(address, timeout=10).status == 200)
    except OSError:
        return False


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def bare(folder: Path) -> float:
    port = free_port()
    command = [sys.executable, "-c", SERVE_BARE, str(port)]
    return seconds_until_200(command, port, "/", cwd=folder, env=environment())


def ours(data: Path, path: str = "/healthz") -> float:
    port = free_port()
    base = getattr(sys, "_base_executable", sys.executable)
    command = [base, "manage.py", "serve", "--port", str(port)]
    return seconds_until_200(command, port, path, cwd=ROOT, env=environment(SOAPBENCH_DATA=str(data)))


def environment(**more: str) -> dict[str, str]:
    """Return this process's variables, with compiled modules allowed: both sides keep theirs."""
    return {**{name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}, **more}


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        project, data = Path(folder, "project"), Path(folder, "data")
        project.mkdir()
        subprocess.run([sys.executable, "-m", "django", "startproject", "bare", str(project)], check=True)
        bare(project), ours(data)  # first starts: compile, migrate, load, collect
        pairs = [(bare(project), ours(data)) for _ in range(ROUNDS)]
    first_page = statistics.median(ours(data, "/") for _ in range(ROUNDS))
    plain, own = (statistics.median(times) for times in zip(*pairs, strict=True))
    print(f"bare Django   {plain:.3f} s\nsoapbench     {own:.3f} s\nratio         {own / plain:.2f} (at most {LIMIT})")
    print(f"first page    {first_page:.3f} s")
    return int(own > LIMIT * plain)


if __name__ == "__main__":
    sys.exit(main())
