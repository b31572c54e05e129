"""The server answers as the command line does, refuses what it must, and lives on."""

from __future__ import annotations

import json
import re
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Browser, expect

from templates_gen.cli import plain
from templates_gen.cli.menu import MIME_INFO
from templates_gen.licences import licences
from templates_gen.resources import folder
from templates_gen.web import jobs, process, workers
from templates_gen.web.assets import digest
from templates_gen.web.files import opened
from templates_gen.web.labels import worded
from templates_gen.web.request import MOST_TIERS
from templates_gen.web.workers import Workers
from tests.cakes import SAMPLES
from tests.cli.bad_cakes import BAD_CAKES, Bad
from tests.cli.command import call
from tests.web.server import Server, serving

TIER = {"size": "8 in", "depth": "4 in"}


def spec(server: Server, job: str, body: Any, query: str = "") -> tuple[int, dict[str, str], Any]:  # noqa: ANN401
    """Return status, headers and JSON (or bytes) of an answer."""
    status, headers, content = server.ask("POST", f"/{job}{query}", json.dumps(body))
    is_json = headers["Content-Type"] == "application/json"
    return status, headers, json.loads(content) if is_json else content


def lives(server: Server) -> bool:
    """Tell whether the server still makes a cake."""
    return spec(server, "cake", {"cake": {"tier": [TIER]}})[0] == 200


PAPERS = {"a4": ["a4"], "letter": ["letter"], "both": ["a4", "letter"]}
"""By what is asked for, the papers that are printed on."""
ALONE = ("starter", "harbour-wedding")
"""Samples that are asked for on each paper alone too."""


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_packs_are_those_of_the_command_line(server: Server, tmp_path: Path, path: Path) -> None:
    """For each paper, and for both at once, the PDF has the same bytes."""
    cake = spec(server, "open", {"text": path.read_text("utf-8"), "name": path.name})[2]["cake"]
    for paper in PAPERS if path.stem in ALONE else ("both",):
        out = tmp_path / paper
        done = call("pack", path, "--paper", paper, "--format", "pdf", "--out", out)
        assert done.exit_code == 0, done.output
        for page in PAPERS[paper]:
            query = f"?paper={paper}&page={page}"
            status, headers, content = spec(server, "pack", {"cake": cake}, query)
            name = f"{path.stem if path.stem != 'starter' else 'my-first-cake'}-{page}.pdf"
            assert status == 200
            assert headers["Content-Disposition"] == f"attachment; filename={name}"
            assert content == (out / name).read_bytes()


def test_the_pages_open_in_a_tab(server: Server) -> None:
    """A form of the page itself gets the PDF of the pack to be shown; any other form gets none."""
    body = {"cake": {"tier": [TIER]}}
    sent = {"Content-Type": "application/x-www-form-urlencoded"}
    form = urlencode({"body": json.dumps(body)})
    own = server.address.rstrip("/")
    status, headers, content = server.ask("POST", "/print", form, **sent, Origin=own)
    assert status == 200
    assert headers["Content-Disposition"].startswith("inline")
    assert content == spec(server, "pack", body)[2]
    for origin in ({}, {"Origin": "null"}, {"Origin": "http://example.org"}):
        assert server.ask("POST", "/print", form, **sent, **origin)[0] == 403


def test_a_piece_is_that_of_the_command_line(server: Server, tmp_path: Path) -> None:
    """The SVG of a piece has the same bytes, and its PDF is a PDF."""
    path = folder("samples") / "starter.toml"
    cake = opened(path.read_text("utf-8"), path.name)
    call("pack", path, "--format", "both", "--out", tmp_path)
    shown = spec(server, "cake", {"cake": cake})[2]["pieces"]
    for piece in (each for each in shown if each["printed"]):
        status, _, content = spec(server, "piece", {"cake": cake}, f"?id={piece['id']}&form=svg")
        assert status == 200
        assert (
            content == (tmp_path / "pieces" / f"{piece['id'].replace('/', '-')}.svg").read_bytes()
        )
    content = spec(server, "piece", {"cake": cake}, "?id=bottom/collar&form=pdf")[2]
    assert content.startswith(b"%PDF-1.7")
    assert b"LWPOLYLINE" in spec(server, "piece", {"cake": cake}, "?id=bottom/collar&form=dxf")[2]


