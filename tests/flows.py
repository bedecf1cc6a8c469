# SPDX-License-Identifier: Apache-2.0
"""Results of flow made by hand, for the tests of what is shown of them; the car is Juniper.

None of the figures is computed: they are there to be printed, drawn and written down.
"""

from functools import cache
from math import exp

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car
from linewright.car.read import read
from linewright.flow.model import (
    Assumed,
    Band,
    Flows,
    Limiting,
    LineState,
    Loss,
    Margin,
    PortState,
    PumpCurve,
    Reading,
    Series,
    SizeRow,
    Sway,
    SystemState,
    Verdict,
    Walk,
    WalkStep,
)
from tests.expected import ROOT

BAR, KELVIN = 1e5, 273.15


@cache
def juniper() -> Car:
    """The demo car as read."""
    return read(ROOT / "examples" / "juniper" / "car.toml")


def band(value: float, share: float = 0.1) -> Band:
    """A value with a share to each side."""
    return Band(value, value - abs(value) * share, value + abs(value) * share)


def sure(value: float) -> Band:
    """A value without a band."""
    return Band(value, value, value)


#: What a walk from pump to pump passes: words, ids, and the change of pressure. [bar]
_WALK = (
    ("hose end", ("O02",), -0.03),
    ("hose -12", ("O02",), -0.11),
    ("filter element", ("oil-filter",), -0.45),
    ("hose -12", ("O03",), -0.16),
    ("thermostat", ("oil-thermostat",), -0.12),
    ("hose -12", ("O04",), -0.31),
    ("hose end 90°", ("O04",), -0.06),
    ("cooler core", ("oil-cooler",), -0.62),
    ("hose -12", ("O05",), -0.31),
    ("thermostat", ("oil-thermostat",), -0.12),
    ("hose -12", ("O06",), -0.14),
    ("bearings and galleries", ("ENG",), -3.85),
    ("scavenge and tank", ("oil-tank",), 0.0),
    ("height of the tank", ("oil-tank",), 0.02),
    ("entry", ("oil-tank",), -0.02),
    ("hose -16", ("O01",), -0.24),
    ("hose end 45°", ("O01",), -0.06),
)


def _walk() -> Walk:
    pressure = 7.18
    steps = [WalkStep("pump outlet", ("oil-pump",), band(pressure * BAR, 0.05))]
    for what, where, change in _WALK:
        if what == "scavenge and tank":
            pressure = 1.013
        pressure += change
        steps.append(WalkStep(what, where, band(pressure * BAR, 0.05)))
    return Walk("pressure stage", tuple(steps))


def _oil_lines(flow: float) -> dict[str, LineState]:
    lines = {}
    for number, (name, drop) in enumerate(
        (("O01", 0.30), ("O02", 0.14), ("O03", 0.16), ("O04", 0.37), ("O05", 0.31), ("O06", 0.14))
    ):
        losses = (
            Loss("hose", (name,), band(0.8 * drop * BAR, 0.2), 0.8),
            Loss("hose end", (f"{name}.A.1",), band(0.2 * drop * BAR, 0.3), 0.2),
        )
        lines[name] = LineState(
            name,
            band(flow, 0.15),
            band(drop * BAR, 0.22),
            3.55 if name == "O01" else 6.9,
            4300.0 if number < 2 else 5200.0,
            is_between=name == "O03",
            losses=losses,
            density=815.0,
        )
    lines["O12"] = LineState(
        "O12", band(0.03, 0.2), band(1.1 * BAR, 0.3), 1.9, 800.0, is_between=False, density=815.0
    )
    return lines


def _ports(lines: dict[str, LineState], car: Car, start: float) -> dict[str, PortState]:
    found = {}
    pressure = start
    for name, state in lines.items():
        line = car.lines[name]
        flow = state.flow
        out = Band(-flow.value, -flow.high, -flow.low)
        found[line.from_port] = PortState(line.from_port, out, band(pressure, 0.05), sure(373.15))
        pressure = 0.62 * BAR if name == "O01" else pressure - state.drop.value
        at_b = band(pressure, 0.18 if name == "O01" else 0.05)
        found[line.to_port] = PortState(line.to_port, flow, at_b, band(373.15, 0.01))
        pressure = 7.18 * BAR if name == "O01" else pressure
    return found


def _limit(value: float, unit: str, basis: str = "") -> Figure:
    return Figure(value, unit, Grade.PRACTICE, basis)


