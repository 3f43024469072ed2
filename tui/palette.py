"""The palette of commands: everything that works now, every view and every open job, found by ordinary words."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from textual.app import App
from textual.command import DiscoveryHit, Hit, Hits, Provider
from textual.content import Content
from textual.markup import escape
from textual.screen import Screen
from textual.types import IgnoreReturnCallbackType

from tui.dialogs.help_screen import say_key
from tui.doors import VIEW_WORDS, ViewName
from tui.widgets.rows import folded

ORDINARY_WORDS = {
    "today": "home, start, morning, what to do now, to-do list, agenda",
    "jobs": "all jobs, list, search, find a job, customers, past jobs, archive, closed",
    "stock": "warehouse, store room, unit, packs, leftovers, inventory",
    "products": "boards, glue, catalogue, prices, add a product, wood",
    "firm": "settings, options, preferences, people, fitters, holidays, backup, company",
    "taught": "statistics, report, waste, cut loss, offcuts, learn, past jobs, averages, margin",
    "sums": "calculator, work out, formula, dew point, moisture, bags, rows",
    "diary": "calendar, schedule, planning, who is where, week, bookings, roster",
    "book": "schedule, assign, plan somebody, appointment",
    "stretch": "longer, shorter, extend, another day",
    "swap": "exchange, change places, switch",
    "cancel": "delete a booking, call off, remove",
    "calendar": "ics, iCalendar, telephone, send the diary, export",
    "undo": "turn back, take back, revert, mistake",
    "plan": "lay plan, cut list, layout, drawing, board by board, rows, pattern",
    "what_if": "compare, other direction, alternatives, another board",
    "suppose": "late delivery, slips, ill, sick, away, scenario, try out, what happens when",
    "write_out": "export, print, cut list, drawing, picture",
    "help": "keys, shortcuts, how to, what can I press, manual",
    "quit": "exit, close, leave, stop, bye",
    "turn_theme": "colours, theme, light mode, dark mode, contrast, appearance",
    "filter": "search, find, look for, narrow",
    "do_next": "next step, next thing, what now, go on, continue",
    "take_on": "new job, add a job, create, customer, enquiry, quote",
    "order": "buy, purchase, packs, supplier",
    "take_in": "delivery, arrived, goods received, packs came, driver",
    "carry": "move packs, unit to room, bring in, transfer",
    "read": "reading, measurement, moisture, humidity, temperature, air, hygrometer, carbide, straightedge",
    "smooth": "levelling, smoothing compound, screed, self-levelling, filler",
    "lay": "laying, install, start, finish, fitting, floor down, glue",
    "count": "leftovers, stocktake, packs left, return, scrap, loose boards",
    "unit": "inventory, stock count, count the store room, what is missing, shrinkage",
    "sign": "handover, signature, acceptance, finish the job, close",
    "snag": "defect, fault, complaint, repair, mend, put right",
    "note": "remark, comment, memo, write down",
    "room": "add a room, measure, outline, area, size, survey",
    "change": "edit, correct, amend, rename, update, put right",
    "select": "show, details, look at, folder, more",
    "back": "return, previous, leave this",
    "holidays": "bank holidays, public holidays, days shut, country, calendar of the year",
    "add": "add, new, create, enter",
    "person": "fitter, employee, colleague, staff, worker, team",
    "sit_down": "user, my name, log in, who am I",
    "copy": "backup, back up, save, safe copy, memory stick",
    "look_over": "is everything in order, verify, health, integrity, test",
    "export": "save as a file, send, share, download, JSON, folder out",
    "turn": "the other way, arrange, group, sort",
    "take_back": "undo, delete, remove, mistake, withdraw, cancel, wrong",
}
"""Words that people look for an action by, beside the name it has here; by a word of the action's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """Something that can be done from the palette; ``found_by`` are the words it is found by, beside its own."""

    words: str
    help: str
    found_by: str
    run: IgnoreReturnCallbackType

    def weight(self, wanted: list[str]) -> float:
        """Return how well the typed words fit, from 0 for not at all; its own name weighs most."""
        name, others = folded(self.words), folded(f"{self.help} {self.found_by}")
        total = 0.0
        for word in wanted:
            weight = max(_weight_in(name, word) * 2, _weight_in(others, word))
            if not weight:
                return 0.0
            total += weight
        return total / (2 * len(wanted)) if wanted else 0.0


def _weight_in(text: str, word: str) -> float:
    """1 for a whole word, less for the beginning of one, least for the middle of one."""
    if f" {word} " in f" {text.replace(',', ' ')} ":
        return 1.0
    if f" {word}" in f" {text}":
        return 0.8
    return 0.3 if word in text else 0.0


class ShopCommands(Provider):
    """Finds commands for the screen underneath."""

    def commands(self) -> Iterator[Command]:
        """Yield what works now: the keys of the screen, then the views."""
        seen: set[str] = set()
        for active in self.screen.active_bindings.values():
            binding = active.binding
            action = binding.action.rpartition(".")[2].partition("(")[0]
            is_ours = binding.id is not None or isinstance(active.node, App | Screen)
            if not (is_ours and binding.description and active.enabled) or action in seen or action in _INNER:
                continue
            seen.add(action)
            yield Command(
                words=binding.description,
                help=f"Key {binding.key_display or say_key(binding.key)}. {binding.tooltip}".strip(),
                found_by=words_for(action),
                run=partial(self.app.run_action, binding.action, active.node),
            )
        for number, view in enumerate(ViewName, start=1):
            yield Command(
                words=f"Go to {VIEW_WORDS[view]}",
                help=f"Key {number}",
                found_by=ORDINARY_WORDS[view.value],
                run=partial(self.app.run_action, f"app.go_to('{view}')"),
            )

    async def discover(self) -> Hits:
        """Yield every command, before anything is typed."""
        for command in self.commands():
            yield DiscoveryHit(Content(command.words), command.run, command.words, escape(command.help))

    async def search(self, query: str) -> Hits:
        """Yield the commands that every typed word fits."""
        typed = folded(query).split()
        wanted = [word for word in typed if word not in _SMALL_WORDS] or typed
        for command in self.commands():
            weight = command.weight(wanted)
            if weight:
                yield Hit(weight, Content(command.words), command.run, command.words, escape(command.help))


_SMALL_WORDS = frozenset({"a", "an", "the", "to", "of", "my", "i", "is", "it"})
_INNER = frozenset(
    {"go_to", "command_palette", "copy_text", "focus_next", "focus_previous", "help_quit", "maximize", "minimize"}
)


def words_for(action: str) -> str:
    """Return the ordinary words for an action, by the words its name is made of."""
    return ", ".join(words for key, words in ORDINARY_WORDS.items() if f"_{key}_" in f"_{action}_")