@pytest.mark.parametrize(("title", "name"), [("Ada is 7!", "ada-is-7"), ("", "my"), ("?", "my")])
def test_a_saved_cake_opens_with_a_double_click(server: Server, title: str, name: str) -> None:
    """Its name ends as the entry of the menu has it."""
    _, headers, _ = spec(server, "save", {"cake": {"title": title}, "opened": ""})
    ending = re.search(r'glob pattern="\*(\S+)"', MIME_INFO)
    assert ending is not None
    assert headers["Content-Disposition"] == f"attachment; filename={name}{ending[1]}"


# JSON has no days: a day where a length belongs is a text to the page; and it takes fewer tiers
NOT_ALIKE = ("date", "too many tiers", "far too many tiers")
TOLD_ALIKE = [bad for bad in BAD_CAKES if bad.name not in NOT_ALIKE]


@pytest.mark.parametrize("bad", TOLD_ALIKE, ids=lambda bad: bad.name)
def test_problems_are_told_as_on_the_command_line(server: Server, bad: Bad) -> None:
    """What was found, what is accepted and what to do are those of the command, in page words."""
    text = bad.text
    said = call("check", "-", stdin=text).stderr
    status, _, told = spec(server, "open", {"text": text, "name": "a.toml"})
    jobs = iter(("cake", "sheets"))
    data = told.get("cake")
    while status == 200:
        status, _, told = spec(server, next(jobs), {"cake": data})
    assert told["message"]
    for problem in told["problems"]:
        lines = [worded(line.strip(), tuple(problem["key"])) for line in said.splitlines()]
        for word, mark in (("found", "problem"), ("allowed", "accepted"), ("advice", "fix")):
            message = plain(problem[word].replace("\n", "\\n"))
            assert any(line.endswith(message) for line in lines), (mark, message, lines)


