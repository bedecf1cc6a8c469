# SPDX-License-Identifier: Apache-2.0
"""The command ``linewright``: one file a command, each importing its work late.

Only typer stands at module level here, so that ``--help`` stays quick.
"""

import errno
import os
import sys
from pathlib import Path
from typing import Annotated

import typer

#: Exit codes (docs/reference/command-line.md).
PLANNED, STOPS, UNUSABLE, MISSING, BUG = 0, 1, 2, 3, 70

app = typer.Typer(
    name="linewright",
    help="Plan the fluid systems of a one-off car: every adaptor, hose, seal and plug.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

Document = Annotated[Path, typer.Argument(metavar="CAR", help="The car document (TOML).")]


Offers = Annotated[
    list[Path] | None,
    typer.Option("--offers", metavar="FILE", help="Price list or pasted text; or a folder."),
]
Terms = Annotated[
    Path | None, typer.Option("--terms", metavar="FILE", help="Terms of the suppliers (TOML).")
]
Shelf = Annotated[
    Path | None, typer.Option("--shelf", metavar="FILE", help="What the shop owns (CSV).")
]
Both = Annotated[
    list[str] | None,
    typer.Option("--both", metavar="PORT", help="Cover every reading of a port; or all."),
]
JsonFile = Annotated[
    Path | None,
    typer.Option("--json", metavar="FILE", help="Write everything as JSON; - prints it."),
]


@app.callback(invoke_without_command=True)
def _root(
    version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False,
) -> None:
    if version:
        from linewright.faces.cli.version import version as number

        print(f"linewright {number()}")
        raise typer.Exit(PLANNED)


@app.command()
def plan(
    car: Document,
    json: Annotated[
        Path | None,
        typer.Option("--json", metavar="FILE", help="Write everything as JSON; - prints it."),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="DIR", help="Write book, lists and pictures into DIR."),
    ] = None,
    paper: Annotated[
        str, typer.Option("--paper", metavar="A4|LETTER", help="Paper of the book.")
    ] = "a4",
    no_space: Annotated[
        bool,
        typer.Option("--no-space", help="A quick look: leave out the courses of lines in space."),
    ] = False,
) -> None:
    """Plan a car: print the summary, and write what is asked for."""
    from linewright.faces.cli.plan import plan as work

    raise typer.Exit(work(car, json, out, paper, in_space=not no_space))


@app.command()
def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Where to write it.")],
) -> None:
    """Write a commented starter document."""
    from linewright.faces.cli.new import new as work

    raise typer.Exit(work(file))


@app.command()
def identify(
    reading: Annotated[
        list[str],
        typer.Argument(
            metavar="READING...",
            help='What was measured: "male 20.8 mm", "14 tpi", "five 9.07 mm", "taper", "cone".',
        ),
    ],
    origin: Annotated[
        str | None,
        typer.Option("--origin", help="North America, Japan, Britain or Europe."),
    ] = None,
) -> None:
    """Tell a port or a fitting from callipers and pitch gauge."""
    from linewright.faces.cli.identify import identify as work

    raise typer.Exit(work(reading, origin))


# A dash size such as "-10 ORB" is no option: what is not one of ours is left to the arguments.
@app.command(context_settings={"ignore_unknown_options": True})
def join(
    near: Annotated[str, typer.Argument(metavar="END", help="What you have.")],
    far: Annotated[str, typer.Argument(metavar="END", help="What you want to get to.")],
    hose: Annotated[
        str, typer.Option("--hose", help="Hose family, where one end is a hose.")
    ] = "rubber braided",
) -> None:
    """Show how to get from one end to another."""
    from linewright.faces.cli.join import join as work

    raise typer.Exit(work(near, far, hose))


@app.command()
def measure(
    car: Document,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="Write the page as PDF.")
    ] = None,
    paper: Annotated[
        str, typer.Option("--paper", metavar="A4|LETTER", help="Paper of the page.")
    ] = "a4",
) -> None:
    """List the ports still unknown, those first on which most parts hang."""
    from linewright.faces.cli.measure import measure as work

    raise typer.Exit(work(car, out, paper))


@app.command()
def route(
    car: Document,
    line: Annotated[str, typer.Argument(metavar="LINE", help="Number of a line, as O07.")],
) -> None:
    """Explain one line in space: the ends tried, why others fail, where it is tight."""
    from linewright.faces.cli.route import route as work

    raise typer.Exit(work(car, line))


