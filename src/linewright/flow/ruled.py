# SPDX-License-Identifier: Apache-2.0
"""How each margin is told: its code, its name, its values, what it leads to, what helps."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from linewright.base.dimensions import ZERO_CELSIUS


@dataclass(frozen=True, slots=True)
class Ruled:
    """How a margin is told: code, name, how a value reads, what it leads to, the way out."""

    code: str
    name: str
    shown: Callable[[float], str]
    leads: str
    remedy: str


def _absolute(value: float) -> str:
    return f"{max(0.0, value) / 1e5:.2f} bar absolute"


def _bar(value: float) -> str:
    return f"{value / 1e5:.2f} bar"


def _kilo(value: float) -> str:
    return f"{value / 1e3:.0f} kPa"


def _degrees(value: float) -> str:
    return f"{value - ZERO_CELSIUS:.0f} °C"


def _kelvin(value: float) -> str:
    return f"{value:.0f} K"


def _litres(value: float) -> str:
    return f"{value * 1e3:.2f} L"


def _per_minute(value: float) -> str:
    return f"{value * 6e4:.1f} L/min"


def _plain(value: float) -> str:
    return f"{value:.2f}"


def _speed(value: float) -> str:
    return f"{value:.1f} m/s"


def _seconds(value: float) -> str:
    return f"{value:.1f} s"


BY_WHAT: Mapping[str, Ruled] = MappingProxyType(
    {
        "pump inlet": Ruled(
            "pump-starves",
            "pump inlet",
            _absolute,
            "below it the pump is likely to draw air",
            "Lift the tank or bring it nearer, and take straighter ends.",
        ),
        "gallery pressure": Ruled(
            "oil-pressure-low",
            "oil pressure in the gallery",
            _bar,
            "below it bearings may run dry",
            "Set the relief valve higher, take a larger pressure stage, or cut what filter, cooler "
            "and ends lose.",
        ),
        "oil temperature": Ruled(
            "runs-hot",
            "oil",
            _degrees,
            "above it the oil is hotter than the system is made for",
            "Take a larger cooler, or give it more air.",
        ),
        "coolant temperature": Ruled(
            "runs-hot",
            "hottest coolant",
            _degrees,
            "above it the system is hotter than it is made for",
            "Give more flow, a larger core, or more air through it.",
        ),
        "scavenge over pressure flow": Ruled(
            "scavenge-small",
            "scavenge over pressure flow",
            _plain,
            "below it oil stays in the sump",
            "Take larger scavenge stages, or one more.",
        ),
        "oil in the tank": Ruled(
            "tank-dwell",
            "oil stays in the tank for",
            _seconds,
            "below it air stays in the oil",
            "Take a larger tank, or one that swirls the oil.",
        ),
        "turbo feed pressure": Ruled(
            "turbo-feed-high",
            "oil pressure at the turbo",
            _bar,
            "above it oil is pushed past its seals",
            "Fit a jet or a regulator in its feed.",
        ),
        "drain capacity": Ruled(
            "drain-overfull",
            "drain, half full at its flattest place,",
            _per_minute,
            "below it, three times the clear oil, froth backs up into the turbo",
            "Let it fall more steeply, or take a larger drain.",
        ),
        "boiling margin": Ruled(
            "boils",
            "margin to boiling",
            _kelvin,
            "below it the coolant may boil where it is hottest",
            "Give more flow or a larger core, or a cap of higher pressure.",
        ),
        "air in the header tank": Ruled(
            "expansion-small",
            "air in the header tank when cold",
            _litres,
            "below it, twice what the coolant grows by, the cap lets coolant go",
            "Fill it less, or take a larger header tank.",
        ),
        "header feed": Ruled(
            "header-far",
            "pressure where the header's feed meets the loop over that at the pump's inlet",
            _kilo,
            "above it the pump draws its inlet below the header, and air with it",
            "Lead the feed to the loop close to the inlet of the pump.",
        ),
        "inlet over vapour": Ruled(
            "fuel-vapour",
            "pressure at the fuel pump's inlet over that of the vapour",
            _kilo,
            "below it the fuel may boil in the suction line",
            "Cut what the strainer and its ends lose, lower the pump, or keep the fuel cooler.",
        ),
        "rail pressure": Ruled(
            "rail-low",
            "rail pressure over the manifold",
            _bar,
            "below it the engine runs lean",
            "Take a larger pump or a second one, or thicker wires to it.",
        ),
        "carburettor pressure": Ruled(
            "carburettor-floods",
            "fuel pressure at the carburettor",
            _bar,
            "above it the needle of a float chamber does not hold, and fuel runs over",
            "Take a pump made for carburettors, or fit a regulator before them (a carburettor "
            "regulator, or a fuel regulator with a return).",
        ),
        "carburettor feed": Ruled(
            "rail-low",
            "fuel pressure at the carburettor",
            _bar,
            "below it the float chamber runs low",
            "Take a larger pump or a larger feed, or raise the setting of its regulator.",
        ),
        "return pressure": Ruled(
            "return-pressure",
            "pressure behind the regulator",
            _kilo,
            "above it the regulator cannot hold its setting",
            "Take full-bore hose of the same dash where it has tube bore, or a pump that sends "
            "less back at idle.",
        ),
        "overflow of the pot": Ruled(
            "pot-empties",
            "overflow of the surge pot",
            _per_minute,
            "below it the pot empties",
            "Take a larger lift pump.",
        ),
        "charge pressure loss": Ruled(
            "charge-loss",
            "loss of pressure from compressor to throttle",
            _kilo,
            "above it the compressor works much harder for the same boost",
            "Take wider elbows, larger pipes, or a larger cooler.",
        ),
    }
)

#: Margins that have a finding of their own.
RULED = tuple(BY_WHAT)


def shown(what: str, value: float) -> str:
    """Return a value of a margin as it is told.

    Parameters
    ----------
    what : str
        Name of the margin.
    value : float
        In its unit. [SI]

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> shown("pump inlet", 62e3)
    '0.62 bar absolute'
    """
    return BY_WHAT[what].shown(value)


def words_of(what: str) -> tuple[str, Callable[[float], str]]:
    """Return how a margin is called, and how its values are told.

    Parameters
    ----------
    what : str
        Name of the margin.

    Returns
    -------
    tuple of (str, callable)
        As "pump inlet".

    Examples
    --------
    >>> name, told = words_of("velocity")
    >>> name, told(2.44)
    ('velocity', '2.4 m/s')
    """
    other = {"velocity": _speed, "flow of the pump": _per_minute}
    if what in other:
        return what, other[what]
    return BY_WHAT[what].name, BY_WHAT[what].shown
