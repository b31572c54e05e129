"""The addresses of the page, and what keeps them safe."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Protocol
from urllib.parse import urlsplit

from flask import Flask, Response, abort, jsonify, render_template, request
from werkzeug.exceptions import HTTPException, InternalServerError

from templates_gen.cakefile.lengths import BARE
from templates_gen.resources import folder
from templates_gen.sheets.furniture import CHECK, REMINDER
from templates_gen.web.form import as_data, form
from templates_gen.web.jobs import JOBS, Answer
from templates_gen.web.workers import FAULT

LARGEST_BODY = 1_000_000
"""Bytes of a request at the most."""
LARGEST_FILE = LARGEST_BODY * 7 // 10
"""Bytes of a file that is sent with a cake: base64 makes it a third larger."""
FONTS = {
    "text": "SourceSans3-Regular.ttf",
    "bold": "SourceSans3-Bold.ttf",
    "display": "Fredoka-Bold.ttf",
}
FIRST_SAMPLE = "harbour-wedding"
HEADERS = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self';"
    " img-src 'self' blob:; font-src 'self'; connect-src 'self'; form-action 'none';"
    " base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


class Runs(Protocol):
    """What does the jobs."""

    def run(self, job: str, content: bytes, options: Mapping[str, str]) -> Answer:
        """Do a job."""
        ...


def create_app(workers: Runs, hosts: Collection[str]) -> Flask:
    """Return the page as an application that answers to the names ``hosts`` and to no other."""
    app = Flask(__name__)
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY
    app.before_request(lambda: _only_own_names(hosts))
    app.after_request(_guarded)
    app.register_error_handler(HTTPException, _refused)
    app.add_url_rule("/", view_func=_page)
    app.add_url_rule("/form", view_func=_form)
    app.add_url_rule("/samples/<name>", view_func=_sample)
    app.add_url_rule("/fonts/<name>", view_func=_font)
    app.add_url_rule("/<job>", "job", lambda job: _job(workers, job), methods=["POST"])
    return app


def _only_own_names(hosts: Collection[str]) -> None:
    """Refuse what is asked under another name, as by a page elsewhere that a name was bent for."""
    if _name(request.host) not in hosts:
        abort(421, "this server answers to its own name only")
    origin = request.headers.get("Origin")
    if origin is not None and urlsplit(origin).netloc != request.host:
        abort(403, "another site may not ask this server")


def _guarded(response: Response) -> Response:
    response.headers.update(HEADERS)
    return response


def _refused(error: HTTPException) -> tuple[Response, int]:
    message = FAULT if isinstance(error, InternalServerError) else error.description
    return jsonify(message=message, problems=[]), error.code or 500


def _page() -> str:
    return render_template(
        "page.html", samples=list(_samples()), reminder=REMINDER, check=int(CHECK)
    )


def _form() -> Response:
    return jsonify(fields=as_data(form()), first=FIRST_SAMPLE, bare=BARE, largest_file=LARGEST_FILE)


def _samples() -> dict[str, Path]:
    return {path.stem: path for path in sorted(folder("samples").glob("*.toml"))}


def _sample(name: str) -> Response:
    samples = _samples()
    if name not in samples:
        abort(404, "there is no such sample")
    return Response(samples[name].read_bytes(), mimetype="text/plain")


def _font(name: str) -> Response:
    if name not in FONTS:
        abort(404, "there is no such font")
    return Response((folder("fonts") / FONTS[name]).read_bytes(), mimetype="font/ttf")


def _job(workers: Runs, job: str) -> Response:
    if job not in JOBS:
        abort(404, "there is nothing here")
    if request.mimetype != "application/json":
        abort(415, "a request is JSON")
    return _response(workers.run(job, request.get_data(), request.args))


def _name(host: str) -> str:
    """Return a Host header without its port."""
    return urlsplit(f"//{host}").hostname or ""


def _response(answer: Answer) -> Response:
    response = Response(answer.content, answer.status, mimetype=answer.kind)
    if answer.name:
        response.headers.set("Content-Disposition", "attachment", filename=answer.name)
    return response
