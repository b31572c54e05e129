"""What a viewer can do with a pack: hide layers, follow links, read what the file says."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import numpy as np
import pikepdf
import pytest
from lxml import etree

from templates_gen.drawing.roles import Role
from templates_gen.writers.pdf_layers import WORDS
from tests.pdf_content import saved
from tests.prints import OWN, Print, printed
from tests.raster import DARK, by_pdfium, by_poppler

LAYERS = [*(role.word for role in Role), WORDS]
DPI = 100


@pytest.fixture
def pack() -> Print:
    """Return a sample with split pieces."""
    return printed(OWN[1])


def with_hidden(pdf: bytes, *names: str) -> bytes:
    """Return a PDF in which some layers are off, as a viewer turns them off."""
    with pikepdf.open(BytesIO(pdf)) as document:
        layers = document.Root.OCProperties
        off = [group for group in layers.OCGs if str(group.Name) in names]
        layers.D.ON = pikepdf.Array([group for group in layers.OCGs if group not in off])
        layers.D.OFF = pikepdf.Array(off)
        return saved(document)


def test_every_kind_of_line_is_a_layer(pack: Print) -> None:
    """The list of layers has each role and the words, all of them shown."""
    with pikepdf.open(BytesIO(pack.pdf)) as document:
        layers = document.Root.OCProperties
        assert [str(group.Name) for group in layers.OCGs] == LAYERS
        assert [str(group.Name) for group in layers.D.Order] == LAYERS
        assert len(layers.D.ON) == len(LAYERS)


@pytest.mark.parametrize("hidden", ["cut", "grid", "match", WORDS])
def test_a_hidden_layer_is_not_drawn(pack: Print, hidden: str) -> None:
    """Without a layer there is less ink, and nothing that was not there before."""
    for draw in (by_pdfium, by_poppler):  # they agree
        before = np.array([sheet.ink for sheet in draw(pack.pdf, DPI)])
        after = np.array([sheet.ink for sheet in draw(with_hidden(pack.pdf, hidden), DPI)])
        assert np.count_nonzero(after) < np.count_nonzero(before)
        assert not np.any((after >= DARK) & (before == 0))


def test_nothing_is_drawn_on_no_layer(pack: Print) -> None:
    """With every layer off the pages are blank, but for the grey of overlaps."""
    for raster in by_pdfium(with_hidden(pack.pdf, *LAYERS), DPI):
        assert raster.ink.max() < DARK / 2


def links(page: pikepdf.Page) -> list[Any]:
    """Return the pages that the links of a page lead to, by the numbers of their objects."""
    annotations: list[pikepdf.Object] = list(page.get("/Annots", pikepdf.Array()))
    return [each.Dest[0].objgen for each in annotations if each.Subtype == "/Link"]


def test_the_list_leads_to_sheets_and_sheets_lead_back(pack: Print) -> None:
    """The cover's list has a link to the first sheet of each piece, each sheet one to the cover."""
    with pikepdf.open(BytesIO(pack.pdf)) as document:
        cover = document.pages[0].objgen
        first: dict[str, Any] = {}
        listed: list[Any] = []
        for sheet, page in zip(pack.manifest["sheets"], document.pages, strict=True):
            for window in sheet["windows"]:
                first.setdefault(window["piece"], page.objgen)
            if sheet["windows"]:
                assert links(page) == [cover]
            else:
                listed += links(page)
        # the title of a map is a link too
        assert set(listed) == set(first.values())
        assert len(listed) >= len(first)


def test_the_file_says_what_it_is(pack: Print) -> None:
    """The XMP is sound XML with the title, and has the same keywords as the information."""
    with pikepdf.open(BytesIO(pack.pdf)) as document:
        packet = document.Root.Metadata.read_bytes()
        assert etree.fromstring(packet) is not None
        with document.open_metadata() as said:
            assert said["dc:title"] == pack.pack.title
            assert said["pdf:Keywords"] == str(document.docinfo.Keywords)
            assert said["xmp:CreatorTool"] == str(document.docinfo.Creator)
        assert b"Date" not in packet
