"""The counter for the firm itself, its people and what it buys."""

from dataclasses import replace

from store.desk.counter import Bench, refuse, shown
from store.errors import Problem, Refused
from store.trade.firm import Firm, FirmDraft, problems_with_firm
from store.trade.people import Person, PersonDraft, problems_with_person
from store.trade.plans import size_of
from store.trade.products import Board, Glue, Product, ProductDraft, problems_with_product
from store.trade.suppliers import Supplier, problems_with_supplier, supplier_of


class FirmCounter:
    """Questions and deeds about the firm and its people."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def is_set_up(self) -> bool:
        """Whether the firm has said who it is."""
        return self._bench.cabinet.firm.get() is not None

    def card(self) -> Firm:
        """Return the firm; Refused where none is set up."""
        return self._bench.firm()

    def problems(self, draft: FirmDraft) -> tuple[Problem, ...]:
        return problems_with_firm(draft)

    def set_up(self, draft: FirmDraft) -> Firm:
        """File the firm for the first time."""
        with self._bench.deed():
            refuse(self.problems(draft))
            firm = self._bench.cabinet.firm.put(draft)
            self._bench.write_down("firm set up", subject=firm.name, after=firm)
        return firm

    def change(self, draft: FirmDraft, rev: int) -> Firm:
        """Change the firm's settings; ChangedMeanwhile if ``rev`` is not the latest."""
        with self._bench.deed():
            refuse(self.problems(draft))
            before = self._bench.firm()
            firm = self._bench.cabinet.firm.change(draft, rev)
            self._bench.write_down("firm changed", subject=firm.name, before=before, after=firm)
        return firm

    def supplier_problems(self, draft: Supplier, *, instead_of: str = "") -> tuple[Problem, ...]:
        """Return what is wrong with a supplier's card; ``instead_of`` is the name of the one being changed, if any."""
        found = tuple(problems_with_supplier(draft))
        names = {one.name for one in self.card().suppliers} - {instead_of}
        if draft.name in names:
            found += (Problem(field="name", say=f"There is a supplier “{shown(draft.name)}” already."),)
        return found

    def put_supplier(self, draft: Supplier, *, instead_of: str = "") -> Supplier:
        """File a supplier, new or in the place of another card; products follow a new name.

        Raises:
            DraftRefused: the card has problems.
            Refused: the one to be changed is not on file any longer.
        """
        with self._bench.deed():
            refuse(self.supplier_problems(draft, instead_of=instead_of))
            firm = self._bench.firm()
            before = supplier_of(firm.suppliers, instead_of) if instead_of else None
            if instead_of and before is None:
                raise Refused(f"{shown(instead_of)} is not on file any longer.")
            kept = [draft if one.name == instead_of else one for one in firm.suppliers]
            changed = tuple(kept) if instead_of else (*firm.suppliers, draft)
            self._bench.cabinet.firm.change(replace(firm, suppliers=changed), firm.rev)
            if instead_of and draft.name != instead_of:
                self._buy_from(instead_of, draft.name)
            done = "supplier changed" if instead_of else "supplier added"
            self._bench.write_down(done, subject=draft.name, before=before, after=draft)
        return draft

    def remove_supplier(self, name: str) -> None:
        """Take a supplier off the list; products bought from it name none then."""
        with self._bench.deed():
            firm = self._bench.firm()
            before = supplier_of(firm.suppliers, name)
            if before is None:
                raise Refused(f"{shown(name)} is not on file any longer.")
            kept = tuple(one for one in firm.suppliers if one.name != name)
            self._bench.cabinet.firm.change(replace(firm, suppliers=kept), firm.rev)
            self._buy_from(name, "")
            self._bench.write_down("supplier removed", subject=name, before=before)

    def _buy_from(self, name: str, instead: str) -> None:
        for product in self._bench.cabinet.products.all():
            if product.supplier == name:
                self._bench.cabinet.products.change(product.id, replace(product, supplier=instead), product.rev)

    def people(self) -> tuple[Person, ...]:
        return self._bench.cabinet.people.all()

    def person_problems(self, draft: PersonDraft, *, person: Person | None = None) -> tuple[Problem, ...]:
        """Return what is wrong with somebody's card; ``person`` is the one being changed, if any."""
        others = {one.name for one in self.people() if person is None or one.id != person.id}
        return problems_with_person(draft, others)

    def add_person(self, name: str) -> Person:
        """File somebody who works for the firm, by name alone."""
        return self.take_on(PersonDraft(name=name))

    def take_on(self, draft: PersonDraft) -> Person:
        """File somebody who works for the firm."""
        with self._bench.deed():
            refuse(self.person_problems(draft))
            person = self._bench.cabinet.people.add(draft)
            self._bench.write_down("person added", subject=person.name, after=person)
        return person

    def change_person(self, person: Person, draft: PersonDraft) -> Person:
        """Change somebody's card; bookings follow a new name. ChangedMeanwhile if ``person`` is old."""
        with self._bench.deed():
            refuse(self.person_problems(draft, person=person))
            changed = self._bench.cabinet.people.change(person.id, draft, person.rev)
            if changed.name != person.name:
                self._bench.cabinet.bookings.rename(person.name, changed.name)
                # What a closed job taught names who was booked on it.
                booked = self._bench.cabinet.bookings.of_person(changed.name)
                self._bench.touch(*(one.ref for one in booked))
                if self._bench.who == person.name:
                    self._bench.who = changed.name
            self._bench.write_down("person changed", subject=person.name, before=person, after=changed)
        return changed

    def remove_person(self, person: Person) -> None:
        """Take somebody off the list; the diary of the days they worked keeps their name.

        Raises:
            Refused: they are booked for today or a day to come, or are not on file any longer.
        """
        with self._bench.deed():
            if all(one.id != person.id for one in self.people()):
                raise Refused(f"{shown(person.name)} is not on file any longer.")
            today = self._bench.today()
            ahead = [one for one in self._bench.cabinet.bookings.of_person(person.name) if one.last >= today]
            if ahead:
                times = "once" if len(ahead) == 1 else f"{len(ahead)} times"
                first = max(ahead[0].first, today)
                raise Refused(
                    f"{shown(person.name)} is booked {times} from {first.isoformat()} on; "
                    "cancel that in the diary first, or give it to somebody else."
                )
            self._bench.cabinet.people.remove(person.id)
            self._bench.write_down("person removed", subject=person.name, before=person)
            if self._bench.who == person.name:
                self._bench.who = ""

    @property
    def at_the_desk(self) -> str:
        """Who is named in the history of what is done from now on."""
        return self._bench.who

    def sit_down(self, who: str) -> None:
        """Say who is at the desk from now on."""
        self._bench.who = who

    def sit_down_again(self) -> str:
        """Seat whoever did the last thing on file and still works here, else the first on file; return the name.

        Somebody who is named already stays; where nobody is on file nobody is named.
        """
        names = [person.name for person in self.people()]
        if not self._bench.who and names:
            last = next((line.who for line in self._bench.cabinet.history.latest(50) if line.who in names), names[0])
            self._bench.who = last
        return self._bench.who


