from __future__ import annotations

import hashlib
import hmac
import re
from datetime import date

import pytest

from tempo_coach.core.export_columns import By
from tempo_coach.core.export_tables import Choice, export_table
from tempo_coach.core.facts import Fact
from tempo_coach.core.pseudonyms import Pseudonyms
from tempo_coach.core.soreness_facts import SorenessTold
from tests.tempo_coach.core.done_sets import done_set, max_tested
from tests.tempo_coach.core.reserve_tests import attempt_made, reserve_begun
from tests.tempo_coach.core.text_logs import TextLog, log_of, merge_of
from tests.tempo_coach.fakes import NOON

KEY = bytes(range(32))
TODAY = date(2026, 11, 30)


def test_a_code_is_short_and_the_same_with_the_same_key_whoever_else_is_there() -> None:
    alone = Pseudonyms.of(["Ansa Vireo"], key=KEY).lifter("Ansa Vireo")
    among = Pseudonyms.of(["Oda Falk", "ANSA VIREO"], key=KEY).lifter("ansa vireo")

    assert re.fullmatch(r"L-[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}", alone)
    assert alone == among
    assert Pseudonyms.of(["Ansa Vireo"], key=bytes(32)).lifter("Ansa Vireo") != alone


def test_a_code_is_the_end_of_a_keyed_hash() -> None:
    # HMAC-SHA-256 (RFC 2104) as the standard library computes it, in digits of base 32.
    digest = hmac.new(KEY, b"lifter ansa vireo", hashlib.sha256).digest()
    last = int.from_bytes(digest[-5:])
    letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
    digits = "".join(letters[last // 32**place % 32] for place in range(8))

    code = Pseudonyms.of(["Ansa Vireo"], key=KEY).lifter("Ansa Vireo")

    assert code == f"L-{digits[:4]}-{digits[4:]}"


def test_names_with_the_same_code_get_longer_ones() -> None:
    names = [f"Lifter {number}" for number in range(12)]

    codes = Pseudonyms.of(names, key=KEY, shortest=1)

    found = {codes.lifter(name) for name in names}
    assert len(found) == 12
    assert {len(code) for code in found} == {len("L-0"), len("L-0000-0")}


@pytest.mark.parametrize(
    ("text", "tells"),
    [
        ("front squat", False),
        ("Ansa's squat", True),
        ("squat (VIREO)", True),
        ("ansatz", False),
        ("Bo", True),
        ("box squat", False),
        ("80 kg", False),
        ("", False),
    ],
)
def test_a_text_that_holds_a_name_is_replaced_whole(text: str, tells: bool) -> None:
    codes = Pseudonyms.of(["Ansa Vireo", "Bo"], key=KEY)

    assert (codes.text(text) != text) == tells
    assert not tells or codes.text(text).startswith("T-")


def test_without_names_no_text_is_replaced() -> None:
    assert Pseudonyms.of([], key=KEY).text("front squat") == "front squat"


def test_no_name_note_id_or_file_is_left_in_any_table() -> None:
    facts: list[Fact] = [
        done_set(id="secret-1", lifter="Oda Falk", note="Falk's knee", method="Oda's way"),
        done_set(id="secret-2", lifter="Ansa Vireo", exercise="Vireo row", load_as_written="Oda"),
        max_tested(id="secret-3", lifter="Ansa Vireo", exercise="Oda row", note="Falk spotted"),
        max_tested(id="secret-4", lifter="Ivo Brand", load_as_written="Oda's plates"),
    ]
    log = log_of(facts, name="Ansa Vireo.jsonl")
    logs = merge_of(TextLog(log.content + b'{"v":1,"kind":"Oda"}\n', log.name))
    codes = Pseudonyms.of((*logs.rows.lifters, "Ivo Brand"), key=KEY)

    hidden = codes.logs(logs)
    tables = [export_table(hidden, by, Choice(), today=TODAY) for by in By]
    rows = [str(row) for table in tables for row in codes.table(table).rows]

    assert len(rows) == 12 + 4 * 9
    rows += map(str, hidden.maxes.tested)
    said = " ".join([*rows, *(f"{one.file} {one.why}" for one in hidden.skipped)]).casefold()
    assert "log 1" in said
    assert not re.search(r"ansa|vireo|oda|falk|ivo|brand|knee|secret", said)


def test_a_reserve_test_leaves_no_name_or_id() -> None:
    facts: list[Fact] = [
        reserve_begun(id="secret-1", lifter="Oda Falk", exercise="Falk squat"),
        attempt_made(1, 110, held=True, id="secret-2", test="secret-1", set="secret-3"),
        attempt_made(2, 115, held=False, id="secret-4", test="secret-1", set=None),
    ]
    logs = merge_of(log_of(facts))

    hidden = Pseudonyms.of(["Oda Falk"], key=KEY).logs(logs)

    (test,) = hidden.reserve_tests.tests
    assert {one.test for one in test.attempts} == {test.begun.id}
    assert (test.held_kg, test.lost_kg, test.attempts[1].set) == (110, 115, None)
    said = f"{test} {hidden.maxes.tested}".casefold()
    assert not re.search(r"oda|falk|secret", said)


def test_soreness_leaves_no_name_or_id() -> None:
    told = SorenessTold(id="secret-1", at=NOON, lifter="Oda Falk", soreness=6)
    logs = merge_of(log_of([told]))

    hidden = Pseudonyms.of(["Oda Falk"], key=KEY).logs(logs)

    (answer,) = hidden.soreness.told
    assert (answer.soreness, answer.at) == (6, NOON)
    assert not re.search(r"oda|falk|secret", str(answer).casefold())


def test_lifters_are_in_order_of_their_codes_which_tells_nothing_of_their_names() -> None:
    names = ("Ansa", "Bo", "Cim", "Dag", "Eva")
    logs = merge_of(log_of(done_set(id=name, lifter=name) for name in names))
    before = {done.lifter: done.seconds for done in logs.sets(logs.rows)}
    codes = Pseudonyms.of(names, key=KEY)

    hidden = codes.logs(logs)

    assert list(hidden.rows.lifters) == sorted(map(codes.lifter, names))
    assert hidden.rows.lifters != tuple(map(codes.lifter, names))
    assert [done.lifter for done in hidden.sets(hidden.rows)] == list(hidden.rows.lifters)
    assert len(before) == 5


def test_a_choice_of_names_becomes_one_of_codes() -> None:
    codes = Pseudonyms.of(["Ansa Vireo"], key=KEY)

    choice = codes.choice(
        Choice(lifters=("ANSA vireo",), exercises=("row",), methods=("hold", "ansa's own"))
    )

    assert choice == Choice(
        lifters=(codes.lifter("Ansa Vireo"),),
        exercises=("row",),
        methods=("hold", codes.text("ansa's own")),
    )
