# SPDX-License-Identifier: Apache-2.0
"""Renew the expected files of every example: ``make accept``, then read the diff."""

from tests.expected import EXAMPLES, expected_files, planned

for folder in EXAMPLES:
    for name, text in expected_files(planned(folder)):
        target = folder / "expected" / name
        target.parent.mkdir(exist_ok=True)
        target.write_text(text, encoding="utf-8")
    print(folder.name)
