# SPDX-License-Identifier: Apache-2.0
"""Fenced Python on the pages of the docs runs as a test, from the root of the repository."""

from sybil import Sybil
from sybil.parsers.markdown import PythonCodeBlockParser

pytest_collect_file = Sybil(parsers=[PythonCodeBlockParser()], patterns=["*.md"]).pytest()
