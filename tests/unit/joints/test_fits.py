# SPDX-License-Identifier: Apache-2.0
"""Components on ports, plugs and caps, bulkheads: what stands on a port without a hose."""

import pytest

from linewright.base.finding import Severity
from linewright.car.model import Port
from linewright.catalogue import stock
from linewright.ends.notation import read
from linewright.joints.fits import bulkhead_part, close
from tests.unit.joints.small_cars import OIL, car, codes, ends_of, finding, plan, thing


def _sensor(on: str, end: str) -> str:
    return f'[components.PS]\nkind = "pressure sensor"\non = "{on}"\nend = "{end}"\n'


def test_a_sensor_of_the_ports_own_thread_goes_straight_in() -> None:
    joints = plan(OIL, thing("A", {"gauge": "1/8 NPT female"}), _sensor("A.gauge", "1/8 NPT male"))

    (fit,) = joints.fits
    assert fit.ports == ("A.gauge", "PS.mount")
    assert fit.how == "on"
    assert fit.chain is not None
    assert fit.chain.parts == ()
    assert fit.chain.joint_count == 1


def test_a_small_sensor_in_a_large_port_takes_a_bushing() -> None:
    joints = plan(OIL, thing("A", {"spare": "1/2 NPT female"}), _sensor("A.spare", "1/8 NPT male"))

    (fit,) = joints.fits
    assert fit.chain is not None
    assert ends_of(fit.chain) == ["npt 1/2 m > npt 1/8 f"]
    assert fit.chain.joint_count == 2


def test_a_sensor_on_a_port_that_nobody_measured_stays_open() -> None:
    joints = plan(OIL, thing("A", {"spare": "?"}), _sensor("A.spare", "1/8 NPT male"))

    assert [fit.chain for fit in joints.fits] == [None]
    assert codes(joints) == []


def test_a_flare_in_an_o_ring_hole_is_a_stop_that_names_the_hazard() -> None:
    joints = plan(OIL, thing("A", {"out": "-8 ORB female"}), _sensor("A.out", "-8 flare male"))

    stop = finding(joints, "look-alike-thread")
    assert stop.severity is Severity.STOP
    assert stop.about == ("A.out", "PS.mount")
    assert stop.reason.startswith(
        "PS.mount (-8 flare male) on A.out (-8 ORB female): the threads run together, but the two "
        "have no seat in common. Runs right in and feels correct; leaks at once or when warm; "
    )
    assert stop.remedy == (
        "Take the one whose end is made for the port (-8 ORB male), or change the port."
    )
    assert [fit.chain for fit in joints.fits] == [None]


def test_a_mount_that_only_the_kind_guessed_is_first_told_to_be_typed() -> None:
    plate = '[components.TOP]\nkind = "take-off plate"\non = "A.filter"\n'
    joints = plan(OIL, thing("A", {"filter": "13/16-16 spin-on male"}), plate)

    (stop,) = (f for f in joints.findings if f.code in ("no-mate", "look-alike-thread"))
    assert stop.reason.endswith(
        " But 3/4-16 spin-on female at TOP.mount is only the guess that the kind "
        '"filter take-off plate" brings.'
    )
    assert stop.remedy.startswith(
        "Look at TOP.mount and type its own end under [ports], such as "
        '"TOP.mount" = "13/16-16 spin-on female". If it is as guessed: '
    )


def test_two_ends_with_nothing_in_common_are_no_mate() -> None:
    joints = plan(
        OIL, thing("A", {"out": "2-bolt flange 38 mm"}), _sensor("A.out", "3/4-16 spin-on female")
    )

    stop = finding(joints, "no-mate")
    assert stop.severity is Severity.STOP
    assert stop.about == ("A.out", "PS.mount")
    assert stop.reason == (
        "PS.mount (3/4-16 spin-on female) on A.out (2-bolt 38 flange): the two "
        "have neither thread nor seat in common. And no chain of up to 4 parts joins 2-bolt "
        "38 flange to 3/4-16 spin-on female: the parts on 2-bolt 38 flange lead to "
        "-10 flare male, -12 flare male; no part leads to 3/4-16 spin-on female."
    )


