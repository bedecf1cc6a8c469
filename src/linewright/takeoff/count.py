# SPDX-License-Identifier: Apache-2.0
"""Everything that has to exist: parts, seals, hose, clips, holes, each with who asks for it."""

from linewright.car.model import Car
from linewright.joints.model import Joints
from linewright.routes.model import Routes
from linewright.takeoff import (
    bent,
    components,
    cuts,
    either,
    holes,
    parts,
    passes,
    seals,
    sundries,
    supplied,
)
from linewright.takeoff.merge import merge
from linewright.takeoff.model import Takeoff
from linewright.takeoff.wanted import spots


def count(car: Car, joints: Joints, routes: Routes) -> Takeoff:
    """Count all that has to be bought and made.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        The chains between ports and hoses.
    routes : Routes
        The lengths and courses.

    Returns
    -------
    Takeoff
        Rows to buy, hose to buy, hose to cut, holes to make.
    """
    found = spots(car, joints)
    wants = [
        *parts.wants(found),
        *parts.unsettled(car, joints),
        *passes.wants(car, joints, routes, found),
        *seals.wants(car, found),
        *components.wants(car, found),
        *bent.wants(car, routes),
        *sundries.paste(found),
        *sundries.olives(found),
        *sundries.clips(car, routes),
        *sundries.straps(car),
        *sundries.tags_and_caps(car, routes, found),
    ]
    return Takeoff(
        rows=merge(car, wants),
        hoses=cuts.hose_rows(car, bent.to_buy(car, routes)),
        cuts=cuts.cuts(car, routes),
        holes=holes.holes(car, joints, routes, found),
        findings=supplied.findings(found),
        either=either.either(car, joints),
    )
