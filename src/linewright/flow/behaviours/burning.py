# SPDX-License-Identifier: Apache-2.0
"""What the engine burns in a condition: fuel and air."""

from linewright.base.evidence import Figure
from linewright.car.model import Car, Medium
from linewright.flow.case import Case
from linewright.flow.defaults import Ledger
from linewright.flow.demand import air_flow, consumption, fuel_flow
from linewright.flow.named_fluids import named_fluid

# Mass of air that burns a mass of fuel exactly. E85 lies between ethanol and petrol by mass.
_EXACT = {"petrol": 14.7, "E85": 9.8, "ethanol": 9.0, "methanol": 6.45}


def fuel_name(car: Car) -> str:
    """Return what the car burns: petrol, E85, ethanol or methanol.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    str
        Petrol where it has no fuel system.
    """
    system = next((s for s in car.systems.values() if s.medium is Medium.FUEL), None)
    if system is None:
        return "petrol"
    named = named_fluid("fuel", system.fluid).name
    for name in ("methanol", "E85", "ethanol"):
        if named.startswith(name):
            return name
    return "petrol"


def full_fuel(car: Car, case: Case, ledger: Ledger) -> Figure:
    """Return the fuel at full power [kg/s], with its range.

    Parameters
    ----------
    car : Car
        The car document as read.
    case : Case
        Whose engine.
    ledger : Ledger
        Takes a note of the consumption.

    Returns
    -------
    Figure
        Mass flow.
    """
    name = fuel_name(car)
    breathing = "boosted" if case.engine.is_boosted else "natural"
    specific = consumption("E85" if name == "ethanol" else name, breathing)
    give = "a measured fuel consumption, or the flow of the injectors and their duty"
    ledger.note(case.engine.id or "engine", specific, give)
    low, value, high = (
        fuel_flow(case.engine.power.value, s or specific.value)
        for s in (specific.low, specific.value, specific.high)
    )
    return Figure(value, "kg/s", specific.grade, f"{name} at full power", low, high)


def fuel_now(car: Car, case: Case, ledger: Ledger) -> Figure:
    """Return the fuel that is burnt in a condition [kg/s].

    Parameters
    ----------
    car : Car
        The car document as read.
    case : Case
        The condition.
    ledger : Ledger
        Takes a note of what stands in.

    Returns
    -------
    Figure
        None at rest.
    """
    full = full_fuel(car, case, ledger)
    if not case.is_firing:
        return Figure(0.0, "kg/s", full.grade, "engine at rest or cranked")
    share = max(case.load, ledger.default("engine", "idle-fuel").value)
    low, high = (share * (v or full.value) for v in (full.low, full.high))
    return Figure(share * full.value, "kg/s", full.grade, "fuel that is burnt", low, high)


def air_now(car: Car, case: Case, ledger: Ledger) -> Figure:
    """Return the air that is burnt in a condition [kg/s].

    Parameters
    ----------
    car : Car
        The car document as read.
    case : Case
        The condition.
    ledger : Ledger
        Takes a note of what stands in.

    Returns
    -------
    Figure
        Of the fuel and its mixture.
    """
    fuel = fuel_now(car, case, ledger)
    rich = ledger.default("engine", "rich").value if case.load > 0.5 else 1.0
    ratio = _EXACT[fuel_name(car)] * rich
    low, high = (air_flow(v or fuel.value, ratio) for v in (fuel.low, fuel.high))
    return Figure(air_flow(fuel.value, ratio), "kg/s", fuel.grade, "air that is burnt", low, high)


def full_air(car: Car, case: Case, ledger: Ledger) -> float:
    """Return the air at full power. [kg/s]

    Parameters
    ----------
    car : Car
        The car document as read.
    case : Case
        Whose engine.
    ledger : Ledger
        Takes a note of what stands in.

    Returns
    -------
    float
        Mass flow. [kg/s]
    """
    rich = ledger.default("engine", "rich").value
    return air_flow(full_fuel(car, case, ledger).value, _EXACT[fuel_name(car)] * rich)
