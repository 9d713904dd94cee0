"""A drawing, made fit to stand among others in one page, in the colours of its style sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from xml.etree import ElementTree as ET

_SVG = "{http://www.w3.org/2000/svg}"
_DRAWN = {f"{_SVG}path": "path", f"{_SVG}text": "text"}
_KEPT = {"d", "x", "y"}
_KEPT_OF_STYLE = {"fill", "stroke", "stroke-width", "text-anchor"}


def inline_svg(drawing: str, *, names: Mapping[str, str]) -> str:
    """Return the paths and texts of a drawing, without names that other drawings have too.

    Parameters
    ----------
    drawing
        A whole SVG document, as matplotlib writes it.
    names
        What each colour is called in the style sheet, by the colour in small letters. The colour
        itself stays too, for whatever applies no style sheet inside a drawing.

    Returns
    -------
    str
        Elements with attributes alone: no id, no style and no font.
    """
    root = ET.fromstring(drawing)  # noqa: S314 - matplotlib wrote it, in this process
    bare = (_bare(element, names) for element in root.iter() if element.tag in _DRAWN)
    # What has no colour is there to be seen by nobody.
    return "".join(ET.tostring(one, encoding="unicode") for one in bare if one.get("class"))


def _bare(element: ET.Element, names: Mapping[str, str]) -> ET.Element:
    style = dict(_declarations(element.get("style", "")))
    classes = [
        f"{what}-{names[style[what].lower()]}"
        for what in ("fill", "stroke")
        if style.get(what, "").lower() in names
    ]
    kept = {name: " ".join(text.split()) for name, text in element.attrib.items() if name in _KEPT}
    kept |= {name: text for name, text in style.items() if name in _KEPT_OF_STYLE}
    bare = ET.Element(_DRAWN[element.tag], {"class": " ".join(classes)} | kept)
    bare.text = (element.text or "").strip()
    return bare


def _declarations(style: str) -> Iterator[tuple[str, str]]:
    for declaration in style.split(";"):
        name, colon, text = declaration.partition(":")
        if colon:
            yield name.strip(), text.strip()
