"""The command line. Thin: it parses, calls the public functions and reports."""

from __future__ import annotations

import atexit
import gc
import os
import sys
from importlib import import_module
from io import TextIOWrapper
from pathlib import Path
from typing import Any, TextIO

import click

from templates_gen.errors import FileError, StageError, TemplatesGenError
from templates_gen.version import VERSION

ONE_OFF = "one_off"
COMMANDS = {
    "new": ("new", "Write a commented cake file to start from."),
    "keys": ("keys", "Explain the keys of the cake file, all of them or one table."),
    "pack": ("pack", "Make the templates of a cake: pages to print as PDF, each piece as SVG."),
    "check": ("check", "List the errors and warnings of a cake file, or of a pack's folder."),
    "figures": ("figures", "List every dimension of a cake in mm and inches."),
    "bench": ("bench", "List what to cut, weigh and do, and when."),
    "portions": ("portions", "List stacks of tins for a number of portions."),
    "picture": ("picture", "Draw a cake from the front and from above, to scale, with its sizes."),
    "class": ("class_packs", "Make a pack for each person of a class, from one design."),
    "printer": ("printer", "Measure a printer once: packs then come out at true size on it."),
    "chart": ("chart", "Make a chart for the wall: what tins of each size take."),
    "handout": ("handout", "Make two pages that a student can follow: picture, steps, times."),
    "resize": ("resize", "Write the same design for other tins as a new cake file."),
    "serve": ("serve", "Plan a cake in the browser and save its templates."),
    "open": ("open_page", "Open the page in the browser, and FILE, a cake file, in it."),
    "menu": (
        "menu",
        "Put the page into the menu of this computer, and let *.cake.toml files open in it.",
    ),
    "wrap": (ONE_OFF, "Make one wrap without a cake file."),
    "disc": (ONE_OFF, "Make one top disc without a cake file."),
    "panels": (ONE_OFF, "Make one panel and its collar without a cake file."),
    "drips": (ONE_OFF, "Make one drip guide without a cake file."),
    "design": (ONE_OFF, "Make one collar with a design without a cake file."),
    "placement": (ONE_OFF, "Make one placement guide without a cake file."),
}
"""Each command: the module it lives in, which is imported when it is called, and its short help.

In it the command has the name of the module; those of ``ONE_OFF`` are in a table there.
"""


def plain(text: str) -> str:
    """Return a text as a screen can show it: characters that steer the screen by their number."""
    return "".join(
        char if char.isprintable() or char == "\n" else char.encode("unicode_escape").decode()
        for char in text.replace("\u00a0", " ")
    )


INTERNAL_ERROR = 70
"""The exit status of a fault of the program itself: EX_SOFTWARE of sysexits.h."""
READ, WRITTEN = "templates_gen.read", "templates_gen.written"
"""What the context of a run knows: which files were read, and whether files were written."""


class _Lazy(click.Group):
    """A group that imports a command only to run it, and ends every error in words."""

    def main(self, *args: Any, **kwargs: Any) -> Any:  # noqa: ANN401 (as click has it)
        # a run is short: looking for rubbish costs more time than the rubbish costs memory,
        # at its end too, when all goes with the process
        gc.disable()
        atexit.register(gc.freeze)
        # plugins that others installed have no say in cake files, and to look for them takes time
        os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
        sys.stdout, sys.stderr = _usable(sys.stdout), _usable(sys.stderr)
        try:
            return super().main(*args, **kwargs)
        except OSError as error:
            click.echo(f"the result cannot be shown: {error.strerror}", err=True)
            sys.exit(1)

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        name = COMMANDS[cmd_name][0]
        module = import_module(f"{__name__}.{name}")
        found: click.Command = module.COMMANDS[cmd_name] if name == ONE_OFF else vars(module)[name]
        return found

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as error:
            from difflib import get_close_matches

            close = get_close_matches(args[0], COMMANDS, n=1)
            spec = f" Did you mean “{close[0]}”?" if close else ""
            raise click.UsageError(f"{error.message}{spec}", ctx) from None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, short) for name, (_, short) in COMMANDS.items()])

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 (as click has it)
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort):
            raise
        except MemoryError:
            click.echo("This needs more memory than there is: make it smaller.", err=True)
        except Exception as error:
            if isinstance(error, OSError) and error.filename is None:
                raise  # what cannot be shown
            if isinstance(error, StageError) or not isinstance(error, TemplatesGenError):
                _echo_internal_error(ctx, error)
                return ctx.exit(INTERNAL_ERROR)
            click.echo(plain(str(error)), err=True)
        return ctx.exit(1)


def _usable(stream: TextIO | None) -> TextIO:
    """Return a stream that takes any text: one that is closed takes it nowhere."""
    if stream is None:
        return Path(os.devnull).open("w", encoding="utf-8")
    if isinstance(stream, TextIOWrapper):
        # a screen that cannot show a character shows its number, instead of stopping the work
        stream.reconfigure(errors="backslashreplace")
    return stream


def _echo_internal_error(ctx: click.Context, error: Exception) -> None:
    """Say that the program has a fault, and how to see the details, or the details."""
    what = f"{type(error).__name__}: {error}".removesuffix(": ")
    files = "The files were written" if ctx.meta.get(WRITTEN) else "Nothing was written"
    details = f"For the details: templates-gen --details {ctx.invoked_subcommand or 'COMMAND'} …"
    if ctx.params["details"]:
        from traceback import format_exception

        details = f"The details:\n\n{''.join(format_exception(error))}".rstrip()
    text = f"Internal error of templates-gen, not a mistake of yours: {what}. {files}. {details}"
    click.echo(plain(text), err=True)


@click.group(
    cls=_Lazy,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Exit status: 0 done; 1 the cake cannot be made, read or written; 2 wrong usage;"
    f" {INTERNAL_ERROR} an internal error.",
)
@click.version_option(VERSION, prog_name="templates-gen")
@click.option(
    "--details", is_flag=True, help="Show the details of an internal error of the program."
)
def main(details: bool) -> None:
    """Make true-size paper templates for tiered celebration cakes.

    Start with: templates-gen new my-cake.toml, change the sizes in it, then
    templates-gen pack my-cake.toml, and print the PDF at 100 %. Or plan a cake in the browser:
    templates-gen serve.
    """
    try:
        Path.cwd()
    except OSError:
        raise FileError("The current folder no longer exists; change to another one") from None
