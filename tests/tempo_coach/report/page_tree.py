"""A page of HTML as a tree, read by the standard library's own parser."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

_VOID = {"meta", "col", "br", "hr", "img", "link", "input"}


@dataclass
class Element:
    """An element with what is in it."""

    tag: str
    attributes: dict[str, str]
    children: list[Element | str] = field(default_factory=list)

    def walk(self) -> Iterator[Element]:
        """Yield the element and all below it, in order."""
        yield self
        for child in self.children:
            if isinstance(child, Element):
                yield from child.walk()

    def all(self, *tags: str) -> list[Element]:
        return [one for one in self.walk() if one.tag in tags]

    def one(self, tag: str) -> Element:
        (found,) = self.all(tag)
        return found

    @property
    def text(self) -> str:
        return "".join(
            child if isinstance(child, str) else child.text for child in self.children
        ).strip()

    def rows(self) -> list[list[str]]:
        """Return the cells of a table."""
        return [[cell.text for cell in row.all("th", "td")] for row in self.all("tr")]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open = [Element("", {})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(element)
        if tag not in _VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, f"</{tag}> closes <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)


def tree_of(text: str) -> Element:
    """Return the page; every element must be closed, in order."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert [one.tag for one in reader.open] == [""]
    return reader.open[0]