@pytest.mark.parametrize(
    ("end", "part", "how"),
    [
        ("1/2 NPT female", "npt 1/2 m", "plug"),
        ("-6 ORB female", "orb_unf -6 m", "plug"),
        ("M18x1.5 flat face", "metric_flat_face M18x1.5 m", "plug"),
        ("G 3/8 female", "bspp G 3/8 m", "plug"),
        ("Rc 1/8 female", "bspt R 1/8 m", "plug"),
        ("-16 flare male", "flare_37 -16 f swivel", "cap"),
        ("38 mm bead", "hose 38 clamped f", "cap"),
    ],
)
def test_each_port_is_shut_by_the_plug_or_cap_of_its_family(end: str, part: str, how: str) -> None:
    joints = plan(OIL, thing("A", {"spare": end}), '[closed]\n"A.spare" = "plug"\n')

    (fit,) = joints.fits
    assert fit.chain is not None
    assert ends_of(fit.chain) == [part]
    assert fit.how == how
    assert fit.chain.joint_count == 1


def test_a_plug_in_an_aluminium_taper_warns_like_any_other_joint() -> None:
    joints = plan(
        OIL,
        thing("A", {"spare": "1/2 NPT female"}, 'material = "aluminium"'),
        '[closed]\n"A.spare" = "plug"\n',
    )

    warn = finding(joints, "taper-in-aluminium")
    assert warn.severity is Severity.WARN
    assert warn.about == ("A.spare",)
    assert warn.reason == (
        "A.spare (1/2 NPT female): a taper thread wedges in aluminium; it can split the boss, and it "
        "wears at each remaking."
    )
    assert warn.remedy == (
        "Tighten by turns past hand tight, never back off to point it; or have the port opened to "
        "an O-ring boss."
    )
    assert [step.text for step in joints.steps] == [
        "Paste on the male thread, first threads bare; two to three turns past hand tight; never "
        "back off to align."
    ]


def test_a_port_that_no_plug_shuts_is_a_stop() -> None:
    joints = plan(
        OIL, thing("A", {"spare": "3/4-16 spin-on male"}), '[closed]\n"A.spare" = "plug"\n'
    )

    stop = finding(joints, "no-chain")
    assert stop.reason == (
        "A.spare (3/4-16 spin-on male): no plug or cap that the trade sells shuts it."
    )
    assert stop.remedy == (
        "Measure the port again; if it is right, describe the plug in your hand under [parts], or "
        "say why the port stays open."
    )


def test_every_port_family_in_use_has_a_plug_or_a_cap() -> None:
    small = car(OIL, thing("A", {"spare": "?"}))
    for text in (
        "1/8 NPT",
        "-10 ORB",
        "M12x1.5 flat face",
        "G 1/4",
        "-8 flare male",
        "-12 ORFS male",
    ):
        port = Port(id="A.spare", component="A", name="spare", end=read(text).end)

        assert close(small, port, stock.generic()) is not None, text


def test_a_bulkhead_component_is_one_part_between_its_two_ports() -> None:
    joints = plan(OIL, '[components.BH]\nkind = "bulkhead"\npanel = "firewall"\nsize = "-6"\n')

    (fit,) = joints.fits
    assert set(fit.ports) == {"BH.inside", "BH.outside"}
    assert (fit.how, fit.panel) == ("bulkhead", "firewall")
    assert fit.chain is not None
    assert ends_of(fit.chain) == ["flare_37 -6 m > flare_37 -6 m"]
    assert fit.chain.joint_count == 0


def test_no_bulkhead_is_made_up_for_a_dash_that_has_none() -> None:
    assert bulkhead_part(stock.generic(), "-20") is None
