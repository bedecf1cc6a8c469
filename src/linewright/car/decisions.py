# SPDX-License-Identifier: Apache-2.0
"""What the builder has decided: answers without a line, overrules, retired ids."""

import re
from datetime import date

from linewright.base.codes import RULES
from linewright.base.finding import Overrule
from linewright.car.model import Closed
from linewright.car.quantities import accepted
from linewright.car.table import Table, nearest, said

_HOW = ("plug", "cap", "open", "none")


def _day(table: Table, key: str) -> str:
    value = table.raw(key)
    if value is None:
        return ""
    if isinstance(value, date):
        return value.isoformat()[:10]
    try:
        return date.fromisoformat(value).isoformat()
    except (TypeError, ValueError):
        table.fault(key, f"{said(value)} is no day; write it as in 2026-11-25.")
        return ""


def overrules(root: Table) -> tuple[Overrule, ...]:
    """Read ``[[overruled]]``.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    tuple of Overrule
        In the order of the document.
    """
    items = root.raw("overruled")
    if items is None:
        return ()
    if not isinstance(items, list):
        root.fault("overruled", f"{said(items)} is no list; write [[overruled]] once for each.")
        return ()
    found = []
    for index, value in enumerate(items):
        table = Table(value, ("overruled", index), root.log, "overrule")
        if not isinstance(value, dict):
            continue
        code = table.needed("code", "taper-in-aluminium")
        if code and code not in RULES:
            table.fault("code", f"{said(code)} is no code of a finding.{nearest(code, RULES)}")
        table.raw("about")
        if not table.has("about"):
            table.fault("", '"about" is missing; write the ids, as in about = ["FH.in-L"].')
        about = table.texts("about")
        reason = table.needed("reason", "the maker says so")
        found.append(
            Overrule(
                code=code,
                about=tuple(sorted(about)),
                reason=reason,
                by=table.text("by"),
                when=_day(table, "when"),
                accepted=table.read("accepted", accepted),
            )
        )
        table.done()
    return tuple(found)


def retired(root: Table) -> tuple[str, ...]:
    """Read ``[retired]``: ids that are never used again.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    tuple of str
        The ids.
    """
    table = root.table("retired", "list of retired ids")
    if table is None:
        return ()
    found = table.texts("ids")
    table.done()
    return found


def closings(root: Table) -> dict[str, Closed]:
    """Read ``[closed]``: ports and functions that are answered without a line.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        Answers by port or function.
    """
    table = root.table("closed", "list of answers")
    found: dict[str, Closed] = {}
    for what, value in table.items() if table else ():
        path = ("closed", what)
        if isinstance(value, dict):
            inner = next(iter(value), "drain")
            root.log.add(
                path,
                f'needs quotes round a name with a dot in it: write "{what}.{inner}" = "plug".',
            )
            continue
        if not isinstance(value, str):
            root.log.add(path, f'{said(value)} is no answer; write "plug" or "none, because …".')
            continue
        how, _, rest = value.partition(",")
        how, reason = how.strip().lower(), re.sub(r"\A\s*because\b[:,]?", "", rest).strip()
        if how not in _HOW:
            root.log.add(
                path,
                f"{said(value)} is not allowed; allowed: plug, cap, open with its reason, none "
                f'with its reason, as in "none, because it has no drain".{nearest(how, _HOW)}',
            )
        elif how in ("open", "none") and not reason:
            root.log.add(
                path, f'{said(value)} has no reason; write "{how}, because …" and the reason.'
            )
        else:
            found[what] = Closed(what, how, reason, root.log.line(path))
    return found
