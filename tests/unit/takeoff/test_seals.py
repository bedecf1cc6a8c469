# SPDX-License-Identifier: Apache-2.0
"""Seals with size and material, clamps by the outside of the hose, small hardware."""

from dataclasses import replace

import pytest

from linewright.base.evidence import Figure, Grade, Known
from linewright.base.finding import Severity
from linewright.car.model import Car, Component, Construction, Line, Medium, Port, System
from linewright.catalogue.part import Part
from linewright.ends.end import End, Family, Gender
from linewright.ends.mating import Mating, SealNeed
from linewright.joints.model import Chain, Fit, Joints, Mated, Termination
from linewright.routes.lengths import lay
from linewright.routes.model import Routes
from linewright.takeoff.count import count
from linewright.takeoff.model import Row, Takeoff

BOSS = End(Family.ORB_UNF, "-12", Gender.FEMALE)
STUD = End(Family.ORB_UNF, "-12", Gender.MALE)
CONE = End(Family.FLARE_37, "-12", Gender.MALE)
ADAPTOR = Part("adaptor orb 12 flare 12", "adaptor -12", "adaptor", (STUD, CONE))
RING = SealNeed("o-ring", "AS568-912")


def _system(medium: Medium, fluid: str, celsius: float | None = None) -> System:
    hot = Figure(celsius + 273.15, "K", Grade.STATED) if celsius is not None else None
    return System(medium.value.split()[0], medium, fluid, temperature=hot)


def _line(name: str, system: System, **changes: object) -> Line:
    values: dict[str, object] = {
        "size": "-12",
        "hose": "rubber braided",
        "construction": Construction.HOSE,
    }
    values.update(changes)
    ports = f"{name}x.p", f"{name}y.p"
    return Line(name, *ports, system.id, system.medium, **values)  # type: ignore[arg-type]


def _joint(line: Line, near: End, far: End, *needs: SealNeed, part: Part = ADAPTOR) -> Termination:
    mated = Mated(near, far, Mating(True, "", needs))
    chain = Chain(near, (part,), (mated,), None, 1.0, 0.0, ())
    return Termination(line.id, line.id, "A", f"{line.id}x.p", chain, angle=0)


def _car(systems: list[System], lines: list[Line]) -> Car:
    components = {}
    for line in lines:
        for port_id in (line.from_port, line.to_port):
            name = port_id.partition(".")[0]
            port = Port(port_id, name, "p", BOSS, known=Known.READ, medium=line.medium)
            components[name] = Component(name, "tank", system=line.system, ports={"p": port})
    return Car(
        "test",
        systems={system.id: system for system in systems},
        components=components,
        lines={line.id: line for line in lines},
    )


def _take(systems: list[System], *joined: tuple[Line, Termination]) -> Takeoff:
    car = _car(systems, [line for line, _ in joined])
    return count(car, Joints(tuple(end for _, end in joined), ()), Routes(()))


def _group(takeoff: Takeoff, group: str) -> list[Row]:
    return [row for row in takeoff.rows if row.group == group]


def test_the_same_ring_in_hot_oil_and_in_coolant_is_two_rows() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    water = _system(Medium.COOLANT, "50/50 glycol", 110)
    first, second = _line("O01", oil), _line("W01", water)
    takeoff = _take(
        [oil, water],
        (first, _joint(first, BOSS, STUD, RING)),
        (second, _joint(second, BOSS, STUD, RING)),
    )
    rows = _group(takeoff, "seals")

    assert [row.name for row in rows] == ["O-ring AS568-912, EPDM", "O-ring AS568-912, FKM"]
    assert [(row.need, row.order) for row in rows] == [(1, 3), (1, 3)]


def test_rings_in_e85_are_fkm_and_the_usual_ones_are_warned_of() -> None:
    fuel = _system(Medium.FUEL, "E85")
    line = _line("F01", fuel)
    takeoff = _take([fuel], (line, _joint(line, BOSS, STUD, RING)))
    (finding,) = takeoff.findings

    assert [row.name for row in _group(takeoff, "seals")] == ["O-ring AS568-912, FKM"]
    assert finding.code == "seal-as-supplied"
    assert finding.severity is Severity.WARN
    assert finding.about == ("fuel",)
    assert finding.reason == (
        "Fittings for fuel mostly come with NBR rings, which are not meant for E85."
    )
    assert finding.remedy == (
        "Put the rings of this order in instead (AS568-912 FKM); throw the others away."
    )


