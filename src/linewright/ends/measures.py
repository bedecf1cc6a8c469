# SPDX-License-Identifier: Apache-2.0
"""The size of an end from the numbers typed with it, if that size is made."""

from fractions import Fraction

from linewright.base.errors import EndError
from linewright.ends.ambiguity import unsure
from linewright.ends.end import End, Family, Gender
from linewright.ends.lexicon import Words, plain
from linewright.ends.sizes import (
    DASHED,
    PIPED,
    find,
    inches,
    made,
    mixed,
    nearest,
    sizes,
)
from linewright.ends.telling import listed
from linewright.ends.words import show

_METRIC = (Family.ISO6149, Family.METRIC_FLAT_FACE, Family.BUBBLE_FLARE)
_BORED = (Family.BEAD, Family.BARB, Family.VBAND)
_WANTED = {
    **dict.fromkeys(DASHED, 'a dash or a thread, e.g. "-8"'),
    **dict.fromkeys(PIPED, 'a pipe size, e.g. "3/8"'),
    **dict.fromkeys(_METRIC, 'a metric thread, e.g. "M18x1.5"'),
    **dict.fromkeys(_BORED, 'a diameter, e.g. "38 mm"'),
    Family.BANJO: 'its bolt\'s thread, e.g. "banjo M14x1.5"',
    Family.SPINON: 'its thread, e.g. "3/4-16"',
    Family.QC: 'the size of its spigot, e.g. "3/8"',
    Family.TUBE: 'its outside diameter, e.g. "-6" or "38 mm"',
    Family.HOSE: 'a dash or a bore, e.g. "-8" or "38 mm"',
}
#: How the size of a family may be written.
_WRITTEN = {
    **dict.fromkeys(DASHED, ("dash", "thread", "size in inches", "bare number", "metric thread")),
    **dict.fromkeys(PIPED, ("size in inches", "thread", "bare number")),
    **dict.fromkeys(_METRIC, ("metric thread",)),
    **dict.fromkeys(_BORED, ("size in millimetres", "size in inches", "bare number")),
    Family.BANJO: ("thread", "metric thread", "size in inches"),
    Family.SPINON: ("thread", "metric thread", "size in inches"),
    Family.QC: ("size in inches", "size in millimetres"),
    Family.TUBE: ("dash", "size in inches", "size in millimetres", "bare number"),
    Family.HOSE: ("dash", "size in inches", "size in millimetres", "bare number"),
    Family.WELD: (),
}
_SMALLEST, _LARGEST = 2.0, 200.0  # mm; bead, barb and V-band outside it are slips of the pen
_LARGEST_DASH = 64


def size_of(typed: str, said: Words, family: Family, gender: Gender) -> tuple[str, str]:
    """Size of an end whose family is known.

    Parameters
    ----------
    typed : str
        The whole text, for messages.
    said : Words
        Its words and numbers.
    family : Family
        What it is.
    gender : Gender
        As said or assumed, for the readings of what is ambiguous.

    Returns
    -------
    tuple of str
        The size as in an `End` (pipe sizes bare), and a remark, mostly empty.

    Raises
    ------
    EndError
        If there is no size, two that differ, or one that is not made.
    AmbiguousEndError
        If a metric size leaves the pitch open.
    """
    _refuse_odd_numbers(typed, said, family)
    if family is Family.WELD:
        return "", ""
    if family in DASHED:
        found = _dashed(typed, said, family, gender)
    elif family in PIPED:
        found = _piped(typed, said, family)
    elif family in _METRIC:
        found = _metric(typed, said, family, gender)
    elif family in _BORED:
        found = _bored(typed, said)
    elif family is Family.TUBE:
        found = _tube(typed, said)
    elif family is Family.HOSE:
        found = [(size, "") for size in said.dash] or _bored(typed, said)
    elif family is Family.QC:
        found = [(size, "") for size in said.inch] + [(_spigot(mm), "") for mm in said.mm]
    else:
        found = _threaded(typed, said, family, gender)
    different = list(dict.fromkeys(size for size, _ in found))
    if not different:
        raise EndError(f'"{typed}" has no size that fits; it needs {_WANTED[family]}.')
    if len(different) > 1:
        raise EndError(
            f'"{typed}" names {listed(different, "and")}, which are different sizes of this'
            " family; leave in the one that was measured."
        )
    size = different[0]
    known = sizes(family)
    if known and size not in known:
        raise _not_made(typed, family, size)
    if not known and size.startswith("-") and not 2 <= -int(size) <= _LARGEST_DASH:
        raise EndError(
            f'"{typed}": a dash counts sixteenths of an inch; hose and tube are made from -2 to'
            f" -{_LARGEST_DASH}, not {size}."
        )
    remark = next((remark for _, remark in found if remark), "")
    return size, remark


