# SPDX-License-Identifier: Apache-2.0
"""The format of the document: old ones are brought up on reading, newer ones refused."""

from linewright.car.table import Log, said

#: The format that this version writes.
FORMAT = 1


def upgraded(document: dict[str, object], log: Log) -> dict[str, object]:
    """Return a document in the present format.

    There is one format so far, so nothing is changed; each later one adds its step here.

    Parameters
    ----------
    document : dict
        As the TOML reader gives it.
    log : Log
        Where to note a format that cannot be read.

    Returns
    -------
    dict
        The document without its format.
    """
    rest = {key: value for key, value in document.items() if key != "linewright"}
    if "linewright" not in document:
        log.add((), f"is no car document yet: its first line must be linewright = {FORMAT}.")
        return rest
    typed = document["linewright"]
    if isinstance(typed, bool) or not isinstance(typed, int) or typed < 1:
        log.add(("linewright",), f"{said(typed)} is no format; write linewright = {FORMAT}.")
    elif typed > FORMAT:
        log.add(
            ("linewright",),
            f"{said(typed)} is newer than this version, which reads format {FORMAT}. "
            f"Install a newer linewright, or keep the document in format {FORMAT}.",
        )
    return rest
