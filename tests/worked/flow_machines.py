# SPDX-License-Identifier: Apache-2.0
"""How the rows on pumps, heat, engines and fluids in the worked examples are computed."""

from math import pi
from typing import Any

from linewright.base.dimensions import (
    FOOT,
    GALLON_US,
    GRAVITY,
    HORSEPOWER,
    INCH,
    POUND,
    POUND_FORCE,
    PSI,
    RANKINE,
)
from linewright.base.evidence import Figure, Grade
from linewright.flow.curves import Curve, Scale
from linewright.flow.demand import compressed, fuel_flow, swept_air
from linewright.flow.exchangers import (
    Arrangement,
    Side,
    from_effectiveness,
    log_mean,
    transfer_units,
    tube_coefficient,
)
from linewright.flow.fluids import coolant, fuel, oil, oil_of, water
from linewright.flow.properties import AIR, Fluid
from linewright.flow.pumps import (
    at_speed,
    gear_displacement,
    overall_efficiency,
    spring_relief,
    suction_head,
    throttling_heat,
)
from linewright.flow.soak import Mass, Tie, course
from tests.worked.flow_lines import Answers, Given

GPM = GALLON_US / 60.0


def _celsius(i: Given) -> float:
    return float(i["T_C"]) + 273.15


def _fahrenheit(i: Given) -> float:
    return (float(i["T_F"]) + 459.67) * RANKINE


def _p04(i: Given) -> float:
    speed = i["Q_ft3s"] / (0.25 * pi * (i["D_in"] / 12.0) ** 2) * FOOT
    density = i["gamma"] * POUND / FOOT**3
    vapour = water().vapour_pressure(_fahrenheit(i))
    lost = i["K"] * speed**2 / (2.0 * GRAVITY)
    there = suction_head(i["patm_psi"] * PSI, vapour, density, 0.0, lost)
    return there / FOOT - float(i["NPSHr_ft"])


def _p06(i: Given) -> float:
    turn = gear_displacement(i["Do_mm"] / 1e3, i["Di_mm"] / 1e3, i["width_mm"] / 1e3)
    return turn * i["eta_v"] * float(i["rpm"]) * 1e3


def _p07(i: Given) -> float:
    torque = i["T_inlb"] * POUND_FORCE * INCH
    speed = i["rpm"] * 2.0 * pi / 60.0
    return 100.0 * overall_efficiency(i["Q_gpm"] * GPM, i["p_psi"] * PSI, torque, speed)


def _relief(i: Given) -> tuple[float, float]:
    rate = i["spring_lb_in"] * POUND_FORCE / INCH
    preload, lift = i["preload_in"] * INCH, i.get("lift_in", 0.0) * INCH
    opens, full = spring_relief(i["area_in2"] * INCH**2, rate, preload, lift)
    return opens / PSI, full / PSI


def _h01(i: Given) -> float:
    reynolds = 4.0 * i["mc"] / (pi * i["Di"] * i["mu_c"])
    inside = tube_coefficient(reynolds, i["Pr_c"], is_heated=True) * i["k_c"] / i["Di"]
    outside = i["Nu_o"] * i["k_h"] / (i["Do"] - i["Di"])
    heat = i["mh"] * i["cph"] * (i["Thi"] - i["Tho"])
    leaving = i["Tci"] + heat / (i["mc"] * i["cpc"])
    apart = log_mean(i["Thi"] - leaving, i["Tho"] - i["Tci"])
    return float(heat / (pi * i["Di"] * apart) * (1.0 / inside + 1.0 / outside))


def _h02(i: Given) -> float:
    cold = Side(i["mc"], i["cpc"], i["Tci"], 0.8)
    heat = cold.rate * (i["Tco"] - i["Tci"])
    hot = heat / (i["Thi"] - i["Tho"])
    low, high = sorted((cold.rate, hot))
    reached = heat / (low * (i["Thi"] - i["Tci"]))
    return transfer_units(Arrangement.CROSS, reached, low / high) * low / float(i["U"])


def _h05(i: Given) -> float:
    apart = log_mean(i["Thi"] - i["Tco"], i["Tho"] - i["Tci"])
    return float(i["Q_W"] / (i["n"] * pi * i["Di"] * i["L"] * i["F"] * apart))


def _h06(i: Given) -> float:
    cold, hot = i["mc"] * i["cpc"], i["mh"] * i["cph"]
    reached = cold * (i["Tco"] - i["Tci"]) / (min(cold, hot) * (i["Thi"] - i["Tci"]))
    return transfer_units(Arrangement.COUNTER, reached, min(cold, hot) / max(cold, hot))


def _h08(i: Given) -> float:
    one = (i["m"], i["cp"])
    hot, cold = Side(*one, i["Thi"], 0.8), Side(*one, i["Tci"], 0.8)
    figure = Figure(i["eff"], "-", Grade.STATED)
    core = from_effectiveness(figure, Arrangement.COUNTER, hot, cold, 0.5)
    return core.heat((*one, i["Thi"]), (*one, i["Tci"])) / 1e3


