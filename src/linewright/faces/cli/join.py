# SPDX-License-Identifier: Apache-2.0
"""``linewright join``: how to get from this end to that one."""

from linewright.catalogue.stock import generic
from linewright.ends.counterpart import counterpart
from linewright.ends.end import End, Family, Gender
from linewright.ends.mates import mates
from linewright.ends.notation import read
from linewright.ends.words import show, show_long
from linewright.joints.chain import Options
from linewright.joints.chain import join as chains
from linewright.joints.missing import missing_step
from linewright.joints.model import Chain
from linewright.tables import hoses


def _end(text: str, hose: str) -> End:
    end = read(text).end
    if end.family is Family.HOSE and not end.kind:
        return End(Family.HOSE, end.size, Gender.FEMALE, kind=hoses.family(hose).ends)
    return end


def _seals(chain: Chain) -> str:
    needs = [f"{s.count} × {s.what} {s.size}".strip() for j in chain.joints for s in j.mating.seals]
    return ", ".join(needs) or "no seal: metal on metal"


def _show(number: int, chain: Chain) -> None:
    print(f"{number}. " + (" + ".join(p.name for p in chain.parts) or "directly"))
    if chain.parts:
        print(f"   codes: {', '.join(p.code for p in chain.parts)}")
    bore = f"least bore {chain.bore * 1000:.1f} mm, " if chain.bore else ""
    print(f"   {chain.joint_count} joints, {bore}stands out {chain.stick_out * 1000:.0f} mm")
    print(f"   seals: {_seals(chain)}")
    special = [p.name for p in chain.parts if p.availability.rank == 2]
    if special:
        print(f"   special order: {', '.join(special)}")
    if chain.reason:
        print(f"   {chain.reason}")


def join(near: str, far: str, hose: str) -> int:
    """Print the chains between two ends, best first; return the exit code."""
    a, b = _end(near, hose), _end(far, hose)
    print(f"from  {show_long(a)}")
    print(f"to    {show_long(b)}")
    print()
    direct = mates(a, b)
    if direct.ok:
        needs = ", ".join(f"{s.count} × {s.what} {s.size}".strip() for s in direct.seals)
        print(f"They mate directly: {direct.why}. Seals: {needs or 'none'}.")
        return 0
    options = Options(angle=None)
    found = chains(a, b, generic(), options=options)
    if found:
        print("To join these two:")
    else:
        # "From this to that" also asks for the part that makes a -10 male out of a port.
        found = chains(a, counterpart(b), generic(), options=options)
        if found:
            print(f"To end up with {show(b)}:")
    for number, chain in enumerate(found, 1):
        _show(number, chain)
    if direct.look_alike:
        print()
        print(f"▲ {show(a)} and {show(b)} do not seal on each other: {direct.hazard}.")
    if not found:
        step, remedy = missing_step(a, b, generic(), options)
        print(
            f"The trade sells nothing that joins {show(a)} with {show(b)} in four parts.\n"
            f"{step[0].upper()}{step[1:]}\n"
            f"{remedy} Or hold the right part in your hand and name it under [parts] in the car "
            "document."
        )
        return 1
    return 0
