"""Small parts of XML documents, as scores, quizzes and feeds are made of them.

Conventions: texts and attributes are tidied, so that no control sign makes a document unreadable; underscores in names
of attributes stand for hyphens; documents are UTF-8 with a declaration.
"""

from __future__ import annotations

from xml.etree import ElementTree as ET

from gamutwright.publish.page.page_words import tidy

__all__ = ["added", "xml_bytes", "xml_root"]

_XSI = "http://www.w3.org/2001/XMLSchema-instance"


def xml_root(name: str, namespace: str, schemas: str = "", **attributes: str) -> ET.Element:
    """Begin a document of a namespace.

    Parameters
    ----------
    name, namespace : str
        The element, and its namespace.
    schemas : str
        Namespaces and the places of their schemas, in turns; "" where none is named.
    **attributes : str
        Further attributes.

    Returns
    -------
    Element
        The root.
    """
    places = {"xmlns": namespace} | ({"xmlns:xsi": _XSI, "xsi:schemaLocation": schemas} if schemas else {})
    return ET.Element(name, places | attributes)


def added(parent: ET.Element, name: str, text: str | int = "", /, **attributes: str) -> ET.Element:
    """Append an element.

    Parameters
    ----------
    parent : Element
        Where.
    name : str
        What it is called.
    text : str or int
        What stands in it; "" for nothing.
    **attributes : str
        Its attributes.

    Returns
    -------
    Element
        The new element.

    Examples
    --------
    >>> root = ET.Element("item")
    >>> _ = added(root, "prompt", "How many?", base_type="identifier")
    >>> xml_bytes(root).decode().splitlines()[2]
    '  <prompt base-type="identifier">How many?</prompt>'
    """
    child = ET.SubElement(parent, name, {key.replace("_", "-"): tidy(value) for key, value in attributes.items()})
    child.text = tidy(str(text)) or None
    return child


def xml_bytes(root: ET.Element) -> bytes:
    """Write a document, with a declaration and in UTF-8.

    Parameters
    ----------
    root : Element
        The document.

    Returns
    -------
    bytes
        The file.
    """
    ET.indent(root)
    text: str = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'.encode()
