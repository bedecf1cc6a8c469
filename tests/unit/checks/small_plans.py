# SPDX-License-Identifier: Apache-2.0
"""Small cars, typed and planned: enough to raise one finding each."""

from linewright.base.finding import Finding
from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan

START = 'linewright = 1\n[car]\nname = "Small"\n'
OIL = '[systems.oil]\nfluid = "15W-50"\nhose = "rubber braided"\nsize = "-10"\n'
FUEL = '[systems.fuel]\nfluid = "E85"\nhose = "PTFE full-bore conductive"\nsize = "-6"\n'
COOLANT = '[systems.coolant]\nfluid = "50 % glycol"\nhose = "silicone"\nsize = "38 mm"\n'
AIR = (
    '[systems.air]\nmedium = "charge air"\nfluid = "air"\nhose = "silicone lined"\nsize = "51 mm"\n'
)


def plan(*pieces: str) -> Plan:
    """Plan a car from pieces of its document."""
    return make(read_text(START + "\n".join(pieces)))


def thing(name: str, kind: str, ports: dict[str, str] | None = None, *more: str) -> str:
    """A component with the ends of its ports, and more lines of its table."""
    lines = [f"[components.{name}]", f'kind = "{kind}"', *more]
    if ports:
        lines.append(f"[components.{name}.ports]")
        for port, end in ports.items():
            value = end if end.startswith("{") else f'{{ end = "{end}", known = "read" }}'
            lines.append(f"{port} = {value}")
    return "\n".join(lines) + "\n"


def line(name: str, start: str, finish: str, *more: str) -> str:
    """A line with straight ends, and more keys."""
    keys = [f'from = "{start}"', f'to = "{finish}"', 'string = "500 mm"', *more]
    if not any(key.startswith("ends") for key in keys):
        keys.append('ends = ["straight", "straight"]')
    return f"[lines.{name}]\n" + "\n".join(keys) + "\n"


def clamped(name: str, start: str, finish: str, *more: str) -> str:
    """A line of clamped hose, which has no hose ends."""
    keys = [f'from = "{start}"', f'to = "{finish}"', *more]
    if not any(key.startswith("string") for key in keys):
        keys.append('string = "300 mm"')
    return f"[lines.{name}]\n" + "\n".join(keys) + "\n"


def closed(**answers: str) -> str:
    """Answers under [closed]; ``A__in`` stands for ``A.in``, ``_`` for a hyphen after it."""
    rows = [f'"{key.replace("__", ".")}" = "{how}"' for key, how in answers.items()]
    return "[closed]\n" + "\n".join(rows) + "\n"


def found(of: Plan, code: str) -> tuple[Finding, ...]:
    """The findings of one code."""
    return tuple(f for f in of.findings if f.code == code)


def about(of: Plan, code: str) -> list[tuple[str, ...]]:
    """What the findings of one code are about."""
    return [f.about for f in found(of, code)]
