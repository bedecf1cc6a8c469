# SPDX-License-Identifier: Apache-2.0
"""The fluid that a builder means by what is typed for a system."""

import re
from dataclasses import replace

from linewright.base.errors import FlowError
from linewright.base.evidence import Grade
from linewright.flow.fluids import air, coolant, fuel, oil, water
from linewright.flow.properties import Fluid
from linewright.tables.materials import fluid_class

_OIL = re.compile(r"\b(\d{1,2})\s?w\s?-?\s?(\d{2})\b", re.IGNORECASE)
_SINGLE = re.compile(r"\bsae\s?-?(\d{2})\b", re.IGNORECASE)
_SHARE = re.compile(r"(\d{1,3}(?:\.\d+)?)\s?%")
_RATIO = re.compile(r"\b(\d{1,2})\s?[/:]\s?(\d{1,2})\b")
#: What stands in where the document names no fluid, or none of the tables'.
USUAL_OIL = "10W-40"
USUAL_GLYCOL = 0.5


def named_fluid(medium: str, text: str) -> Fluid:
    """Return the fluid of a system.

    Parameters
    ----------
    medium : str
        oil, coolant, charge coolant, fuel or charge air.
    text : str
        The fluid as typed.

    Returns
    -------
    Fluid
        With ``note`` and grade practice where another stands in for what was typed.

    Raises
    ------
    FlowError
        If a strength of glycol is beyond the tables.

    Examples
    --------
    >>> named_fluid("coolant", "50 % glycol").name
    'ethylene glycol 50 % vol. in water'
    >>> named_fluid("oil", "5W-50").note
    '10W-40 stands in for 5W-50'
    """
    if medium == "charge air":
        return air()
    if medium == "oil":
        return _oil(text)
    if medium == "fuel":
        return _fuel(text)
    return _coolant(text)


def _oil(text: str) -> Fluid:
    multi, single = _OIL.search(text), _SINGLE.search(text)
    grade = f"{multi[1]}W-{multi[2]}" if multi else single[1] if single else ""
    try:
        return oil(grade)
    except FlowError:
        return _in_place(oil(USUAL_OIL), USUAL_OIL, text)


def _coolant(text: str) -> Fluid:
    said = text.lower()
    kind = "propylene" if "propylene" in said else "ethylene"
    share, ratio = _SHARE.search(said), _RATIO.search(said)
    if share and "water" in said and "glycol" not in said and "freeze" not in said:
        share = None
    if share:
        return coolant(float(share[1]) / 100.0, kind)
    if ratio:
        first, second = float(ratio[1]), float(ratio[2])
        return coolant(first / (first + second), kind)
    if "water" in said and "glycol" not in said:
        return water()
    return _in_place(coolant(USUAL_GLYCOL, kind), f"{USUAL_GLYCOL * 100:.0f} % glycol", text)


def _fuel(text: str) -> Fluid:
    sort = fluid_class("fuel", text)
    said = re.sub(r"[\s-]", "", text.lower())
    if sort == "methanol":
        return fuel("methanol")
    if sort == "ethanol":
        if "e85" in said:
            return fuel("E85")
        # E70 and more is nearer to E85 than to anything else in the tables.
        pure = said in ("ethanol", "e98", "e100")
        return fuel("ethanol") if pure else _in_place(fuel("E85"), "E85", text)
    return fuel("winter petrol") if "winter" in said else fuel("petrol")


def _in_place(other: Fluid, called: str, text: str) -> Fluid:
    note = f"{called} stands in for {text.strip() or 'a fluid that is not named'}"
    return replace(other, grade=Grade.PRACTICE, note=note)
