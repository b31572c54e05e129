"""The addresses of the page, and what keeps them safe."""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterable, Mapping
from http import HTTPStatus
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import urlsplit

from flask import Flask, Response, abort, jsonify, render_template, request
from werkzeug.exceptions import (
    HTTPException,
    InternalServerError,
    MethodNotAllowed,
    NotFound,
    RequestEntityTooLarge,
)

from templates_gen.cakefile.printers import MOST
from templates_gen.licences import licences
from templates_gen.resources import folder
from templates_gen.sheets.print_check import CHECK, LARGE_CHECK, REMINDER
from templates_gen.units import decimal
from templates_gen.version import VERSION
from templates_gen.web.answer import LARGEST_BODY, PDF, TOO_LARGE, Answer
from templates_gen.web.assets import Asset, asset, digest, packed
from templates_gen.web.process import INTERNAL_ERROR
from templates_gen.web.workers import SECONDS

NAME = "templates-gen"
HEADERS = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self';"
    " img-src 'self' blob:; font-src 'self'; connect-src 'self'; form-action 'self';"
    " base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}
FRESH, KEPT = "no-store", "public, max-age=31536000, immutable"
"""How long a browser may keep an answer: not at all, or for good."""
CHECKED, A_WHILE = "no-cache", "max-age=3600"
"""Or as long as it is asked each time whether it is still the same, or for an hour."""
VIEWED = "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'"
"""What the answer with a PDF allows."""


class Runs(Protocol):
    """What does the jobs."""

    def run(self, job: str, content: bytes, options: Mapping[str, str]) -> Answer:
        """Do a job."""
        ...


def create_app(
    workers: Runs, hosts: Collection[str], secret: str = "", end: Callable[[], None] | None = None
) -> Flask:
    """Return the page as an application that answers to the names ``hosts`` and to no other.

    With a ``secret`` all addresses begin with it, and there is nothing at any other. With ``end``
    the page can end the program by it. Nothing is kept between requests but what makes the next
    answer faster.
    """
    app = Flask(__name__, static_folder=None)
    if secret:
        app.wsgi_app = _Below(app.wsgi_app, f"/{secret}")  # type: ignore[method-assign]
    app.config["MAX_CONTENT_LENGTH"] = app.config["MAX_FORM_MEMORY_SIZE"] = LARGEST_BODY
    app.before_request(lambda: _only_own_names(hosts))
    app.after_request(_guarded)
    app.register_error_handler(HTTPException, _refused)
    app.add_url_rule("/", "page", lambda: _page(can_quit=end is not None))
    app.add_url_rule("/alive", "alive", lambda: jsonify(name=NAME, version=VERSION))
    app.add_url_rule("/licences", "licences", lambda: _text(licences()))
    if end is not None:
        app.add_url_rule("/quit", "quit", lambda: _quit(end), methods=["POST"])
    kept = _Kept(workers)
    app.add_url_rule("/form.json", "form", kept.form)
    app.add_url_rule("/static/<wanted>/<path:name>", view_func=_static)
    app.add_url_rule("/samples/<name>", view_func=_sample)
    app.add_url_rule("/samples/<name>.svg", "picture", kept.picture)
    app.add_url_rule("/print", "print", lambda: _print(workers), methods=["POST"])
    app.add_url_rule("/<job>", "job", lambda job: _job(workers, job), methods=["POST"])
    return app


def _only_own_names(hosts: Collection[str]) -> None:
    """Refuse a request under another host name, as of a page elsewhere by DNS rebinding."""
    name = urlsplit(f"//{request.host}").hostname or ""  # without its port
    if name not in hosts:
        abort(421, "this server answers to its own name only")
    origin = request.headers.get("Origin")
    if origin is not None and urlsplit(origin).netloc != request.host:
        abort(403, "another site may not ask this server")


