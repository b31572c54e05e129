"""Make a bundle: ``python -m templates_gen.bundle --out DIR``."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.bundle.recipe import make, weights
from templates_gen.units import decimal

MEGABYTE = 1_000_000
LISTED = 25


@click.command()
@click.option("--out", type=click.Path(path_type=Path), default=Path("dist"), show_default=True)
def main(out: Path) -> None:
    """Make a folder that runs without Python on this kind of system, and a ZIP of it."""
    bundle, archive = make(out)
    for name, size in weights(bundle)[:LISTED]:
        click.echo(f"{decimal(size / MEGABYTE, 1):>8} MB  {name}")
    click.echo(f"{decimal(archive.stat().st_size / MEGABYTE, 1):>8} MB  {archive}")


if __name__ == "__main__":
    main()
