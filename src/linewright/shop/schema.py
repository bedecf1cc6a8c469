# SPDX-License-Identifier: Apache-2.0
"""The tables of the shop, as its newest migration leaves them.

A row of ``revision`` is written once and never changed: a trigger of the database itself
refuses it, whoever asks. What the shop comes to hold later (stock, orders, arrivals, work)
refers to a car and a revision of it and stands in tables of its own, written the same way:
movements that are added, never figures that are overwritten.
"""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    CheckConstraint,
    Column,
    DateTime,
    Dialect,
    ForeignKey,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
)


class Moment(TypeDecorator[datetime]):
    """A time of day in UTC, with its zone also where the database keeps none."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Bring a time to UTC; one without a zone is refused."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value} has no time zone")
        utc = value.astimezone(UTC)
        return utc.replace(tzinfo=None) if dialect.name == "sqlite" else utc

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """Give a time its zone back."""
        if value is None:
            return None
        found: datetime = value
        return found.replace(tzinfo=UTC) if found.tzinfo is None else found.astimezone(UTC)


# Names for constraints, so that a migration can speak of each on every database.
metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)

#: ``key`` is the name folded for comparing: no two cars alike but for case.
car = Table(
    "car",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("name", String(200), nullable=False),
    Column("key", String(400), nullable=False, unique=True),
    Column("added_at", Moment, nullable=False),
    Column("added_by", String(200), nullable=False),
)

#: ``number`` counts from 1 in each car, without a gap; ``way`` is typed, undo, redo or
#: restored; ``restores`` is the number of the revision whose text came back.
revision = Table(
    "revision",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("car_id", ForeignKey("car.id"), nullable=False),
    Column("number", Integer, nullable=False),
    Column("way", String(20), nullable=False),
    Column("restores", Integer),
    Column("text", Text, nullable=False),
    Column("sha256", String(64), nullable=False),
    Column("saved_at", Moment, nullable=False),
    Column("who", String(200), nullable=False),
    Column("why", Text, nullable=False),
    UniqueConstraint("car_id", "number"),
    CheckConstraint("number >= 1", name="number"),
    CheckConstraint("way in ('typed', 'undo', 'redo', 'restored')", name="way"),
    CheckConstraint("(way = 'typed') = (restores is null)", name="restores"),
)
