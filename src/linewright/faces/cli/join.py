# SPDX-License-Identifier: Apache-2.0
"""``linewright join``: how to get from this end to that one."""

from linewright.catalogue.stock import generic
from linewright.ends.counterpart import counterpart
from linewright.ends.end import End, Family, Gender
from linewright.ends.mates import mates
from linewright.ends.notation import read
from linewright.ends.words import show, show_long
from linewright.joints.between import options_between
from linewright.joints.chain import Options
from linewright.joints.chain import join as chains
from linewright.joints.missing import missing_step
from linewright.joints.model import Chain
from linewright.tables import hoses

_GENDERS = {Gender.MALE: "male", Gender.FEMALE: "female"}
#: Families of whose gender nobody speaks.
_UNSCREWED = (Family.BEAD, Family.BARB, Family.HOSE, Family.WELD)


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
    options = options_between(a, b)
    joined = chains(a, b, generic(), options=options)
    is_alike = a.family is b.family and a.gender is b.gender and a.family not in _UNSCREWED
    if is_alike and a.gender is not Gender.NONE:
        print(f"These two do not mate as they are: both are {_GENDERS[a.gender]}.")
    if joined:
        print("To join these two:")
        _list(joined)
    # "From this to that" also asks for the part that makes a -10 male out of a port.
    made = () if a == b or joined else _made(a, b, options)
    if made:
        print(f"To end up with {show(b)}:")
        _list(made)
    elif a == b:
        print(f"To end up with {show(b)}: that is the end you have already.")
    if direct.look_alike:
        print()
        print(f"▲ {show(a)} and {show(b)} do not seal on each other: {direct.hazard}.")
    if joined or made:
        return 0
    step, remedy = missing_step(a, b, generic(), options)
    print(
        f"This catalogue holds nothing that joins {show(a)} with {show(b)} in four parts.\n"
        f"{step[0].upper()}{step[1:]}\n"
        f"{remedy} Or hold the right part in your hand and name it under [parts] in the car "
        "document."
    )
    return 1


def _made(near: End, wanted: End, options: Options) -> tuple[Chain, ...]:
    """Chains after which `wanted` is the open end; none where its own mate fits already."""
    if wanted.gender is Gender.NONE:
        return ()
    found = chains(near, counterpart(wanted), generic(), options=options)
    return tuple(chain for chain in found if chain.parts)


def _list(found: tuple[Chain, ...]) -> None:
    for number, chain in enumerate(found, 1):
        _show(number, chain)