def _not_made(typed: str, family: Family, size: str) -> EndError:
    near = [_shown(family, one) for one in nearest(family, size)]
    return EndError(
        f'"{typed}": there is no {_shown(family, size)}; the nearest that exist are'
        f" {listed(near, 'and')}. Measure it again; a thread that is really so is written with what"
        ' it seals on: "other: M14x1 with cone".'
    )


def _shown(family: Family, size: str) -> str:
    bare = f"G {size}" if family is Family.BSPP else size
    bare = f"R {size}" if family is Family.BSPT else bare
    return show(End(family, bare, Gender.NONE))


def _of_thread(family: Family, thread: str) -> str:
    """Size of the family that has this thread; the thread itself where none has."""
    return next((o.size for o in made() if (o.family, o.thread) == (family, thread)), thread)


def _sixteenths(text: str) -> str:
    """Dash of a tube outside diameter in inches."""
    try:
        dash = inches(text) * 16
    except (ZeroDivisionError, ValueError):
        return text
    return f"-{dash}" if dash.denominator == 1 else text


def _refuse_odd_numbers(typed: str, said: Words, family: Family) -> None:
    """Refuse a number that means nothing for the family, rather than pass over it."""
    if family is Family.BUBBLE_FLARE and "tube" in said.names:
        return  # the tube's own size may stand beside its nut's thread
    for written, numbers in said.numbers_of().items():
        if numbers and written not in _WRITTEN[family] and len(said.all_numbers) > len(numbers):
            raise EndError(
                f'"{typed}": a {written} says nothing about this kind of end; it needs'
                f" {_WANTED.get(family, 'none')}. Leave the other number out."
            )


def _dashed(typed: str, said: Words, family: Family, gender: Gender) -> list[tuple[str, str]]:
    if said.metric:
        raise EndError(
            f'"{typed}": the threads of this family are in inches. A metric port with an O-ring is'
            ' written "M18x1.5 ISO 6149", with a washer "M18x1.5 flat face".'
        )
    found = [(size, "") for size in said.dash]
    found += [(f"-{number}", "") for number in said.numbers if "." not in number]
    found += [(_of_thread(family, _reduced(thread)), "") for thread in said.threads]
    is_sized = bool(found)
    for inch in said.inch:
        dash, by_thread = _sixteenths(inch), _by_diameter(family, inch)
        is_tube = dash in sizes(family) and "unf" not in said.names
        if by_thread and (not is_tube or is_sized) and "tube" not in said.names:
            remark = f"{inch} in read as the diameter of the thread"
            found.append((by_thread, "" if is_sized or "unf" in said.names else remark))
        elif by_thread not in ("", dash) and "tube" not in said.names:
            raise unsure(typed, tuple(End(family, size, gender) for size in (dash, by_thread)))
        else:
            remark = f"{inch} in read as tube outside diameter"
            found.append((dash, "" if "tube" in said.names else remark))
    return found


def _by_diameter(family: Family, inch: str) -> str:
    """Size of the family whose thread has this diameter; empty where none has."""
    head = _whole(inch)
    rows = (one for one in made() if one.family is family)
    return next((one.size for one in rows if one.thread.rpartition("-")[0] == head), "")


def _reduced(thread: str) -> str:
    """A thread as the tables write it: ``12/16-16`` is ``3/4-16``."""
    head, _, pitch = thread.rpartition("-")
    try:
        return f"{mixed(inches(head))}-{pitch}"
    except (ZeroDivisionError, ValueError):
        return thread


def _piped(typed: str, said: Words, family: Family) -> list[tuple[str, str]]:
    if said.dash and not (said.inch or said.threads or said.numbers):
        right = mixed(Fraction(-int(said.dash[0]), 16))
        raise EndError(
            f'"{typed}": pipe threads are written in inches, not as a dash. If a pipe size of'
            f' {said.dash[0]} sixteenths is meant, type "{_shown(family, right)}".'
        )
    found = []
    for size in [*said.inch, *said.numbers]:
        bare = _whole(size)
        found.append((bare, ""))
        one = find(family, bare)
        for tpi in said.tpi:
            if one is not None and one.tpi != tpi:
                raise _wrong_tpi(typed, family, bare, one.tpi, tpi)
    for thread in said.threads:
        head, _, tpi = _reduced(thread).rpartition("-")
        one = find(family, head)
        if one is not None and one.tpi != tpi:
            raise _wrong_tpi(typed, family, head, one.tpi, tpi)
        found.append((head, ""))
    return found


