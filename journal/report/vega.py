"""The scripts that draw the charts, Vega, Vega-Lite and their embedding, as one text.

Bundled from what vl-convert carries, so without a network; kept between runs in the user's own
cache, because bundling takes longer than reading a diary.
"""

import contextlib
import os
import sys
from functools import cache
from importlib.metadata import version
from pathlib import Path

import vl_convert

from journal.charts.files import VEGA_LITE
from journal.tables.whole import write_whole

SNIPPET = "window.vegaEmbed = vegaEmbed;"


@cache
def vega_script() -> str:
    """The scripts, fit to stand in a `script` element; a cache out of reach is not missed."""
    kept = cache_folder() / f"vega-{version('vl-convert-python')}-{VEGA_LITE}.js"
    with contextlib.suppress(OSError, UnicodeDecodeError):
        return kept.read_bytes().decode()
    bundle: str = vl_convert.javascript_bundle(SNIPPET, vl_version=VEGA_LITE)
    script = bundle.replace("</script", "<\\/script").replace("\r\n", "\n")
    with contextlib.suppress(OSError):
        kept.parent.mkdir(parents=True, exist_ok=True)
        write_whole(kept, script.encode())
    return script


def cache_folder() -> Path:
    """Where this computer keeps what can be made again: one folder of our own in it."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA", Path.home() / "AppData" / "Local")) / "haulm"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "haulm"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "haulm"
