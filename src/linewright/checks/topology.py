# SPDX-License-Identifier: Apache-2.0
"""What stands before and after what: the flow through lines and components.

A line carries flow from its end A to its end B. Inside a component fluid goes from each
inlet to each outlet; through a thing with only two ports, or with ports of no role (a
bulkhead, a tee), it goes from any to any other. A tank is where a walk ends.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from linewright.car.kinds import KINDS
from linewright.car.model import Car, Component, Line, Medium, Port, Role

#: Where a walk ends: fluid that comes to rest there has left its way behind.
STORES = frozenset(
    {
        "fuel cell",
        "in-tank fuel pump",
        "dry-sump tank",
        "header tank",
        "charge-coolant reservoir",
        "sump",
        "catch can",
    }
)

_OUTLETS = (Role.OUT, Role.VENT, Role.DRAIN)
_FLOWING = (*_OUTLETS, Role.IN, Role.RETURN, None)


@dataclass(frozen=True, slots=True)
class Reach:
    """What a walk meets, in the order it meets it; lines with their ids."""

    components: tuple[Component, ...]
    ports: tuple[str, ...]
    lines: tuple[Line, ...]

    def has(self, kinds: Iterable[str]) -> bool:
        """Whether a component of one of these kinds was met."""
        wanted = set(kinds)
        return any(component.kind in wanted for component in self.components)

    def has_fit(self, words: Iterable[str]) -> bool:
        """Whether an end of a line that was met carries one of these fittings."""
        wanted = tuple(words)
        return any(
            fit.startswith(word)
            for line in self.lines
            for end in line.ends
            for fit in (*end.fit, *end.via)
            for word in wanted
        )


@dataclass(frozen=True)
class Topology:
    """The car as a graph of ports."""

    car: Car

    @cached_property
    def lines_at(self) -> Mapping[str, tuple[Line, ...]]:
        """Lines that end at a port, by its id."""
        found: dict[str, list[Line]] = {}
        for line in self.car.lines.values():
            found.setdefault(line.from_port, []).append(line)
            if line.to_port != line.from_port:
                found.setdefault(line.to_port, []).append(line)
        return {port: tuple(lines) for port, lines in found.items()}

    @cached_property
    def screwed(self) -> Mapping[str, str]:
        """Pairs of ports screwed together without a hose, both ways round."""
        pairs: dict[str, str] = {}
        for component in self.car.components.values():
            if component.on is None:
                continue
            mount = component.mount or next(iter(component.ports), "mount")
            pairs[f"{component.id}.{mount}"] = component.on
            pairs.setdefault(component.on, f"{component.id}.{mount}")
        return pairs

    def is_connected(self, port: str) -> bool:
        """Whether a line or another component is on a port."""
        return port in self.lines_at or port in self.screwed

    def before(self, port: str) -> Reach:
        """What the fluid that comes to a port has passed.

        Parameters
        ----------
        port : str
            Id of the port.

        Returns
        -------
        Reach
            Everything up to the nearest tanks, those with it.
        """
        return self._walk(port, is_down=False)

    def after(self, port: str) -> Reach:
        """What the fluid that leaves a port comes to.

        Parameters
        ----------
        port : str
            Id of the port.

        Returns
        -------
        Reach
            Everything down to the nearest tanks, those with it.
        """
        return self._walk(port, is_down=True)

    def _walk(self, start: str, *, is_down: bool) -> Reach:
        seen: dict[str, None] = {start: None}  # in the order met: no set has one
        lines: dict[str, Line] = {}
        owner = self.car.components[start.partition(".")[0]]
        components: dict[str, Component] = {}
        queue = [start]
        while queue:
            here = queue.pop(0)
            for there, line in self._across(here, is_down=is_down):
                if line is not None:
                    lines[line.id] = line
                if there in seen:
                    continue
                seen[there] = None
                component = self.car.components.get(there.partition(".")[0])
                if component is None or component is owner:
                    continue
                components[component.id] = component
                for inner in self._through(component, there, is_down=is_down):
                    if inner not in seen:
                        seen[inner] = None
                        queue.append(inner)
        ports = tuple(port for port in seen if port != start)
        return Reach(tuple(components.values()), ports, tuple(lines.values()))

    def _across(self, port: str, *, is_down: bool) -> Iterable[tuple[str, Line | None]]:
        for line in self.lines_at.get(port, ()):
            near, far = (
                (line.from_port, line.to_port) if is_down else (line.to_port, line.from_port)
            )
            if near == port:
                yield far, line
        if port in self.screwed:
            yield self.screwed[port], None

    def _through(self, component: Component, port: str, *, is_down: bool) -> Iterable[str]:
        """Ports by which a walk leaves a component that it entered at `port`."""
        if component.kind in STORES:
            return ()
        if component.kind == "surge pot":
            # What is in the pot came by the lift pump; the rail's return only goes round.
            return () if is_down else (f"{component.id}.lift-in",)
        entered = component.ports.get(port.partition(".")[2])
        others = [
            other
            for other in component.ports.values()
            if other.id != port
            and other.role in _FLOWING
            and (entered is None or _is_same_fluid(entered, other))
        ]
        if len(others) == 1:
            return (others[0].id,)
        roles = [other.role for other in others]
        if component.on is not None or None in roles or entered is None or entered.role is None:
            return tuple(other.id for other in others)
        return tuple(other.id for other in others if (other.role in _OUTLETS) is is_down)

    # Which fluid ------------------------------------------------------------------

    @cached_property
    def systems_of(self) -> Mapping[str, tuple[str, ...]]:
        """Systems that each component has a part in, by its id."""
        found: dict[str, dict[str, None]] = {}
        for component in self.car.components.values():
            mine = found.setdefault(component.id, {})
            if component.system:
                mine[component.system] = None
            for port in component.ports.values():
                for line in self.lines_at.get(port.id, ()):
                    if line.system:
                        mine[line.system] = None
        for _ in self.car.components:  # what is screwed on shares the fluid of its carrier
            for component in self.car.components.values():
                if component.on and not found[component.id]:
                    system = self.system_of(component.on) or next(
                        iter(found.get(component.on.partition(".")[0], {})), None
                    )
                    if system:
                        found[component.id][system] = None
        only = next(iter(self.car.systems)) if len(self.car.systems) == 1 else None
        for mine in found.values():
            if not mine and only:
                mine[only] = None
        return {name: tuple(mine) for name, mine in found.items()}

    def system_of(self, port_id: str) -> str | None:
        """Return the system whose fluid a port meets.

        Parameters
        ----------
        port_id : str
            Id of the port.

        Returns
        -------
        str or None
            That of its line, else of its component or its medium; None if that is open.
        """
        for line in self.lines_at.get(port_id, ()):
            if line.system:
                return line.system
        port = self.car.port(port_id)
        component = self.car.components.get(port_id.partition(".")[0])
        own = component.system if component else None
        if own and (port is None or port.medium in (None, self._medium(own))):
            return own
        if port is not None and port.medium is not None:
            for system in self.car.systems.values():
                if system.medium is port.medium:
                    return system.id
        if own is None and len(self.car.systems) == 1:
            return next(iter(self.car.systems))
        return own

    def _medium(self, system: str) -> Medium | None:
        found = self.car.systems.get(system)
        return found.medium if found else None

    def medium_of(self, port_id: str) -> Medium | None:
        """Return the class of fluid at a port, as far as it is known."""
        system = self.system_of(port_id)
        return self._medium(system) if system else None

    def of_kind(self, *kinds: str) -> tuple[Component, ...]:
        """Return the components of some kinds, in the order of the document."""
        return tuple(c for c in self.car.components.values() if c.kind in kinds)


def _is_same_fluid(a: Port, b: Port) -> bool:
    return a.medium is None or b.medium is None or a.medium is b.medium


def kind_role(component: Component, port: str) -> Role | None:
    """Return the role of a port by the document, else by the component's kind.

    Parameters
    ----------
    component : Component
        Its owner.
    port : str
        Its name.

    Returns
    -------
    Role or None
        None where neither says.
    """
    typed = component.ports.get(port)
    if typed is not None and typed.role is not None:
        return typed.role
    kind = KINDS.get(component.kind)
    like = kind.port(port) if kind else None
    return like.role if like else None
