"""weeksheaf settings"""

import click

from queries.cli.output import columns, emit
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.cli.visible import visible
from queries.settings import SETTINGS, Settings, load_settings, setting_named


@click.command("settings")
@click.argument("name", required=False)
@click.argument("value", required=False)
@click.option("--forget", is_flag=True, help="Go back to the tool's own choice for NAME.")
@as_json
@click.pass_obj
def command(session: Session, name: str | None, value: str | None, forget: bool, as_json: bool) -> None:
    """Show the settings, or one; with VALUE, tell a new one. Works before anything is indexed."""
    from indexer.store.settings import tell_setting

    if forget and (value is not None or name is None):
        raise click.UsageError("--forget takes a NAME and no VALUE")
    asked = [setting_named(name)] if name else list(SETTINGS.values())
    if name and (value is not None or forget):
        checked = asked[0].check(value) if value is not None else None
        with session.telling(create=True) as connection:
            tell_setting(connection, name, checked, session.today)
    settings = load_settings(session.connection) if session.index.exists() else Settings({})
    document = {setting.name: settings[setting.name] for setting in asked}
    lines = columns([(item.name, settings[item.name], item.says) for item in asked])
    emit(as_json, document, lines if name else [*lines, "", f"The index lies at {visible(str(session.index))}"])
