"""What all commands share: help, version, completion, speed of start, the progress bar."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from io import StringIO
from pathlib import Path

import click
import pytest

import templates_gen
from templates_gen.cli import COMMANDS, main
from templates_gen.cli.progress import Progress
from tests.cli.command import TIER, ask, process
from tests.judges import require


def command(name: str) -> click.Command:
    """Return a command of the group."""
    found = main.get_command(click.Context(main), name)
    assert found is not None
    return found


@pytest.mark.parametrize("name", COMMANDS)
def test_short_help(name: str) -> None:
    """What the overview says of a command is the first line of the command's own help."""
    shown = (command(name).help or "").splitlines()[0]
    assert shown == COMMANDS[name][1]
    assert " ".join(shown.split()) in " ".join(ask("--help").split())


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("option", ["-h", "--help"])
def test_help(name: str, option: str) -> None:
    """Every command explains itself and each of its options."""
    text = ask(name, option)
    assert text.startswith(f"Usage: templates-gen {name}")
    for parameter in command(name).params:
        if isinstance(parameter, click.Option):
            assert parameter.help
            assert parameter.opts[0] in text


def test_every_command_takes_o_for_where_to_write() -> None:
    """One letter serves all, whether a command writes a file or a folder."""
    written = {"--out", "--output"}
    short = {
        name: "-o" in parameter.opts
        for name in COMMANDS
        for parameter in command(name).params
        if written.intersection(parameter.opts)
    }
    assert {"pack", "class", "picture"} <= set(short)
    assert all(short.values())


def test_overview() -> None:
    """The overview lists every command, in both spellings of help."""
    assert ask("-h") == ask("--help")
    listed = ask("-h").partition("Commands:\n")[2].partition("\n\n")[0].splitlines()
    assert [line.split()[0] for line in listed if line[2:3].strip()] == list(COMMANDS)


def test_version() -> None:
    """--version names program and version."""
    assert ask("--version") == f"templates-gen, version {templates_gen.__version__}\n"


def test_module(tmp_path: Path) -> None:
    """Run by python -m templates_gen, it is the same command."""
    done = process("--version", cwd=tmp_path)
    assert done.stdout.decode().splitlines() == ask("--version").splitlines()


def test_script(tmp_path: Path) -> None:
    """The installed script is the same command."""
    done = subprocess.run(
        [require("templates-gen"), "--version"], cwd=tmp_path, capture_output=True, check=True
    )
    assert done.stdout.decode().splitlines() == ask("--version").splitlines()


