# SPDX-License-Identifier: Apache-2.0
"""What the list of each supplier of an order is called, as a file."""

from collections.abc import Iterable

#: Lists that every order has, beside those of suppliers.
_TAKEN = ("order", "order-summary", "order-lines", "order-both", "order-stops")


def slug(name: str) -> str:
    """A supplier's name as the name of a file.

    Parameters
    ----------
    name : str
        Its name.

    Returns
    -------
    str
        Small letters, digits and hyphens.

    Examples
    --------
    >>> slug("North Hose & Fittings Ltd.")
    'north-hose-fittings-ltd'
    """
    words = "".join(c.lower() if c.isalnum() else " " for c in name).split()
    return "-".join(words)[:60] or "supplier"


def names(suppliers: Iterable[str]) -> dict[str, str]:
    """Name the list of each supplier: no two alike, and none like another list of the order.

    Parameters
    ----------
    suppliers : Iterable of str
        Names of the suppliers.

    Returns
    -------
    dict
        Name of the list by supplier.

    Examples
    --------
    >>> names(["A & B", "A B", "lines"])
    {'A & B': 'order-a-b', 'A B': 'order-a-b-2', 'lines': 'order-lines-2'}
    """
    found: dict[str, str] = {}
    taken = set(_TAKEN)
    for supplier in suppliers:
        first = name = f"order-{slug(supplier)}"
        number = 2
        while name in taken:
            name, number = f"{first}-{number}", number + 1
        taken.add(name)
        found[supplier] = name
    return found
