# SPDX-License-Identifier: Apache-2.0
"""Small plans made by hand for the tests of diagrams; all cars are invented."""

from collections.abc import Mapping, Sequence

from linewright.car.model import (
    Car,
    Closed,
    Component,
    Construction,
    Line,
    Medium,
    Place,
    Port,
    Role,
    System,
)
from linewright.checks.model import Checked
from linewright.joints.model import Joints
from linewright.plan.model import Plan
from linewright.routes.model import Routes
from linewright.scene.network import Link, Network, Node, Pin
from linewright.takeoff.model import Takeoff

_ROLES = {role.value: role for role in Role}

#: id -> (kind, system, "port/role port/role ...")
Parts = Mapping[str, tuple[str, str, str]]


def component(
    key: str,
    kind: str,
    system: str | None,
    ports: str,
    *,
    on: str | None = None,
    z: float | None = None,
) -> Component:
    """A component; a port without a role has none."""
    made = {}
    for word in ports.split():
        name, _, role = word.partition("/")
        made[name] = Port(f"{key}.{name}", key, name, role=_ROLES.get(role))
    place = None if z is None else Place((0.0, 0.0, z))
    return Component(key, kind, kind, system, place=place, on=on, ports=made)


def line(
    key: str, start: str, end: str, system: str, size: str = "-10", service: str = "pressure"
) -> Line:
    """A line of hose."""
    return Line(
        key, start, end, system, None, size, "rubber braided", Construction.HOSE, service=service
    )


def plan(
    name: str,
    systems: Sequence[System],
    components: Sequence[Component],
    lines: Sequence[Line],
    closed: Sequence[Closed] = (),
) -> Plan:
    """A plan that holds only a car."""
    car = Car(
        name,
        systems={s.id: s for s in systems},
        components={c.id: c for c in components},
        lines={one.id: one for one in lines},
        closed={c.what: c for c in closed},
        sha256="0123456789abcdef",
    )
    return Plan(car, Joints((), ()), Routes(()), Takeoff((), (), ()), Checked((), (), ()))


def roadster() -> Plan:
    """Remote filter, thermostat and cooler of a wet-sump engine."""
    return plan(
        "Club roadster",
        [System("oil", Medium.OIL, "10W-40")],
        [
            component("ENG", "engine", "oil", "filter"),
            component(
                "TOP", "filter take-off plate", "oil", "mount OUT/out IN/return", on="ENG.filter"
            ),
            component(
                "FH",
                "remote filter head",
                "oil",
                "in-L/in in-R/in out-L/out out-R/out gauge/sensor stud",
            ),
            component("CAN", "filter canister", "oil", "mount", on="FH.stud"),
            component(
                "TH",
                "oil thermostat",
                "oil",
                "engine-in/in engine-out/out cooler-out/out cooler-in/in",
            ),
            component("CO", "oil cooler", "oil", "in/in out/out"),
            component("PS", "pressure sensor", "oil", "mount", on="FH.gauge"),
            component("TS", "temperature sensor", "oil", "mount", on="FH.out-L"),
        ],
        [
            line("L1", "TOP.OUT", "FH.in-L", "oil"),
            line("L2", "FH.out-R", "TH.engine-in", "oil"),
            line("L3", "TH.cooler-out", "CO.in", "oil"),
            line("L4", "CO.out", "TH.cooler-in", "oil"),
            line("L5", "TH.engine-out", "TOP.IN", "oil"),
        ],
        [Closed("FH.in-R", "plug")],
    )


def e85() -> Plan:
    """Return-type fuel system with the cell in the boot."""
    f = "fuel"
    return plan(
        "E85 boot",
        [System(f, Medium.FUEL, "E85")],
        [
            component(
                "FC",
                "fuel cell",
                f,
                "pick-up/out return/return vent/vent drain/empty fill/fill",
                z=0.45,
            ),
            component("RV", "roll-over valve", f, "mount out/out", on="FC.vent", z=0.7),
            component("SF", "fuel strainer", f, "in/in out/out", z=0.3),
            component("FP", "fuel pump", f, "in/in out/out", z=0.28),
            component("FF", "fuel filter", f, "in/in out/out"),
            component("BH1", "bulkhead", f, "inside outside"),
            component("BH2", "bulkhead", f, "inside outside"),
            component("BH3", "bulkhead", f, "inside outside"),
            component("FR", "fuel rail", f, "in/in out/out"),
            component(
                "RG",
                "fuel regulator",
                f,
                "in-1/in in-2/in return/out gauge/sensor reference/sensor",
            ),
            component("MAN", "inlet manifold", f, "reference/sensor"),
            component("PS", "pressure sensor", f, "mount", on="RG.gauge"),
        ],
        [
            line("F01", "FC.pick-up", "SF.in", f, "-8", "suction"),
            line("F02", "SF.out", "FP.in", f, "-8", "suction"),
            line("F03", "FP.out", "FF.in", f, "-6"),
            line("F04", "FF.out", "BH1.inside", f, "-6"),
            line("F05", "BH1.outside", "FR.in", f, "-6"),
            line("F06", "FR.out", "RG.in-1", f, "-6"),
            line("F07", "RG.return", "BH2.outside", f, "-6", "return"),
            line("F08", "BH2.inside", "FC.return", f, "-6", "return"),
            line("F09", "RV.out", "BH3.inside", f, "-8", "vent"),
            line("R01", "MAN.reference", "RG.reference", f, "5 mm", "reference"),
        ],
        [
            Closed("FC.drain", "plug"),
            Closed("RG.in-2", "plug"),
            Closed("FC.fill", "cap"),
            Closed("BH3.outside", "open", "vent outlet"),
        ],
    )


