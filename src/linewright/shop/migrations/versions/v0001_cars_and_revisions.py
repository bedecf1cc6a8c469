# SPDX-License-Identifier: Apache-2.0
"""Cars, and the revisions of their documents, which nothing can change."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_REFUSED = "a revision is never changed"


def upgrade() -> None:
    """Make the tables, and the triggers that keep revisions as they were saved."""
    op.create_table(
        "car",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("key", sa.String(400), nullable=False),
        sa.Column("added_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("added_by", sa.String(200), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_car"),
        sa.UniqueConstraint("key", name="uq_car_key"),
    )
    op.create_table(
        "revision",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("car_id", sa.Integer, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("way", sa.String(20), nullable=False),
        sa.Column("restores", sa.Integer),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("saved_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("who", sa.String(200), nullable=False),
        sa.Column("why", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_revision"),
        sa.ForeignKeyConstraint(["car_id"], ["car.id"], name="fk_revision_car_id"),
        sa.UniqueConstraint("car_id", "number", name="uq_revision_car_id_number"),
        sa.CheckConstraint("number >= 1", name="ck_revision_number"),
        sa.CheckConstraint("way in ('typed', 'undo', 'redo', 'restored')", name="ck_revision_way"),
        sa.CheckConstraint("(way = 'typed') = (restores is null)", name="ck_revision_restores"),
    )
    if op.get_bind().dialect.name == "sqlite":
        for what in ("update", "delete"):
            op.execute(
                f"create trigger revision_{what} before {what} on revision "
                f"begin select raise(abort, '{_REFUSED}'); end"
            )
    else:
        op.execute(
            "create function revision_is_kept() returns trigger language plpgsql as "
            f"$$ begin raise exception '{_REFUSED}'; end $$"
        )
        op.execute(
            "create trigger revision_kept before update or delete or truncate on revision "
            "for each statement execute function revision_is_kept()"
        )


def downgrade() -> None:
    """Refuse: going back would throw documents away.

    Raises
    ------
    NotImplementedError
        Always.
    """
    raise NotImplementedError("a shop goes back by its backup, never by a step")
