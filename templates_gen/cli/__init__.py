"""Stage 9: the command line. Thin: it parses, calls the public functions and reports."""

from __future__ import annotations

import atexit
import errno
import gc
import sys
from importlib import import_module
from io import TextIOWrapper
from typing import Any

import click

from templates_gen import __version__
from templates_gen.errors import TemplatesGenError

COMMANDS = {
    "new": ("new", "Write a commented cake file to start from."),
    "pack": ("pack", "Make the pack of a cake: its sheets as PDF, its pieces as SVG."),
    "check": ("check", "Say all that is wrong or doubtful about a cake file."),
    "figures": ("figures", "Show every dimension of a cake in mm and inches."),
    "bench": ("bench", "Show what to cut, to weigh and to do, and when."),
    "picture": ("picture", "Draw a cake from the front and from above, to scale, with its sizes."),
    "serve": ("serve", "Open the page: plan a cake in the browser, print the pack."),
    "wrap": ("one_off", "Make one wrap, without a cake file."),
    "disc": ("one_off", "Make one top disc, without a cake file."),
    "panels": ("one_off", "Make one panel and its collar, without a cake file."),
    "drips": ("one_off", "Make one collar or rim ring for drips, without a cake file."),
    "design": ("one_off", "Make one collar with a design, without a cake file."),
    "score": ("one_off", "Make one score sheet, without a cake file."),
}
"""Each command: the module it lives in, which is imported when it is called, and its short help."""


def plain(text: str) -> str:
    """Return a text as a screen can show it: characters that steer the screen by their number."""
    return "".join(
        char if char.isprintable() or char == "\n" else " " if char == "\u00a0" else _number(char)
        for char in text
    )


def _number(char: str) -> str:
    return char.encode("unicode_escape").decode()


class _Lazy(click.Group):
    """A group that imports a command only to run it, and reports errors without a traceback."""

    def main(self, *args: Any, **kwargs: Any) -> Any:  # noqa: ANN401 (as click has it)
        # a run is short: looking for rubbish costs more time than the rubbish costs memory,
        # at its end too, when all goes with the process
        gc.disable()
        atexit.register(gc.freeze)
        # a screen that cannot show a character shows its number, instead of stopping the work
        for stream in (sys.stdout, sys.stderr):
            if isinstance(stream, TextIOWrapper):
                stream.reconfigure(errors="backslashreplace")
        return super().main(*args, **kwargs)

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module = import_module(f"{__name__}.{COMMANDS[cmd_name][0]}")
        found: click.Command = module.COMMANDS[cmd_name]
        return found

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, short) for name, (_, short) in COMMANDS.items()])

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 (as click has it)
        try:
            return super().invoke(ctx)
        except TemplatesGenError as error:
            click.echo(plain(str(error)), err=True)
        except OSError as error:
            if error.errno == errno.EPIPE:
                raise
            click.echo(f"the result cannot be shown: {error.strerror}", err=True)
        return ctx.exit(1)


@click.group(cls=_Lazy, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="templates-gen")
def main() -> None:
    """Make true-size paper templates for tiered celebration cakes.

    Start with: templates-gen new my-cake.toml, change the sizes in it, then
    templates-gen pack my-cake.toml, and print the PDF at 100 %.
    """
