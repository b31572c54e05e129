"""Faults of the program itself: told in words, with a status of their own, details on request."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple, Never

import pytest

from templates_gen.cli import INTERNAL_ERROR
from templates_gen.errors import GeometryError
from templates_gen.web import process
from templates_gen.web.app import create_app
from templates_gen.web.workers import Workers
from tests.cli.command import TIER, call


class Faulty(NamedTuple):
    """A command, the function that fails in it, what it raises, and fragments of the message."""

    words: str
    place: str
    error: Exception
    says: tuple[str, ...]


NOTHING, WRITTEN = "Nothing was written.", "The files were written."
FAULTS = (
    Faulty("figures", "figures.all_figures", KeyError("rim"), ("KeyError: 'rim'. ", NOTHING)),
    Faulty("pack", "pack.make_plan", ZeroDivisionError(), ("ZeroDivisionError. ", NOTHING)),
    Faulty("check", "check.make_packs", RecursionError("too deep"), ("RecursionError", NOTHING)),
    Faulty("bench", "bench.bench_list", GeometryError("no area"), ("GeometryError: no area",)),
    Faulty("pack", "pack.echo_warnings", AttributeError("x\x1b[2J"), ("x\\x1b[2J. ", WRITTEN)),
    Faulty("figures", "figures.all_figures", OSError(13, "shut", "a.ttf"), ("shut: 'a.ttf'",)),
)


def fail(monkeypatch: pytest.MonkeyPatch, place: str, error: Exception) -> None:
    """Let a function raise an error whenever it is called."""

    def failing(*_: object, **__: object) -> Never:
        raise error

    monkeypatch.setattr(f"templates_gen.{place}", failing)


@pytest.fixture
def _desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cake.toml").write_text(TIER)


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: f"{fault.place} {fault.error!r}")
@pytest.mark.usefixtures("_desk")
def test_command(fault: Faulty, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault is one line that says whose it is and what was written, and has its own status."""
    fail(monkeypatch, f"cli.{fault.place}", fault.error)
    done = call(fault.words, "cake.toml")
    assert done.exit_code == INTERNAL_ERROR == 70
    assert done.stderr.count("\n") == 1
    for words in ("Internal error of templates-gen, not a mistake of yours", *fault.says):
        assert words in done.stderr
    assert f"templates-gen --details {fault.words}" in done.stderr


@pytest.mark.usefixtures("_desk")
def test_details(monkeypatch: pytest.MonkeyPatch) -> None:
    """The option shows where in the program it happened."""
    fail(monkeypatch, "cli.figures.all_figures", KeyError("rim"))
    done = call("--details", "figures", "cake.toml")
    assert done.exit_code == INTERNAL_ERROR
    assert "Traceback" in done.stderr
    assert "in failing" in done.stderr
    assert "--details" not in done.stderr


@pytest.mark.usefixtures("_desk")
def test_too_little_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    """Too little memory is no fault of the program."""
    fail(monkeypatch, "cli.figures.all_figures", MemoryError())
    done = call("figures", "cake.toml")
    assert done.exit_code == 1
    assert "more memory than there is" in done.stderr


@pytest.mark.parametrize("error", [KeyError("rim"), GeometryError("no area")], ids=repr)
def test_job_of_the_page(error: Exception, monkeypatch: pytest.MonkeyPatch) -> None:
    """A job that fails is answered with 500 and the same words."""

    def failing(body: object, options: object) -> Never:
        raise error

    monkeypatch.setattr("templates_gen.web.jobs.JOBS", {"cake": failing})
    answer = process.done("cake", b"{}", {})
    assert answer.status == 500
    assert b"This is a fault of templates-gen, not of your cake" in answer.content


class _NoWorkers(Workers):
    """Workers of a server that is asked for no job."""

    def __init__(self) -> None:
        pass


def test_address_of_the_page(monkeypatch: pytest.MonkeyPatch) -> None:
    """An address that fails is answered with 500 and the same words."""
    fail(monkeypatch, "web.app.asset", KeyError("rim"))
    answer = create_app(_NoWorkers(), {"localhost"}).test_client().get("/static/x/main.js")
    assert answer.status_code == 500
    assert "This is a fault of templates-gen, not of your cake" in answer.get_json()["message"]
