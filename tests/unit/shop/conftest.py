# SPDX-License-Identifier: Apache-2.0
"""Shops on both databases, new for each test."""

from collections.abc import Iterator
from itertools import count
from pathlib import Path

import psycopg
import pytest

from linewright.shop.store import Shop, open_shop
from tests.databases import postgres

_NUMBERS = count(1)


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    with postgres() as address:
        yield address


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where a shop that is not there yet may be made."""
    if request.param == "sqlite":
        return str(tmp_path / "shop.sqlite")
    server: str = request.getfixturevalue("server")
    name = f"shop{next(_NUMBERS)}"
    with psycopg.connect(server, autocommit=True) as connection:
        connection.execute(f"create database {name}".encode())
    return server.rsplit("/", 1)[0] + f"/{name}"


@pytest.fixture
def shop(address: str) -> Iterator[Shop]:
    with open_shop(address) as opened:
        yield opened
