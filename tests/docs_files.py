# SPDX-License-Identifier: Apache-2.0
"""Renew the files in docs/ that are made from the program: ``make docs``."""

import json

from linewright.faces.files.svg import svg
from linewright.plan.schema import schema
from linewright.scene.schematic import draw
from tests.expected import ROOT, planned

reference = ROOT / "docs" / "reference" / "plan.schema.json"
reference.write_text(json.dumps(schema(), indent=1) + "\n", encoding="utf-8")
picture = ROOT / "docs" / "pictures" / "juniper-oil.svg"
picture.parent.mkdir(exist_ok=True)
picture.write_text(svg(draw(planned(ROOT / "examples" / "juniper"), "oil")), encoding="utf-8")
