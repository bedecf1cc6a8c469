# SPDX-License-Identifier: Apache-2.0
"""A cooler of oil whose other side is coolant: the core that two systems share."""

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Component
from linewright.flow.behaviours.oil import TEST, demand, heat
from linewright.flow.behaviours.ways import rated
from linewright.flow.defaults import number
from linewright.flow.draft import Core, Draft
from linewright.flow.exchangers import Arrangement, Side, from_test
from linewright.tables.fluids import heat_figure

# Heat capacities of usual oil and coolant when hot [J/(kg K)], and coolant that flows through a
# cooler of oil [kg/s], 20 L/min.
_OIL_HEAT, _WATER_HEAT, _WATER_FLOW = 2150.0, 3650.0, 0.34


def water_cooled(draft: Draft, component: Component) -> None:
    """The oil side of a cooler whose other side is coolant.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "oil-in"), draft.ports(component, "oil-out")
    if not ins or not outs:
        return
    share = draft.ledger.default(component.id, "core-share").value
    numbers = rated(draft, component, "oil-cooler-drop", "oil-cooler-flow", share)
    link = draft.through(f"{component.id}:oil", ins[0], outs[0], numbers, component.id)
    draft.cores.append(water_core(draft, component, link, is_first=False))


def water_core(draft: Draft, component: Component, link: str, is_first: bool) -> Core:
    """Return one side of a cooler of oil by coolant, whose other side is in another system.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        May say ``rated-heat`` with ``rated-difference`` of its inlets.
    link : str
        The link that flows through it.
    is_first : bool
        Whether it is the side of the coolant.

    Returns
    -------
    Core
        By one test point, at usual flows of oil and coolant.
    """
    owner = draft.case.engine.id or "engine"
    heats = draft.case.engine.power.value * heat(draft, owner).value
    gives = number(component, "rated-heat") or heats
    if number(component, "rated-heat") is None:
        what = f"heat that {component.id} gives to its coolant at the rated difference"
        give = f'rated-heat = "{heats / 1e3:.0f} kW" on {component.id}'
        draft.ledger.note(component.id, Figure(heats, "W", Grade.PRACTICE, what), give)
    apart = draft.ledger.trait(component, "rated-difference", "oil-water-difference").value
    oil = Side(
        demand(draft).value * TEST[0],
        _OIL_HEAT,
        363.15 + apart,
        heat_figure("power-laminar").value,
    )
    water = Side(_WATER_FLOW, _WATER_HEAT, 363.15, heat_figure("power-turbulent").value)
    most = 0.9 * min(oil.rate, water.rate) * apart
    split = heat_figure("split-water-to-oil").value
    made = from_test(Arrangement.COUNTER, water, oil, min(gives, most), split, component.id)
    return Core(link, component.id, made, None, draft.case.air, is_first)
