# SPDX-License-Identifier: Apache-2.0
"""How the rows on lines, fittings, channels and air in the worked examples are computed."""

from collections.abc import Callable
from math import pi, radians, sin, sqrt
from typing import Any

from linewright.base.dimensions import (
    ATMOSPHERE,
    FOOT,
    GALLON_US,
    GRAVITY,
    INCH,
    POUND,
    POUND_FORCE,
    PSI,
    RANKINE,
)
from linewright.flow.drains import section, uniform_speed
from linewright.flow.fittings import (
    contraction_laminar,
    crane_factor,
    three_k,
    two_k,
)
from linewright.flow.friction import (
    churchill,
    colebrook,
    critical_seth_stahel,
    curved_mori_nakayama,
    curved_white,
)
from linewright.flow.gas import isothermal_flow, outlet_pressure, resistance
from linewright.flow.holes import from_kv, hole_bore, hole_flow, lasting_share
from linewright.flow.properties import AIR
from linewright.flow.tees import joining_branch, parting_run

Given = dict[str, Any]
Answers = dict[str, Callable[[Given], float]]

PER_FOOT3 = POUND / FOOT**3


def head(flow: float, bore: float, length: float, nu: float, rough: float, k: float = 0.0) -> float:
    """Head lost in a pipe. [m]"""
    speed = flow / (0.25 * pi * bore**2)
    factor = churchill(speed * bore / nu, rough / bore)[0]
    return (factor * length / bore + k) * speed**2 / (2.0 * GRAVITY)


def _f04(i: Given) -> float:
    lost = head(i["Q_m3s"], i["D_m"], i["L_m"], i["mu"] / i["rho"], 0.0)
    return lost * i["rho"] * GRAVITY / 1e3


def _f05(i: Given) -> float:
    # Laminar, so that the density, which the book does not give, falls out.
    mu, density = i["mu_lbf_s_ft2"] * POUND_FORCE / FOOT**2, 900.0
    lost = head(i["Q_ft3s"] * FOOT**3, i["D_in"] * INCH, i["L_ft"] * FOOT, mu / density, 0.0)
    return lost * density * GRAVITY / (POUND_FORCE / FOOT**2)


def _by_speed(i: Given) -> float:
    flow = i["V_ms"] * 0.25 * pi * i["D_m"] ** 2
    lost = head(flow, i["D_m"], i["L_m"], i["mu"] / i["rho"], i.get("roughness_m", 0.0))
    return lost * i["rho"] * GRAVITY / 1e3


def _f09(i: Given) -> float:
    low, high = 0.05, 1.0
    for _ in range(60):
        bore = 0.5 * (low + high)
        speed = uniform_speed(bore, i["hL_m"] / i["L_m"], i["nu"], i["roughness_m"])
        low, high = (bore, high) if speed * 0.25 * pi * bore**2 < i["Q_m3s"] else (low, bore)
    return bore


def _f10(i: Given) -> float:
    speed = uniform_speed(i["D_m"], i["hL_m"] / i["L_m"], i["nu"], i["roughness_m"])
    return speed * 0.25 * pi * i["D_m"] ** 2


def _f11(i: Given) -> float:
    nu = i["mu"] / i["rho"]
    return i["z2_m"] + head(i["Q_m3s"], i["D_m"], i["L_m"], nu, i["roughness_m"], i["sumK"])


def _plain(i: Given) -> float:
    return head(i["Q_m3s"], i["D_m"], i["L_m"], i["mu"] / i["rho"], i.get("roughness_m", 0.0))


def _f15(i: Given) -> float:
    mu, density, length = i["mu_cP"] * 1e-3, 850.0, 100.0 * FOOT
    flow = i["Q_gpm"] * GALLON_US / 60.0
    return head(flow, i["D_in"] * INCH, length, mu / density, 0.0) * density * GRAVITY / PSI


def _f16(i: Given) -> float:
    flow = i["Q_bbl_h"] * 42.0 * GALLON_US / 3600.0
    nu = i["mu_cP"] * 1e-3 / (i["rho_lbft3"] * PER_FOOT3)
    length, rough = i["L_mile"] * 5280.0 * FOOT, i["roughness_in"] * INCH
    return i["dz_ft"] + head(flow, i["D_in"] * INCH, length, nu, rough) / FOOT


