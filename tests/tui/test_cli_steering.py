"""No text on file or typed ever steers the terminal that an answer or a complaint is read in."""

import copy
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.tui.somebodys_folder import (
    AT_BRUSSELS,
    WHOLE,
    Json,
    Ran,
    Shop,
    folder,
    in_a_hurry,
    run,
)

HOSTILE = "\x1b]52;c;cHduZWQ=\x07\x1b[31m\x9b2J\x85\u202egnp\u2066\u2069\u200f\u200b\ufeff\r\b\x7f\u2028[/][bold]"
_STEERS = (
    {*map(chr, range(0x20)), *map(chr, range(0x7F, 0xA0))} - {"\n"}
    | set("\u200e\u200f\u061c\u2028\u2029")
    | {
        *map(chr, range(0x202A, 0x202F)),
        *map(chr, range(0x2066, 0x206A)),
    }
)


def steering(raw: bytes) -> set[str]:
    return set(raw.decode("utf-8")) & _STEERS


def hostile() -> Json:
    """A folder in which every free text carries the hostile one."""

    def word(text: str) -> str:
        return text + HOSTILE

    given = folder(copy.deepcopy(WHOLE))
    given["firm"]["name"] = word("Firm")
    given["people"] = [{"name": word("Ode")}]
    for product in given["products"]:
        for key in {"code", "name", "build", "species"} & product.keys():
            product[key] = word(product[key])[:40]
    one = given["jobs"][0]
    one["ref"], one["title"] = word("N")[:40], word("Title")
    one["customer"] = dict.fromkeys(("name", "phone", "email"), word("K"))
    one["site"]["address"] = word("3 Signal Lane")
    one["rooms"][0] |= {"name": word("Room"), "board": word("OAK-190")[:40], "glue": word("MS-15")[:40]}
    for line in (one["orders"][0]["lines"][0], one["deliveries"][0]["lines"][0], one["counts"][0]):
        line["product"] = word("OAK-190")[:40]
    one["deliveries"][0]["lines"][0]["batch"] = one["counts"][0]["batch"] = word("K41")
    one["deliveries"][0]["into"] = one["laid"][0]["room"] = word("Room")
    for taken in one["readings"]:
        taken["room"] = word("Room")
    one["handover"]["by"] = word("K")
    return given


@pytest.fixture
def hostile_shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    in_a_hurry(monkeypatch)
    shop = Shop(tmp_path)
    shop.take_in(hostile())
    return shop


def test_no_text_on_file_steers_the_terminal_an_answer_is_read_in(hostile_shop: Shop) -> None:
    ref = hostile()["jobs"][0]["ref"]
    for at in ("2026-11-12T08:00:00+01:00", "2026-11-18T08:00:00+01:00", AT_BRUSSELS, "2026-11-29T08:00:00+01:00"):
        for asked in (["today"], ["today", "--json"], ["job", ref], ["job", ref, "--json"], ["export"]):
            ran = hostile_shop.run(*asked, "--at", at)
            assert (ran.status, ran.err) == (0, b"")
            assert steering(ran.out) == set(), asked


def test_no_text_is_altered_on_its_way_through_an_export(hostile_shop: Shop) -> None:
    out = hostile_shop.run("export").answer
    given = hostile()
    assert out["firm"]["name"] == given["firm"]["name"]
    assert out["jobs"][0]["rooms"][0]["name"] == given["jobs"][0]["rooms"][0]["name"]
    assert out["jobs"][0]["title"] == given["jobs"][0]["title"]


def test_json_answers_carry_the_text_itself(hostile_shop: Shop) -> None:
    (one,) = hostile_shop.today()
    assert one["ref"] == hostile()["jobs"][0]["ref"]


def _in_a_reference(shop: Shop) -> Ran:
    return shop.run("job", "L" + HOSTILE)


def _in_an_export(shop: Shop) -> Ran:
    return shop.run("export", "L" + HOSTILE)


def _in_a_file_name(shop: Shop) -> Ran:
    return shop.run("import", shop.place / ("x" + HOSTILE.replace("/", "")))


def _in_records_that_are_not_there(shop: Shop) -> Ran:
    return run("--file", shop.place / ("x" + HOSTILE.replace("/", "")), "today")


def _in_an_instant(shop: Shop) -> Ran:
    return shop.run("today", "--at", HOSTILE)


def _in_a_key(shop: Shop) -> Ran:
    return shop.offer(hostile() | {"k" + HOSTILE: 1})


def _in_a_value(shop: Shop) -> Ran:
    given = hostile()
    given["jobs"][0]["rooms"][0]["subfloor"] = HOSTILE
    return shop.offer(given)


def _in_a_reference_on_file_already(shop: Shop) -> Ran:
    return shop.offer(hostile())


def _in_a_name_that_stands_twice(shop: Shop) -> Ran:
    given = hostile()
    given["jobs"][0]["rooms"] *= 2
    return shop.offer(given)


def _in_a_product_of_another_meaning(shop: Shop) -> Ran:
    given = hostile()
    given["products"][0]["price_minor"] = 1
    return shop.offer(given)


def _in_an_option(shop: Shop) -> Ran:
    return shop.run("sum", "emc", "--temp", HOSTILE, "--rh", "50")


def _in_a_command(shop: Shop) -> Ran:
    return shop.run(HOSTILE)


def _in_a_stray_option(shop: Shop) -> Ran:
    return shop.run("today", "--" + HOSTILE)


def _in_a_sum_of_no_name(shop: Shop) -> Ran:
    return shop.run("sum", HOSTILE)


@pytest.mark.parametrize(
    "complain",
    [
        _in_a_reference,
        _in_an_export,
        _in_a_file_name,
        _in_records_that_are_not_there,
        _in_an_instant,
        _in_a_key,
        _in_a_value,
        _in_a_reference_on_file_already,
        _in_a_name_that_stands_twice,
        _in_a_product_of_another_meaning,
        _in_an_option,
        _in_a_command,
        _in_a_stray_option,
        _in_a_sum_of_no_name,
    ],
)
def test_no_complaint_steers_the_terminal_it_is_read_in(hostile_shop: Shop, complain: Callable[[Shop], Ran]) -> None:
    ran = complain(hostile_shop)
    assert ran.status in {1, 2, 10}
    assert ran.out == b""
    assert ran.err
    assert steering(ran.err) == set()
