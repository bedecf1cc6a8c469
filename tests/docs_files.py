# SPDX-License-Identifier: Apache-2.0
"""Renew the files in docs/ that are made from the program: ``make docs``."""

import json

from linewright.faces.files.svg import svg
from linewright.faces.files.views import space_of
from linewright.plan.record_flow import schema_flow
from linewright.plan.record_order import schema_order
from linewright.plan.schema import schema
from linewright.scene.schematic import draw
from linewright.scene.spatial import View, draw_view
from linewright.studies.record import schema_confidence
from tests.expected import ROOT, planned

reference = ROOT / "docs" / "reference" / "plan.schema.json"
reference.write_text(json.dumps(schema(), indent=1) + "\n", encoding="utf-8")
flow = reference.with_name("flow.schema.json")
flow.write_text(json.dumps(schema_flow(), indent=1) + "\n", encoding="utf-8")
for name, shape in (("order", schema_order()), ("confidence", schema_confidence())):
    text = json.dumps(shape, indent=1) + "\n"
    reference.with_name(f"{name}.schema.json").write_text(text, encoding="utf-8")
picture = ROOT / "docs" / "pictures" / "juniper-oil.svg"
picture.parent.mkdir(exist_ok=True)
juniper = planned(ROOT / "examples" / "juniper")
picture.write_text(svg(draw(juniper, "oil")), encoding="utf-8")
view = draw_view(space_of(juniper), View.PLAN, car_name=juniper.car.name)
if view is not None:
    (picture.parent / "juniper-plan.svg").write_text(svg(view), encoding="utf-8")
