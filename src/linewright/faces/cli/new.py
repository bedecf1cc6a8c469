# SPDX-License-Identifier: Apache-2.0
"""``linewright new``: a commented starter document."""

from pathlib import Path

from linewright.base.errors import OutputError
from linewright.car.starter import starter
from linewright.faces.files.whole import write_whole


def new(file: Path) -> int:
    """Write the starter document where nothing stands yet; return the exit code."""
    if file.exists():
        raise OutputError(f"{file} is there already and is left alone. Name a new file.")
    write_whole(file, starter())
    print(f"Written: {file}. Open it in any editor, then: linewright plan {file}")
    return 0
