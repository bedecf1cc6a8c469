# SPDX-License-Identifier: Apache-2.0
"""Lines whose ports have places, and which could not be laid for want of a hole in a panel."""

from collections.abc import Collection

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.joints.model import Joints
from linewright.routes.pieces import by_hose
from linewright.space.ports import port_frame


def unholed(car: Car, joints: Joints, laid: Collection[str]) -> tuple[Finding, ...]:
    """Say which lines were not laid because nobody knows where they pass a panel.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What stands at both ends of every piece of hose.
    laid : collection of str
        Pieces of hose that have both ends in space.

    Returns
    -------
    tuple of Finding
        ``no-route`` for a line of which a piece is not among ``laid`` although both its ports
        have a place and a direction: a stop where its panels have places and no free one was
        found in them, an ask where a panel has none.
    """
    told = []
    for line_id, pieces in sorted(by_hose(joints).items(), key=lambda each: natural_key(each[0])):
        line = car.lines[line_id]
        if not line.passes or all(hose in laid for hose in pieces):
            continue
        if any(port_frame(car, port) is None for port in (line.from_port, line.to_port)):
            continue
        if any(port.end is None for port in map(car.port, (line.from_port, line.to_port)) if port):
            continue
        unplaced = [
            name
            for name in line.passes
            if name in car.panels
            and (car.panels[name].at is None or car.panels[name].points is None)
        ]
        panels = " and ".join(unplaced or line.passes)
        place = f'`holes = [{{ at = "x, y, z mm", for = "{line_id}" }}]`'
        if unplaced:
            reason = f"{line_id}: no course was sought, for the place of {panels} is not said."
            remedy = f"Add `at` and `points` to {panels}, and {place} where the hole is given."
        else:
            reason = (
                f"{line_id}: no course was sought: no free place for its bulkhead fitting was "
                f"found in {panels}, near the straight way between its ports."
            )
            remedy = f"Say where it goes through: {place} at {panels}."
        told.append(
            Finding(
                code="no-route",
                severity=Severity.ASK if unplaced else RULES["no-route"],
                about=(line_id,),
                reason=reason,
                remedy=remedy,
                value="no hole",
                limit="one hole for each panel",
                source="computed-here",
                grade=Grade.DERIVED,
                system=line.system,
            )
        )
    return tuple(told)
