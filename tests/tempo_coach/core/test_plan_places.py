from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.plan_places import Path, key_lines, line_of
from tests.tempo_coach.core.plans import TEXT


def paths(value: Any, path: Path = ()) -> Iterator[Path]:
    """Yield the path of every value of parsed TOML."""
    steps = enumerate(value) if isinstance(value, list) else value.items()
    for step, inner in steps:
        yield (*path, step)
        if isinstance(inner, dict | list):
            yield from paths(inner, (*path, step))


EVERY_FORM = """\
# a remark with [brackets] and = signs
name = "a \\" # quote"   # behind it
'literal key' . sub = 'C:\\'
"quoted \\u0041" = 1

many = [ "one",
  # between
  "two", [3,
  4],
]
inline = { a = 1, b = { c = "}" } }
text = \"\"\"
[[lifters]]
name = "not a key\\"\"\" \"\"\"
raw = '''
it's ]] raw
'''

[table.deep]
when = 2026-11-30T10:00:00Z
[[rows]]
a.b.c = 1
[[rows.inner]]
x = 1
[[rows.inner]]
x = 2
[rows.inner.last]
y = 3
[[rows]]
[[rows.inner]]
x = 3
"""


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("name",), 2),
        (("literal key", "sub"), 3),
        (("quoted A",), 4),
        (("many", 0), 6),
        (("many", 1), 8),
        (("many", 2, 1), 9),
        (("inline", "b", "c"), 11),
        (("text",), 12),
        (("raw",), 15),
        (("table", "deep"), 19),
        (("table", "deep", "when"), 20),
        (("rows", 0, "a", "b", "c"), 22),
        (("rows", 0, "inner", 1, "x"), 26),
        (("rows", 0, "inner", 1, "last", "y"), 28),
        (("rows", 1), 29),
        (("rows", 1, "inner", 0, "x"), 31),
    ],
)
def test_every_form_of_toml_has_its_line(path: Path, line: int) -> None:
    assert key_lines(EVERY_FORM)[path] == line


@pytest.mark.parametrize("text", [EVERY_FORM, TEXT, TEXT.replace("\n", "\r\n")])
def test_what_tomllib_reads_is_what_has_a_line(text: str) -> None:
    assert set(paths(tomllib.loads(text))) == set(key_lines(text)) - {()}


_values = st.recursive(
    st.integers() | st.booleans() | st.dates() | st.text(),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(min_size=1), inner, max_size=3)
    ),
    max_leaves=8,
)


@given(st.dictionaries(st.text(min_size=1), _values, max_size=4))
def test_whatever_another_library_writes_has_its_lines(data: dict[str, Any]) -> None:
    text = tomlkit.dumps(data)

    lines = key_lines(text)

    rows = text.split("\n")
    for path in paths(tomllib.loads(text)):
        key = path[-1]
        if isinstance(key, str) and key.isascii() and key.isalnum():
            assert key in rows[lines[path] - 1]
        else:
            assert 1 <= lines[path] <= len(rows)


def test_what_is_missing_is_looked_for_around_it() -> None:
    lines = key_lines("a = 1\n[[b]]\nc = 2\n")
    assert line_of(("b", 0, "d", "e"), lines) == 2
    assert line_of(("z",), lines) == 1