def test_a_system_is_warned_of_once_for_all_its_rings() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    lines = [_line(f"O0{n}", oil) for n in range(1, 5)]
    takeoff = _take([oil], *((line, _joint(line, BOSS, STUD, RING)) for line in lines))

    assert [f.code for f in takeoff.findings] == ["seal-as-supplied"]
    assert takeoff.findings[0].about == ("oil",)


def test_coolant_does_not_ask_for_other_rings() -> None:
    water = _system(Medium.COOLANT, "50/50 glycol", 110)
    line = _line("W01", water)
    takeoff = _take([water], (line, _joint(line, BOSS, STUD, RING)))

    assert takeoff.findings == ()


def test_no_ring_fits_what_is_hotter_than_all_of_them() -> None:
    oil = _system(Medium.OIL, "15W-50", 350)
    line = _line("O01", oil)
    takeoff = _take([oil], (line, _joint(line, BOSS, STUD, RING)))
    (finding,) = takeoff.findings

    assert finding.code == "fluid-unfit"
    assert finding.severity is Severity.STOP
    assert finding.about == ("O01.A.1",)
    assert finding.reason == ("No seal material in the data is fit for 15W-50 at 350 °C in oil.")


def test_a_parallel_pipe_port_takes_a_bonded_washer() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    line = _line("O01", oil)
    port, stud = End(Family.BSPP, "G 1/2", Gender.FEMALE), End(Family.BSPP, "G 1/2", Gender.MALE)
    joint = _joint(line, port, stud, SealNeed("washer", "G 1/2 bonded"))
    (row,) = _group(_take([oil], (line, joint)), "seals")

    assert "bonded, FKM" in row.name
    assert (row.need, row.order) == (1, 3)


def test_a_flat_face_takes_one_washer_of_aluminium() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    line = _line("O01", oil)
    port = End(Family.METRIC_FLAT_FACE, "M22x1.5", Gender.FEMALE)
    stud = End(Family.METRIC_FLAT_FACE, "M22x1.5", Gender.MALE)
    (row,) = _group(
        _take([oil], (line, _joint(line, port, stud, SealNeed("washer", "22 mm bore")))), "seals"
    )

    assert row.name == "washer 22 mm bore, aluminium"
    assert row.note == "or bonded with FKM"


@pytest.mark.parametrize(
    ("medium", "fluid", "bead", "words"),
    [
        # Case J21: bore and two walls of 5 mm; case J24: 51 mm of charge air.
        (Medium.COOLANT, "50/50 glycol", "38", ("worm clamp, 32 to 50 mm", "for 48 mm")),
        (Medium.AIR, "air", "51", ("T-bolt clamp, 60 to 64 mm", "for 61 mm")),
        (Medium.AIR, "air", "63.5", ("T-bolt clamp, 68 to 74 mm", "for 73.5 mm")),
    ],
)
def test_a_clamp_goes_by_the_outside_of_the_hose_on_the_bead(
    medium: Medium, fluid: str, bead: str, words: tuple[str, ...]
) -> None:
    system = _system(medium, fluid)
    line = _line("W01", system, size=bead, hose="silicone", construction=Construction.CLAMPED)
    neck = End(Family.BEAD, bead, Gender.MALE)
    hose = End(Family.HOSE, bead, Gender.FEMALE, kind="clamped")
    clamp = SealNeed("clamp", f"{bead} mm", is_seal=False)
    (row,) = _group(_take([system], (line, _joint(line, neck, hose, clamp))), "hardware")

    assert row.name == words[0]
    assert row.note.startswith(words[1])
    assert row.need == 1


def test_bolts_are_hardware_without_spares() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    line = _line("O01", oil)
    flange = End(Family.FLANGE, "2-bolt 38")
    needs = SealNeed("gasket", "2-bolt 38"), SealNeed("bolt", "M8", 2, is_seal=False)
    takeoff = _take([oil], (line, _joint(line, flange, flange, *needs)))

    assert [(r.name, r.need, r.order) for r in _group(takeoff, "hardware")] == [
        ("flange bolt M8 with washer", 2, 2)
    ]
    assert [(r.name, r.need, r.order) for r in _group(takeoff, "seals")] == [
        ("flange gasket 2-bolt-38", 1, 3)
    ]


