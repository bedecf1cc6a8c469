# SPDX-License-Identifier: Apache-2.0
"""Opening a shop: one SQLite file by default, PostgreSQL by its address."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.pool import StaticPool

from linewright.base.errors import MissingToolError, ShopError

# Any number: it only has to be the same for all who open one database. [-]
_LOCK = 0x6C77_5368

# How long a writer waits for another before it gives up. [ms]
_PATIENCE = 10_000


class Shop:
    """An open shop; ``engine`` is its database. Close it, or use it with ``with``."""

    def __init__(self, engine: Engine, name: str) -> None:
        self.engine = engine
        self.name = name

    def __enter__(self) -> "Shop":
        """Use the shop and close it after."""
        return self

    def __exit__(self, *error: object) -> None:
        """Close the shop."""
        self.close()

    def close(self) -> None:
        """Give back all connections."""
        self.engine.dispose()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Read within one transaction, as of one moment.

        Raises
        ------
        ShopError
            If the database cannot be reached or read.
        """
        with _told(self.name), self.engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Write within one transaction: all of it is kept, or nothing.

        Raises
        ------
        ShopError
            If the database cannot be reached or written.
        """
        with _told(self.name), self.engine.connect() as connection:
            # A reader that turns writer would be refused in SQLite when another came between.
            connection = connection.execution_options(linewright_writes=True)
            with connection.begin():
                yield connection


def open_shop(where: Path | str) -> Shop:
    """Open a shop; one that is not there yet is made, an older one is brought up to date.

    Parameters
    ----------
    where : Path or str
        A file, ``":memory:"`` for one that is gone when it is closed, or the address of a
        PostgreSQL database, ``postgresql://user@host/name``.

    Returns
    -------
    Shop
        Ready for use by any number of threads.

    Raises
    ------
    ShopError
        If it cannot be opened, is no shop, or was written by a newer version.
    MissingToolError
        If the driver for PostgreSQL is not installed.

    Examples
    --------
    >>> with open_shop(":memory:") as shop:
    ...     shop.name
    'sqlite in memory'
    """
    url = _url(where)
    if url.database not in (None, ":memory:") and url.get_backend_name() == "sqlite":
        _make_folder(Path(str(url.database)))
    name = _name(url)
    try:
        engine = _engine(url)
    except ModuleNotFoundError as error:
        raise MissingToolError(
            "PostgreSQL's driver is not installed: pip install 'linewright[postgres]', "
            "or keep the shop in a file."
        ) from error
    try:
        with _told(name):
            _bring_up(engine, name)
    except BaseException:
        engine.dispose()
        raise
    return Shop(engine, name)


def _url(where: Path | str) -> URL:
    said = str(where)
    if said == ":memory:" or "://" not in said:
        path = said if said == ":memory:" else str(Path(said).expanduser().resolve())
        return URL.create("sqlite", database=path)
    try:
        url = make_url(said)
        backend = url.get_backend_name()
    except (ArgumentError, NoSuchModuleError) as error:
        raise ShopError(_no_address(said)) from error
    if backend == "postgresql":
        return url.set(drivername="postgresql+psycopg")
    if backend == "sqlite":
        return url
    raise ShopError(_no_address(said))


def _no_address(said: str) -> str:
    kind = said.split("://")[0]
    return (
        f'"{kind}://…" is no address of a shop. '
        "Name a file, or a PostgreSQL database as postgresql://user@host/name."
    )


def _name(url: URL) -> str:
    if url.get_backend_name() == "sqlite":
        memory = url.database in (None, "", ":memory:")
        return "sqlite in memory" if memory else str(url.database)
    return url.render_as_string(hide_password=True)


def _make_folder(file: Path) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise ShopError(
            f"{file} cannot be made: {error.strerror or error}. "
            "Name a file in a folder that you may write to."
        ) from error


def _engine(url: URL) -> Engine:
    if url.get_backend_name() != "sqlite":
        return create_engine(url, pool_pre_ping=True)
    if url.database in (None, "", ":memory:"):
        # One connection for all, or each would see a database of its own.
        engine = create_engine(url, poolclass=StaticPool, connect_args={"check_same_thread": False})
    else:
        engine = create_engine(url)
    event.listen(engine, "connect", _settle)
    event.listen(engine, "begin", _begin)
    return engine


def _settle(connection: Any, _record: Any) -> None:
    """Set up one connection to SQLite: safe on power loss, readers beside a writer."""
    # The driver would open transactions by its own rules; ours are opened in ``_begin``.
    connection.isolation_level = None
    cursor = connection.cursor()
    # The patience first: setting the journal waits for others that are opening the file too.
    cursor.execute(f"pragma busy_timeout = {_PATIENCE}")
    cursor.execute("pragma journal_mode = wal")
    cursor.execute("pragma synchronous = full")
    cursor.execute("pragma foreign_keys = on")
    cursor.close()


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("linewright_writes", False)
    connection.exec_driver_sql("begin immediate" if writes else "begin")


def _bring_up(engine: Engine, name: str) -> None:
    """Run the steps that the database lacks, one opener at a time."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    steps = ScriptDirectory.from_config(config)
    newest = steps.get_current_head()

    with engine.connect() as connection, connection.begin():
        if MigrationContext.configure(connection).get_current_revision() == newest:
            return

    with engine.connect() as connection:
        connection = connection.execution_options(linewright_writes=True)
        with connection.begin():
            if connection.dialect.name == "postgresql":
                connection.execute(text("select pg_advisory_xact_lock(:n)"), {"n": _LOCK})
            now = MigrationContext.configure(connection).get_current_revision()
            if now == newest:
                return
            if now is not None and now not in {step.revision for step in steps.walk_revisions()}:
                raise ShopError(
                    f"{name} was written by a newer linewright (step {now}, this one knows "
                    f"{newest}). Update linewright, or open another shop."
                )
            if now is None and _is_foreign(connection):
                raise ShopError(
                    f"{name} holds tables, but they are not a shop's. "
                    "Name a database of its own for the shop."
                )
            config.attributes["connection"] = connection
            command.upgrade(config, "head")


def _is_foreign(connection: Connection) -> bool:
    return bool(inspect(connection).get_table_names())


@contextmanager
def _told(name: str) -> Iterator[None]:
    """Say what the database could not do in words that help."""
    try:
        yield
    except DBAPIError as error:
        raise ShopError(_words(name, str(error.orig))) from error
    except SQLAlchemyError as error:
        raise ShopError(_words(name, str(error))) from error


def _words(name: str, cause: str) -> str:
    first = cause.strip().splitlines()[0] if cause.strip() else "no reason given"
    ways = {
        "file is not a database": "Name a shop's file, or one that is not there yet.",
        "unable to open database file": "Name a file in a folder that you may write to.",
        "database is locked": "Another program is writing; try again when it is done.",
        "readonly database": "Ask for the right to write the file and its folder.",
        "disk is full": "Make room on the disk; nothing that was saved is lost.",
        "disk image is malformed": "Fetch the file from its backup; this one is damaged.",
    }
    for cue, way in ways.items():
        if cue in first:
            return f"{name}: {first}. {way}"
    return f"{name}: {first}. Nothing has been changed in the shop."
