"""How sticks to buy are told: proved to be the fewest, or only the fewest that were found."""

import pytest

from store.trade.buying.nouns import BuyingLine, BySteps, BySticks, StepPart, StepPiece
from store.trade.things import Thing
from tui.words.buying_how import say_how

NOSING = StepPart(flight="Loft stairs", piece=StepPiece.NOSING, pieces=12, long_mm=850, deep_mm=0)


@pytest.mark.parametrize(
    ("proved", "told"),
    [(True, "no list needs fewer"), (False, "the fewest found, not proved: 24 might do, fewer cannot")],
)
def test_sticks_are_called_the_fewest_only_where_that_is_proved(proved, told):
    skirting = BySticks(along_mm=55_500, pieces=60, at_least=24, proved=proved)
    assert say_how(BuyingLine(thing=Thing.SKIRTING, units=25, how=skirting)) == f"55.5 m of wall in 60 pieces; {told}"
    nosing = BySteps(parts=(NOSING,), at_least=24, proved=proved)
    assert say_how(BuyingLine(thing=Thing.NOSING, units=25, how=nosing)).endswith(f"10.2 m; {told}")