HOSTILE: dict[str, tuple[str, str, bytes | str, dict[str, str], set[int]]] = {
    "a body of over 1 MB": ("POST", "/cake", b"x" * 1_200_000, {}, {413}),
    "a body of 30 MB": ("POST", "/cake", b"x" * 30_000_000, {}, {413}),
    "no JSON": ("POST", "/cake", "{nothing", {}, {400}),
    "JSON that is no object": ("POST", "/cake", "[1]", {}, {400}),
    "JSON nested deeply": ("POST", "/cake", "[" * 100_000, {}, {400}),
    "a cake that is no table": ("POST", "/cake", '{"cake": "x"}', {}, {400}),
    "no number": ("POST", "/cake", '{"cake": {"tier": [{"size": NaN, "depth": "1e999 in"}]}}', {}, {422}),
    "no text at all": ("POST", "/cake", b"\xff\xfe\x00", {}, {400}),
    "another host": ("GET", "/", "", {"Host": "example.org"}, {421}),
    "another host with our port": ("GET", "/", "", {"Host": "example.org:8137"}, {421}),
    "a host that looks like ours": ("GET", "/", "", {"Host": "127.0.0.1.example.org"}, {421}),
    "no host": ("GET", "/", "", {"Host": ""}, {400, 421}),
    "another site": ("POST", "/cake", "{}", {"Origin": "http://example.org"}, {403}),
    "a site of no origin": ("POST", "/cake", "{}", {"Origin": "null"}, {403}),
    "a form of another site": ("POST", "/cake", "{}", {"Content-Type": "text/plain"}, {415}),
    "a way up": ("GET", "/static/../app.py", "", {}, {404}),
    "a hidden way up": ("GET", "/static/%2e%2e/app.py", "", {}, {404}),
    "a way up with other strokes": ("GET", "/static/..%5capp.py", "", {}, {404}),
    "a way up among samples": ("GET", "/samples/..%2fpyproject", "", {}, {404}),
    "a way up among fonts": ("GET", "/fonts/..%2f..%2fpyproject.toml", "", {}, {404}),
    "an unknown job": ("POST", "/run", "{}", {}, {404}),
    "another method": ("DELETE", "/", "", {}, {405}),
    "a paper that is none": ("POST", "/pack?paper=../x", '{"cake": {"tier": [{"size": "8 in", "depth": "4 in"}]}}', {}, {422}),
    "a piece that is none": ("POST", "/piece?id=../x", '{"cake": {"tier": [{"size": "8 in", "depth": "4 in"}]}}', {}, {422}),
    "a turn that is none": ("POST", "/front?turn=1e9", '{"cake": {"tier": [{"size": "8 in", "depth": "4 in"}]}}', {}, {400}),
    "a turn of two signs": ("POST", "/front?turn=--5", json.dumps({"cake": {"tier": [TIER]}}), {}, {400}),
    "half of a pair of characters": ("POST", "/cake", '{"cake": {"title": "\\ud800", "tier": []}}', {}, {400}),
    "half of a pair, as bytes": ("POST", "/cake", b'{"cake": {"title": "\xed\xa0\x80"}}', {}, {400}),
    "half of a pair to save": ("POST", "/save", '{"cake": {"title": "\\udfff"}}', {}, {400}),
    "tables nested 800 deep": ("POST", "/cake", '{"cake": ' + '{"a": ' * 800 + "1" + "}" * 801, {}, {400}),
    "tables nested 800 deep to save": ("POST", "/save", '{"cake": ' + '{"a": ' * 800 + "1" + "}" * 801, {}, {400}),
    "a TOML of tables nested 800 deep": ("POST", "/open", json.dumps({"text": "a = " + "{a = " * 800 + "1" + "}" * 800, "name": "x"}), {}, {422}),
    "10 000 tiers": ("POST", "/cake", json.dumps({"cake": {"tier": [TIER] * 10_000}}), {}, {422}),
    "too many files": ("POST", "/cake", json.dumps({"cake": {}, "files": {str(n): "" for n in range(99)}}), {}, {400}),
    "a file that is no base64": ("POST", "/cake", '{"cake": {}, "files": {"a.svg": "*"}}', {}, {400}),
    "a TOML of many dots": ("POST", "/open", json.dumps({"text": "a." * 40_000 + "a=1", "name": "x"}), {}, {422}),
    "a TOML nested deeply": ("POST", "/open", json.dumps({"text": "a=" + "[" * 50_000, "name": "x"}), {}, {422}),
    "a text that is none": ("POST", "/open", '{"text": 5}', {}, {400}),
    "nothing to save": ("POST", "/save", '{"cake": 5}', {}, {400}),
    "a stack that is no text": ("POST", "/stack", '{"line": 5}', {}, {400}),
    "a stack in no unit": ("POST", "/stack?unit=ell", '{"line": "10x5"}', {}, {422}),
    "a stack without end": ("POST", "/stack", json.dumps({"line": "1x1," * 90_000}), {}, {422}),
    "the shape of nothing": ("POST", "/shape?shape=oval", "{}", {}, {400}),
    "a shape that is none": ("POST", "/shape?shape=../x", '{"tier": {"size": [], "depth": {}}}', {}, {422}),
    "a shape of no size": ("POST", "/shape?shape=oval", '{"tier": {"size": [], "depth": {}}}', {}, {200}),
    "a unit that is none": ("POST", "/convert?unit=ell", '{"cake": {}}', {}, {422}),
    "no lengths to convert": ("POST", "/convert?unit=cm", '{"cake": {"unit": "in", "tier": [5, {"size": [], "drips": 7}]}}', {}, {200}),
    "pages for a form from nowhere": ("POST", "/print", "body={}", {"Content-Type": "application/x-www-form-urlencoded"}, {403}),
    "tiers that are none": ("POST", "/sheets?tiers=a|b&kinds=../x", '{"cake": {"tier": [{"size": "8 in", "depth": "4 in"}]}}', {}, {422}),
    "what TOML has not": ("POST", "/save", '{"cake": {"title": null}}', {}, {422}),
}  # fmt: skip
"""Requests that no page sends: method, address, body, headers, and the answers that will do."""


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_requests_are_refused(server: Server, name: str) -> None:
    """Each gets a clear refusal, as JSON wherever it is ours, and the server lives on."""
    method, path, body, headers, statuses = HOSTILE[name]
    status, sent, content = server.ask(method, path, body, **headers)
    assert status in statuses
    if status != 200 and sent["Content-Type"] == "application/json":
        assert json.loads(content)["message"]
    if status == 413:
        assert b"more than the page takes at once" in content
    assert b"Traceback" not in content
    assert lives(server)