_PAIR = """
tank:dry-sump tank:feed/out return/return vent/vent drain/empty
strain:strainer:in/in out/out
pump:dry-sump pump:p-in/in p-out/out s1-in/in s2-in/in s3-in/in s-out/out
filt:oil filter:in/in out/out
hx:heat exchanger:oil-in/in oil-out/out water-in/in water-out/out
oth:oil thermostat:in/in out/out cool-out/out cool-in/in
ocool:oil cooler:in/in out/out
eng:engine:oil-in/in scav-1/out scav-2/out breather/vent water-in/in water-out/out heat-out/out
turbo:turbo:oil-in/in oil-out/drain water-in/in water-out/out
jet:restrictor:in/in out/out
can:catch can:in-1/in in-2/in vent/vent drain/drain
accu:accumulator:port/in
tee:tee:in/in run/out branch/out
tee2:tee:in/in run/out branch/out
rad:radiator:in/in out/out bleed/vent
head:header tank:bleed-1/in bleed-2/in bleed-3/in feed/out overflow/out
wp:water pump:in/in out/out
ep:electric water pump:in/in out/out
wth:thermostat:in/in rad-out/out bypass/out
swirl:swirl pot:in/in out/out bleed/vent
heat:heater:in/in out/out
tap:valve:in/in out/out
over:overflow bottle:in/in
joint:tee:in/in side/in out/out
join2:tee:in/in side/in out/out
"""

_PAIR_LINES = """
tank.feed strain.in O
strain.out pump.p-in O
pump.p-out filt.in O
filt.out oth.in O
oth.out hx.oil-in O
oth.cool-out ocool.in O
ocool.out oth.cool-in O
hx.oil-out tee.in O
tee.run eng.oil-in O
tee.branch tee2.in O
tee2.run jet.in O
tee2.branch accu.port O
jet.out turbo.oil-in O
turbo.oil-out pump.s3-in D
eng.scav-1 pump.s1-in O
eng.scav-2 pump.s2-in O
pump.s-out tank.return O
tank.vent can.in-1 V
eng.breather can.in-2 V
can.drain tank.drain D
eng.water-out wth.in C
wth.rad-out swirl.in C
swirl.out rad.in C
rad.out joint.in C
wth.bypass joint.side C
joint.out join2.in C
join2.out wp.in C
wp.out hx.water-in C
hx.water-out eng.water-in C
head.feed join2.side C
rad.bleed head.bleed-1 V
swirl.bleed head.bleed-2 V
turbo.water-out head.bleed-3 V
eng.heat-out tap.in C
tap.out heat.in C
heat.out ep.in C
head.overflow over.in V
"""


def loop_pair() -> Network:
    """Coolant and dry-sump oil loops that share a heat exchanger: 25 components, 37 lines."""
    links = []
    for number, text in enumerate(_PAIR_LINES.split("\n")[1:-1], 1):
        start, end, letter = text.split()
        links.append(
            Link(f"{letter}{number:02}", start, end, letter, f"{letter}{number:02}", "-10")
        )
    into = {link.target: True for link in links} | {link.source: False for link in links}
    nodes = []
    for text in _PAIR.split("\n")[1:-1]:
        key, kind, ports = text.split(":")
        pins = []
        for word in ports.split():
            name, _, role = word.partition("/")
            port = f"{key}.{name}"
            linked = port in into
            pins.append(
                Pin(
                    port,
                    name,
                    _ROLES.get(role),
                    linked,
                    "" if linked else "plug",
                    flows_in=into.get(port),
                )
            )
        nodes.append(Node(key, kind, kind, tuple(pins)))
    return Network("pair", "O", "", tuple(nodes), tuple(links))
