"""The counter for the firm itself, its people and what it buys."""

from datetime import date

from store.desk.counter import Bench, refuse
from store.errors import Problem
from store.trade.firm import Firm, FirmDraft, problems_with_firm
from store.trade.people import Person, PersonDraft
from store.trade.products import Glue, Product, ProductDraft, problems_with_product


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

    def people(self) -> tuple[Person, ...]:
        return self._bench.cabinet.people.all()

    def add_person(self, name: str, trained_until: date | None = None) -> Person:
        """File somebody who works for the firm."""
        with self._bench.deed():
            if not name.strip():
                refuse((Problem(field="name", say="Write the name they go by."),))
            if name in {person.name for person in self.people()}:
                refuse((Problem(field="name", say=f"{name} is on file already."),))
            person = self._bench.cabinet.people.add(PersonDraft(name=name, trained_until=trained_until))
            self._bench.write_down("person added", subject=person.name, after=person)
        return person

    def train(self, person: Person, until: date | None) -> Person:
        """Note until when somebody's training for glues with diisocyanates is in force; None for no training."""
        with self._bench.deed():
            if all(one.id != person.id for one in self.people()):
                refuse((Problem(field="name", say=f"{person.name} is not on file any longer."),))
            trained = self._bench.cabinet.people.train(person.id, PersonDraft(name=person.name, trained_until=until))
            self._bench.write_down("training noted", subject=person.name, before=person, after=trained)
        return trained

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
    """Questions and deeds about boards and glues."""

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

    def change(self, product: Product, draft: ProductDraft) -> Product:
        """Change a product's sheet; its code and kind stay.

        Raises:
            DraftRefused: the draft has problems.
            ChangedMeanwhile: somebody changed it since ``product`` was read.
        """
        with self._bench.deed():
            found = self.problems(draft, new=False)
            if (draft.code, draft.kind) != (product.code, product.kind):
                found += (Problem(field="code", say="A product keeps its code and kind; add another one instead."),)
            refuse(found)
            changed = self._bench.cabinet.products.change(product.id, draft, product.rev)
            self._bench.write_down("product changed", subject=product.code, before=product, after=changed)
            if isinstance(product, Glue) and product.full_load_hours != getattr(changed, "full_load_hours", 0):
                # Its hours decide when a signed job is cured, and so when it closed.
                self._bench.settle(*self._bench.cabinet.jobs.refs_glued_with(product.id))
        return changed