NAMES = ["/etc/hostname.svg", "../../README.svg", "C:\\x.svg", "a.svg", "file:///etc/passwd.svg"]


@pytest.mark.parametrize("name", NAMES)
def test_no_name_of_a_file_is_ever_opened(server: Server, name: str, tmp_path: Path) -> None:
    """A file that the body does not hold is refused, whatever its name, there or not."""
    there = tmp_path / "real.svg"
    there.write_text('<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0H9V9Z"/></svg>')
    for each in (name, str(there)):
        tier = TIER | {"design": [{"kind": "artwork", "file": each}]}
        status, _, told = spec(server, "cake", {"cake": {"tier": [tier]}})
        assert status == 422
        (problem,) = told["problems"]
        assert problem["key"] == ["tier", 0, "design", 0, "file"]
        assert "not with the cake" in problem["found"]
        assert problem["advice"] == "choose the file again"


def test_files_in_the_body_are_read_as_on_the_command_line(server: Server) -> None:
    """Artwork from the body is drawn; one that is wrong is refused in the command's words."""
    good = "PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciPjxwYXRoIGQ9Ik0wIDBIOVY5WiIvPjwvc3ZnPg=="
    tier = TIER | {"design": [{"kind": "artwork", "file": "leaf.svg"}]}
    body = {"cake": {"tier": [tier]}, "files": {"leaf.svg": good}}
    assert spec(server, "cake", body)[0] == 200
    body["files"] = {"leaf.svg": "aGVsbG8="}
    status, _, told = spec(server, "cake", body)
    assert status == 422
    assert told["problems"][0]["key"][:4] == ["tier", 0, "design", 0]


def test_a_title_is_a_text_everywhere(server: Server) -> None:
    """Markup in titles and names is escaped in SVG and stays out of names of files."""
    bad = "<script>alert(1)</script>\"'&../x"
    cake = {"title": bad, "tier": [TIER | {"name": bad, "cover": "panelled"}]}
    shown = spec(server, "cake", {"cake": cake})[2]
    piece = next(each for each in shown["pieces"] if each["kind"] == "wrap")
    _, headers, svg = spec(server, "piece", {"cake": cake}, f"?id={piece['id']}&form=svg")
    assert b"<script" not in svg
    assert "script-alert-1-script" in headers["Content-Disposition"]
    sheets = spec(server, "sheets", {"cake": cake})[2]["sheets"]
    assert all("<script" not in sheet for sheet in sheets)
    _, headers, _ = spec(server, "pack", {"cake": cake}, "?paper=a4")
    assert headers["Content-Disposition"].count("/") == 0
    assert ".." not in headers["Content-Disposition"]


def test_so_many_tiers_and_no_more(server: Server) -> None:
    """The most the page takes is made; one more is refused with a way out."""
    tiers = [TIER | {"size": f"{60 - 4 * n} cm", "depth": "10 cm"} for n in range(MOST_TIERS)]
    assert spec(server, "cake", {"cake": {"tier": tiers}})[0] == 200
    status, _, told = spec(server, "cake", {"cake": {"tier": [*tiers, TIER]}})
    assert status == 422
    assert "templates-gen pack" in told["problems"][0]["advice"]


def test_every_answer_is_guarded(server: Server) -> None:
    """No script from elsewhere or inside the page, no cookie, no guessing of types, no frames."""
    for path in ("/", f"/static/{digest()}/main.js", "/samples/starter", "/nothing"):
        headers = server.ask("GET", path)[1]
        rules = headers["Content-Security-Policy"]
        assert "default-src 'none'" in rules
        assert "unsafe" not in rules
        assert "frame-ancestors 'none'" in rules
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert "Set-Cookie" not in headers
    page = server.ask("GET", "/")[2].decode()
    assert "<style" not in page
    assert " style=" not in page
    assert page.count("<script") == page.count('<script type="module" src=')


def test_what_takes_too_long_ends_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """A job over its time is refused; the next is done by another process."""
    body = json.dumps({"cake": {"tier": [TIER]}}).encode()
    pool = Workers(1)
    try:
        assert pool.run("cake", body, {}).status == 200
        monkeypatch.setitem(workers.SECONDS, "sheets", 0.001)
        refused = pool.run("sheets", body, {})
        assert refused.status == 503
        assert b"too long" in refused.content
        assert pool.run("cake", body, {}).status == 200
    finally:
        pool.close()


