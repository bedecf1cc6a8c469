# SPDX-License-Identifier: Apache-2.0
"""What the order still carries."""

from linewright.checks.model import Risk
from linewright.checks.risks import ORDER
from linewright.plan.model import Plan
from tests.unit.checks.small_plans import OIL, line, plan, thing

ENDS = {"in": "-10 ORB female", "out": "-10 ORB female"}
B = thing("b", "inline oil filter", ENDS)


def _a(end: str, known: str) -> str:
    return thing("a", "inline oil filter", {"out": f'{{ end = "{end}", known = "{known}" }}'})


def _risks(of: Plan, kind: str) -> list[Risk]:
    return [risk for risk in of.checked.risks if risk.kind == kind]


def test_a_port_that_is_only_a_guess_is_a_risk_with_the_rows_that_hang_on_it() -> None:
    (risk,) = _risks(
        plan(OIL, _a("-10 ORB female", "guess"), B, line("O01", "a.out", "b.in")),
        "port unconfirmed",
    )

    assert risk.about == ("a.out",)
    assert risk.parts == 3  # adaptor, hose end, O-ring
    assert risk.what == "a.out (-10 ORB female) is known only as 'guess'."


def test_a_port_that_was_read_is_none() -> None:
    assert (
        _risks(
            plan(OIL, _a("-10 ORB female", "read"), B, line("O01", "a.out", "b.in")),
            "port unconfirmed",
        )
        == []
    )


def test_an_unknown_port_is_a_risk() -> None:
    small = plan(
        OIL, thing("a", "inline oil filter", {"out": "?"}), B, line("O01", "a.out", "b.in")
    )
    (risk,) = _risks(small, "port unknown")

    assert risk.about == ("a.out",)
    assert risk.what == "a.out is not measured: nothing is ordered for it."


def test_a_port_that_reads_in_several_ways_names_them() -> None:
    small = plan(
        OIL,
        thing("a", "inline oil filter", {"out": "1/4 BSP female"}),
        B,
        line("O01", "a.out", "b.in"),
    )
    (risk,) = _risks(small, "port unknown")

    assert "G 1/4 female" in risk.what
    assert "Rc 1/4 female" in risk.what


def test_an_open_angle_is_a_risk_with_its_candidates() -> None:
    text = line("O01", "a.out", "b.in").replace('ends = ["straight", "straight"]', "")
    small = plan(OIL, _a("-10 ORB female", "read"), B, text)

    assert [r.about for r in _risks(small, "angle open")] == [("O01.A",), ("O01.B",)]
    assert "45°" in _risks(small, "angle open")[0].what


def test_a_line_without_a_length_is_a_risk() -> None:
    text = line("O01", "a.out", "b.in").replace('string = "500 mm"', "")
    small = plan(OIL, _a("-10 ORB female", "read"), B, text)

    assert [r.about for r in _risks(small, "length unknown")] == [("O01",)]


def test_a_special_order_is_a_risk() -> None:
    small = plan(OIL, _a("-10 ORFS male", "read"), B, line("O01", "a.out", "b.in"))
    (risk,) = _risks(small, "special order")

    assert "ORFS" in risk.what


def test_an_unknown_take_up_is_a_risk() -> None:
    small = plan(
        OIL,
        _a("-10 ORB female", "read"),
        B,
        line("O01", "a.out", "b.in", "ends = ['90', 'straight']"),
    )

    assert [r.about for r in _risks(small, "take-up unknown")] == [("O01",)]


def test_risks_come_in_their_order_and_those_with_most_rows_first() -> None:
    small = plan(
        OIL,
        _a("-10 ORB female", "guess"),
        B.replace("read", "guess"),
        line("O01", "a.out", "b.in").replace('ends = ["straight", "straight"]', ""),
    )
    keys = [(ORDER.index(r.kind), -r.parts) for r in small.checked.risks]

    assert len(keys) > 2
    assert keys == sorted(keys)


def test_lines_with_the_same_unknown_take_up_share_one_risk() -> None:
    bent = "ends = ['90', 'straight']"
    small = plan(
        OIL,
        thing("a", "inline oil filter", ENDS),
        B,
        line("O01", "a.out", "b.in", bent),
        line("O02", "b.out", "a.in", bent),
    )
    (risk,) = _risks(small, "take-up unknown")

    assert risk.about == ("O01", "O02")
    assert risk.what == "Take-up of a 90° rubber end is not in the data."
    assert risk.parts == 0