@app.command()
def flow(
    car: Document,
    condition: Annotated[
        str,
        typer.Option("--condition", metavar="NAME", help="One alone: hot-idle, full-power ..."),
    ] = "",
    system: Annotated[
        str, typer.Option("--system", metavar="ID", help="One system alone, with all its sizes.")
    ] = "",
    reading: Annotated[
        list[str] | None,
        typer.Option(
            "--reading",
            metavar="READING",
            help='A gauge, as "oil-pressure=1.1 bar@hot-idle": says what it contradicts.',
        ),
    ] = None,
    json: Annotated[
        Path | None,
        typer.Option("--json", metavar="FILE", help="Write everything as JSON; - prints it."),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="DIR", help="Write plots, diagrams, pages and lists."),
    ] = None,
    paper: Annotated[
        str, typer.Option("--paper", metavar="A4|LETTER", help="Paper of the pages.")
    ] = "a4",
    no_space: Annotated[
        bool,
        typer.Option("--no-space", help="A quick look: lengths from strings and positions alone."),
    ] = False,
) -> None:
    """Compute flow, pressure and heat: each system with its margins and what limits it."""
    from linewright.faces.cli.flow import flow as work

    code = work(
        car,
        condition=condition,
        system=system,
        json=json,
        out=out,
        readings=reading or (),
        paper=paper,
        in_space=not no_space,
    )
    raise typer.Exit(code)


shop_app = typer.Typer(
    help="Keep cars and every saved revision of their documents in the shop's database.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
app.add_typer(shop_app, name="shop")

Where = Annotated[
    str,
    typer.Option(
        "--shop",
        metavar="FILE|ADDRESS",
        envvar="LINEWRIGHT_SHOP",
        help="The shop: a file, or postgresql://user@host/name. Default: a file of your own.",
    ),
]
Who = Annotated[str, typer.Option("--who", help="Who does it. Default: your name here.")]
Name = Annotated[str, typer.Argument(metavar="CAR", help="The car's name in the shop.")]


@shop_app.command("list")
def shop_list(shop: Where = "") -> None:
    """List the cars with their newest revisions."""
    from linewright.faces.cli.shop import list_cars as work

    raise typer.Exit(work(shop))


@shop_app.command("add")
def shop_add(
    file: Document,
    name: Annotated[str, typer.Option("--name", help="Default: what the document says.")] = "",
    shop: Where = "",
    who: Who = "",
) -> None:
    """Add a car from its document."""
    from linewright.faces.cli.shop import add as work

    raise typer.Exit(work(shop, file, name, who))


@shop_app.command("save")
def shop_save(
    car: Name,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The document as it is now.")],
    why: Annotated[str, typer.Option("--why", help="What changed, and why.")],
    base: Annotated[
        int | None,
        typer.Option("--base", help="The revision that it was made from. Default: the newest."),
    ] = None,
    shop: Where = "",
    who: Who = "",
) -> None:
    """Save a new revision of a car's document."""
    from linewright.faces.cli.shop import save as work

    raise typer.Exit(work(shop, car, file, why, base, who))


@shop_app.command("undo")
def shop_undo(car: Name, shop: Where = "", who: Who = "") -> None:
    """Bring back what stood there before the last change, as a new revision."""
    from linewright.faces.cli.shop import undo as work

    raise typer.Exit(work(shop, car, who))


@shop_app.command("redo")
def shop_redo(car: Name, shop: Where = "", who: Who = "") -> None:
    """Bring back what was undone last, as a new revision."""
    from linewright.faces.cli.shop import redo as work

    raise typer.Exit(work(shop, car, who))


@shop_app.command("log")
def shop_log(car: Name, shop: Where = "") -> None:
    """List the revisions of a car, newest first."""
    from linewright.faces.cli.shop import log as work

    raise typer.Exit(work(shop, car))


@shop_app.command("export")
def shop_export(
    car: Annotated[str, typer.Argument(metavar="CAR[@N]", help="A car, or a revision of it.")],
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Where to write it; - prints it.")],
    shop: Where = "",
) -> None:
    """Write a revision of a car's document to a file."""
    from linewright.faces.cli.shop import export as work

    raise typer.Exit(work(shop, car, file))


@shop_app.command("compare")
def shop_compare(
    before: Annotated[str, typer.Argument(metavar="CAR[@N]", help="A car, or a revision of it.")],
    after: Annotated[
        str, typer.Argument(metavar="[CAR[@N]]", help="Default: the newest revision of that car.")
    ] = "",
    shop: Where = "",
) -> None:
    """Compare two revisions, or two cars, as parts, lines and findings."""
    from linewright.faces.cli.shop import compare as work

    raise typer.Exit(work(shop, before, after))


@app.command()
def offers(
    car: Annotated[
        str, typer.Argument(metavar="CAR", help="The car document; - for all, needed or not.")
    ],
    files: Annotated[
        list[Path], typer.Argument(metavar="FILE...", help="Lists: CSV, XLSX, pasted TXT; folders.")
    ],
    terms: Annotated[
        Path | None, typer.Option("--terms", metavar="FILE", help="Suppliers' terms (TOML).")
    ] = None,
    answers: Annotated[
        Path | None,
        typer.Option("--answers", metavar="FILE", help="Answers given; answers.csv beside them."),
    ] = None,
    yes: Annotated[
        list[str] | None,
        typer.Option("--yes", metavar="ID[=CODE]", help="It is that, or it is CODE."),
    ] = None,
    no: Annotated[
        list[str] | None, typer.Option("--no", metavar="ID", help="It is not that.")
    ] = None,
    who: Annotated[str, typer.Option("--who", metavar="NAME", help="Who answers.")] = "",
    remember: Annotated[
        bool, typer.Option("--remember", help="Write the columns as guessed into the terms.")
    ] = False,
    json: Annotated[
        Path | None, typer.Option("--json", metavar="FILE", help="Write all as JSON; - prints it.")
    ] = None,
    everything: Annotated[bool, typer.Option("--all", help="Print every row.")] = False,
) -> None:
    """Show what suppliers' rows are, ask where it is doubtful, list what was refused."""
    from linewright.faces.cli.offers import Asked
    from linewright.faces.cli.offers import offers as work

    asked = Asked(
        terms, answers, tuple(yes or ()), tuple(no or ()), who, remember, json, everything
    )
    raise typer.Exit(work(car, files, asked))


@app.command()
def order(
    car: Document,
    offers: Offers = None,
    terms: Terms = None,
    shelf: Shelf = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="DIR", help="Write the order as CSV, XLSX and PDF."),
    ] = None,
    json: JsonFile = None,
    hold: Annotated[
        list[str] | None,
        typer.Option("--hold", metavar="ID", help="A system, line or part not to order yet."),
    ] = None,
    hold_unconfirmed: Annotated[
        bool,
        typer.Option("--hold-unconfirmed", help="Hold all that an unconfirmed port asks for."),
    ] = False,
    both: Both = None,
    by: Annotated[
        list[str] | None,
        typer.Option("--by", metavar="SYSTEM=DAY", help="Needed by: oil=14 or oil=2031-05-20."),
    ] = None,
    budget: Annotated[
        str, typer.Option("--budget", metavar="AMOUNT", help="The most that it may cost.")
    ] = "",
    quick: Annotated[
        bool, typer.Option("--quick", help="The cheapest order alone, nothing compared.")
    ] = False,
    seconds: Annotated[
        float, typer.Option("--seconds", metavar="S", help="Longest search for a proof.")
    ] = 20.0,
    paper: Annotated[
        str, typer.Option("--paper", metavar="A4|LETTER", help="Paper of the pages.")
    ] = "a4",
    no_space: Annotated[
        bool,
        typer.Option("--no-space", help="A quick look: lengths from strings and positions alone."),
    ] = False,
) -> None:
    """Choose the cheapest order that covers a car, by supplier, and what to cut from what."""
    from linewright.faces.cli.order import Asked
    from linewright.faces.cli.order import order as work

    asked = Asked(
        offers=offers or (),
        terms=terms,
        shelf=shelf,
        out=out,
        json=json,
        hold=hold or (),
        is_unconfirmed_held=hold_unconfirmed,
        both=both or (),
        by=by or (),
        budget=budget,
        seconds=seconds,
        paper=paper,
        is_quick=quick,
        in_space=not no_space,
    )
    raise typer.Exit(work(car, asked))


