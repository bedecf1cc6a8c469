# SPDX-License-Identifier: Apache-2.0
"""Joints met on real cars, with their right answers: 25 rows and three controls.

Source: ACCEPTANCE_JOINTS section 1, common practice of the trade where its rows name no
other source; stud bores there are from memory, hose bores of MIL-H-8794 and of a
catalogue of PTFE hose as read. Structure is compared, never wording, codes or prices.
"""

from collections import Counter

import pytest

from linewright.base.finding import Finding, Severity
from linewright.car.read import read_text
from linewright.joints.model import Chain, Fit, Joints, Termination
from linewright.joints.termination import offer

HEAD = """
linewright = 1
[car]
name = "one joint"
[panels.firewall]
thickness = "1.5 mm"
material = "steel"
"""
OIL = '[systems.oil]\nfluid = "15W-50"\nhose = "rubber braided"\n'
FUEL = '[systems.fuel]\nfluid = "E85"\nhose = "PTFE full-bore conductive"\n'
COOLANT = '[systems.coolant]\nfluid = "50 % glycol"\nhose = "rubber braided"\n'
AIR = '[systems.charge-air]\nfluid = "air"\nhose = "silicone"\nhighest = "1.5 bar"\n'


def plan(*texts: str) -> Joints:
    return offer(read_text(HEAD + "".join(texts)))


def component(name: str, kind: str, **ports: str) -> str:
    """One component with the ends of its ports, all read from a marking."""
    extra = "".join(f"{k[1:]} = {v}\n" for k, v in ports.items() if k.startswith("_"))
    rows = "".join(
        f'{k.replace("__", "-")} = {v if v.startswith("{") else "{ end = " + chr(34) + v + chr(34)}'
        f'{"" if v.startswith("{") else ", known = " + chr(34) + "read" + chr(34) + " }"}\n'
        for k, v in ports.items()
        if not k.startswith("_")
    )
    return f'[components.{name}]\nkind = "{kind}"\n{extra}[components.{name}.ports]\n{rows}'


def line(name: str, start: str, finish: str, size: str, ends: str, extra: str = "") -> str:
    angles = f", ends = {ends}" if ends else ""
    more = f", {extra}" if extra else ""
    return (
        f'[lines.{name}]\nfrom = "{start}"\nto = "{finish}"\nsize = "{size}"\n'
        + "".join(f"{part.strip()}\n" for part in (angles + more).split(", ", 1)[1:] if part)
        if not (angles and more)
        else f'[lines.{name}]\nfrom = "{start}"\nto = "{finish}"\nsize = "{size}"\n'
        f"ends = {ends}\n{extra}\n"
    )


def end(joints: Joints, name: str) -> Termination:
    hose, _, side = name.rpartition(".")
    return next(t for t in joints.terminations if (t.hose, t.side) == (hose, side))


def chain(joints: Joints, name: str) -> Chain:
    found = end(joints, name).chain
    assert found is not None, name
    return found


def fit(joints: Joints, port: str) -> Fit:
    return next(f for f in joints.fits if port in f.ports)


def parts(found: Chain) -> list[str]:
    """Each part by its ends, from the port outwards, with its angle where it has one."""
    words = []
    open_end = found.port
    for part, joint in zip(found.parts, found.joints, strict=False):
        near = joint.far
        out = [e for e in part.ends if e != near] or [near]
        far = f" > {out[0]}" if len(part.ends) > 1 else ""
        words.append(f"{near}{far}" + (f", {part.angle}" if part.angle else ""))
        open_end = out[0]
    assert open_end is not None
    return words


def seals(*chains: Chain) -> Counter[tuple[str, str]]:
    """What the joints of some chains need, by what and size."""
    needs: Counter[tuple[str, str]] = Counter()
    for found in chains:
        for joint in found.joints:
            for need in joint.mating.seals:
                needs[need.what, need.size] += need.count
    return needs


def codes(joints: Joints, *severities: Severity) -> set[str]:
    return {f.code for f in joints.findings if not severities or f.severity in severities}


def finding(joints: Joints, code: str) -> Finding:
    return next(f for f in joints.findings if f.code == code)


def total(joints: Joints) -> int:
    """Joints of all terminations and fits."""
    chains = [t.chain for t in joints.terminations] + [f.chain for f in joints.fits]
    return sum(c.joint_count for c in chains if c is not None)
