# SPDX-License-Identifier: Apache-2.0
"""Small cars, typed as a builder would, and what the joints stage makes of them."""

from linewright.base.finding import Finding
from linewright.car.model import Car
from linewright.car.read import read_text
from linewright.joints.model import Chain, Joints, Termination
from linewright.joints.termination import offer

HEAD = """
linewright = 1
[car]
name = "small"
[panels.firewall]
thickness = "1.5 mm"
[panels.floor]
thickness = "1.5 mm"
"""
OIL = '[systems.oil]\nfluid = "15W-50"\nhose = "rubber braided"\n'
FUEL = '[systems.fuel]\nfluid = "E85"\nhose = "PTFE full-bore conductive"\n'
COOLANT = '[systems.coolant]\nfluid = "50 % glycol"\nhose = "silicone"\n'
AIR = '[systems.charge-air]\nfluid = "air"\nhose = "pipe"\n'
STRAIGHT = '["straight", "straight"]'


def thing(name: str, ports: dict[str, str], extra: str = "", kind: str = "component") -> str:
    """One component; each port is its end, or a whole inline table."""
    rows = "".join(
        f"{port} = {text}\n"
        if text.startswith("{")
        else f'{port} = {{ end = "{text}", known = "read" }}\n'
        for port, text in ports.items()
    )
    return f'[components.{name}]\nkind = "{kind}"\n{extra}\n[components.{name}.ports]\n{rows}'


def line(name: str, start: str, finish: str, size: str, ends: str = "", extra: str = "") -> str:
    """One line; `ends` is the list in TOML."""
    typed = f"ends = {ends}\n" if ends else ""
    return f'[lines.{name}]\nfrom = "{start}"\nto = "{finish}"\nsize = "{size}"\n{typed}{extra}\n'


def car(*texts: str) -> Car:
    """Read a car."""
    return read_text(HEAD + "".join(texts))


def plan(*texts: str) -> Joints:
    """Read a car and offer its joints."""
    return offer(car(*texts))


def two_ports(
    near: str,
    far: str,
    size: str,
    ends: str = STRAIGHT,
    *,
    system: str = OIL,
    extra: str = "",
    near_extra: str = "",
) -> Joints:
    """One line between a port on A and a port on B."""
    return plan(
        system,
        thing("A", {"out": near}, near_extra),
        thing("B", {"in": far}),
        line("O01", "A.out", "B.in", size, ends, extra),
    )


def end(joints: Joints, name: str) -> Termination:
    """The termination at one end of one piece, as in ``O01.A``."""
    hose, _, side = name.rpartition(".")
    return next(t for t in joints.terminations if (t.hose, t.side) == (hose, side))


def chain(joints: Joints, name: str) -> Chain:
    """The chain chosen there."""
    found = end(joints, name).chain
    assert found is not None, name
    return found


def ends_of(found: Chain) -> list[str]:
    """The ends of each part, in the part's own order."""
    return [" > ".join(str(e) for e in part.ends) for part in found.parts]


def finding(joints: Joints, code: str) -> Finding:
    """The one finding with a code."""
    (found,) = (f for f in joints.findings if f.code == code)
    return found


def codes(joints: Joints) -> list[str]:
    """Codes of all findings, sorted."""
    return sorted(f.code for f in joints.findings)