def test_a_spin_on_gasket_is_ticked_off_and_has_no_spare() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    line = _line("O01", oil)
    mount = End(Family.SPINON, "3/4-16", Gender.MALE)
    plate = End(Family.SPINON, "3/4-16", Gender.FEMALE)
    (row,) = _group(
        _take([oil], (line, _joint(line, mount, plate, SealNeed("gasket", "3/4-16")))), "seals"
    )

    assert (row.need, row.order) == (1, 1)
    assert row.note == "comes with the plate as a rule: tick it off"


def test_a_banjo_bolt_that_is_a_part_is_not_bought_twice() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    line = _line("O01", oil)
    port = End(Family.METRIC_FLAT_FACE, "M14x1.5", Gender.FEMALE)
    eye = End(Family.BANJO, "M14x1.5", Gender.MALE)
    bolt = Part("banjo bolt M14x1.5", "banjo bolt M14x1.5", "banjo bolt", (eye,))
    needs = (
        SealNeed("banjo bolt", "M14x1.5", is_seal=False),
        SealNeed("washer", "14 mm bore", 2),
    )
    takeoff = _take([oil], (line, _joint(line, port, eye, *needs, part=bolt)))
    hardware = _group(takeoff, "hardware")

    assert [(row.name, row.need) for row in hardware] == [("banjo bolt M14x1.5", 1)]
    assert [row.need for row in _group(takeoff, "seals")] == [2]


def test_a_pass_takes_a_nut_two_washers_and_a_hole() -> None:
    # Case J13: the hole is the thread of 14.29 mm and 0.4 mm.
    fuel = _system(Medium.FUEL, "petrol")
    line = _line("F01", fuel, size="-6", passes=("firewall",))
    cone = End(Family.FLARE_37, "-6", Gender.MALE)
    part = Part("bulkhead flare 6", "bulkhead -6, straight", "bulkhead", (cone, cone))
    chain = Chain(cone, (part,), (), None, 1.0, 0.0, ())
    fit = Fit(("F01.firewall",), "bulkhead", chain, panel="firewall", line="F01")
    takeoff = count(_car([fuel], [line]), Joints((), (fit,)), Routes(()))
    hardware = {row.name: (row.need, row.order) for row in _group(takeoff, "hardware")}
    (hole,) = takeoff.holes
    nut = next(row for row in _group(takeoff, "hardware") if row.name == "bulkhead nut -6")

    assert hardware == {"bulkhead nut -6": (1, 1), "panel washer -6": (2, 4)}
    assert nut.note == "20.65 mm across flats"  # AN924
    assert hole.diameter is not None
    assert hole.diameter.value == pytest.approx(0.0147, abs=5e-5)
    assert hole.gate == "before paint"


def test_a_clamped_hose_goes_through_a_panel_in_a_grommet() -> None:
    water = _system(Medium.CHARGE_COOLANT, "50/50 glycol")
    line = _line(
        "W01",
        water,
        size="19",
        hose="silicone",
        construction=Construction.CLAMPED,
        passes=("wall",),
    )
    fit = Fit((), "grommet", None, panel="wall", line="W01")
    takeoff = count(_car([water], [line]), Joints((), (fit,)), Routes(()))
    (row,) = _group(takeoff, "hardware")
    (hole,) = takeoff.holes

    assert row.name == "panel grommet for 32 mm hose outside"
    assert row.note == "for 29.0 mm outside (wall assumed: measure the hose)"
    assert (hole.id, hole.diameter, hole.gate) == ("W01.wall", None, "before paint")


def test_a_bung_is_a_row_of_the_hole_list_before_paint() -> None:
    oil = _system(Medium.OIL, "15W-50")
    line = _line("D01", oil, service="drain")
    wall, bung_side = (
        End(Family.WELD, "", g, kind="aluminium") for g in (Gender.FEMALE, Gender.MALE)
    )
    bung = Part("bung", "bung, weld to -12 flare male", "bung", (bung_side, CONE))
    takeoff = _take([oil], (line, _joint(line, wall, bung_side, part=bung)))
    (hole,) = takeoff.holes

    assert hole.id == "D01.A.1"
    assert hole.what == "weld bung, weld to -12 flare male"
    assert hole.gate == "before paint; leak-tested before it goes into the car"
    assert "no O-ring or wanted plug in place while welding" in hole.note


