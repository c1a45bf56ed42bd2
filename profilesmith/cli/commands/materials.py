"""``materials``: what is known of materials, as ranges."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.options import offered
from profilesmith.cli.terminal import say


def materials(
    name: Annotated[
        str,
        typer.Argument(
            metavar="[NAME]", autocompletion=offered("materials"), help="A material, such as PLA or 'TPU 95A'."
        ),
    ] = "",
    facts: opt.FactFiles = None,
    sources: opt.Sources = False,
    library: opt.Library = None,
) -> None:
    """Show what is known of materials, as ranges.

    With their sources; with facts on a spool, what its label says instead.

    \b
    Example:
      profilesmith materials "TPU 95A"
    """
    from profilesmith.reports.materials import material_in_full, materials_list
    from profilesmith.workflows.materials import material_of

    meant = material_of(name, tuple(facts or ()), library)
    if meant.material is None:
        say(materials_list())
    else:
        say(material_in_full(meant.material, meant.facts, sources or not facts))
