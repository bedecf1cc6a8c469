# SPDX-License-Identifier: Apache-2.0
"""Findings and risks as notes in two columns, for the book; the lists hold the same as tables."""

from linewright.plan.model import Plan
from linewright.sheets.findings import findings_list, risk_list
from linewright.sheets.leaves import Note, Notes


def finding_notes(plan: Plan, *, overruled: bool = False) -> Notes:
    """Tell the findings one below the other, worst first, those of one kind together.

    Parameters
    ----------
    plan : Plan
        The plan.
    overruled : bool
        Whether those that were overruled, instead of those that stand.

    Returns
    -------
    Notes
        One note for all findings of one kind.
    """
    table = findings_list(plan, overruled=overruled)
    return Notes(
        table.title,
        tuple(
            Note(
                f"{weight}  {code}",
                # Findings told together name all that they are about in their words.
                "" if "; " in about else about,
                reason,
                last,
                source,
            )
            for weight, code, about, reason, last, source in table.rows
        ),
        table.note,
        table.empty,
    )


def risk_notes(plan: Plan) -> Notes:
    """Tell what the order still risks, one kind below the other.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Notes
        One note a kind of risk and way out.
    """
    table = risk_list(plan)

    def hang(parts: str) -> str:
        if parts == "1":
            return "1 row of the parts list hangs on it"
        return "" if parts == "0" else f"{parts} rows of the parts list hang on it"

    return Notes(
        table.title,
        tuple(
            Note(kind, about, what, way, hang(parts))
            for kind, about, what, way, parts in table.rows
        ),
        empty=table.empty,
    )