def _f17(i: Given) -> float:
    flow, bore = i["Q_gpm"] * GALLON_US / 60.0, i["D_in"] * INCH
    nu = i["mu_cP"] * 1e-3 / (i["rho_lbft3"] * PER_FOOT3)
    small = i["Dcheck_in"] * INCH
    ratio = small / bore
    lift = 600.0 * crane_factor(small)
    # Reducers on both sides of the check valve, after Crane.
    check = (lift + ratio * (0.5 * (1.0 - ratio**2) + (1.0 - ratio**2) ** 2)) / ratio**4
    k = 1.0 + (8.0 + 4.0 * 30.0) * crane_factor(bore) + check
    lost = head(flow, bore, i["L_ft"] * FOOT, nu, i["roughness_in"] * INCH, k)
    return i["dz_ft"] + lost / FOOT


def _f19(i: Given, k: float = 0.0) -> float:
    slug = POUND * GRAVITY / FOOT
    density, bore = i["rho_slug_ft3"] * slug / FOOT**3, i["D_ft"] * FOOT
    nu = i["mu"] * POUND_FORCE / FOOT**2 / density
    flow = i["Q_ft3s"] * FOOT**3
    lost = head(flow, bore, i["L_ft"] * FOOT, nu, i["roughness_ft"] * FOOT, k)
    before, after = (flow / (0.25 * pi * d**2) for d in (bore, i["Dfaucet_in"] * INCH))
    up = i["dz_ft"] * FOOT + (after**2 - before**2) / (2.0 * GRAVITY)
    return (up + lost) * density * GRAVITY / PSI


def _f21(i: Given) -> float:
    bore, density = i["D_in"] * INCH, i["gamma_lbft3"] * PER_FOOT3
    k = 1.0 + i["Kentrance"] + i["n_elbows"] * i["Kelbow"]
    k += i["f"] * i["L_ft"] * FOOT / bore
    drop = i["h_inH2O"] * INCH * 999.0 * GRAVITY
    return hole_flow(bore, drop, density, 1.0 / sqrt(k)) / FOOT**3


def _f22(i: Given) -> float:
    # Entry, six standard elbows, the valve with tapers of 16 degrees to its seat, and exit.
    bore, factor = i["D_m"], i["f"]
    area = (i["seat_m"] / bore) ** 2
    taper = sin(radians(8.0)) * (0.8 * (1.0 - area) + 2.6 * (1.0 - area) ** 2)
    k = 0.78 + 6.0 * 30.0 * factor + (3.0 * factor + taper) / area**2 + 1.0
    k += factor * i["L_m"] / bore
    return hole_flow(bore, i["head_m"] * 1000.0 * GRAVITY, 1000.0, 1.0 / sqrt(k)) * 6e4


def _b10(i: Given) -> float:
    ratio = i["Do_in"] / i["D_in"]
    density = i["rho_lbft3"] * PER_FOOT3
    return hole_flow(i["Do_in"] * INCH, i["dP_Pa"], density, 0.61, ratio) / GALLON_US * 60.0


def _b11(i: Given) -> float:
    return hole_flow(i["Do_m"], i["dP_Pa"], i["rho"], 0.61, i["Do_m"] / i["D_m"]) * 6e4


def _b12(i: Given) -> float:
    drop = i["manometer_Hg_m"] * (13_600.0 - i["rho"]) * GRAVITY
    return hole_flow(i["Do_m"], drop, i["rho"], 0.61, i["Do_m"] / i["D_m"]) * 1e3


def _b13(i: Given) -> float:
    flow = hole_flow(i["D_in"] * INCH, i["dP_psi"] * PSI, i["SG"] * 1000.0, i["Cd"])
    return flow / GALLON_US * 60.0


def _b15(i: Given) -> float:
    bore, density = i["D_in"] * INCH, i["rho_lbft3"] * PER_FOOT3
    drop = i["dP_ftH2O"] * FOOT * density * GRAVITY
    flow = i["Q_gpm"] * GALLON_US / 60.0
    ratio = hole_bore(flow, drop, density, bore, 0.99) / bore
    return drop * lasting_share(ratio, 0.99) / PSI


def _kelvin(fahrenheit: float) -> float:
    return (fahrenheit + 459.67) * RANKINE