@app.command()
def confidence(
    car: Document,
    offers: Offers = None,
    terms: Terms = None,
    shelf: Shelf = None,
    level: Annotated[
        float | None,
        typer.Option("--level", metavar="PERCENT", help="List the cheapest spares to reach it."),
    ] = None,
    tie: Annotated[
        list[str] | None,
        typer.Option("--tie", metavar="PORT,PORT", help="Ports that are right or wrong together."),
    ] = None,
    second: Annotated[
        str,
        typer.Option("--second", metavar="AMOUNT", help="What a second order costs, days too."),
    ] = "",
    both: Both = None,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="DIR", help="Write it as CSV and PDF.")
    ] = None,
    json: JsonFile = None,
    paper: Annotated[
        str, typer.Option("--paper", metavar="A4|LETTER", help="Paper of the pages.")
    ] = "a4",
    no_space: Annotated[
        bool,
        typer.Option("--no-space", help="A quick look: lengths from strings and positions alone."),
    ] = False,
) -> None:
    """Tell how likely one order is enough, what to measure next, and which spares help."""
    from linewright.faces.cli.confidence import confidence as work
    from linewright.faces.cli.order import Asked

    asked = Asked(
        offers=offers or (),
        terms=terms,
        shelf=shelf,
        out=out,
        json=json,
        both=both or (),
        paper=paper,
        is_quick=True,
        in_space=not no_space,
    )
    raise typer.Exit(work(car, asked, level, tie or (), second))


def run() -> None:
    """Run the command line; print refusals plainly, let a bug keep its traceback."""
    from linewright.base.errors import LinewrightError, MissingToolError

    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")
    try:
        app()
    except MissingToolError as error:
        print(error, file=sys.stderr)
        sys.exit(MISSING)
    except LinewrightError as error:
        print(error, file=sys.stderr)
        sys.exit(UNUSABLE)
    except BrokenPipeError:
        # The reader (a pager, head) went away: nothing is wrong with the plan.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(PLANNED)
    except Exception as error:
        if isinstance(error, OSError) and error.errno in (errno.ENOSPC, errno.EIO):
            print(f"The output cannot be written: {error.strerror}.", file=sys.stderr)
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            sys.exit(UNUSABLE)
        import traceback

        traceback.print_exc()
        print("This is a bug in linewright: keep the car document with it.", file=sys.stderr)
        sys.exit(BUG)