def test_a_killed_process_is_replaced_and_its_job_done_again() -> None:
    """A process that the system ended costs the decorator nothing but a moment."""
    body = json.dumps({"cake": {"tier": [TIER]}}).encode()
    pool = Workers(1)
    try:
        assert pool.run("cake", body, {}).status == 200
        for worker in list(pool._quick._all):
            worker._process.kill()
            worker._process.join()
        assert pool.run("cake", body, {}).status == 200
    finally:
        pool.close()


def test_an_edit_does_not_wait_for_what_takes_long() -> None:
    """While a process makes the sheets of a tall cake, another answers an edit."""
    tall = [TIER | {"cover": "panelled"}] * 12
    pool = Workers(1)
    try:
        body = json.dumps({"cake": {"tier": [TIER]}}).encode()
        assert pool.run("cake", body, {}).status == pool.run("sheets", body, {}).status == 200
        many = json.dumps({"cake": {"tier": tall}}).encode()
        sheets = threading.Thread(target=pool.run, args=("sheets", many, {}))
        sheets.start()
        assert pool.run("cake", body, {}).status == 200
        assert sheets.is_alive()
        sheets.join()
    finally:
        pool.close()


@pytest.mark.parametrize("sent", [signal.SIGINT, signal.SIGTERM])
def test_it_stops_cleanly(sent: signal.Signals) -> None:
    """Ctrl-C ends the server and every process it started, with a word and no traceback."""
    command = [sys.executable, "-m", "templates_gen", "serve", "--no-open", "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert process.stdout is not None
    assert process.stdout.readline().startswith("The page is at http://127.0.0.1:")
    children = Path(f"/proc/{process.pid}/task/{process.pid}/children")
    started = children.read_text().split() if children.exists() else []
    process.send_signal(sent)
    said, complaint = process.communicate(timeout=20)
    assert process.returncode == 0
    assert said.endswith("Stopped.\n")
    assert complaint == ""
    until = time.monotonic() + 10
    while any(Path(f"/proc/{pid}").exists() for pid in started):
        assert time.monotonic() < until


def test_a_port_that_is_taken(server: Server) -> None:
    """It is told which, and what to do."""
    done = call("serve", "--no-open", "--port", str(server.port))
    assert done.exit_code == 1
    assert f"port {server.port}" in done.stderr
    assert f"--port {server.port + 1}" in done.stderr


def test_a_server_of_its_own_starts_again() -> None:
    """Nothing is left behind that hinders the next."""
    for _ in range(2):
        with serving() as another:
            assert lives(another)


def test_a_fault_of_the_program_ends_one_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    """What nobody foresaw is told as such, without what happened, and goes to the terminal."""

    def fault(*_: object) -> None:
        raise RuntimeError("a secret")

    monkeypatch.setattr(jobs, "run", fault)
    refused = process.done("cake", b"{}", {})
    assert refused.status == 500
    assert b"secret" not in refused.content


def test_it_cannot_be_ended_from_the_page(server: Server) -> None:
    """Only what a double-click started can be: this was started where it can be stopped."""
    assert b'id="quit"' not in server.ask("GET", "/")[2]
    assert server.ask("POST", "/quit", b"{}")[0] == 404


def test_licences_are_shown(server: Server) -> None:
    """As one text, to which the page has a link."""
    assert b'href="licences"' in server.ask("GET", "/")[2]
    status, headers, content = server.ask("GET", "/licences")
    assert (status, headers["Content-Type"]) == (200, "text/plain; charset=utf-8")
    assert content.decode() == licences()


@pytest.mark.parametrize("path", ["nothing", "print", "cake", "samples/none", "a/b/c"])
def test_an_address_that_is_none_leads_back_to_the_page(
    server: Server, chromium: Browser, path: str
) -> None:
    """A wrong one is answered by a page that says so, with a link to the cakes."""
    status, _, _ = server.ask("GET", f"/{path}")
    assert status == 404
    page = chromium.new_page()
    answer = page.goto(f"{server.address}{path}")
    assert answer is not None
    assert answer.status == 404
    page.get_by_role("link", name="Go to your cakes").click()
    expect(page.locator("#stack-line")).to_be_visible()
    page.close()