# Standard air of the American books: 14.7 psi and 60 F.
_STANDARD = ATMOSPHERE / (AIR * _kelvin(60.0))


def _g01(i: Given) -> float:
    flow = i["Q_scfm"] * FOOT**3 / 60.0 * _STANDARD
    bore, rough, inlet = i["D_in"] * INCH, i["roughness_in"] * INCH, i["P1_psig"] * PSI + ATMOSPHERE
    coefficient = resistance(flow, bore, i["L_ft"] * FOOT, rough, i["mu"])
    return (inlet - outlet_pressure(flow, inlet, _kelvin(i["T_F"]), bore, coefficient)) / PSI


def _g02(i: Given) -> float:
    bore, rough, inlet = i["D_in"] * INCH, i["roughness_in"] * INCH, i["P1_psig"] * PSI + ATMOSPHERE
    flow = 0.03
    for _ in range(30):
        coefficient = resistance(flow, bore, i["L_ft"] * FOOT, rough, 1.91e-5, 1.0)
        flow = isothermal_flow(inlet, ATMOSPHERE, _kelvin(i["T_F"]), bore, coefficient)
    return flow / _STANDARD / FOOT**3 * 3600.0


def _o01(i: Given) -> float:
    bore = i["D_in"] * INCH
    area, wide = section(bore, i["fill"])
    speed = uniform_speed(wide, i["slope"], 1.1e-6, i["eD"] * wide)
    return area * speed / GALLON_US * 60.0


def _o03(i: Given) -> float:
    width, height, length = (i[k] * FOOT for k in ("W_ft", "H_ft", "L_ft"))
    wide = 2.0 * width * height / (width + height)
    gradient = i["head_ft"] / i["L_ft"]
    k = (i["Kin"] + i["Kout"]) / length
    speed = uniform_speed(wide, gradient, 1.1e-6, i["roughness_ft"] * FOOT, k)
    return speed * width * height / FOOT**3


ANSWERS: Answers = {
    "F01": lambda i: churchill(
        4.0 * i["Q_m3s"] / (pi * i["D_m"] * i["nu_m2s"]), i["roughness_m"] / i["D_m"]
    )[0],
    "F02": lambda i: colebrook(i["Re"], i["eD"]),
    "F03": lambda i: churchill(i["Re"], i["eD"])[0],
    "F04": _f04,
    "F05": _f05,
    "F07": _by_speed,
    "F08": _by_speed,
    "F09": _f09,
    "F10": _f10,
    "F11": _f11,
    "F13": _plain,
    "F14": _plain,
    "F15": _f15,
    "F16": _f16,
    "F17": _f17,
    "F19": _f19,
    "F20": lambda i: _f19(i, i["sumK"]),
    "F21": _f21,
    "F22": _f22,
    "B01": lambda i: curved_white(i["Re"], i["Di_m"] / i["Dc_m"]),
    "B02": lambda i: curved_mori_nakayama(i["Re"], i["Di_m"] / i["Dc_m"]),
    "B03": lambda i: critical_seth_stahel(i["Di_m"] / i["Dc_m"]),
    "B04": lambda i: two_k(i["K1"], i["Kinf"], i["D_in"] * INCH).at(i["Re"]),
    "B05": lambda i: three_k(i["K1"], i["Ki"], i["Kd"], i["D_in"] * INCH).at(i["Re"]),
    "B06": lambda i: contraction_laminar(i["D1"], i["D2"], i["Re"]),
    "B07": lambda i: from_kv(i["Kv_m3h"], i["D_m"]),
    "B08": lambda i: joining_branch(
        i["Q_branch_m3s"] / (i["Q_branch_m3s"] + i["Q_run_m3s"]), i["angle_deg"]
    ),
    "B09": lambda i: parting_run(i["Q_branch_m3s"] / (i["Q_branch_m3s"] + i["Q_run_m3s"])),
    "B10": _b10,
    "B11": _b11,
    "B12": _b12,
    "B13": _b13,
    "B14": lambda i: hole_bore(i["Q_m3s"], i["dP_Pa"], i["rho"], i["D_m"], i["C"]) * 1e3,
    "B15": _b15,
    "G01": _g01,
    "G02": _g02,
    "O01": _o01,
    "O03": _o03,
}
