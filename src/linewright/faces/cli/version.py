# SPDX-License-Identifier: Apache-2.0
"""The version of the installed package."""

from importlib.metadata import version as _version


def version() -> str:
    """Return the version, as ``0.1.0``.

    Returns
    -------
    str
        The version that the package was built as.
    """
    return _version("linewright")
