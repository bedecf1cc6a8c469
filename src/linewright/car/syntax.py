# SPDX-License-Identifier: Apache-2.0
"""What the standard TOML reader refused, said so that a builder can mend it."""

import re

from linewright.base.errors import Fault
from linewright.car.table import said

_WHERE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)")

#: A text in quotes, or a comment: neither opens nor closes anything.
_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'|#.*$')

_HEADER = re.compile(r"^\s*\[\s*([^\[\]]+?)\s*\]\s*(?:#.*)?$")
_KEY = re.compile(
    r"""^\s*((?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[A-Za-z0-9_-]+))*)\s*="""
)

_QUOTES = 'Texts and values with a unit stand in quotes, as in string = "700 mm".'


def _opened(line: str, sign: str, close: str) -> bool:
    """Whether a line opens a bracket that it does not close."""
    bare = _QUOTED.sub("", line)
    return bare.count(sign) > bare.count(close)


def _words(key: str) -> tuple[str, ...]:
    parts = re.findall(r""""([^"]*)"|'([^']*)'|([A-Za-z0-9_-]+)""", key)
    return tuple(a or b or c for a, b, c in parts)


def _keys(lines: list[str]) -> list[tuple[tuple[str, ...], int, str]]:
    """Tables and keys that begin a line: their path, their line, and how they are written."""
    found: list[tuple[tuple[str, ...], int, str]] = []
    table: tuple[str, ...] = ()
    for number, line in enumerate(lines, 1):
        if met := _HEADER.match(line):
            table = _words(met[1])
            found.append((table, number, "table"))
        elif met := _KEY.match(line):
            value = line[met.end() :].strip()
            how = "braces" if value.startswith("{") else "value"
            found.append(((*table, *_words(met[1])), number, how))
    return found


def _twice(lines: list[str], line: int) -> tuple[str, str]:
    """Say what stands twice and where it stood first, and what to do."""
    keys = _keys(lines[:line])
    here = next((path for path, number, _ in reversed(keys) if number == line), None)
    for path, number, how in keys:
        if here is None or number == line:
            break
        if path == here:
            return (
                f"{'.'.join(here)} stands on line {number} already, and again",
                "Take one away, or give the second an id of its own.",
            )
        if how == "braces" and here[: len(path)] == path:
            return (
                f"{'.'.join(path)} ends with its braces on line {number}, and is gone on with",
                "Type all that belongs to it within the braces, or give it a table of its own in "
                "their place.",
            )
    return "this key or table stands twice", "Take one away, or give the second an id of its own."


def _joined(lines: list[str], line: int) -> int | None:
    """The line on which a table in braces was opened that the reader met the end of."""
    for number in (line, line - 1):
        if 1 <= number <= len(lines) and _opened(lines[number - 1], "{", "}"):
            return number
    return None


def fault(text: str, message: str) -> Fault:
    """Say what the standard reader refused, with the line as it was typed.

    Parameters
    ----------
    text : str
        The document.
    message : str
        What the reader said.

    Returns
    -------
    Fault
        What is wrong, where, and how it is mended.
    """
    met = _WHERE.search(message)
    lines = text.replace("\r\n", "\n").split("\n")
    line = int(met[1]) if met and met[1] else len(lines) if met else None
    reason = (message[: met.start()] if met else message)[:200]
    way = _QUOTES
    if "overwrite" in reason or "Cannot declare" in reason or "multiple times" in reason:
        reason, way = _twice(lines, line or 0)
    elif line and (start := _joined(lines, line)) and "string" not in reason:
        line = start
        reason = "a table in braces must end on the line it begins on"
        way = (
            "Put it on one line, or give it a table of its own, as [components.FH] with a line "
            "for each key."
        )
    elif "Unclosed inline table" in reason or "Unclosed array" in reason:
        reason = "a comma is missing between two values, or the bracket that ends them"
        way = 'Write commas between values, as in { kind = "oil cooler", have = "yes" }.'
    shown = f" in {said(lines[line - 1].strip())}" if line and lines[line - 1].strip() else ""
    return Fault(f"is not valid TOML: {reason[:1].lower()}{reason[1:]}{shown}. {way}", "", line)