def _whole(size: str) -> str:
    try:
        return mixed(inches(size))
    except (ZeroDivisionError, ValueError):
        return size


def _wrong_tpi(typed: str, family: Family, size: str, right: str, wrong: str) -> EndError:
    return EndError(
        f'"{typed}": {_shown(family, size)} has {right} threads per inch, not {wrong}. Count the'
        " threads over at least five, or leave the number out."
    )


def _metric(typed: str, said: Words, family: Family, gender: Gender) -> list[tuple[str, str]]:
    found = []
    for diameter, pitch in said.metric:
        name = f"M{diameter}"
        rows = [one for one in made() if one.family is family and one.thread.split("x")[0] == name]
        if pitch or not rows:
            thread = f"{name}x{pitch}" if pitch else name
            size = next((one.size for one in rows if one.thread == thread), thread)
            found.append((size, ""))
        elif len(rows) == 1:
            note = f"pitch {rows[0].thread.split('x')[1]} mm taken, the only one made for {name}"
            found.append((rows[0].size, "" if family is Family.ISO6149 else note))
        else:
            raise unsure(
                typed,
                tuple(End(family, one.size, gender) for one in rows),
            )
    return found


def _threaded(typed: str, said: Words, family: Family, gender: Gender) -> list[tuple[str, str]]:
    """Sizes of families that are called by their thread: banjo bolts, filter mounts."""
    metric = _metric(typed, said, family, gender)
    found = metric + [(_reduced(thread), "") for thread in said.threads]
    if "bspp" in said.names:
        return [(f"G {_whole(inch)}", "") for inch in said.inch]
    return found + [(_by_diameter(family, inch) or inch, "") for inch in said.inch]


def _bored(typed: str, said: Words) -> list[tuple[str, str]]:
    found = []
    for mm in [*said.mm, *said.numbers]:
        found.append(_nominal(float(mm), f"{mm} mm", 0.2))
    for inch in said.inch:
        try:
            found.append(_nominal(float(inches(inch)) * 25.4, f"{inch} in", 0.36))
        except (ZeroDivisionError, ValueError):
            raise EndError(f'"{typed}": {inch} is not a number of inches.') from None
    for size, _ in found:
        if not _SMALLEST <= float(size) <= _LARGEST:
            raise EndError(
                f'"{typed}": {size} mm is no size of a hose; from {_SMALLEST:g} to {_LARGEST:g} mm'
                " can be. Check the unit."
            )
    return found


def _nominal(mm: float, text: str, reach: float) -> tuple[str, str]:
    """Whole or half millimetres that hose is sold in, where `mm` is within reach of them."""
    if abs(mm - round(mm)) <= reach:
        size = f"{round(mm)}"
    elif abs(2 * mm - round(2 * mm)) <= 0.2:
        size = plain(f"{round(2 * mm) / 2:.1f}")
    else:
        size = plain(f"{mm:.2f}")
    return size, "" if size == text.removesuffix(" mm") else f"{text} read as {size} mm"


def _tube(typed: str, said: Words) -> list[tuple[str, str]]:
    found = [(size, "") for size in said.dash]
    for inch in said.inch:
        dash = _sixteenths(inch)
        if not dash.startswith("-"):
            raise EndError(
                f'"{typed}": tube is made in sixteenths of an inch outside, e.g. "3/8 tube", or in'
                ' millimetres, e.g. "38 mm tube".'
            )
        found.append((dash, ""))
    return found + [(f"{size} mm", note) for size, note in _bored(typed, _only_mm(said))]


def _only_mm(said: Words) -> Words:
    return Words(mm=said.mm, numbers=said.numbers)


def _spigot(mm: str) -> str:
    """Size of the quick connector whose spigot measures about `mm`."""
    rows = [one for one in made() if one.family is Family.QC]
    one = min(rows, key=lambda row: abs(row.major * 1000 - float(mm)))
    return one.size if abs(one.major * 1000 - float(mm)) <= 0.3 else f"{mm} mm"