def test_a_bonding_strap_for_each_fuel_cell() -> None:
    fuel = _system(Medium.FUEL, "E85")
    car = Car(
        "test",
        systems={"fuel": fuel},
        components={"FC": Component("FC", "fuel cell"), "OT": Component("OT", "dry-sump tank")},
    )
    (row,) = count(car, Joints((), ()), Routes(())).rows

    assert (row.code, row.because, row.by_system) == ("bonding-strap", ("FC",), (("fuel", 1),))


def test_the_hose_end_at_a_port_that_nobody_measured_is_listed_and_not_certain() -> None:
    oil = _system(Medium.OIL, "15W-50")
    line = _line("O01", oil)
    car = _car([oil], [line])
    blank = Port("O01x.p", "O01x", "p", medium=Medium.OIL)
    owner = Component("O01x", "tank", system="oil", ports={"p": blank})
    car = replace(car, components={**car.components, "O01x": owner})
    end = Termination("O01", "O01", "A", "O01x.p", None, angle=90)
    (row,) = _group(count(car, Joints((end,), ()), Routes(())), "hose ends")

    assert row.name.startswith("hose end -12 rubber, 90°")
    assert not row.is_certain
    assert row.note == "O01x.p is not measured: check before ordering"


def test_a_part_in_the_builders_hand_is_not_bought() -> None:
    oil = _system(Medium.OIL, "15W-50", 130)
    line = _line("O01", oil)
    held = replace(ADAPTOR, held=True)
    takeoff = _take([oil], (line, _joint(line, BOSS, STUD, RING, part=held)))

    assert _group(takeoff, "adaptors") == []
    assert len(_group(takeoff, "seals")) == 1


def test_an_open_angle_is_said_in_its_row() -> None:
    oil = _system(Medium.OIL, "15W-50")
    line = _line("O01", oil)
    grip = End(Family.HOSE, "-12", Gender.MALE, kind="rubber")
    nut = End(Family.FLARE_37, "-12", Gender.FEMALE, swivel=True)
    part = Part("hose end 12", "hose end -12 rubber, straight, fixed", "hose end", (nut, grip))
    joint = replace(_joint(line, CONE, nut, part=part), angle=None, angles=(0, 45, 90))
    (row,) = _group(_take([oil], (line, joint)), "hose ends")

    assert not row.is_certain
    assert row.note == "angle of O01.A open: straight, 45°, 90°"


def _canister(have: str) -> Car:
    oil = _system(Medium.OIL, "15W-50")
    land = End(Family.SPINON, "3/4-16", Gender.FEMALE)
    port = Port("CAN.mount", "CAN", "mount", land, known=Known.READ)
    can = Component(
        "CAN", "filter canister", system="oil", part="filter canister", have=have, ports={"m": port}
    )
    return Car("test", systems={"oil": oil}, components={"CAN": can})


def test_a_canister_is_bought_unless_one_is_in_hand() -> None:
    bought = count(_canister("no"), Joints((), ()), Routes(()))
    owned = count(_canister("yes"), Joints((), ()), Routes(()))

    assert [row.name for row in _group(bought, "components")] == [
        "filter canister CAN, with its gasket, 3/4-16 spin-on female"
    ]
    assert _group(owned, "components") == []


def test_a_sleeve_is_bought_by_the_metre_and_goes_over_the_hose() -> None:
    oil = _system(Medium.OIL, "15W-50")
    line = _line("O01", oil, sleeve="heat sleeve", string=Figure(1.4, "m", Grade.STATED))
    car = _car([oil], [line])
    takeoff = count(car, Joints((), ()), lay(car, Joints((), ())))
    row = next(row for row in _group(takeoff, "sundries") if "sleeve" in row.name)

    assert row.name == "heat sleeve, 32 mm bore, by the metre"
    assert (row.need, row.unit) == (2, "m")


def test_each_piece_has_two_tags() -> None:
    oil = _system(Medium.OIL, "15W-50")
    lines = [_line(name, oil, string=Figure(1.0, "m", Grade.STATED)) for name in ("O01", "O02")]
    car = _car([oil], lines)
    takeoff = count(car, Joints((), ()), lay(car, Joints((), ())))
    row = next(row for row in _group(takeoff, "sundries") if "tag" in row.name)

    assert (row.need, row.because) == (4, ("O01", "O02"))
