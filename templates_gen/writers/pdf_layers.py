"""Layers of a PDF, one a kind of line, and what a file says of itself (XMP).

Layers are optional content (ISO 32000-1, 8.11): a viewer can hide the grid, or all words.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from xml.sax.saxutils import escape

from reportlab.pdfbase.pdfdoc import (
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFResourceDictionary,
    PDFStream,
    PDFString,
)
from reportlab.pdfgen.canvas import Canvas

WORDS = "words"
"""The layer of all text."""


class Layers:
    """The layers of the file that a canvas writes, by name, in the order of a viewer's list."""

    def __init__(self, canvas: Canvas, names: list[str]) -> None:
        self._canvas = _inside(canvas)
        document = self._canvas._doc
        layers = {}
        for number, name in enumerate(names):
            group = PDFDictionary({"Type": PDFName("OCG"), "Name": PDFString(name)})
            layers[f"L{number}"] = document.Reference(group, f"layer.{name}")
        # once for all pages and forms
        self._properties = document.Reference(PDFDictionary(layers), "layers")
        self._codes = {name: f"/OC /L{number} BDC" for number, name in enumerate(names)}
        listed = PDFArray(list(layers.values()))
        visible = PDFDictionary({"Order": listed, "ON": listed})
        catalog = document.Catalog
        catalog.OCProperties = PDFDictionary({"OCGs": listed, "D": visible})
        catalog.__NoDefault__ = [*catalog.__NoDefault__, "OCProperties"]

    @contextmanager
    def on(self, name: str) -> Iterator[None]:
        """Put what is drawn within the block on a layer."""
        self._canvas._code.append(self._codes[name])
        yield
        self._canvas._code.append("EMC")

    def resources(self, forms: PDFDictionary | None = None) -> PDFResourceDictionary:
        """Return what a form or a page draws with: fonts, layers, the forms it shows."""
        made = PDFResourceDictionary(Properties=self._properties, XObject=forms or {})
        made.basicFonts()
        return made

    def show_page(self) -> None:
        """End a page of the canvas; it can use the layers."""
        self._canvas.showPage()
        page = self._canvas._doc.Pages.pages[-1]
        page.Resources = self.resources(page.XObjects)


_XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"
    xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
   <dc:format>application/pdf</dc:format>
   <dc:language><rdf:Bag><rdf:li>en</rdf:li></rdf:Bag></dc:language>
   <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
   <dc:description><rdf:Alt><rdf:li xml:lang="x-default">{subject}</rdf:li></rdf:Alt>\
</dc:description>
   <pdf:Keywords>{keywords}</pdf:Keywords>
   <xmp:CreatorTool>{creator}</xmp:CreatorTool>
  </rdf:Description>
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>"""
"""An XMP packet (ISO 16684-1), without any time of day."""


def add_metadata(canvas: Canvas, **said: str) -> None:
    """Give a file its XMP: title, subject, keywords and creator, as its information has them."""
    text = _XMP.format(**{key: escape(value) for key, value in said.items()})
    packet = PDFStream(content=text.encode())
    packet.dictionary["Type"] = PDFName("Metadata")
    packet.dictionary["Subtype"] = PDFName("XML")
    _inside(canvas)._doc.Catalog.Metadata = packet


def _inside(canvas: Canvas) -> Any:  # noqa: ANN401 (as below)
    """Return a canvas whose document can be reached: reportlab has no public way to it."""
    return canvas
