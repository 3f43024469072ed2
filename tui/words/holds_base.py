"""The sentences of the holds on moisture counts, heating, old floors, glue, training and settling boards."""

from collections.abc import Callable

from store.trade.settling import STILL_POINTS
from store.trade.verdict import Hold, Why
from tui.words.setting import Setting
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, figure, say_percent, upper

_STOP = "stop, do not sand, scrape or drill; have a sample tested first. Licensed practice and local rules decide"


def _room(hold: Hold) -> str:
    return the_room(hold.room)


def _tubs(hold: Hold) -> str:
    many = "tubs" if hold.packs is None else counted(hold.packs, "tub")
    return f"{many} of {clean(hold.product)}" if hold.product else many


def _glue(hold: Hold) -> str:
    return clean(hold.product) if hold.product else "the glue"


def is_or_are(number: int | None) -> str:
    """Return the verb for so many packs or tubs."""
    return "is" if number == 1 else "are"


def _apart(hold: Hold, verdict: str) -> str:
    if hold.measured is None:
        return f"The moisture of boards and subfloor in {_room(hold)}: {verdict}."
    most = f"; at most {say_percent(hold.limit)} is allowed" if hold.limit is not None else ""
    lead = f"Boards and subfloor in {_room(hold)} are {say_percent(hold.measured)} apart"
    return f"{lead}{most}: {verdict}."


def _few_boards(hold: Hold, at: Setting) -> str:
    if hold.readings is None or hold.subfloor_readings is None:
        return f"Boards and subfloor in {_room(hold)} have been read too few times."
    boards = f"{hold.readings} of {hold.readings_asked} readings of the boards"
    return f"{boards} and {hold.subfloor_readings} of {hold.subfloor_asked} of the subfloor are in for {_room(hold)}."


def _few_tests(hold: Hold, at: Setting) -> str:
    if hold.readings is None:
        return f"The subfloor in {_room(hold)} has been tested too few times for its area."
    return f"{hold.readings} of {hold.readings_asked} moisture tests that its area asks for are in for {_room(hold)}."


def _void(hold: Hold, at: Setting) -> str:
    return f"What was measured on the subfloor in {_room(hold)} is void by what happened since; test it again."


def _not_proved(hold: Hold, at: Setting) -> str:
    ends = f"; at best it ends {at.day(hold.due_on)}" if hold.due_on else ""
    return f"The first heating of the screed in {_room(hold)} is not proved yet{ends}. Test it only after that."


def _heating_on(hold: Hold, at: Setting) -> str:
    days = f" for {counted(int(hold.limit), 'day')}" if hold.limit else ""
    return f"The floor heating in {_room(hold)} is to be off or held at 18–22 °C{days} before laying; say since when."


def _just_off(hold: Hold, at: Setting) -> str:
    when = at.at(hold.clears_at) if hold.clears_at else at.day(hold.due_on)
    return f"The floor heating in {_room(hold)} is off or held down; it may be laid on from {when}."


def _quiet(hold: Hold, at: Setting) -> str:
    return f"The heating in {_room(hold)} is proved and has been off or held down long enough."


def _may_hold(hold: Hold, at: Setting) -> str:
    return f"The old floor or black glue in {_room(hold)} may hold asbestos: {_STOP}."


def _found(hold: Hold, at: Setting) -> str:
    return (
        f"The sample from {_room(hold)} holds asbestos: leave it alone and closed off; only those licensed for it "
        "take it out. Local rules decide."
    )


def _sample_clear(hold: Hold, at: Setting) -> str:
    return (
        f"The sample from {_room(hold)} is clear of asbestos; old black glue can hold tar all the same: keep dust down."
    )


def say_on_order(many: str, hold: Hold, at: Setting) -> str:
    """Return that packs or tubs are on order, and till when: “12 packs of OAK-190 are on order, due Tue 17 Nov.”."""
    return f"{upper(many)} {is_or_are(hold.packs)} on order, due {at.day(hold.due_on)}."


