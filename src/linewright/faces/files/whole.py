# SPDX-License-Identifier: Apache-2.0
"""A file is written whole or not at all."""

import os
import tempfile
from pathlib import Path

from linewright.base.errors import OutputError


def write_whole(path: Path, content: bytes | str) -> Path:
    """Put a file in place in one step; its folder is made if it is missing.

    Parameters
    ----------
    path : Path
        Where the file shall be; what stood there before stays until the new one is whole.
    content : bytes or str
        What to write; text as UTF-8.

    Returns
    -------
    Path
        The same path.

    Raises
    ------
    OutputError
        If the folder or the file cannot be written; nothing is left half-written.
    """
    data = content.encode("utf-8") if isinstance(content, str) else content
    name = ""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(
            dir=path.parent, prefix=f".{path.name}.", delete=False
        ) as part:
            name = part.name
            part.write(data)
            part.flush()
            os.fsync(part.fileno())
        os.chmod(name, 0o644)
        os.replace(name, path)
    except OSError as error:
        if name:
            Path(name).unlink(missing_ok=True)
        reason = error.strerror or str(error)
        if isinstance(error, FileExistsError):
            reason = f"{path.parent} is a file and no folder"
        raise OutputError(
            f"{path} cannot be written: {reason}. "
            "Name a folder that you may write to, with space left on its disk."
        ) from error
    return path
