"""Names of files and ids: safe everywhere, and told apart where the decorator's names are."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.slug import alike, slug, tier_slug
from tests.cakes import cake


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Harbour wedding", "harbour-wedding"),
        ("  A & B: 2_000! ", "a-b-2-000"),
        ("Zoë", "zoë"),
        ("Торт", "торт"),
        ("½", "1-2"),
        ("&", "cake"),
        ("NUL", "nul-cake"),
        ("../x", "x"),
    ],
)
def test_slug(text: str, name: str) -> None:
    """Letters and figures of any script stay, all else becomes one hyphen."""
    assert slug(text) == name


@given(st.text())
def test_safe(text: str) -> None:
    """Any text gives a name of letters, figures and hyphens between them."""
    name = slug(text)
    assert name
    assert all(char.isalnum() or char == "-" for char in name)
    assert not name.startswith("-")
    assert not name.endswith("-")


@pytest.mark.parametrize(
    ("name", "found"), [("top", "top"), ("&", "tier-3"), ("con", "con-tier-3")]
)
def test_tier_slug(name: str, found: str) -> None:
    """A tier named by signs only is told apart by its place."""
    assert tier_slug(name, 2) == found


def test_names_of_signs() -> None:
    """Tiers may be named by signs only, each another."""
    tiers = ((8, "&"), (6, "+"), (4, "&&"))
    text = "".join(
        f"[[tier]]\nsize = '{size} in'\ndepth = '4 in'\nname = '{name}'\n" for size, name in tiers
    )
    names = cake(text).names
    assert len({tier_slug(name, index) for index, name in enumerate(names)}) == 3


@pytest.mark.parametrize("pair", [("zoë", "zoe"), ("zoë", "zoe\u0308"), ("й", "и")])
def test_alike(pair: tuple[str, str]) -> None:
    """Names that differ only in accents are alike."""
    assert alike(pair[0]) == alike(pair[1])
