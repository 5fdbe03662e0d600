"""What every page we publish is wrapped in: colours, a policy, embedded data, templates and the files of its kit.

**Conventions.** A page is one file that loads nothing: one style and one script, both allowed by their SHA-256, and
type inside the style. Colours are custom properties named by role, `--now` for shapes and `--now-text` for words.

References: Content Security Policy Level 3 (W3C), from memory.
"""

from __future__ import annotations

import base64
import hashlib
import json
from functools import lru_cache
from importlib import resources
from typing import TYPE_CHECKING

from gamutwright.codec import Plain
from gamutwright.publish.page.page_words import Raw
from gamutwright.render.theme import load_theme

if TYPE_CHECKING:
    from jinja2 import Template

__all__ = ["colours", "embedded_json", "kit_template", "kit_text", "policy"]


def embedded_json(plain: Plain) -> Raw:
    r"""Write data so that nothing in it can end the element it stands in.

    Parameters
    ----------
    plain : Plain
        The data.

    Returns
    -------
    Raw
        JSON for a `script` element.

    Examples
    --------
    >>> str(embedded_json(["</script>"]))
    '["\\u003c/script\\u003e"]'
    """
    text = json.dumps(plain, ensure_ascii=False, separators=(",", ":"))
    for letter in "<>&\u2028\u2029":
        text = text.replace(letter, f"\\u{ord(letter):04x}")
    return Raw(text)


def policy(style: str, script: str, beside: str = "") -> str:
    """Allow what is inside a page, what it names beside it, and nothing else.

    Parameters
    ----------
    style, script : str
        The contents of its one style and one script element.
    beside : str
        Directives for files that lie beside the page; "" for none.

    Returns
    -------
    str
        A Content-Security-Policy.

    Examples
    --------
    >>> policy("a", "b")[:48]
    "default-src 'none'; style-src 'sha256-ypeBEsobvc"
    """
    hashes = [base64.b64encode(hashlib.sha256(part.encode()).digest()).decode() for part in (style, script)]
    files = f"{beside}; " if beside else ""
    return (
        f"default-src 'none'; style-src 'sha256-{hashes[0]}'; script-src 'sha256-{hashes[1]}'; "
        f"{files}font-src data:; base-uri 'none'; form-action 'none'"
    )


@lru_cache(maxsize=4)
def colours(always_light: str = "") -> str:
    """Write the colours of all roles as custom properties: light, dark, and ink for paper.

    Parameters
    ----------
    always_light : str
        A selector of what looks the same by day and by night; "" for nothing.

    Returns
    -------
    str
        Style rules.
    """
    blocks = {}
    for name in ("light", "night", "print"):
        looks = load_theme(name).looks
        blocks[name] = "".join(f"--{role}:{look.mark};--{role}-text:{look.text};" for role, look in looks.items())
    dark = f"{{color-scheme:dark;{blocks['night']}}}"
    return (
        f":root{{color-scheme:light;{blocks['light']}}}\n"
        f"@media screen{{:root[data-theme=dark]{dark}\n"
        f"@media (prefers-color-scheme:dark){{:root:not([data-theme=light]){dark}}}}}\n"
        + (f"{always_light}{{{blocks['light']}}}\n" if always_light else "")
        + f"@media print{{:root{{{blocks['print']}}}}}"
    )


@lru_cache(maxsize=16)
def kit_text(kit: str, name: str) -> str:
    """Read a file of a kit.

    Parameters
    ----------
    kit : str
        The folder, such as `page/kit`.
    name : str
        The file.

    Returns
    -------
    str
        Its text without blanks around it.
    """
    return resources.files("gamutwright.publish").joinpath(kit, name).read_text(encoding="utf-8").strip()


@lru_cache(maxsize=4)
def kit_template(kit: str, name: str) -> Template:
    """Read a template of a kit; whatever comes into it is escaped, and nothing may be missing.

    Parameters
    ----------
    kit, name : str
        As for `kit_text`.

    Returns
    -------
    Template
        The template.
    """
    from jinja2 import Environment, StrictUndefined  # noqa: PLC0415 - thirty milliseconds that only pages need

    environment = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    return environment.from_string(kit_text(kit, name))