def _guarded(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    return response


def _refused(error: HTTPException) -> tuple[Response, int]:
    if isinstance(error, MethodNotAllowed) and request.method == "GET":
        error = NotFound()  # to who looks there, what only takes requests is nothing
    if isinstance(error, NotFound) and "text/html" in request.headers.get("Accept", ""):
        page = render_template("nothing_here.html", static=f"static/{digest()}")
        return Response(page), NotFound.code
    words = {InternalServerError: INTERNAL_ERROR, RequestEntityTooLarge: TOO_LARGE}
    message = words.get(type(error), error.description)
    return jsonify(message=message, problems=[]), error.code or 500


def _page(*, can_quit: bool) -> str:
    return render_template(
        "page.html",
        can_quit=can_quit,
        static=f"static/{digest()}",
        samples=list(_samples()),
        print_check=(
            REMINDER,
            f"Measure the two bars on page 1: {decimal(LARGE_CHECK)} mm each.",
            f"Every later page has a {decimal(CHECK)} mm bar each way. Cut nothing from a page"
            " whose bars are wrong.",
        ),
        reminder=REMINDER,
        check=int(CHECK),
        large_check=int(LARGE_CHECK),
        off=round(CHECK * (MOST - 1)),
    )


def _text(content: str | bytes) -> Response:
    return Response(content, mimetype="text/plain")


def _quit(end: Callable[[], None]) -> Response:
    """End the program, once this is answered."""
    _only_json()
    end()
    return jsonify(ended=True)


def _static(wanted: str, name: str) -> Response:
    """Return a file of the page; under the digest of another version it is not to be kept."""
    found = asset(name)
    if found is None:
        abort(404, "there is nothing here")
    response = _packed_response(found)
    response.headers["Cache-Control"] = KEPT if wanted == digest() else FRESH
    return response


def _packed_response(found: Asset) -> Response:
    """Return an asset, compressed for a browser that takes it so."""
    is_packed = request.accept_encodings.quality("gzip") > 0
    response = Response(found.packed if is_packed else found.content, mimetype=found.kind)
    if is_packed:
        response.content_encoding = "gzip"
    response.vary.add("Accept-Encoding")
    return response


class _Kept:
    """Answers that stay the same: a process makes each once, and it is kept compressed."""

    def __init__(self, workers: Runs) -> None:
        self._workers = workers
        self._kept: dict[tuple[str, bytes], Asset] = {}

    def form(self) -> Response:
        """Return the description of cake files."""
        return self._answer("form", b"{}", CHECKED)

    def picture(self, name: str) -> Response:
        """Return the picture of a sample."""
        text = _sample(name).get_data(as_text=True)
        return self._answer("sample-picture", json.dumps({"text": text}).encode(), A_WHILE)

    def _answer(self, job: str, content: bytes, how_long: str) -> Response:
        key = (job, content)
        if key not in self._kept:
            made = self._workers.run(job, content, {})
            if made.status != HTTPStatus.OK:
                return _response(made)
            self._kept[key] = packed(made.content, made.kind)
        response = _packed_response(self._kept[key])
        response.headers["Cache-Control"] = how_long
        response.add_etag()
        response.make_conditional(request)
        return response


def _samples() -> dict[str, Path]:
    return {path.stem: path for path in sorted(folder("samples").glob("*.toml"))}


def _sample(name: str) -> Response:
    samples = _samples()
    if name not in samples:
        abort(404, "there is no such sample")
    return _text(samples[name].read_bytes())


def _print(workers: Runs) -> Response:
    """Return the pack as PDF to be shown in a tab, for a form: no script can fetch into one."""
    if request.headers.get("Origin") is None:
        abort(403, "a form of this page says where it comes from")
    answer = workers.run("pack", request.form.get("body", "").encode(), request.args)
    if answer.kind != PDF:
        message = json.loads(answer.content)["message"]
        return Response(message, answer.status, mimetype="text/plain")
    response = Response(answer.content, mimetype=PDF)
    response.headers["Content-Disposition"] = f'inline; filename="{answer.name}"'
    # the viewer of a browser is a plug-in with a style of its own
    response.headers["Content-Security-Policy"] = VIEWED
    return response


def _job(workers: Runs, job: str) -> Response:
    if job not in SECONDS:
        abort(404, "there is nothing here")
    _only_json()
    return _response(workers.run(job, request.get_data(), request.args))


def _only_json() -> None:
    """Refuse what a form of another site could send."""
    if request.mimetype != "application/json":
        abort(415, "a request is JSON")


def _response(answer: Answer) -> Response:
    response = Response(answer.content, answer.status, mimetype=answer.kind)
    if answer.name:
        response.headers.set("Content-Disposition", "attachment", filename=answer.name)
    return response


Environment = dict[str, Any]
Application = Callable[[Environment, Any], Iterable[bytes]]


class _Below:
    """An application that is found below a path only, which it does not see."""

    def __init__(self, inner: Application, path: str) -> None:
        self._inner, self._path = inner, path

    def __call__(self, environ: Environment, start_response: Any) -> Iterable[bytes]:  # noqa: ANN401
        """Answer what is below the path."""
        path = environ.get("PATH_INFO", "")
        if not path.startswith(f"{self._path}/"):
            start_response("404 Not Found", [("Content-Type", "text/plain")])
            return [b"There is nothing here: the address must be whole.\n"]
        moved = {"SCRIPT_NAME": self._path, "PATH_INFO": path.removeprefix(self._path)}
        return self._inner(environ | moved, start_response)
