# SPDX-License-Identifier: Apache-2.0
"""What a line is made of: the hose families, hard tube and charge pipe, as typed."""

from linewright.base.errors import CatalogueError, UnitError
from linewright.base.quantity import said
from linewright.car.model import Construction, Medium
from linewright.car.table import listed, nearest
from linewright.tables import hoses

#: What the trade runs where nothing is typed, by medium [common practice].
USUAL = {
    Medium.OIL: "rubber braided",
    Medium.COOLANT: "silicone",
    Medium.CHARGE_COOLANT: "silicone",
    Medium.FUEL: "PTFE full-bore conductive",
    Medium.AIR: "silicone",
}
#: The same where both ports are beads or barbs [common practice].
USUAL_CLAMPED = {**USUAL, Medium.OIL: "NBR", Medium.FUEL: "fuel J30R9"}
REFERENCE = "reference"
PIPE = "pipe aluminium"

_BY_ENDS = {"tube": Construction.TUBE, "pipe": Construction.PIPE}


def hose_name(text: str) -> str:
    """Read the name of a hose family, of tube or of pipe.

    Parameters
    ----------
    text : str
        As in "rubber braided", "stainless tube", "charge pipe".

    Returns
    -------
    str
        The family's key, one for all its names.

    Raises
    ------
    UnitError
        If nothing here has that name.

    Examples
    --------
    >>> hose_name("Rubber")
    'rubber braided'
    """
    try:
        return hoses.family(" ".join(text.replace(",", " ").split())).key
    except CatalogueError as error:
        raise UnitError(
            f"{said(text)} is no hose here; allowed: {listed(hoses.FAMILIES)}."
            f"{nearest(text, hoses.FAMILIES)}"
        ) from error


def construction(name: str) -> Construction:
    """Tell the construction from the name of a hose.

    Parameters
    ----------
    name : str
        As `hose_name` gives it.

    Returns
    -------
    Construction
        Tube and pipe by what their ends are, else that of the hose family.
    """
    family = hoses.family(name)
    return _BY_ENDS.get(family.ends) or Construction(family.construction)
