# SPDX-License-Identifier: Apache-2.0
"""What a line is made of: the hose families, hard tube and charge pipe, as typed."""

import re

from linewright.base.errors import UnitError
from linewright.base.quantity import said
from linewright.car.model import Construction, Medium
from linewright.car.table import listed, nearest
from linewright.tables import hoses

_TUBE = re.compile(r"(hard\s+)?tube\b|\btubing\Z|hard line\b", re.IGNORECASE)
_PIPE = re.compile(r"((aluminium|alloy|steel|stainless|charge)\s+)?pipe\b", re.IGNORECASE)

#: What the trade runs where nothing is typed, by medium.
USUAL = {
    Medium.OIL: "rubber braided",
    Medium.COOLANT: "silicone",
    Medium.CHARGE_COOLANT: "silicone",
    Medium.FUEL: "PTFE conductive",
    Medium.AIR: "silicone",
}
REFERENCE = "reference"


def hose_name(text: str) -> str:
    """Read the name of a hose family, of tube or of pipe.

    Parameters
    ----------
    text : str
        As in "rubber braided", "tube, stainless", "pipe".

    Returns
    -------
    str
        The text, once it is known to be one of these.

    Raises
    ------
    UnitError
        If nothing here has that name.
    """
    name = " ".join(text.split())
    if _TUBE.search(name) or _PIPE.match(name):
        return name
    try:
        hoses.family(name)
    except (LookupError, ValueError) as error:
        names = [family.name for family in hoses.FAMILIES.values()]
        raise UnitError(
            f"{said(text)} is no hose here; allowed: {listed(names)}; tube, pipe."
            f"{nearest(name, names)}"
        ) from error
    return name


def construction(name: str) -> Construction:
    """Tell the construction from the name of a hose.

    Parameters
    ----------
    name : str
        As `hose_name` gives it.

    Returns
    -------
    Construction
        Tube and pipe by their names, else that of the hose family.
    """
    if _TUBE.search(name):
        return Construction.TUBE
    if _PIPE.match(name):
        return Construction.PIPE
    return Construction(hoses.family(name).construction)