class ProductCounter:
    """Questions and deeds about boards, glues and materials."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def all(self) -> tuple[Product, ...]:
        """Return every product on file, by code."""
        return self._bench.cabinet.products.all()

    def problems(self, draft: ProductDraft, *, new: bool) -> tuple[Problem, ...]:
        """Return what is wrong with a product; a new one must not take a code that is on file."""
        found = problems_with_product(draft)
        if new and self._bench.cabinet.products.by_code(draft.code) is not None:
            found += (Problem(field="code", say=f"There is a product “{draft.code}” on file already."),)
        return found

    def add(self, draft: ProductDraft) -> Product:
        """File a new product."""
        with self._bench.deed():
            refuse(self.problems(draft, new=True))
            product = self._bench.cabinet.products.add(draft)
            self._bench.write_down("product added", subject=product.code, after=product)
        return product

    def changing_problems(self, product: Product, draft: ProductDraft) -> tuple[Problem, ...]:
        """Return what is wrong with a product's sheet changed: what other lines on file know it by must stay."""
        found = self.problems(draft, new=False)
        if draft.code != product.code or draft.kind is not product.kind:
            say = f"A product keeps its code, {shown(product.code)}, and its kind; add another one instead."
            found += (Problem(field="code", say=say),)
        elif draft.thing is not product.thing:
            found += (Problem(field="thing", say="A material stays the thing it is; add another one instead."),)
        return found

    def change(self, product: Product, draft: ProductDraft) -> Product:
        """Change a product's sheet; its code, its kind and the thing it is stay.

        Raises:
            DraftRefused: the draft has problems.
            ChangedMeanwhile: somebody changed it since ``product`` was read.
        """
        with self._bench.deed():
            refuse(self.changing_problems(product, draft))
            changed = self._bench.cabinet.products.change(product.id, draft, product.rev)
            self._bench.write_down("product changed", subject=product.code, before=product, after=changed)
            if isinstance(product, Glue) and product.full_load_hours != getattr(changed, "full_load_hours", 0):
                # Its hours decide when a signed job is cured, and so when it closed.
                self._bench.settle(*self._bench.cabinet.jobs.refs_glued_with(product.id))
            if isinstance(product, Board) and isinstance(changed, Board) and size_of(product) != size_of(changed):
                # Its sizes decide which lay plans fit, and how many boards a pack held.
                self._bench.touch(*self._bench.cabinet.jobs.refs_laid_with(product.id))
        return changed
