"""A strict reader of iCalendar files: what RFC 5545 demands and common readers let pass, each fault in a word."""

import re
from collections.abc import Iterator
from datetime import date, datetime

_LINE = re.compile(r"(?P<name>[A-Z-]+)(?P<parameters>(?:;[A-Z-]+=[^:;,\"]+)*):(?P<value>.*)", re.DOTALL)
_TEXTS = {"SUMMARY", "LOCATION", "DESCRIPTION", "UID", "NAME"}
_ONCE = ("UID", "DTSTAMP", "DTSTART", "DTEND", "SEQUENCE", "SUMMARY", "STATUS")


def unfolded(raw: bytes) -> list[str]:
    """The lines of content, folds undone (RFC 5545 §3.1)."""
    return raw.decode().replace("\r\n ", "").split("\r\n")[:-1]


def faults(raw: bytes) -> list[str]:
    """Everything in a file that RFC 5545 does not allow, as far as these events need it."""
    return list(_faults(raw))


def _faults(raw: bytes) -> Iterator[str]:
    if not raw.endswith(b"\r\n") or b"\n" in raw.replace(b"\r\n", b"") or b"\r" in raw.replace(b"\r\n", b""):
        yield "line ends (§3.1)"
        return
    if any(len(line) > 75 for line in raw.split(b"\r\n")):
        yield "a line of more than 75 octets (§3.1)"
    lines = unfolded(raw)
    if lines[0] != "BEGIN:VCALENDAR" or lines[-1] != "END:VCALENDAR":
        yield "no calendar (§3.4)"
    head = lines[: lines.index("BEGIN:VEVENT")] if "BEGIN:VEVENT" in lines else lines
    if head == lines:
        yield "no event (§3.6)"
    if "VERSION:2.0" not in head or not any(line.startswith("PRODID:") for line in head):
        yield "no version or maker (§3.6)"
    for line in lines:
        yield from _faults_in_line(line)
    for event in "\n".join(lines).split("BEGIN:VEVENT\n")[1:]:
        yield from _faults_in_event(event.split("\nEND:VEVENT")[0].split("\n"))


def _faults_in_line(line: str) -> Iterator[str]:
    match = _LINE.fullmatch(line)
    if match is None:
        yield f"no line of content: {line[:40]}"
        return
    if re.search(r"[\x00-\x08\x0a-\x1f\x7f]", line):
        yield "a control character (§3.1)"
    if match["name"] in _TEXTS and re.search(r"(?<!\\)(?:\\\\)*[;,]", match["value"]):
        yield "an unescaped comma or semicolon (§3.3.11)"
    if match["name"] in _TEXTS and re.search(r"(?<!\\)(?:\\\\)*\\(?![\\;,nN])", match["value"]):
        yield "a stray backslash (§3.3.11)"
    if "TZID" in match["parameters"]:
        yield "a zone without its description (§3.2.19)"


def _faults_in_event(lines: list[str]) -> Iterator[str]:
    told: dict[str, list[str]] = {}
    for line in lines:
        name, _, value = line.partition(":")
        told.setdefault(name.partition(";")[0], []).append(value)
    for name in _ONCE:
        if len(told.get(name, [])) != 1:
            yield f"{name} not told once (§3.6.1)"
            return
    start, end = (_when(told[name][0]) for name in ("DTSTART", "DTEND"))
    if type(start) is not type(end) or not start < end:  # type: ignore[operator]  # of one kind, as just asked
        yield "an end that is not after its start (§3.8.2.2)"


def _when(value: str) -> date | datetime:
    """The day or instant; ValueError for one that there is not, like 31 February."""
    if len(value) == 8:
        return datetime.strptime(value, "%Y%m%d").date()  # noqa: DTZ007 - a day has no zone
    return datetime.strptime(value, "%Y%m%dT%H%M%SZ")  # noqa: DTZ007 - told in UTC
