# SPDX-License-Identifier: Apache-2.0
"""Ratings of hose: what the data has, what must be read on the print, what is exceeded."""

from collections.abc import Callable, Iterable, Iterator, Mapping

from linewright.base.errors import LinewrightError
from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Line, Medium, System
from linewright.checks.raising import raised
from linewright.joints.offered import setting
from linewright.tables import hoses, materials
from linewright.tables.hoses import HoseSize

#: Services whose hose holds no pressure to speak of.
_SLACK = ("vent", "reference", "drain")

#: What stands under the pressure of its cap and fills the pump by its own height.
_HEADERS = ("header tank", "swirl pot")

_READ_IT = "Read the print on the hose or its data sheet"


def check(car: Car) -> Iterator[Finding]:
    """Look at the ratings of every line's hose.

    Parameters
    ----------
    car : Car
        The car document as read.

    Yields
    ------
    Finding
        ``hose-bore``, ``hose-rating``, ``rating-missing``, ``rating-exceeded``,
        ``suction-rating``, ``hose-collapses``: each once for a system.
    """
    for system in sorted(car.systems.values(), key=lambda s: natural_key(s.id)):
        lines = sorted(
            (line for line in car.lines.values() if line.system == system.id),
            key=lambda line: natural_key(line.id),
        )
        sizes = {line.id: size for line in lines if (size := size_of(line)) is not None}
        yield from _bores(system, lines, sizes)
        if system.medium is Medium.FUEL:
            yield from _fuel(system, lines, sizes)
        else:
            yield from _suction(system, lines, sizes)
            yield from _missing(system, lines, sizes)
        yield from _exceeded(system, lines, sizes)
        yield from _collapsing(car, system, lines)


def size_of(line: Line) -> HoseSize | None:
    """Return what the data has of a line's hose in its size.

    Parameters
    ----------
    line : Line
        The line.

    Returns
    -------
    HoseSize or None
        None for hard tube and pipe, and where the data does not know the hose.
    """
    if line.construction in (Construction.TUBE, Construction.PIPE):
        return None
    try:
        return hoses.size(hoses.family(line.hose).key, line.size)
    except LinewrightError:
        return None


def _bores(
    system: System, lines: Iterable[Line], sizes: Mapping[str, HoseSize]
) -> Iterator[Finding]:
    """Hose that is sold in several bores under one dash."""
    several: dict[str, tuple[str, HoseSize]] = {}
    for line in lines:
        size = sizes.get(line.id)
        if size is not None and line.construction is Construction.HOSE and len(size.bores) > 1:
            several.setdefault(f"{line.size} {line.hose}", (line.id, size))
    if not several:
        return
    shown = "; ".join(
        f"{name}: {' or '.join(f'{b.value * 1000:.1f}' for b in size.bores)} mm"
        for name, (_, size) in several.items()
    )
    _, first = next(iter(several.values()))
    yield raised(
        "hose-bore",
        (system.id,),
        f"The hose of {system.id} is sold in several bores under one dash ({shown}).",
        f"{_READ_IT}, or measure its bore, and name the hose family that has it; flow and "
        "pressure loss rest on it.",
        system=system.id,
        value=" or ".join(f"{b.value * 1000:.1f} mm" for b in first.bores),
        source=hoses.cited(first.family, first.size, "bore_mm"),
        grade=Grade.PRACTICE,
    )


def _fuel(
    system: System, lines: Iterable[Line], sizes: Mapping[str, HoseSize]
) -> Iterator[Finding]:
    """Burst and temperature of fuel hose, unless they were read."""
    asked: dict[str, None] = {}
    suction: list[str] = []
    for line in lines:
        size = sizes.get(line.id)
        if size is None or line.service == "reference":
            continue
        if not all(f is not None and f.grade is Grade.READ for f in (size.burst, size.hottest)):
            asked[f"{line.size} {line.hose}"] = None
            if line.service == "suction" and not size.vacuum:
                suction.append(line.id)
    if not asked:
        return
    vacuum = f", and the vacuum rating for the suction side ({', '.join(suction)})"
    yield raised(
        "hose-rating",
        (system.id,),
        f"Burst pressure and temperature of the fuel hose of {system.id} ({', '.join(asked)}) are "
        "not read from the hose in hand.",
        f"{_READ_IT}: burst pressure, temperature range{vacuum if suction else ''}. One "
        "international rule asks for 70 bar burst at 135 °C; look up the book that binds you.",
        system=system.id,
        source="two-public-regulation-texts-derived-fia",
        grade=Grade.RELAYED,
    )


def _suction(
    system: System, lines: Iterable[Line], sizes: Mapping[str, HoseSize]
) -> Iterator[Finding]:
    unrated = [
        line.id
        for line in lines
        if line.service == "suction" and (size := sizes.get(line.id)) and not size.vacuum
    ]
    if unrated:
        yield raised(
            "suction-rating",
            (system.id,),
            f"The data has no vacuum figure for the hose of {', '.join(unrated)}, which is under "
            "suction.",
            f"{_READ_IT} for its vacuum rating at working temperature; a coil inside the hose "
            "keeps it open.",
            system=system.id,
        )