def imported_by(*arguments: str) -> set[str]:
    """Return the modules imported once a command line is done, in a process of its own."""
    program = (
        "import sys\n"
        "from templates_gen.cli import main\n"
        f"main({list(arguments)!r}, standalone_mode=False)\n"
        "print('modules', *sys.modules)\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, check=True)
    return set(done.stdout.decode().splitlines()[-1].split()[1:])


HEAVY = {
    "ezdxf",
    "platformdirs",
    "shapely",
    "numpy",
    "pydantic",
    "reportlab",
    "svgwrite",
    "fontTools",
}


@pytest.mark.parametrize("arguments", [["--help"], ["--version"]], ids=" ".join)
def test_light_start(arguments: list[str]) -> None:
    """The overview and the version import none of the libraries that a pack needs."""
    assert not imported_by(*arguments) & HEAVY


def test_a_pack_on_paper_imports_no_library_of_other_files(tmp_path: Path) -> None:
    """What only DXF, printers that were measured, artwork or letters need stays out of a pack."""
    (tmp_path / "cake.toml").write_text(TIER)
    done = imported_by("pack", str(tmp_path / "cake.toml"), "--out", str(tmp_path / "out"))
    assert "reportlab" in done
    assert not done & {"ezdxf", "platformdirs", "svgelements", "lxml"}
    assert not done & {"fontTools.ttLib", "numpy.ma"}


def test_heavy_libraries_are_seen() -> None:
    """The watch on imports does see the libraries once a pack needs them."""
    assert imported_by("wrap", "--help") >= {"pydantic", "shapely"}


@pytest.mark.parametrize(
    ("words", "offers"),
    [
        ("templates-gen ", list(COMMANDS)),
        ("templates-gen pa", ["pack", "panels"]),
        ("templates-gen pack --f", ["--format"]),
        ("templates-gen pack --format ", ["pdf", "svg", "both", "dxf"]),
        ("templates-gen wrap --first ", ["top", "side"]),
        ("templates-gen drips --pattern w", ["wave"]),
        ("templates-gen new --sample s", ["starter"]),
    ],
)
def test_completion(words: str, offers: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """The shell is offered commands, options and the words an option takes."""
    monkeypatch.setenv("_TEMPLATES_GEN_COMPLETE", "bash_complete")
    monkeypatch.setenv("COMP_WORDS", words)
    monkeypatch.setenv("COMP_CWORD", str(words.count(" ")))
    assert ask().splitlines() == [f"plain,{offer}" for offer in offers]


def test_completion_of_files(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a cake file is asked for, the shell is told to offer files."""
    monkeypatch.setenv("_TEMPLATES_GEN_COMPLETE", "bash_complete")
    monkeypatch.setenv("COMP_WORDS", "templates-gen pack ")
    monkeypatch.setenv("COMP_CWORD", "2")
    assert ask() == "file,\n"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_script(shell: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each shell gets its script."""
    monkeypatch.setenv("_TEMPLATES_GEN_COMPLETE", f"{shell}_source")
    assert f"_TEMPLATES_GEN_COMPLETE={shell}_complete" in ask()


def test_completion_in_bash(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bash runs its script and completes a command by the installed program."""
    installed = require("templates-gen")
    with monkeypatch.context() as asking:
        asking.setenv("_TEMPLATES_GEN_COMPLETE", "bash_source")
        script = ask()
    words = "COMP_WORDS=(templates-gen fig) COMP_CWORD=1"
    shown = "echo ${COMPREPLY[@]}"
    program = f"{script}\n{words}; _templates_gen_completion '{installed}'; {shown}"
    done = subprocess.run([require("bash"), "-c", program], capture_output=True, check=True)
    assert done.stdout == b"figures\n"


class Screen(StringIO):
    """Somewhere to print to, that is a terminal or is none."""

    def __init__(self, terminal: bool) -> None:
        super().__init__()
        self.terminal = terminal

    def isatty(self) -> bool:
        """Say whether this is a terminal."""
        return self.terminal


def shown(monkeypatch: pytest.MonkeyPatch, terminal: bool, clock: Iterator[float]) -> str:
    """Return what three steps of work print, at the times of the clock."""
    screen = Screen(terminal)
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setattr("time.monotonic", lambda: next(clock))
    with Progress(3) as bar:
        for _ in range(3):
            bar.step()
    return screen.getvalue()


def test_progress_of_long_work(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a terminal, work that takes over a second shows a bar that ends full."""
    text = shown(monkeypatch, True, iter([0.0, 0.5, 1.1, 1.2]))
    assert "66%" in text
    assert "100%" in text


@pytest.mark.parametrize(
    ("terminal", "times"),
    [(True, [0.0, 0.3, 0.6, 1.0]), (False, [0.0, 5.0, 10.0, 15.0])],
    ids=["short", "no terminal"],
)
def test_no_progress(terminal: bool, times: list[float], monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither short work nor work that no one watches shows a bar."""
    assert shown(monkeypatch, terminal, iter(times)) == ""


@pytest.mark.parametrize("form", ["pdf", "svg", "both", "dxf"])
@pytest.mark.parametrize("paper", ["a4", "both"])
def test_pack_counts_its_steps(
    paper: str, form: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A pack takes exactly as many steps as it told its progress bar."""
    told: list[int] = []

    class Counting(Progress):
        def step(self) -> None:
            told.append(self.steps)

    monkeypatch.setattr("templates_gen.cli.pack.Progress", Counting)
    options = ("--out", tmp_path, "--paper", paper, "--format", form)
    ask("pack", "-", *options, stdin=TIER)
    assert told
    assert set(told) == {len(told)}


def test_plugins_of_other_programs_are_not_loaded(tmp_path: Path) -> None:
    """What is installed for pydantic beside us neither runs in our commands nor speaks in them."""
    about = tmp_path / "chatter-1.0.dist-info"
    about.mkdir()
    (about / "METADATA").write_text("Metadata-Version: 2.1\nName: chatter\nVersion: 1.0\n")
    (about / "entry_points.txt").write_text("[pydantic]\nchatter = chatter:plugin\n")
    (tmp_path / "chatter.py").write_text("print('chatter')\nplugin = None\n")
    cake = tmp_path / "cake.toml"
    cake.write_text(TIER)
    done = process("check", cake, cwd=tmp_path, environment={"PYTHONPATH": str(tmp_path)})
    assert done.returncode == 0, done.stderr
    assert b"chatter" not in done.stdout
