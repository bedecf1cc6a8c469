# SPDX-License-Identifier: Apache-2.0
"""How the steps are run: on the connection that the store hands over, in its transaction."""

from alembic import context
from sqlalchemy import Connection

from linewright.shop.schema import metadata


def _run(connection: Connection) -> None:
    context.configure(connection=connection, target_metadata=metadata, render_as_batch=True)
    with context.begin_transaction():
        context.run_migrations()


# Alembic executes this file with a configuration at hand; who only reads it has none.
if hasattr(context, "config"):
    _run(context.config.attributes["connection"])
