"""Doors: tiny messages by which a screen asks to go somewhere; only the app knows every screen."""

from dataclasses import dataclass
from enum import StrEnum

from textual.message import Message


class ViewName(StrEnum):
    """The seven views of the window, in the order of their number keys."""

    TODAY = "today"
    JOBS = "jobs"
    STOCK = "stock"
    PRODUCTS = "products"
    FIRM = "firm"
    SUMS = "sums"
    DIARY = "diary"


VIEW_WORDS = {
    ViewName.TODAY: "Today",
    ViewName.JOBS: "Jobs",
    ViewName.STOCK: "Stock",
    ViewName.PRODUCTS: "Products",
    ViewName.FIRM: "Firm",
    ViewName.SUMS: "Sums",
    ViewName.DIARY: "Diary",
}


@dataclass
class GoTo(Message):
    """Show one of the seven views."""

    view: ViewName


@dataclass
class OpenJob(Message):
    """Open a job's folder."""

    ref: str


@dataclass
class OpenTaught(Message):
    """Show what closed jobs taught."""


@dataclass
class OpenLay(Message):
    """Open the lay of a job's room."""

    ref: str
    room: str
