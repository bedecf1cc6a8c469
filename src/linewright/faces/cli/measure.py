# SPDX-License-Identifier: Apache-2.0
"""``linewright measure``: the ports to measure, on the screen or as a page."""

from pathlib import Path

from linewright.base.errors import UnitError
from linewright.car.read import read
from linewright.plan.make import make
from linewright.sheets.measure import measure_list, plug_list


def measure(car: Path, out: Path | None, paper: str) -> int:
    """Print what to measure first, or write it as a page; return the exit code."""
    paper = paper.lower()
    if paper not in ("a4", "letter"):
        raise UnitError(f'--paper "{paper}" is not a paper of the page; say a4 or letter.')
    plan = make(read(car), in_space=False)  # courses settle no port
    ports, plugs = measure_list(plan), plug_list(plan)
    if out is not None:
        from linewright.faces.files.pdf import tables_pdf
        from linewright.faces.files.whole import write_whole

        write_whole(
            out,
            tables_pdf(
                plan.car.name,
                plan.car.sha256[:8],
                (ports, plugs) if plugs.rows else (ports,),
                paper=paper,
            ),
        )
        print(f"Written: {out}")
        return 0
    print(ports.title)
    for row in ports.rows:
        print(f"  {row[0]}: {row[1]} ({row[2]} parts hang on it)")
        print(f"      {row[6]}")
    if not ports.rows:
        print(f"  {ports.empty}")
    if plugs.rows:
        print("\nKnown plugs that would settle most of them:")
        for row in plugs.rows:
            print(f"  {row[0]}: at {row[1]}")
    return 0
