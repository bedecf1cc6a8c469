# SPDX-License-Identifier: Apache-2.0
"""Flow in the example cars, as typed and with a line or two typed otherwise."""

from functools import cache
from pathlib import Path

from linewright.base.finding import Finding
from linewright.car.model import Car
from linewright.car.read import read_text
from linewright.flow.model import Flows, Margin
from linewright.flow.run import run
from linewright.joints.model import Joints
from linewright.joints.termination import offer
from linewright.routes.lengths import lay
from linewright.routes.model import Routes

EXAMPLES = Path(__file__).parents[1] / "examples"
Change = tuple[str, str]

#: System B needs its engine: 260 kW, boosted.
ENGINE = (
    'FC  = { kind = "fuel cell", bonded = true }',
    'FC  = { kind = "fuel cell", bonded = true }\n'
    'ENG = { kind = "engine", power = "260 kW", boosted = true }',
)
FULL = ("[closed]", '[conditions.full-power]\nboost = "1.2 bar"\n\n[closed]')
PUMP = ('FP  = { kind = "fuel pump" }', 'FP  = { kind = "fuel pump", flow = "340 L/h" }')


@cache
def laid(name: str, *changes: Change) -> tuple[Car, Joints, Routes]:
    """An example with changes of its text, with lengths by string and straight distance."""
    text = (EXAMPLES / name / "car.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, (text.count(old), old)
        text = text.replace(old, new)
    car = read_text(text)
    joints = offer(car)
    return car, joints, lay(car, joints)


@cache
def flows(name: str, *changes: Change) -> Flows:
    """Flow in an example with changes of its text."""
    return run(*laid(name, *changes))


def system_b(*changes: Change) -> Flows:
    """Flow in system B at 1.2 bar of boost with a pump of 340 L/h at 3 bar."""
    has_pump = any(old == PUMP[0] for old, _ in changes)
    return flows("e85-boot", ENGINE, FULL, *(() if has_pump else (PUMP,)), *changes)


def margin(found: Flows, system: str, condition: str, what: str) -> Margin:
    """One margin of one system in one condition."""
    state = found.state(system, condition)
    assert state is not None
    return next(m for m in state.margins if m.what == what)


def finding(found: Flows, code: str, *about: str) -> Finding:
    """The finding of a code, about these ids where they are given."""
    return next(
        f for f in found.findings if f.code == code and (not about or set(f.about) == set(about))
    )
