# SPDX-License-Identifier: Apache-2.0
"""Kinds of components: the ports, materials and functions that each brings along.

The facts stand in ``tables/data/kinds.toml``; all are common practice, so a port that only
its kind speaks of is a guess until the builder has looked.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from linewright.base.codes import RULES
from linewright.base.errors import LinewrightError, TableError
from linewright.base.finding import Severity
from linewright.car.model import Medium, Role


class UnknownKindError(LinewrightError, LookupError):
    """There is no such kind; the text says which is meant, perhaps."""


@dataclass(frozen=True, slots=True)
class KindPort:
    """A port that a kind brings along.

    ``end`` is written as a builder would type it; ``{size}`` in it stands for the
    component's own ``size``, and "" means not known. ``points`` are direction words.
    An ``optional`` port exists only if the document mentions it; the others are there on
    every such component, so each is connected, closed, or open.
    """

    name: str
    role: Role | None = None
    medium: Medium | None = None  # None: the medium of the component's own system
    end: str = ""
    points: str = ""
    optional: bool = True


@dataclass(frozen=True, slots=True)
class Function:
    """Something that a kind must have answered before the system is complete.

    It is answered by one of ``ports`` (connected or closed), by a component of one of
    ``kinds`` standing ``where`` (``on`` a port, ``before``, ``after`` it in the flow, or
    anywhere in the ``system``), by one of ``fits`` at a line's end, by one of ``traits``,
    or by ``[closed]``. It is asked only when the trait or the kind named in ``when`` is in the
    car, and only if the car has a system of ``medium``.
    """

    name: str
    words: str
    ports: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    where: str = "system"
    fits: tuple[str, ...] = ()
    traits: tuple[str, ...] = ()
    when: str = ""
    medium: Medium | None = None
    code: str = "missing-function"
    severity: Severity = Severity.ASK
    remedy: str = ""


@dataclass(frozen=True, slots=True)
class Kind:
    """What a component of this kind is like before anybody has measured it.

    ``medium`` is None for what serves any fluid, ``material`` "" where makers differ.
    ``traits`` maps what may be said of it to how it is read: ``flag``, ``word``,
    ``number``, the word of a quantity in `base.units.READERS`, or ``a|b|c`` for a choice.
    ``buy`` is the catalogue's shape, where the thing itself is a generic part.
    """

    name: str
    aliases: tuple[str, ...] = ()
    medium: Medium | None = None
    rides: str = "chassis"
    material: str = ""
    ports: tuple[KindPort, ...] = ()
    functions: tuple[Function, ...] = ()
    traits: Mapping[str, str] = field(default_factory=dict)
    buy: str | None = None

    def port(self, name: str) -> KindPort | None:
        """Return what this kind says of a port by its name.

        Parameters
        ----------
        name : str
            As in the document; ``bleed-front`` and ``bleed-2`` are read as ``bleed``.

        Returns
        -------
        KindPort or None
            The port of that name, or of the longest name that it starts with.

        Examples
        --------
        >>> kind("radiator").port("bleed-front").role
        <Role.VENT: 'vent'>
        """
        words = name.split("-")
        for count in range(len(words), 0, -1):
            start = "-".join(words[:count])
            for each in self.ports:
                if each.name == start:
                    return each
        return None

    def function(self, name: str) -> Function | None:
        """Return one of its functions.

        Parameters
        ----------
        name : str
            As in ``[closed]``.

        Returns
        -------
        Function or None
            The function of that name.
        """
        return next((f for f in self.functions if f.name == name), None)

    def knows(self, name: str) -> bool:
        """Whether ``[closed]`` may speak of this name: a port or a function.

        Parameters
        ----------
        name : str
            The part of the key after the component's id.

        Returns
        -------
        bool
            True for ports that it brings, also by their first words, and for functions.
        """
        return self.port(name) is not None or self.function(name) is not None


def _medium(text: str) -> Medium | None:
    return Medium(text) if text else None


def _port(name: str, row: Mapping[str, Any]) -> KindPort:
    return KindPort(
        name,
        Role(row["role"]) if row.get("role") else None,
        _medium(row.get("medium", "")),
        row.get("end", ""),
        row.get("points", ""),
        not row.get("always", False),
    )


def _function(name: str, row: Mapping[str, Any]) -> Function:
    code = row.get("code", "missing-function")
    if code not in RULES:
        raise TableError(f"kinds.toml: function {name} has the code {code}, which is no code.")
    return Function(
        name,
        row["words"],
        tuple(row.get("ports", ())),
        tuple(row.get("kinds", ())),
        row.get("where", "system"),
        tuple(row.get("fits", ())),
        tuple(row.get("traits", ())),
        row.get("when", ""),
        _medium(row.get("medium", "")),
        code,
        Severity(row["severity"]) if "severity" in row else RULES[code],
        row.get("remedy", ""),
    )


def _kind(row: Mapping[str, Any]) -> Kind:
    return Kind(
        row["name"],
        tuple(row.get("aliases", ())),
        _medium(row.get("medium", "")),
        row.get("rides", "chassis"),
        row.get("material", ""),
        tuple(_port(name, port) for name, port in row.get("ports", {}).items()),
        tuple(_function(name, f) for name, f in row.get("functions", {}).items()),
        MappingProxyType(dict(row.get("traits", {}))),
        row.get("buy"),
    )


@lru_cache
def _load() -> Mapping[str, Kind]:
    text = files("linewright.tables").joinpath("data", "kinds.toml").read_text("utf-8")
    found = [_kind(row) for row in tomllib.loads(text)["kinds"]]
    return MappingProxyType({kind.name: kind for kind in found})


#: Every kind by its name.
KINDS: Mapping[str, Kind] = _load()


def _plain(text: str) -> str:
    return " ".join(text.casefold().replace("-", " ").replace("_", " ").split())


@lru_cache
def _names() -> Mapping[str, Kind]:
    names: dict[str, Kind] = {}
    for each in KINDS.values():
        for name in (each.name, *each.aliases):
            if names.setdefault(_plain(name), each) is not each:
                raise TableError(f'kinds.toml: "{name}" names two kinds.')
    return names


def kind(name: str) -> Kind:
    """Return a kind by its name or one of its aliases.

    Parameters
    ----------
    name : str
        As typed; case, hyphens and blanks do not matter.

    Returns
    -------
    Kind
        What such a component brings along.

    Raises
    ------
    UnknownKindError
        If there is no such kind; the text names the nearest ones and the way out.

    Examples
    --------
    >>> kind("Dry sump tank").name
    'dry-sump tank'
    """
    found = _names().get(_plain(name))
    if found is not None:
        return found
    words = set(_plain(name).split())
    # "oil filter" is a head, a canister or one in the line: all that are called so are offered.
    near = [
        each.name
        for each in KINDS.values()
        if len(words) > 1
        and any(words <= set(_plain(w).split()) for w in (each.name, *each.aliases))
    ] or [_names()[word].name for word in get_close_matches(_plain(name), _names(), 2, 0.6)]
    meant = " or ".join(f'"{word}"' for word in dict.fromkeys(near[:4]))
    way = f"Did you mean {meant}?" if meant else 'Use "component" and name its ports yourself.'
    raise UnknownKindError(f'"{name}" is no kind of component. {way}')
