# SPDX-License-Identifier: Apache-2.0
"""The expected files of the examples: what is compared, and how it is made."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from linewright.car.read import read
from linewright.faces.files.lists import csv_text
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets import findings, lists

ROOT = Path(__file__).parent.parent
EXAMPLES = tuple(sorted(p.parent for p in (ROOT / "examples").glob("*/car.toml")))


@cache
def planned(folder: Path) -> Plan:
    """Plan the example in a folder, once: a plan does not change."""
    return make(read(folder / "car.toml"), with_flow=True)


def expected_files(plan: Plan) -> Iterator[tuple[str, str]]:
    """Name and text of each file that an example is held against."""
    tables = (
        lists.line_list(plan),
        lists.parts_list(plan),
        lists.hose_list(plan),
        lists.cut_list(plan),
        lists.hole_list(plan),
        findings.findings_list(plan),
        findings.proof_list(plan),
    )
    for table in tables:
        yield f"{table.name}.csv", csv_text(table)
