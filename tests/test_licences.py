"""The text that the law of each part asks for."""

from __future__ import annotations

from importlib.metadata import Distribution

import pytest
from packaging.requirements import Requirement

from templates_gen import licences
from templates_gen.resources import folder

NEEDED = licences.needed("templates_gen")


def test_each_package_that_is_needed_is_found() -> None:
    """And what those need: packaging reads the same requirements by the rules of PEP 508."""
    names = {each.name.lower().replace("_", "-") for each in NEEDED}
    for package in NEEDED:
        for text in package.requires or ():
            required = Requirement(text)
            if required.marker is None or required.marker.evaluate({"extra": ""}):
                assert required.name.lower().replace("_", "-") in names


@pytest.mark.parametrize("package", NEEDED, ids=lambda each: str(each.name))
def test_each_package_has_its_licence(package: Distribution) -> None:
    """Its own words, or what its metadata says."""
    heading = f"\n{package.name} {package.version}\n"
    _, found, after = licences.licences().partition(heading)
    assert found
    words = after.split("\n", 1)[1].partition("=" * 78)[0].strip()
    assert len(words) > 10


def test_each_font_has_its_licence() -> None:
    """Whole, as it lies beside the font."""
    found = licences.licences()
    texts = [path.read_text("utf-8").strip() for path in folder("fonts").glob("*LICENSE*")]
    assert len(texts) == 3
    assert all(text in found for text in texts)
