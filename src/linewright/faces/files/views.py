# SPDX-License-Identifier: Apache-2.0
"""The car in space as files: views as SVG and as PDF at their scale, DXF, GLB."""

import tempfile
from collections.abc import Sequence
from pathlib import Path

from linewright.base.errors import MissingToolError
from linewright.faces.files.dxf import centrelines_dxf, views_dxf
from linewright.faces.files.glb import glb
from linewright.faces.files.pdf import font_folder
from linewright.faces.files.svg import svg
from linewright.faces.files.whole import write_whole
from linewright.plan.model import Plan
from linewright.scene.spatial import View, draw_view
from linewright.scene.spatial_things import Space, collect


def space_of(plan: Plan) -> Space:
    """Gather what is shown of a planned car in space.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Space
        Empty where nothing has a place.
    """
    return collect(plan.car, plan.routes.courses, (run.id for run in plan.routes.runs))


def drawings_pdf(drawings: Sequence[tuple[str, float, float]]) -> bytes:
    """Set drawings on sheets of their own size, so that they print to scale.

    Parameters
    ----------
    drawings : Sequence of (str, float, float)
        SVG texts, each with the width and height of its sheet. [mm]

    Returns
    -------
    bytes
        A PDF, one sheet each; the same bytes for the same drawings.

    Raises
    ------
    MissingToolError
        If typst or the font is not installed.
    """
    try:
        import typst
    except ImportError as error:
        raise MissingToolError(
            "typst is not installed, so no PDF can be set. Install linewright with its "
            "dependencies: pip install linewright."
        ) from error
    rows = [
        f"#page(width: {width}mm, height: {height}mm, margin: 0mm)"
        f'[#image("{n}.svg", width: {width}mm)]'
        for n, (_, width, height) in enumerate(drawings)
    ]
    with tempfile.TemporaryDirectory(prefix="linewright-") as name:
        folder = Path(name)
        (folder / "sheets.typ").write_text("\n".join(rows), encoding="utf-8")
        for n, (text, *_) in enumerate(drawings):
            (folder / f"{n}.svg").write_text(text, encoding="utf-8")
        found: bytes = typst.compile(
            str(folder / "sheets.typ"),
            root=str(folder),
            font_paths=[str(font_folder())],
            ignore_system_fonts=True,
            timestamp=0,
        )
    return found


def write_views(
    plan: Plan, space: Space, folder: Path, *, first: int = 1, of: int = 3, date: str = ""
) -> tuple[tuple[View, str], ...]:
    """Write the views, the DXF files and the GLB of a car under ``views``.

    Parameters
    ----------
    plan : Plan
        The plan.
    space : Space
        What has a place.
    folder : Path
        Where the folder ``views`` shall be.
    first, of : int
        Number of the first sheet, and of all sheets.
    date : str
        The day it is drawn, for the title block; empty for none.

    Returns
    -------
    tuple of (View, str)
        SVG text of each view; nothing is written where nothing has a place.
    """
    if space.is_empty:
        return ()
    car = plan.car
    shown: list[tuple[View, str]] = []
    sheets: list[tuple[str, float, float]] = []
    for number, view in enumerate(View, first):
        drawing = draw_view(
            space,
            view,
            car_name=car.name,
            revision=car.sha256[:10],
            date=date,
            sheet=number,
            of=of,
            show=car.show,
        )
        if drawing is not None:
            shown.append((view, svg(drawing)))
            sheets.append((shown[-1][1], drawing.width, drawing.height))
    views = folder / "views"
    for view, text in shown:
        write_whole(views / f"{view.value}.svg", text)
    if shown:
        write_whole(views / "views.pdf", drawings_pdf(sheets))
    flat = views_dxf(space, car.name, car.sha256[:10])
    if flat is not None:
        write_whole(views / "views.dxf", flat)
    if space.hoses:
        write_whole(views / "centrelines.dxf", centrelines_dxf(space))
    model = glb(space)
    if model is not None:
        write_whole(views / "car.glb", model)
    return tuple(shown)
