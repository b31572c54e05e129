"""The form knows the whole cake file, and no more."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.comb import Comb
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.drips import Drips
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.keys import tables
from templates_gen.cakefile.lettering import Lettering
from templates_gen.cakefile.panels import Panels
from templates_gen.cakefile.tier import Tier
from templates_gen.web.form import Field, fields_of, form
from templates_gen.web.labels import worded_in

KINDS = {
    "length", "lengths", "count", "date", "number", "yes", "words", "text", "file", "table",
    "tables",
}  # fmt: skip


def every(fields: tuple[Field, ...]) -> Iterator[Field]:
    """Yield fields and those of their tables."""
    for field in fields:
        yield field
        yield from every(field.fields)


def field_of(model: type[BaseModel], key: str) -> Field:
    """Return the field of a key."""
    return next(field for field in fields_of(model) if field.key == key)


TABLES: dict[str, type[BaseModel]] = {"at the top": Cake, **dict(tables())}


@pytest.mark.parametrize("model", TABLES.values(), ids=TABLES)
def test_every_key_is_on_the_form(model: type[BaseModel]) -> None:
    """Each key of each table of the reference has a field, explained as it is there."""
    fields = {field.key: field for field in fields_of(model)}
    assert list(fields) == list(model.model_fields)
    for key, info in model.model_fields.items():
        assert fields[key].help == worded_in(info.description or "", model)


def test_every_table_is_reached() -> None:
    """From the top of the form every table of the reference can be opened."""
    found = {tuple(field.key for field in each.fields) for each in every(form()) if each.fields}
    tables = {tuple(model.model_fields) for model in TABLES.values() if model is not Cake}
    assert found == tables


def test_every_kind_is_one_the_page_can_show() -> None:
    """No field is of a kind that the script does not know."""
    assert {field.kind for field in every(form())} == KINDS


def test_a_new_key_appears_by_itself() -> None:
    """A table with a key nobody has heard of is on the form with its words and its usual one."""

    class Glitter(Table):
        grains: bool = about("whether it has grains", "true", True)

    (field,) = fields_of(Glitter)
    assert (field.key, field.label, field.kind, field.usual) == ("grains", "Grains", "yes", "yes")


def test_words_come_from_the_tables() -> None:
    """Choices are those of the model: of a list of words, of a table, of bundled typefaces."""
    assert field_of(Tier, "cover").choices == ("drape", "panelled", "none")
    assert "swags" in field_of(Design, "kind").choices
    assert field_of(Lettering, "font").choices == ("script", "bold")
    assert "letter" in field_of(Cake, "paper").choices


def test_fields_are_told_apart_by_what_they_matter_for() -> None:
    """A key of one shape, design or pattern says so; one of all of them says nothing."""
    assert field_of(Tier, "lobes").only == ("petal",)
    assert field_of(Drips, "waves").only_by == "pattern"
    assert "swags" in field_of(Design, "drop").only
    assert field_of(Tier, "size").only_by == ""


def test_a_word_is_called_what_its_own_field_means() -> None:
    """“Both” is two papers in one place, and two guides in another."""
    fields = {each.key: each for each in form()}
    assert dict(zip(fields["paper"].choices, fields["paper"].names, strict=True))["both"] == (
        "A4 and Letter"
    )
    tier = {each.key: each for each in fields["tier"].fields}
    guide = next(each for each in tier["drips"].fields if each.key == "guide")
    assert guide.names[-1] == "both"


def test_the_rise_of_a_curve_is_asked_for_where_there_is_one() -> None:
    """Letters on a straight line have none."""
    found = field_of(Lettering, "curve_height")
    assert (found.only_by, found.only) == ("line", ("curve",))


def test_what_is_worked_out_is_automatic() -> None:
    """How many panels there are, but not whether a tier is tapered."""
    assert all(field_of(Panels, each).automatic for each in ("count", "width", "height"))
    assert not field_of(Tier, "top_size").automatic


def test_the_contour_of_a_scraper_is_asked_for_where_it_has_one() -> None:
    """The other edges are chosen, not drawn."""
    found = field_of(Comb, "line")
    assert (found.only_by, found.only) == ("profile", ("contour",))
