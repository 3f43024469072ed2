"""The close-out of a job: where every board went, what was counted, snags, notes and the signature."""

from collections.abc import Iterator

from store.trade.counts import Reckoning
from store.trade.credits import Credit
from store.trade.events import Count, Destination, Handover, Note, Snag
from store.trade.returns import ReturnCredit
from tui.folder.page import Entry, Page
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said, Tone
from tui.words.facts import say_count
from tui.words.orders import say_claim, say_credit_came
from tui.words.suppliers import say_credit
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, figure, say_money, say_packs, upper

COLUMNS = (
    Column(label="When", width=16),
    Column(label="What", width=12),
    Column(label="Said"),
)
_LABEL = 19


def close_out_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return the sum of each board once it is counted: what was ordered, and where it went."""
    if page.card.standing.verdict is not None or not page.facts.rooms:
        return ()
    boards = {sums.product for sums in page.card.reckoning if sums.counted}
    return (
        *(said for sums in page.card.reckoning for said in _board(page, sums)),
        *(said for credit in page.card.credits if credit.product not in boards for said in _credit(page, credit)),
        *(Said(words=f"{clean(one.product)}: {say_claim(one, page.firm.currency)}") for one in page.card.claims),
        *_cost(page),
    )


def _cost(page: Page) -> Iterator[Said]:
    cost, currency = page.cost, page.firm.currency
    if cost is None or not (cost.planned_minor or cost.ordered_minor):
        return
    yield _line("Material planned", say_money(cost.planned_minor, currency))
    if cost.ordered_minor:
        yield _line("  ordered", say_money(cost.ordered_minor, currency))
    if cost.real_minor is not None:
        over = cost.real_minor - cost.planned_minor
        sign = f", {say_money(abs(over), currency)} {'more' if over > 0 else 'less'} than planned" if over else ""
        yield _line("  real", f"{say_money(cost.real_minor, currency)}{sign}", Tone.WARN if over > 0 else Tone.PLAIN)
    if cost.without_product:
        yield _line("  no product for", f"{counted(cost.without_product, 'line')} of the list to buy (n)", Tone.MUTED)
    if cost.unpriced:
        yield _line("  no price for", ", ".join(clean(code) for code in cost.unpriced), Tone.MUTED)


def _credit(page: Page, credit: ReturnCredit) -> Iterator[Said]:
    for words in say_credit(credit, page.firm.currency, page.clock.today):
        yield Said(words=f"  {words}")


def _board(page: Page, sums: Reckoning) -> Iterator[Said]:
    if not sums.counted:
        yield Said(words=f"▲ {clean(sums.product)} is not counted yet; k counts what is left.", tone=Tone.WARN)
        return
    yield _line(clean(sums.product), _packs(sums, sums.ordered) + " ordered", Tone.HEAD)
    for words, boards in _parts(sums):
        if boards:
            yield _line(words, _packs(sums, boards))
    yield from _missing(page, sums)
    yield from _loss(page, sums)


def _parts(sums: Reckoning) -> tuple[tuple[str, int], ...]:
    return (
        ("+ beyond the order", sums.more_came),
        ("+ from free stock", sums.from_stock),
        ("− to free stock", sums.to_stock),
        ("+ found in the unit", sums.found),
        ("− missing there", sums.missing),
        ("− never came", sums.never_came),
        ("− came damaged", sums.damaged),
        ("= used", sums.used),
        ("  of it on stairs", sums.stairs),
        ("+ to the customer", sums.customer),
        ("+ back to the unit", sums.unit),
        ("+ to the supplier", sums.returned),
        ("+ thrown away", sums.scrapped),
    )


def _missing(page: Page, sums: Reckoning) -> Iterator[Said]:
    if sums.unaccounted:
        worth = say_money(abs(sums.unaccounted_minor), page.firm.currency)
        yield _line("✗ unaccounted for", f"{_packs(sums, sums.unaccounted)}, {worth}", Tone.BAD)
    else:
        yield _line("✓ unaccounted for", "nothing", Tone.OK)


def _loss(page: Page, sums: Reckoning) -> Iterator[Said]:
    currency = page.firm.currency
    if sums.real_loss_percent is not None:
        real, allowed = figure(sums.real_loss_percent, 1), figure(sums.allowed_loss_percent, 1)
        within = 0 <= sums.real_loss_percent <= sums.allowed_loss_percent
        sign, tone = ("✓", Tone.OK) if within else ("▲", Tone.WARN)
        yield _line(f"{sign} cut loss", f"{real} %, {allowed} % allowed", tone)
        yield _line("  worth", f"{say_money(sums.lost_minor, currency)} of boards")
    for credit in page.card.credits:
        if credit.product == sums.product:
            yield from _credit(page, credit)


def _line(label: str, words: str, tone: Tone = Tone.PLAIN) -> Said:
    return Said(words=f"{label:<{_LABEL}}{words}", tone=tone)


def _packs(sums: Reckoning, boards: int) -> str:
    full, loose = divmod(abs(boards), sums.boards_per_pack)
    return ("−" if boards < 0 else "") + say_packs(full, loose)


def close_out_entries(page: Page) -> tuple[Entry, ...]:
    """Return counts, snags, notes and the signature, the latest first."""
    facts = page.facts
    timed = [
        *((one.at, _note(page, one)) for one in facts.notes),
        *((one.at, _snag(page, one)) for one in facts.snags),
        *((one.at, _count(page, one)) for one in facts.counts),
        *((one.at, _credit_note(page, one)) for one in facts.credits),
    ]
    if facts.handover is not None:
        timed.append((facts.handover.signed_at, _signed(page, facts.handover)))
    return tuple(entry for _, entry in sorted(timed, key=lambda pair: pair[0], reverse=True))


def _count(page: Page, count: Count) -> Entry:
    words = say_count(count, page.facts)
    back = "e files the credit once it comes." if count.to is Destination.RETURN else ""
    whole = (Said(words=f"{upper(words)}."), Said(words=f"Counted {page.clock.say(count.at)}. {back}".strip()))
    cells = (page.clock.say(count.at), "counted", words)
    return Entry(key=f"count:{count.id}", cells=cells, fact=count, title="Leftovers counted", whole=whole)


def _credit_note(page: Page, credit: Credit) -> Entry:
    words = say_credit_came(credit, page.firm.currency)
    return Entry(
        key=f"credit:{credit.id}",
        cells=(page.clock.say(credit.at), "✓ credit" if credit.settles else "◐ credit", words),
        fact=credit,
        title=f"Credit of {page.clock.say(credit.at)}",
        whole=(Said(words=f"{upper(words)}."), Said(words="x takes it back if it was filed by mistake.")),
    )


def _snag(page: Page, snag: Snag) -> Entry:
    where = f"{clean(snag.room)}: " if snag.room else ""
    if snag.mended_at is None:
        state = Said(words="▲ Still to put right; e says when it was.", tone=Tone.WARN)
    else:
        state = Said(words=f"✓ Put right {page.clock.say(snag.mended_at)}.", tone=Tone.OK)
    return Entry(
        key=f"snag:{snag.id}",
        cells=(page.clock.say(snag.at), "✓ snag" if snag.mended_at else "▲ snag", f"{where}{snag.what}"),
        fact=snag,
        title=f"Snag in {the_room(snag.room)}" if snag.room else "Snag",
        whole=(Said(words=snag.what), Said(words=f"Seen {page.clock.say(snag.at)}."), state),
    )


def _note(page: Page, note: Note) -> Entry:
    return Entry(
        key=f"note:{note.id}",
        cells=(page.clock.say(note.at), "note", note.text),
        fact=note,
        title=f"Note, {page.clock.say(note.at)}",
        whole=(Said(words=note.text),),
    )


def _signed(page: Page, handover: Handover) -> Entry:
    at = page.clock.say(handover.signed_at)
    return Entry(
        key=f"handover:{handover.id}",
        cells=(at, "✓ signed", handover.by),
        fact=handover,
        title="Handover",
        whole=(Said(words=f"✓ Signed by {clean(handover.by)}, {at}.", tone=Tone.OK),),
    )
