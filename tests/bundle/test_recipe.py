"""What the recipe of the bundle says of it, on any system."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from templates_gen.bundle import recipe


def test_parts_are_listed_by_weight(tmp_path: Path) -> None:
    """Every byte once, the heaviest part first; a link weighs nothing."""
    inside = tmp_path / "_internal"
    sizes = {"library/a.so": 500, "library/deep/b.so": 600, "small.so": 1000, "other/c.py": 1}
    for name, size in sizes.items():
        (inside / name).parent.mkdir(parents=True, exist_ok=True)
        (inside / name).write_bytes(b"x" * size)
    (inside / "link.so").symlink_to("small.so")
    (tmp_path / "templates-gen").write_bytes(b"x" * 50)
    assert recipe.weights(tmp_path) == [
        ("library", 1100),
        ("small.so", 1000),
        ("templates-gen", 50),
        ("other", 1),
    ]


@pytest.mark.parametrize(
    ("system", "name", "separator", "has_menu"),
    [
        ("linux", "templates-gen", "/", True),
        ("darwin", "templates-gen", "/", False),
        ("win32", "templates-gen.exe", "\\", False),
    ],
)
def test_how_to_start_is_said_for_each_system(
    system: str,
    name: str,
    separator: str,
    has_menu: bool,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """By the name that the program has there."""
    (tmp_path / name).touch()
    (tmp_path / "_internal").mkdir()
    monkeypatch.setattr(sys, "platform", system)
    monkeypatch.setattr(os, "sep", separator)
    text = recipe._readme(tmp_path)
    monkeypatch.undo()
    assert f"Double-click {name}:" in text
    assert f".{separator}{name} --help" in text
    assert (f"{name} menu" in text) == has_menu
    assert "http://127.0.0.1:8137/" in text
