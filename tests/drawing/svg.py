"""What every drawing has to be: well-formed, without a style of its own, with ids that stand once."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections import Counter

KNOWN = {
    *("svg", "g", "a", "path", "rect", "circle", "ellipse", "text", "tspan", "title"),
    *("desc", "defs", "pattern", "clipPath", "use"),
}
SVG = "{http://www.w3.org/2000/svg}"


def read(svg: str) -> ET.Element:
    """The drawing as a tree, once it is known to be harmless on any page."""
    root = ET.fromstring(svg)
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= KNOWN
    names = {name for element in root.iter() for name in element.attrib}
    assert "style" not in names
    assert not any(name.startswith("on") for name in names)
    ids = Counter(element.get("id") for element in root.iter() if element.get("id"))
    assert not [id_ for id_, times in ids.items() if times > 1]
    assert set(re.findall(r"url\(#([^)]*)\)", svg)) <= set(ids)
    assert not re.search(r"\b(nan|inf)\b|None", svg)
    return root


def classes(root: ET.Element) -> set[str]:
    """Every class that is used in it."""
    return {name for element in root.iter() for name in (element.get("class") or "").split()}