def _missing(
    system: System, lines: Iterable[Line], sizes: Mapping[str, HoseSize]
) -> Iterator[Finding]:
    """No working pressure in the data: it is never taken as enough."""
    unrated: dict[str, list[str]] = {}
    for line in lines:
        size = sizes.get(line.id)
        if size is not None and size.working is None and line.service not in _SLACK:
            unrated.setdefault(f"{line.size} {line.hose}", []).append(line.id)
    if not unrated:
        return
    shown = "; ".join(f"{name} ({', '.join(ids)})" for name, ids in unrated.items())
    highest = _in_bar(system.gauge_pressure.value) if system.gauge_pressure else None
    reached = f", which reaches {highest}" if highest else ""
    yield raised(
        "rating-missing",
        (system.id,),
        f"The data has no working pressure for the hose of {system.id}{reached}: {shown}.",
        f"{_READ_IT} for its working pressure at {system.id}'s temperature.",
        system=system.id,
        limit=highest,
    )


def _exceeded(
    system: System, lines: Iterable[Line], sizes: Mapping[str, HoseSize]
) -> Iterator[Finding]:
    """Hose that is rated, and rated for less."""
    by_hose: dict[tuple[str, str], list[Line]] = {}
    for line in lines:
        if line.id in sizes and line.service not in _SLACK:
            by_hose.setdefault((line.size, line.hose), []).append(line)
    for (dash, hose), mine in by_hose.items():
        size = sizes[mine[0].id]
        ids = tuple(line.id for line in mine)
        highest, working = system.gauge_pressure, size.working
        if highest is not None and working is not None and highest.value > working.value:
            source = hoses.cited(hose, dash, "max_working_bar").partition(";")[0]
            yield _beyond(system, ids, f"{dash} {hose}", hose, highest, working, _in_bar, source)
    hot: dict[str, list[Line]] = {}
    for line in lines:
        if line.id in sizes:
            hot.setdefault(line.hose, []).append(line)
    for hose, mine in hot.items():
        most, hottest = _hottest(system, mine[0], sizes[mine[0].id]), system.temperature
        if hottest is not None and most is not None and hottest.value > most.value:
            ids = tuple(line.id for line in mine)
            source = _source_of_hottest(system, mine[0])
            yield _beyond(system, ids, hose, hose, hottest, most, _in_celsius, source)


def _hottest(system: System, line: Line, size: HoseSize) -> Figure | None:
    """How hot a hose may get: by its own rows, else by what it is lined with."""
    if size.hottest is not None:
        return size.hottest
    made_of = materials.liner(hoses.family(line.hose).liner, system.medium.value, system.fluid)
    if made_of is None or made_of.hottest is None:
        return None
    return Figure(made_of.hottest, "K", made_of.grade, made_of.material)


def _source_of_hottest(system: System, line: Line) -> str:
    own = hoses.cited(hoses.family(line.hose).key, line.size, "temp_max_c")
    if own:
        return own.partition(";")[0]
    made_of = materials.liner(hoses.family(line.hose).liner, system.medium.value, system.fluid)
    return made_of.source if made_of is not None else "common practice"


def _in_bar(pressure: float) -> str:
    return f"{pressure / 1e5:.1f} bar"


def _in_celsius(temperature: float) -> str:
    return f"{temperature - 273.15:.0f} °C"


def _beyond(
    system: System,
    lines: tuple[str, ...],
    hose: str,
    family: str,
    value: Figure,
    limit: Figure,
    show: Callable[[float], str],
    source: str,
) -> Finding:
    """A stop; an ask where the family stands for several hoses with ratings of their own."""
    is_several = bool(hoses.family(family).others)
    doubt = " Hose sold under that name differs in this." if is_several else ""
    return raised(
        "rating-exceeded",
        (system.id, *lines),
        f"{hose} hose is rated {show(limit.value)} in the data, and {system.id} reaches "
        f"{show(value.value)} ({', '.join(lines)}).{doubt}",
        f"{_READ_IT}, and take one that is rated for it; a fire sleeve does not raise a "
        "hose's own limit.",
        severity=Severity.ASK if is_several else Severity.STOP,
        system=system.id,
        value=show(value.value),
        limit=show(limit.value),
        measure=value.value,
        source=source,
        grade=limit.grade,
    )


def _collapsing(car: Car, system: System, lines: Iterable[Line]) -> Iterator[Finding]:
    """Soft clamped hose under suction: lengths over 18 in tend to collapse."""
    if system.medium is Medium.AIR:
        return
    # The rule speaks of hose that draws from a tank; in a loop under its cap's pressure it
    # depends on the pump, so it is asked.
    is_loop = system.medium in (Medium.COOLANT, Medium.CHARGE_COOLANT)
    limit = setting(car, "hose-collapse-length")
    for line in lines:
        is_soft = line.construction is Construction.CLAMPED and line.service == "suction"
        if not is_soft or line.string is None or line.string.value <= limit.value:
            continue
        if (size := size_of(line)) is not None and size.vacuum:
            continue
        start = car.components.get(line.from_port.partition(".")[0])
        if is_loop and start is not None and start.kind in _HEADERS:
            continue
        yield raised(
            "hose-collapses",
            (line.id,),
            f"{line.id} is {line.string.value * 1000:.0f} mm of soft clamped hose under suction; "
            f"over {limit.value * 1000:.0f} mm such hose tends to collapse.",
            "Take hose with a vacuum rating or a coil inside, or hard tube with short joints.",
            severity=Severity.ASK if is_loop else Severity.STOP,
            system=system.id,
            value=f"{line.string.value * 1000:.0f} mm",
            limit=f"{limit.value * 1000:.0f} mm",
            measure=line.string.value,
            source="mil-dtl-6000d-6-1",
            grade=limit.grade,
        )
