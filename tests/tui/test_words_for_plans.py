"""What a plan opens, and what the packs needed are made of, in words and in JSON."""

import json

import pytest

from store.trade.verdict import Need
from tui.cli import main
from tui.words.plans import say_need


@pytest.mark.parametrize(
    ("culls", "allowed", "spare", "says"),
    [
        (0, 0, 0, "OAK-190: 63 boards by plan: 16 packs in all"),
        (4, 0, 0, "OAK-190: 63 boards by plan, 4 in case some are not good: 16 packs in all"),
        (
            4,
            23,
            1,
            "OAK-190: 63 boards by plan, 4 in case some are not good, 23 for rooms without a plan, 1 pack to spare: "
            "16 packs in all",
        ),
    ],
)
def test_a_need_says_only_what_it_is_made_of(culls: int, allowed: int, spare: int, says: str) -> None:
    need = Need(
        product="OAK-190",
        lay_boards=63,
        cull_boards=culls,
        allowed_boards=allowed,
        spare_packs=spare,
        packs=16,
        by_plan=True,
    )
    assert say_need(need) == says


def test_a_job_tells_its_plans_on_the_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--demo", "job", "GQ-0149", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    (plan,), (need,) = told["plans"], told["needs"]
    assert (plan["room"], plan["rows"], plan["spare_packs"]) == ("Parlour", 23, 1)
    assert plan["least_boards"] <= plan["boards"] == need["lay_boards"]
    assert plan["proved_best"] is (plan["least_boards"] == plan["boards"])
    assert need["packs"] == told["packs"][0]["needed"]
    assert main(["--demo", "job", "GQ-0149"]) == 0
    said = capsys.readouterr().out
    assert f"Parlour: {plan['boards']} boards of OAK-190 in 23 rows" in said
    assert max(map(len, said.splitlines())) <= 80
