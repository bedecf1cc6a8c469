# SPDX-License-Identifier: Apache-2.0
"""Which behaviour each kind of component has in a system of each fluid."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from linewright.car.model import Component, Medium
from linewright.flow.behaviours import air, coolant, fuel, oil, oil_water
from linewright.flow.behaviours.ways import check_valve, restrictor, small_part
from linewright.flow.draft import Draft

Behaviour = Callable[[Draft, Component], None]

_COOLANT: dict[str, Behaviour] = {
    "engine": coolant.engine,
    "water pump": coolant.pump,
    "electric water pump": coolant.pump,
    "charge-coolant pump": coolant.pump,
    "radiator": coolant.radiator,
    "coolant thermostat housing": coolant.housing,
    "heater": coolant.heater,
    "turbo": coolant.turbo,
    "header tank": coolant.header,
    "charge-coolant reservoir": coolant.reservoir,
    "charge-coolant exchanger": coolant.exchanger,
    "oil-water exchanger": coolant.oil_cooler,
    "charge cooler": coolant.charge_cooler,
}

_ALL: Mapping[Medium, Mapping[str, Behaviour]] = MappingProxyType(
    {
        Medium.OIL: {
            "engine": oil.engine,
            "sump": oil.sump,
            "dry-sump tank": oil.dry_tank,
            "dry-sump pump": oil.pump,
            "scavenge screen": oil.screen,
            "remote filter head": oil.head,
            "inline oil filter": oil.inline_filter,
            "oil cooler": oil.cooler,
            "oil-water exchanger": oil_water.water_cooled,
            "oil thermostat": oil.thermostat,
            "turbo": oil.turbo,
        },
        Medium.COOLANT: _COOLANT,
        Medium.CHARGE_COOLANT: _COOLANT,
        Medium.FUEL: {
            "fuel cell": fuel.cell,
            "surge pot": fuel.pot,
            "fuel pump": fuel.pump,
            "in-tank fuel pump": fuel.pump,
            "mechanical fuel pump": fuel.mechanical,
            "lift pump": fuel.lift,
            "fuel strainer": fuel.filter_of,
            "fuel filter": fuel.filter_of,
            "fuel rail": fuel.rail,
            "carburettor": fuel.carburettor,
            "fuel regulator": fuel.regulator,
            "carburettor regulator": fuel.reducing,
        },
        Medium.AIR: {
            "air filter": air.source,
            "airbox": air.source,
            "turbo": air.compressor,
            "compressor": air.compressor,
            "charge cooler": air.charge_cooler,
            "intercooler": air.intercooler,
            "charge pipe": air.pipe,
            "throttle body": air.end,
            "inlet manifold": air.end,
        },
    }
)

#: Kinds that are the same in any fluid.
_ANY: Mapping[str, Behaviour] = MappingProxyType(
    {"check valve": check_valve, "restrictor": restrictor}
)
#: Kinds that another component speaks for, or that stand at the end of no flow.
_SILENT = frozenset(
    (
        "filter take-off plate",
        "filter canister",
        "pressure sensor",
        "temperature sensor",
        "gauge",
        "catch can",
        "oil-air separator",
        "roll-over valve",
        "blow-off valve",
        "wastegate",
        "boost solenoid",
        "drain plug valve",
    )
)


def behave(draft: Draft, component: Component) -> None:
    """Let a component draw itself into a network.

    Parameters
    ----------
    draft : Draft
        The network.
    component : Component
        One with live ports; a kind of no behaviour of its own passes what comes.
    """
    if component.kind in _SILENT:
        return
    _ALL[draft.medium].get(component.kind, _ANY.get(component.kind, small_part))(draft, component)
