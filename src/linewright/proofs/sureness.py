# SPDX-License-Identifier: Apache-2.0
"""What is said of a pair of hose ends that may not work where its ports really are."""

from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Line
from linewright.joints.offered import setting
from linewright.proofs.found import found
from linewright.routes.route import Route
from linewright.routes.survival import error, said
from linewright.space.clock import said as clock_words


def crimped(line: Line, route: Route) -> tuple[Finding, ...]:
    """Ask that the clock angle of crimped ends is tried on the car before it is ordered.

    Parameters
    ----------
    line : Line
        The line.
    route : Route
        One of its hoses.

    Returns
    -------
    tuple of Finding
        One ``clock-crimped``, a stop, where both ends are bent and a shop crimps them.
    """
    if not line.is_crimped or route.clock_deg is None:
        return ()
    return (
        found(
            "clock-crimped",
            (route.id,),
            f"{route.id} is made up with crimped ends, both bent: at a wrong clock angle it is "
            f"scrap. {clock_words(route.clock_deg)}.",
            "Hold both ends in place on the car, on a length of old hose, and read the angle "
            "there; then overrule this and say by whom it was read.",
            system=line.system,
            value=f"{round(route.clock_deg) % 360}°",
            source="common practice",
        ),
    )


def unsure(car: Car, line: Line, route: Route) -> tuple[Finding, ...]:
    """Say that another pair of hose ends may be needed.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.
    route : Route
        One of its hoses, with the share of draws in which its pair of ends works.

    Returns
    -------
    tuple of Finding
        None where it is sure enough or was not drawn; else one ``unsure-ends``: an ask where
        it works less often than not, else a note.
    """
    enough = setting(car, "sureness-enough").value
    share = route.sureness
    if share is None or not route.draws or share >= enough:
        return ()
    pair = said((route.a.shape.angle, route.b.shape.angle))
    doubt = error(share, route.draws)
    room = (
        "give it more length or room, or order its ends last, when both parts are where they stay."
    )
    measured = f"{route.to_be_sure[:1].upper()}{route.to_be_sure[1:]}. "
    way_out = f"{measured}Else {room}" if route.to_be_sure else f"{room[0].upper()}{room[1:]}"
    return (
        found(
            "unsure-ends",
            (route.id,),
            f"{route.id}: hose ends {pair} work in {share:.0%} ± {doubt * 100:.0f} of "
            f"{route.draws} draws of where its ports may be and point, as well as they are known.",
            way_out,
            system=line.system,
            value=f"{share:.0%}",
            limit=f"{enough:.0%}",
            measure=1.0 - share,
            severity=Severity.NOTE if share >= setting(car, "sureness-ask").value else None,
        ),
    )
