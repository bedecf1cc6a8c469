# SPDX-License-Identifier: Apache-2.0
"""Exact definitions, and the spellings of units that are read."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

INCH = 0.0254  # m, exact by definition
FOOT = 12 * INCH
POUND = 0.45359237  # kg, exact by definition
GRAVITY = 9.80665  # m/s2, standard, exact by definition
POUND_FORCE = POUND * GRAVITY
LITRE = 1e-3
GALLON_US = 231 * INCH**3
GALLON_IMPERIAL = 4.54609e-3  # m3, exact by definition
MINUTE = 60.0
HOUR = 3600.0
BAR = 1e5
PSI = POUND_FORCE / INCH**2
ATMOSPHERE = 101325.0  # Pa, standard, exact by definition
ZERO_CELSIUS = 273.15
RANKINE = 5 / 9
HORSEPOWER = 550 * FOOT * POUND_FORCE  # 745.7 W
METRIC_HORSEPOWER = 75 * GRAVITY  # 735.5 W
DEGREE = math.pi / 180

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Dimension:
    """One kind of quantity: the spellings it takes and where sense ends."""

    noun: str
    units: Mapping[str, float]
    allowed: str  # spellings named in messages
    example: str
    most: float  # beyond it a typing error is certain
    most_shown: str
    is_signed: bool = False


LENGTHS = {
    "mm": 1e-3,
    "µm": 1e-6,
    "um": 1e-6,
    "cm": 1e-2,
    "m": 1.0,
    "in": INCH,
    "inch": INCH,
    "inches": INCH,
    '"': INCH,
    "″": INCH,
    "ft": FOOT,
    "'": FOOT,
    "′": FOOT,
}
_VOLUMES = {
    "L": LITRE,
    "l": LITRE,
    "mL": 1e-6,
    "ml": 1e-6,
    "cm3": 1e-6,
    "cc": 1e-6,
    "m3": 1.0,
    "US gal": GALLON_US,
    "imp gal": GALLON_IMPERIAL,
}
_FLOWS = {
    "L/min": LITRE / MINUTE,
    "l/min": LITRE / MINUTE,
    "lpm": LITRE / MINUTE,
    "L/h": LITRE / HOUR,
    "l/h": LITRE / HOUR,
    "L/s": LITRE,
    "m3/s": 1.0,
    "m3/h": 1 / HOUR,
    "gpm": GALLON_US / MINUTE,
    "US gal/min": GALLON_US / MINUTE,
    "gph": GALLON_US / HOUR,  # as fuel pumps are sold
    "imp gal/min": GALLON_IMPERIAL / MINUTE,
}
_PRESSURES = {"bar": BAR, "mbar": 100.0, "Pa": 1.0, "kPa": 1e3, "MPa": 1e6, "psi": PSI}
_GAUGE = {"psig": PSI, "bar g": BAR, "bar gauge": BAR, "kPa g": 1e3}
ABSOLUTE = {"psia": PSI, "bar abs": BAR, "mbar abs": 100.0, "kPa abs": 1e3}
_POWERS = {"W": 1.0, "kW": 1e3, "hp": HORSEPOWER, "PS": METRIC_HORSEPOWER}
_POUND_FOOT = POUND_FORCE * FOOT
_TORQUES = {
    **dict.fromkeys(("N m", "Nm", "N·m"), 1.0),
    **dict.fromkeys(("lb-ft", "lb ft", "ft-lb", "ft lb", "lbf ft", "lbf-ft"), _POUND_FOOT),
    **dict.fromkeys(("lb-in", "in-lb", "lb in", "in lb", "lbf in"), POUND_FORCE * INCH),
}
_MASSES = {"kg": 1.0, "g": 1e-3, "t": 1e3, "lb": POUND, "lbs": POUND}
_ANGLES = {"°": DEGREE, "deg": DEGREE, "degrees": DEGREE, "": DEGREE}
TEMPERATURES = {
    **dict.fromkeys(("°C", "degC", "C"), (1.0, ZERO_CELSIUS)),
    **dict.fromkeys(("°F", "degF", "F"), (RANKINE, ZERO_CELSIUS - 32 * RANKINE)),
    "K": (1.0, 0.0),
}

LENGTH = Dimension("length", LENGTHS, 'mm, cm, m, in, ft, "16 ft 3 in"', "700 mm", 100.0, "100 m")
POSITION = Dimension(
    "length", LENGTHS, 'mm, cm, m, in, ft, "16 ft 3 in"', "-410 mm", 100.0, "100 m", True
)
VOLUME = Dimension("volume", _VOLUMES, "L, mL, US gal, imp gal", "12 L", 10.0, "10,000 L")
FLOW = Dimension(
    "flow", _FLOWS, "L/min, L/h, gpm or gph (US), imp gal/min", "40 L/min", 0.1, "6,000 L/min"
)
PRESSURE = Dimension(
    "pressure",
    {**_PRESSURES, **_GAUGE, **ABSOLUTE},
    "bar, kPa, psi (gauge), bar abs, psia",
    "5 bar",
    2e8,
    "2,000 bar",
    True,
)
DIFFERENCE = Dimension(
    "pressure difference", _PRESSURES, "bar, mbar, kPa, psi", "0.3 bar", 2e8, "2,000 bar"
)
POWER = Dimension("power", _POWERS, "kW, W, hp, PS", "330 kW", 1e7, "10,000 kW")
TORQUE = Dimension("torque", _TORQUES, "N m, lb-ft, lb-in", "27 N m", 1e5, "100,000 N m")
SPEED = Dimension(
    "speed",
    {"m/s": 1.0, "km/h": 1 / 3.6, "ft/s": FOOT},
    "m/s, km/h, ft/s",
    "1.2 m/s",
    1000.0,
    "1,000 m/s",
)
MASS = Dimension("mass", _MASSES, "kg, g, lb", "2.5 kg", 5e4, "50,000 kg")
ANGLE = Dimension("angle", _ANGLES, "degrees", "20°", 2 * math.pi * (1 + 1e-12), "360°", True)
PERCENT = Dimension("share", {"%": 0.01, "percent": 0.01}, "%", "6 %", 10.0, "1,000 %")
TURNING = Dimension(
    "speed of turning",
    {"rpm": 2 * math.pi / MINUTE, "1/min": 2 * math.pi / MINUTE, "rad/s": 1.0},
    "rpm, 1/min, rad/s",
    "6500 rpm",
    1e5,
    "955,000 rpm",
)
VOLTAGE = Dimension("voltage", {"V": 1.0}, "V", "13.5 V", 1000.0, "1,000 V")
TIME = Dimension(
    "time",
    {"s": 1.0, "min": MINUTE, "h": HOUR},
    "s, min, h",
    "30 min",
    30 * 24 * HOUR,
    "720 h",
)
HEIGHT = Dimension(
    "height", {"m": 1.0, "km": 1e3, "ft": FOOT}, "m, km, ft", "1500 m", 9000.0, "9,000 m", True
)
