"""What click refuses on a command line, in this house's words: what was typed, and what to type."""

import click


def in_our_words(refused: click.UsageError) -> click.UsageError:
    """The same refusal as one sentence; one that is in our words already comes back as it is."""
    said = _said(refused)
    if said is None:
        return refused
    return click.UsageError(said, refused.ctx)


def _said(refused: click.UsageError) -> str | None:
    match refused:
        case click.MissingParameter():
            return f"`{_called(refused)}` is missing"
        case click.BadParameter():
            return _bad_value(refused)
        case click.NoSuchOption():
            return _no_option(refused)
        case click.BadOptionUsage():
            option = _option(refused.ctx, refused.option_name)
            if "takes a value" in refused.message or "requires" in refused.message:
                return f"`{option}` is missing what it names"
            return f"`{option}` takes no value"
    extra = refused.message.partition("extra argument")
    if extra[1]:
        written = extra[2].partition("(")[2].rstrip(")").strip()
        return f"`{written}` is one word too many; put names of several words in quotes"
    return None


def _called(refused: click.BadParameter) -> str:
    """A parameter as it is typed: `--out FILE`, or `NAME`."""
    found = refused.param
    if found is None:
        return str(refused.param_hint or "a word")
    if isinstance(found, click.Option):
        shape = "" if found.is_flag or not found.metavar else f" {found.metavar}"
        return found.opts[-1] + shape
    return found.make_metavar(refused.ctx or click.Context(click.Command("haulm"))).strip("[].")


def _bad_value(refused: click.BadParameter) -> str | None:
    found = refused.param
    if found is None:
        return None
    value = refused.message.split("'")[1] if "'" in refused.message else ""
    typed = f"{found.opts[-1]} {value}" if isinstance(found, click.Option) else value
    if isinstance(found.type, click.Choice):
        *most, last = [str(choice) for choice in found.type.choices]
        return f"`{typed}` is not one of {', '.join(most)} and {last}"
    if isinstance(found.type, click.types.IntParamType):
        is_year = "year" in (found.name or "") or (found.metavar or "") == "YEAR"
        return f"`{typed}` is no {'year; write it as 2025' if is_year else 'whole number'}"
    return f"`{typed}` cannot be used: {refused.message.rstrip('.')}" if value else None


def _no_option(refused: click.NoSuchOption) -> str:
    near = " or ".join(f"`{each}`" for each in refused.possibilities or ())
    where = refused.ctx.command_path if refused.ctx else "haulm"
    hint = f"did you mean {near}?" if near else f"`{where} --help` lists them"
    return f"there is no option `{refused.option_name}`; {hint}"


def _option(ctx: click.Context | None, name: str) -> str:
    """An option with what it takes: `--out FILE`."""
    for each in ctx.command.params if ctx else ():
        if isinstance(each, click.Option) and name in each.opts:
            return each.opts[-1] + (f" {each.metavar}" if each.metavar else "")
    return name