def _oil(car: Car) -> SystemState:
    lines = _oil_lines(82.5 / 60000 * 815)
    flows = tuple(i * 2e-4 for i in range(10))
    takes = tuple(4.2e5 * (f / 13.75e-4) ** 1.75 for f in flows)
    return SystemState(
        "oil",
        "full-power",
        ports=_ports(lines, car, 1.0 * BAR),
        lines=lines,
        heat={"ENG": band(24e3, 0.4), "oil-cooler": band(-21e3, 0.4)},
        margins=(
            Margin(
                "gallery pressure",
                "ENG.oil-feed",
                band(3.84 * BAR, 0.126),
                _limit(3.19 * BAR, "Pa"),
                "Pa",
                True,
                Verdict.MET,
                "the oil pressure",
            ),
            Margin(
                "pump inlet",
                "oil-pump.inlet",
                Band(0.62 * BAR, 0.50 * BAR, 0.74 * BAR),
                _limit(0.85 * BAR, "Pa"),
                "Pa",
                True,
                Verdict.NOT_MET,
                "the pressure at the inlet",
            ),
            Margin(
                "oil temperature",
                "oil-tank",
                Band(385.0, 376.0, 396.0),
                _limit(393.15, "K"),
                "K",
                False,
                Verdict.UNSURE,
                "the heat that the oil cooler takes",
            ),
        ),
        limiting=Limiting("O01", 0.63, "pump inlet", "-16", "-20", 0.62e5, 0.9e5, "Pa"),
        series=(
            Series(
                "oil temperature",
                "oil-tank",
                "K",
                tuple(float(t) for t in range(0, 1801, 30)),
                tuple(363.0 + 32 * (1 - exp(-t / 420)) for t in range(0, 1801, 30)),
            ),
            Series(
                "oil temperature",
                "ENG.oil-feed",
                "K",
                tuple(float(t) for t in range(0, 1801, 30)),
                tuple(358.0 + 24 * (1 - exp(-t / 380)) for t in range(0, 1801, 30)),
            ),
            Series(
                "coolant temperature",
                "radiator.in",
                "K",
                tuple(float(t) for t in range(0, 1801, 30)),
                tuple(358.0 + 25 * (1 - exp(-t / 120)) for t in range(0, 1801, 30)),
            ),
        ),
        pumps=(
            PumpCurve(
                "oil-pump",
                flows,
                tuple(max(0.0, 9.2e5 - f * 3.64e8) for f in flows),
                takes,
                Band(13.75e-4, 13.0e-4, 14.4e-4),
                Band(4.2e5, 3.6e5, 4.9e5),
                tuple(t * 0.8 for t in takes),
                tuple(t * 1.25 for t in takes),
            ),
        ),
        walks=(_walk(),),
    )


def _idle(car: Car) -> SystemState:
    lines = _oil_lines(9.5 / 60000 * 820)
    return SystemState(
        "oil",
        "hot-idle",
        ports=_ports(lines, car, 1.0 * BAR),
        lines=lines,
        margins=(
            Margin(
                "pump inlet",
                "oil-pump.inlet",
                Band(0.97 * BAR, 0.95 * BAR, 0.99 * BAR),
                _limit(0.85 * BAR, "Pa"),
                "Pa",
                True,
                Verdict.MET,
            ),
        ),
    )


def _sizes() -> tuple[SizeRow, ...]:
    rows = []
    for size, bore, drop, velocity, volume, mass, price in (
        ("-12", 0.0173, 0.93, 5.9, 0.00079, 1.9, 1.7),
        ("-16", 0.0222, 0.30, 3.6, 0.00130, 2.6, 2.4),
        ("-20", 0.0286, 0.09, 2.1, 0.00215, 3.6, 3.3),
    ):
        rows.append(
            SizeRow(
                "O01",
                size,
                "rubber braided",
                "full-power",
                bore,
                None if size == "-12" else band(drop * BAR, 0.2),
                velocity,
                volume,
                mass,
                price,
                size == "-16",
                {
                    "-12": "the pump would draw a vacuum",
                    "-16": "typed; misses the pump inlet",
                    "-20": "the smallest that meets the pump inlet",
                }[size],
            )
        )
    return tuple(rows)


def _readings() -> tuple[Reading, ...]:
    found = []
    for condition, pressure, temperature in (
        ("prime", 1.5, 288.0),
        ("hot-idle", 2.4, 368.0),
        ("full-power", 5.85, 382.0),
    ):
        found += [
            Reading(
                "oil-pressure",
                "ENG.oil-pressure",
                condition,
                "pressure",
                band((pressure - 1.013) * BAR, 0.2),
                "Pa",
            ),
            Reading(
                "oil-temperature",
                "ENG.oil-temperature",
                condition,
                "temperature",
                Band(temperature, temperature - 6, temperature + 8),
                "K",
            ),
        ]
    return tuple(found)


_ASSUMED = (
    Assumed(
        "ENG",
        "oil demand at full power",
        Figure(13.75e-4, "m3/s", Grade.PRACTICE, "0.25 L/min per kW", 8.3e-4, 22e-4),
        "displacement and ratio of the oil pump",
    ),
    Assumed(
        "oil-filter",
        "drop of a clean element",
        Figure(0.3 * BAR, "Pa diff", Grade.PRACTICE, "", 0.15 * BAR, 0.6 * BAR),
        'rated-drop = "0.3 bar" and rated-flow on the filter',
    ),
    Assumed(
        "oil-cooler",
        "heat at its test point",
        Figure(18e3, "W", Grade.PRACTICE, "", 12e3, 25e3),
        "the heat of the cooler at one test point",
    ),
)


@cache
def flows() -> Flows:
    """Juniper's oil at hot idle and at full power, with all that a result can hold."""
    car = juniper()
    return Flows(
        states=(_oil(car), _idle(car)),
        sizes=_sizes(),
        readings=_readings(),
        assumed=_ASSUMED,
        findings=(
            Finding(
                "pump-inlet-low",
                Severity.WARN,
                ("oil-pump.inlet",),
                "The pump inlet is at 0.62 bar absolute.",
                "Take the suction hose in -20.",
                value="0.62 bar absolute",
                limit="0.85 bar absolute",
                system="oil",
            ),
        ),
        sways=(
            Sway("oil-pressure", "hot-idle", "ENG", "oil demand at full power", -0.35 * BAR),
            Sway("oil-pressure", "hot-idle", "oil-filter", "drop of a clean element", -0.04 * BAR),
        ),
    )
