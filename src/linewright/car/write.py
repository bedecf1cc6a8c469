# SPDX-License-Identifier: Apache-2.0
"""Changes to a car document: comments and order stay, the file is replaced in one step."""

import contextlib
import copy
import hashlib
import os
import tempfile
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from linewright.base.errors import OutputError
from linewright.car.line_index import shown_key

Value = str | int | float | bool | Sequence[Any] | Mapping[str, Any]


def _set(table: Any, key: Sequence[str], value: Any) -> None:
    for word in key[:-1]:
        if word not in table:
            table[word] = {}
        table = table[word]
    table[key[-1]] = value


def _remove(table: Any, key: Sequence[str]) -> None:
    for word in key[:-1]:
        table = table[word]
    del table[key[-1]]


def changed(text: str, key: Sequence[str], value: Value) -> str:
    """Return a document with one value set; all else stays as it was typed.

    Parameters
    ----------
    text : str
        The document.
    key : Sequence of str
        Path of the key, as in ``("lines", "O01", "string")``; tables on the way are made.
    value : str, int, float, bool, Sequence or Mapping
        What it is to be.

    Returns
    -------
    str
        The document, changed.

    Raises
    ------
    OutputError
        If the key cannot be set without changing something else; nothing is changed then.

    Examples
    --------
    >>> changed('string = "700 mm"  # taped\\n', ["string"], "720 mm")
    'string = "720 mm"  # taped\\n'
    """
    wanted = tomllib.loads(text)
    try:
        _set(wanted, key, copy.deepcopy(value))
        return _checked(text, key, value, wanted)
    except (TypeError, KeyError, AttributeError) as error:
        raise _refused(key, "it is no key of a table") from error


def removed(text: str, key: Sequence[str]) -> str:
    """Return a document without one key; all else stays as it was typed.

    Parameters
    ----------
    text : str
        The document.
    key : Sequence of str
        Path of the key.

    Returns
    -------
    str
        The document, changed.

    Raises
    ------
    OutputError
        If the key is not there.
    """
    wanted = tomllib.loads(text)
    try:
        _remove(wanted, key)
        return _checked(text, key, None, wanted)
    except (TypeError, KeyError, AttributeError) as error:
        raise _refused(key, "it is not there") from error


def _refused(key: Sequence[str], why: str) -> OutputError:
    return OutputError(
        f"{shown_key(tuple(key))} cannot be changed: {why}. The document is left as it was; "
        f"change it in an editor."
    )


def _checked(text: str, key: Sequence[str], value: Any, wanted: Mapping[str, Any]) -> str:
    """Change the text by tomlkit, and let the standard reader confirm that nothing else moved."""
    import tomlkit  # 80 ms to parse what tomllib reads in 1: only here
    from tomlkit.exceptions import TOMLKitError

    try:
        tree = tomlkit.parse(text)
        if value is None:
            _remove(tree, key)
        else:
            _set(tree, key, value)
        made = tomlkit.dumps(tree)
        is_right = tomllib.loads(made) == wanted
    except (TOMLKitError, ValueError) as error:
        raise _refused(key, "the text around it cannot be kept") from error
    if not is_right:
        raise _refused(key, "the text around it cannot be kept")
    return made


def digest(text: str) -> str:
    """Return what `Car.sha256` holds for a text.

    Parameters
    ----------
    text : str
        The document.

    Returns
    -------
    str
        Hexadecimal SHA-256 of its UTF-8 bytes.
    """
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def replace_file(path: Path, text: str, *, over: str | None = None) -> None:
    """Replace a document in one step: either the old text is there or the new, never half.

    Parameters
    ----------
    path : Path
        The file; through a link, the file that it names.
    text : str
        The new text.
    over : str or None
        `digest` of the text that was read; where the file has another by now, it is left alone.

    Raises
    ------
    OutputError
        If the file cannot be written, or was changed by somebody else.
    """
    target = Path(path).resolve()
    try:
        if over is not None and digest(target.read_bytes().decode("utf-8-sig")) != over:
            raise OutputError(
                f"{path} was changed by someone else since it was read, and is left alone. "
                f"Read it again, then make the change."
            )
        descriptor, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    except (OSError, ValueError) as error:
        if isinstance(error, OutputError):
            raise
        raise _unwritten(path, error) from error
    try:
        with os.fdopen(descriptor, "w", encoding="utf-8", newline="") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        mode = target.stat().st_mode & 0o777 if target.exists() else 0o644
        os.chmod(name, mode)
        os.replace(name, target)
    except (OSError, ValueError) as error:
        with contextlib.suppress(OSError):
            os.unlink(name)
        raise _unwritten(path, error) from error
    _sync_folder(target.parent)


def _unwritten(path: Path, error: Exception) -> OutputError:
    reason = getattr(error, "strerror", None) or str(error)
    return OutputError(f"{path} cannot be written: {reason}. What was there is still there.")


def _sync_folder(folder: Path) -> None:
    """Let the new name reach the disk; Windows has no such call and needs none."""
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def change_file(path: Path, key: Sequence[str], value: Value) -> None:
    """Set one value in a document on the disk.

    Parameters
    ----------
    path : Path
        The file.
    key : Sequence of str
        Path of the key.
    value : str, int, float, bool, Sequence or Mapping
        What it is to be.

    Raises
    ------
    OutputError
        If the file cannot be read or written, or the key cannot be set.
    """
    try:
        text = Path(path).read_bytes().decode("utf-8-sig")
    except (OSError, ValueError) as error:
        raise _unwritten(path, error) from error
    try:
        made = changed(text, key, value)
    except tomllib.TOMLDecodeError as error:
        raise _refused(key, f"the document is not valid TOML ({error})") from error
    replace_file(path, made, over=digest(text))