def _h09(i: Given) -> float:
    low, high = 0.0, 60.0
    for _ in range(60):
        time = 0.5 * (low + high)
        bead = course(
            [Mass("bead", i["tau_s"], i["Ti"])],
            [Tie("bead", "gas", 1.0)],
            {"gas": i["Tinf"]},
            [time],
        )
        low, high = (time, high) if bead.of("bead")[0] < i["T"] else (low, time)
    return time


def _h10(i: Given) -> float:
    reynolds = 4.0 * i["m"] / (pi * i["D"] * i["mu"])
    inside = tube_coefficient(reynolds, i["Pr"], is_heated=False) * i["k"] / i["D"]
    return float((i["To"] - i["Tsurr"]) / (1.0 / inside + 1.0 / i["ho"]))


def _charge(i: Given) -> tuple[float, float]:
    hot = compressed(i["T1"], i["p2"] / i["p1"], i["eta_is"])
    # The book counts filling by the air before the compressor.
    density = i["p1"] * 1e5 / (AIR * i["T1"])
    return swept_air(i["Vs_m3"], i["rpm"] / 60.0, i["eta_v"], density), hot


def _t01(i: Given) -> float:
    air, hot = _charge(i)
    return air * i["cp"] * (hot - float(i["T_after_K"]))


def _t02(i: Given) -> float:
    air, hot = _charge(i)
    return air * i["cp"] * (hot - i["T1"]) / float(i["eta_m"])


def _t03(i: Given) -> float:
    power = i["W_N"] * i["arm_m"] * i["rpm"] * 2.0 * pi / 60.0
    burnt = i["fuel_L_h"] * i["SG"] / 3600.0
    return burnt / fuel_flow(power, 1.0 / 3.6e6)


def _t04(i: Given) -> float:
    given = i["mw_kg_min"] * 60.0 * water().heat_capacity(313.15) * i["dT"]
    return 100.0 * given / (i["fuel_kg_h"] * float(i["LHV_kJ"]) * 1e3)


def _v03(i: Given) -> float:
    ends = (i["T1_K"], i["T2_K"])
    return Curve(ends, (i["v1"] * 1e-6, i["v2"] * 1e-6), Scale.WALTHER)(i["T_K"]) * 1e6


def _mu(fluid: Fluid, temperature: float) -> float:
    return fluid.viscosity(temperature) * fluid.density(temperature)


def _half(_: Any = None) -> Fluid:
    return coolant(0.5)


_SI = 1e6
ANSWERS: Answers = {
    "P01": lambda i: at_speed(i["Q1_gpm"], 0.0, 0.0, i["n2"] / i["n1"])[0],
    "P02": lambda i: at_speed(0.0, i["H1_ft"], 0.0, i["n2"] / i["n1"])[1],
    "P03": lambda i: at_speed(0.0, 0.0, i["P1_hp"], i["n2"] / i["n1"])[2],
    "P04": _p04,
    "P06": _p06,
    "P07": _p07,
    "P08": lambda i: _relief(i)[0],
    "P09": lambda i: _relief(i)[1],
    "P10": lambda i: throttling_heat(i["p_psi"] * PSI, i["Q_gpm"] * GPM) / HORSEPOWER,
    "H01": _h01,
    "H02": _h02,
    "H04": lambda i: Side(i["m"], i["cp"], 0.0, 0.8).rate * (i["Thi"] - i["Tho"]) / 1e3,
    "H05": _h05,
    "H06": _h06,
    "H08": _h08,
    "H09": _h09,
    "H10": _h10,
    "T01": _t01,
    "T02": _t02,
    "T03": _t03,
    "T04": _t04,
    "V01": lambda i: oil_of(i["v1"] / _SI, i["v2"] / _SI, 860.0).viscosity(_celsius(i)) * _SI,
    "V03": _v03,
    "V04": lambda i: _mu(oil("handbook"), i["T_K"]),
    "V05": lambda i: _half().density(_celsius(i)),
    "V06": lambda i: _half().density(_celsius(i)),
    "V07": lambda i: _half().heat_capacity(_celsius(i)),
    "V08": lambda i: _mu(_half(), _celsius(i)) * 1e3,
    "V09": lambda i: _mu(_half(), _celsius(i)) * 1e3,
    "V10": lambda i: _half().conductivity(_celsius(i)),
    "V11": lambda i: _half().boils_at(i["P_Pa"]) - 273.15,
    "V12": lambda i: _half().boils_at(i["P_Pa"]) - 273.15,
    "V13": lambda i: fuel("ethanol").density(_fahrenheit(i)) * GALLON_US / POUND,
    "V14": lambda i: fuel("methanol").density(_fahrenheit(i)) * GALLON_US / POUND,
    "V15": lambda i: fuel("ethanol").vapour_pressure(_fahrenheit(i)) / PSI,
    "V16": lambda i: fuel("methanol").vapour_pressure(_fahrenheit(i)) / PSI,
    "V17": lambda i: fuel(i["fluid"]).viscosity(_fahrenheit(i)) * _SI,
    "V18": lambda i: fuel(i["fluid"]).viscosity(_fahrenheit(i)) * _SI,
    "V19": lambda i: water().vapour_pressure(_fahrenheit(i)) / PSI,
    "V20": lambda i: fuel("methanol").viscosity(_fahrenheit(i)) * _SI,
    "V21": lambda i: fuel("ethanol").viscosity(_fahrenheit(i)) * _SI,
}
