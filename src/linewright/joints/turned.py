# SPDX-License-Identifier: Apache-2.0
"""Open angles of hose ends closed, once a hose has a course in space."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from functools import cache

from linewright.base.finding import WorkStep
from linewright.catalogue import stock
from linewright.catalogue.part import Part
from linewright.joints.model import Chain, Joints, Termination
from linewright.joints.moulded import elbow_of, step, typed


@dataclass(frozen=True, slots=True)
class Chosen:
    """Angle that a course has at one end [deg], and how sure it is.

    ``sureness`` is the share of the ports' tolerance for which it works, None where that was not
    reckoned; ``is_sure`` whether it is enough to order it.
    """

    angle: int
    sureness: float | None = None
    is_sure: bool = False


def turned(joints: Joints, chosen: Mapping[tuple[str, str], Chosen]) -> Joints:
    """Put hose ends of the chosen angles where the builder left the angle open.

    Parameters
    ----------
    joints : Joints
        What stands at both ends of every piece of hose.
    chosen : mapping
        Hose and side (``A`` or ``B``) → the angle there.

    Returns
    -------
    Joints
        The same, where an angle was open (or a straight end stood in at a panel) with the hose
        end of that angle; the questions about those are gone. Typed angles stay as they are.
    """
    ends = tuple(_turned(end, chosen.get((end.hose, end.side))) for end in joints.terminations)
    changed = {
        (after.hose, after.side)
        for before, after in zip(joints.terminations, ends, strict=True)
        if after is not before
    }
    if not changed:
        return joints
    answered = {f"{hose}.{side}" for hose, side in changed}
    led = {end.line for end in ends if end.is_bulkhead and end.is_routed} - {
        end.line for end in ends if end.is_bulkhead and not end.is_routed
    }
    return replace(
        joints,
        terminations=ends,
        findings=tuple(
            f for f in joints.findings if f.code != "open-angle" or f.about[0] not in answered
        ),
        steps=(
            *(s for s in joints.steps if not _is_answered(s, led)),
            *(
                step(f"{end.hose}.{end.side}", end.line, end.port, end.chain)
                for before, end in zip(joints.terminations, ends, strict=True)
                if end.chain is not None and end.chain is not before.chain and elbow_of(end.chain)
            ),
        ),
    )


def _is_answered(step: WorkStep, led: Collection[str]) -> bool:
    """Whether a work step is about a straight pass that is none."""
    return step.code == "pass-straight" and step.about[0] in led


def _turned(end: Termination, chosen: Chosen | None) -> Termination:
    if chosen is not None and end.elbows and end.chain is not None:
        return _moulded(end, chosen)
    if chosen is None or end.chain is None or not (end.angle is None or end.is_bulkhead):
        return end
    chain = _with(end.chain, chosen.angle)
    if chain is None:
        return end
    others = (_with(other, chosen.angle) or other for other in end.alternatives)
    return replace(
        end,
        chain=chain,
        alternatives=tuple(others),
        angle=chosen.angle,
        is_routed=True,
        sureness=chosen.sureness,
        is_sure=chosen.is_sure,
    )


def _moulded(end: Termination, chosen: Chosen) -> Termination:
    """A clamped hose on its spigot, or on the moulded elbow that its course has."""
    assert end.chain is not None
    bent = typed(end.elbows, chosen.angle)
    chain = bent if bent is not None else end.chain
    if chain is end.chain and bent is None and end.angle:
        return end  # typed, and its course has another: told elsewhere
    others = end.alternatives
    if chain is not end.chain:
        others = (end.chain, *others)
    return replace(
        end,
        chain=chain,
        alternatives=others,
        angle=chosen.angle,
        is_routed=True,
        sureness=chosen.sureness if bent is not None else None,
        is_sure=chosen.is_sure or bent is None,
    )


def _with(chain: Chain, angle: int) -> Chain | None:
    """A chain that turns by an angle; None where its hose end does not come so."""
    now = chain.hose_end
    if now is None or "banjo" in now.shape:
        return None
    wanted = angle - sum(part.angle for part in chain.adaptors)
    part = _sold(now, wanted)
    if part is None:
        return None
    rank = list(chain.rank)
    rank[5] += part.price_index - now.price_index
    return replace(
        chain,
        parts=(*chain.parts[:-1], part),
        price_index=chain.price_index + part.price_index - now.price_index,
        rank=tuple(rank),
    )


@cache
def _sold(like: Part, angle: int) -> Part | None:
    """The hose end of an angle that is otherwise like another: of its ends and its swivel."""
    if like.angle == angle:
        return like
    is_full = "full swivel" in like.traits
    found = [
        part
        for part in stock.generic().parts
        if part.shape == like.shape
        and part.angle == angle
        and part.ends == like.ends
        and ("full swivel" in part.traits) == is_full
    ]
    return min(found, key=lambda part: (part.price_index, part.code), default=None)
