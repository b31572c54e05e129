"""The packs of a class in one PDF, in the order of the class: a single print job."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from pikepdf import Dictionary, Name, NumberTree, OutlineItem, Pdf, String

from templates_gen.writers.pdf import VIEWER


def joined_pdf(title: str, packs: Sequence[tuple[str, bytes]]) -> bytes:
    """Return the PDFs of people, each with its name, as one; same packs, same bytes.

    Every page is labelled with the name and its number in the pack, and each person has a bookmark.
    """
    with Pdf.new() as whole:
        labels = NumberTree.new(whole)
        with whole.open_outline() as outline:
            for name, content in packs:
                start = len(whole.pages)
                with Pdf.open(BytesIO(content)) as pack:
                    whole.pages.extend(pack.pages)
                labels[start] = Dictionary(S=Name.D, P=String(f"{name} "), St=1)
                outline.root.append(OutlineItem(name, start))
        whole.Root.PageLabels = labels.obj
        whole.Root.ViewerPreferences = Dictionary(
            PrintScaling=Name(f"/{VIEWER['PrintScaling']}"),
            Duplex=Name(f"/{VIEWER['Duplex']}"),
            DisplayDocTitle=True,
        )
        whole.Root.Lang = String("en")
        whole.docinfo[Name.Title] = String(title)
        out = BytesIO()
        whole.save(out, deterministic_id=True)
        return out.getvalue()
