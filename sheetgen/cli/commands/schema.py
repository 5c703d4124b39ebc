"""``sheetgen schema``: what an editor needs to complete and check descriptions."""

from __future__ import annotations

import json

import click

from sheetgen.cli.telling import DONE
from sheetgen.cli.terminal import say


@click.command("schema", epilog="Example: sheetgen schema > sheetgen.schema.json")
@click.option("--stash", is_flag=True, help="The schema of a stash instead of a description.")
def schema_command(stash: bool) -> int:
    """Write the JSON Schema (draft 2020-12) of a description, for editors."""
    from sheetgen.cli.json_schema import schema_of
    from sheetgen.model.project import Project
    from sheetgen.model.stash import Stash

    say(json.dumps(schema_of(Stash if stash else Project), indent=2, ensure_ascii=False))
    return DONE
