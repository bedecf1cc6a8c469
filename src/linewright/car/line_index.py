# SPDX-License-Identifier: Apache-2.0
"""Where each key of a TOML text stands: the standard reader gives values without lines.

The text has been read by tomllib before, so the scanner meets valid TOML only; on anything it
does not know it steps on by one character and never raises.
"""

import re
import tomllib

Path = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)+")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_BASIC = re.compile(r'"(?:[^"\\\n]|\\.)*"')
_LITERAL = re.compile(r"'[^'\n]*'")
_LONG_BASIC = re.compile(r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''.*?'{3,5}(?!')", re.DOTALL)
_PLAIN = re.compile(r"[^,\]\}\n#]+")
_SPACE = re.compile(r"[ \t]*")


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.line = 1
        self.found: dict[Path, int] = {}
        self.counts: dict[Path, int] = {}

    def step(self, end: int) -> None:
        self.line += self.text.count("\n", self.at, end)
        self.at = end

    def skip(self, pattern: re.Pattern[str]) -> str:
        met = pattern.match(self.text, self.at)
        if met is None:
            return ""
        self.step(met.end())
        return met[0]

    def peek(self, size: int = 1) -> str:
        return self.text[self.at : self.at + size]

    def key(self) -> Path:
        """Read a dotted key up to what ends it."""
        words: list[str | int] = []
        while True:
            self.skip(_SPACE)
            raw = self.skip(_BASIC) or self.skip(_LITERAL)
            if raw:
                words.append(tomllib.loads(f"k = {raw}")["k"] if "\\" in raw else raw[1:-1])
            else:
                bare = self.skip(_BARE)
                if not bare:
                    return tuple(words)
                words.append(bare)
            self.skip(_SPACE)
            if self.peek() != ".":
                return tuple(words)
            self.step(self.at + 1)

    def note(self, path: Path, line: int) -> None:
        for size in range(1, len(path) + 1):
            self.found.setdefault(path[:size], line)

    def value(self, path: Path) -> None:
        self.skip(_BLANK)
        start = self.peek()
        if start == "{":
            self.inline(path)
        elif start == "[":
            self.array(path)
        elif start in ('"', "'"):
            patterns = (_LONG_BASIC, _BASIC) if start == '"' else (_LONG_LITERAL, _LITERAL)
            if not (self.peek(3) == start * 3 and self.skip(patterns[0])):
                self.skip(patterns[1])
        else:
            self.skip(_PLAIN)

    def inline(self, path: Path) -> None:
        self.step(self.at + 1)
        while self.at < len(self.text):
            self.skip(_BLANK)
            if self.peek() == "}":
                self.step(self.at + 1)
                return
            before = self.at
            self.pair(path)
            self.skip(_BLANK)
            if self.peek() == "," or self.at == before:
                self.step(self.at + 1)

    def array(self, path: Path) -> None:
        self.step(self.at + 1)
        item = 0
        while self.at < len(self.text):
            self.skip(_BLANK)
            if self.peek() == "]":
                self.step(self.at + 1)
                return
            before = self.at
            self.note((*path, item), self.line)
            self.value((*path, item))
            self.skip(_BLANK)
            if self.peek() == ",":
                item += 1
                self.step(self.at + 1)
            elif self.at == before:
                self.step(self.at + 1)

    def pair(self, prefix: Path) -> None:
        line = self.line
        path = prefix + self.key()
        self.note(path, line)
        if self.peek() == "=":
            self.step(self.at + 1)
            self.value(path)

    def header(self) -> Path:
        line = self.line
        is_array = self.peek(2) == "[["
        self.step(self.at + (2 if is_array else 1))
        path: Path = ()
        words = self.key()
        for depth, word in enumerate(words, 1):
            path = (*path, word)
            if is_array and depth == len(words):
                self.counts[path] = self.counts.get(path, -1) + 1
            if path in self.counts:
                path = (*path, self.counts[path])
        self.note(path, line)
        self.step(self.at + (2 if is_array else 1))
        return path

    def scan(self) -> dict[Path, int]:
        prefix: Path = ()
        while True:
            self.skip(_BLANK)
            if self.at >= len(self.text):
                return self.found
            before = self.at
            if self.peek() == "[":
                prefix = self.header()
            else:
                self.pair(prefix)
            if self.at == before:
                self.step(self.at + 1)


def line_index(text: str) -> dict[Path, int]:
    """Return the line on which each key first stands.

    Parameters
    ----------
    text : str
        Valid TOML.

    Returns
    -------
    dict
        Path of keys (and positions in arrays, from 0) to line number, from 1.

    Examples
    --------
    >>> line_index("[a]\\nb = [1, {c = 2}]\\n")[("a", "b", 1, "c")]
    2
    """
    return _Scanner(text).scan()


def shown_key(path: Path) -> str:
    """Show a path as the builder would type it.

    Parameters
    ----------
    path : tuple
        Keys, and positions in arrays.

    Returns
    -------
    str
        Dotted keys, quoted where TOML needs it; the second of an array is ``#2``.

    Examples
    --------
    >>> shown_key(("ports", "FH.in-L", "end")), shown_key(("lines", "L1", "ends", 1, "angle"))
    ('ports."FH.in-L".end', 'lines.L1.ends #2.angle')
    """
    shown = ""
    for word in path:
        if isinstance(word, int):
            shown += f" #{word + 1}"
            continue
        word = word if _BARE.fullmatch(word) else '"' + word.replace('"', '\\"') + '"'
        shown += f".{word}" if shown else word
    return " ".join(shown.split())