def say_overdue(many: str, hold: Hold, at: Setting) -> str:
    """Return that packs or tubs have not come by their day."""
    has, was = ("has", "was") if hold.packs == 1 else ("have", "were")
    return f"{upper(many)} {was} due {at.day(hold.due_on)} and {has} not come; chase the supplier."


def say_no_due_day(many: str, hold: Hold) -> str:
    """Return that packs or tubs are on order and nobody has said for when."""
    return f"{upper(many)} {is_or_are(hold.packs)} on order without a day; ask the supplier."


def _glue_overdue(hold: Hold, at: Setting) -> str:
    return say_overdue(_tubs(hold), hold, at) if hold.due_on else say_no_due_day(_tubs(hold), hold)


def _trained(hold: Hold, at: Setting) -> str:
    until = f" until {at.day(hold.due_on)}" if hold.due_on else ""
    who = clean(hold.who) if hold.who else "Somebody"
    return f"{who} is trained for {_glue(hold)}{until}; whoever spreads it must be."


def _nobody_trained(hold: Hold, at: Setting) -> str:
    return (
        f"Nobody's training for {_glue(hold)} is in force; its diisocyanates are for trained people only, trained "
        "anew every five years."
    )


def _settled(hold: Hold, at: Setting) -> str:
    moved = f" ({figure(hold.measured)} points between two rounds)" if hold.measured is not None else ""
    return f"The moisture of the boards for {_room(hold)} stands still{moved}: ready."


def _settling(hold: Hold, at: Setting) -> str:
    moved = f"moved by {figure(hold.measured)} points" if hold.measured is not None else "are not known to stand still"
    again = f" Read them again from {at.at(hold.not_before)}." if hold.not_before else " Read them."
    still = figure(STILL_POINTS)
    return f"The boards for {_room(hold)} {moved}; two rounds a day apart may differ by {still} points.{again}"


SENTENCES: dict[Why, Callable[[Hold, Setting], str]] = {
    Why.MOISTURE_CLOSE: lambda h, at: _apart(h, "close enough"),
    Why.MOISTURE_APART: lambda h, at: _apart(h, "too far apart"),
    Why.VOID_DAMP_READING: _void,
    Why.TOO_FEW_TESTS: _few_tests,
    Why.TOO_FEW_BOARDS_READ: _few_boards,
    Why.HEATING_NOT_PROVED: _not_proved,
    Why.HEATING_ON: _heating_on,
    Why.HEATING_JUST_OFF: _just_off,
    Why.HEATING_QUIET: _quiet,
    Why.NO_OLD_FLOOR: lambda h, at: f"No old covering or black glue lies in {_room(h)}.",
    Why.MAY_HOLD_ASBESTOS: _may_hold,
    Why.ASBESTOS_FOUND: _found,
    Why.SAMPLE_CLEAR: _sample_clear,
    Why.OLD_FLOOR_REMOVED: lambda h, at: f"The old floor in {_room(h)} was taken out by those licensed for it.",
    Why.GLUE_ENOUGH: lambda h, at: f"{upper(_tubs(h))} {is_or_are(h.packs)} needed, and enough is here.",
    Why.GLUE_SHORT: lambda h, at: f"{upper(_tubs(h))} {is_or_are(h.packs)} missing for the floors still to be laid.",
    Why.GLUE_ON_ORDER: lambda h, at: say_on_order(_tubs(h), h, at),
    Why.GLUE_OVERDUE: _glue_overdue,
    Why.GLUE_TOO_OLD: lambda h, at: (
        f"The glue on hand is past its day: {_tubs(h)} in date {is_or_are(h.packs)} missing."
    ),
    Why.TRAINED: _trained,
    Why.NOBODY_TRAINED: _nobody_trained,
    Why.SETTLED: _settled,
    Why.SETTLING: _settling,
}
