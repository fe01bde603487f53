"""A tour of the screens, each by its address, as somebody's links and forms would ask for it."""

from __future__ import annotations

import datetime
import io
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html import unescape
from urllib.parse import urlencode

from PIL import Image
from starlette.routing import Match, Route

from tests.app.test_any_form import forms
from tests.conftest import ROOT
from triage.app.application import SCREENS

FORM = "application/x-www-form-urlencoded"
BETWEEN = "between-two-parts"
MARK, OWN, CODE = "side_deck.port.hairline", "Spoke with the owner, who saw it happen.", "AUTUMN-3"
READ = (
    *("", "boat", "near?zone=foredeck", "places", "place?zone=foredeck", "walk?minutes=45", "walk?leg=sides", "answer"),
    *("answer?ask=cost", "answer?to=repairer", "again", "due.ics", "survey.yaml", "boat.json", "report.html", "advert"),
    *("viewing", "viewing.txt", "buy", "buy.html", "buy.txt"),
)
"""What is read of a visit."""

PRINTED = ("lesson-1-handout", "lesson-1-answers", "lesson-1-notes", "cards", "quiz-7", "sheet")


@dataclass
class Got:
    """An answer: where it came from in the end, and what it says."""

    address: str
    status: int
    text: str


Ask = Callable[[str, str, str, bytes], Got]
"""A request: how, where, of what kind, with what body; it is sent on as often as the answer says."""


@dataclass
class Tour:
    """Somebody who opens everything. ``answers`` are the status by method and address, ``routes`` what these led to."""

    ask: Ask
    answers: dict[str, int] = field(default_factory=dict)
    routes: set[str] = field(default_factory=set)

    def get(self, address: str) -> Got:
        return self._noted("GET", address, "", b"")

    def send(self, address: str, **form: str) -> Got:
        return self._noted("POST", address, FORM, urlencode(form).encode())

    def hand_in(self, address: str, name: str, file: bytes, kind: str, **form: str) -> Got:
        """A form with a file."""
        parts = [f'content-disposition: form-data; name="{key}"\r\n\r\n{value}'.encode() for key, value in form.items()]
        head = f'content-disposition: form-data; name="{name}"; filename="a"\r\ncontent-type: {kind}\r\n\r\n'
        body = b"".join(b"--%b\r\n%b\r\n" % (BETWEEN.encode(), part) for part in (*parts, head.encode() + file))
        return self._noted(
            "POST", address, f"multipart/form-data; boundary={BETWEEN}", body + f"--{BETWEEN}--\r\n".encode()
        )

    def _noted(self, how: str, address: str, kind: str, body: bytes) -> Got:
        got = self.ask(how, address, kind, body)
        self.answers[f"{how} {address}"] = got.status
        self.routes |= {route_of(how, address), route_of("GET", got.address)}
        return got


def routes() -> Mapping[str, Route]:
    """Every address of the program, with the method."""
    every = [route for screen in SCREENS for route in screen.ROUTES]
    return {f"{how} {route.path}": route for route in every for how in (route.methods or set()) - {"HEAD"}}


def route_of(how: str, address: str) -> str:
    """What answers there, if anything does."""
    scope = {"type": "http", "method": how, "path": f"/{address.partition('?')[0]}", "root_path": "", "headers": []}
    return next((name for name, route in routes().items() if route.matches(scope)[0] is Match.FULL), "")


def of_a_boat(tour: Tour) -> None:
    """A boat told of, measured, kept as a file, looked at again, bought, mended."""
    tour.get("")
    asked = tour.send("new", text="Hairline cracks by the port shroud, about an inch.")
    visit = asked.address
    tour.send(f"{visit}choose", number="1", token=token(asked))
    tour.send(f"{visit}say", text="There is a chip on the stem.", new="1")
    tour.send(f"{visit}do", act="undo", token=token(tour.get(visit)))
    tour.send(f"{visit}place", zone="side_deck", side="port", do="mark/hairline")
    tour.send(f"{visit}walk", zone="foredeck", side="", leg="deck", do="looks")
    a_photo(tour, visit)
    for what in READ:
        tour.get(f"{visit}{what}")
    tour.send(f"{visit}advert", asking="2200", currency="GBP", to="decide")
    tour.send(f"{visit}name", name="Wagtail")
    again = tour.hand_in("open", "file", (ROOT / "examples/club-boat.yaml").read_bytes(), "application/yaml").address
    today = datetime.date.today().isoformat()
    marks = forms(tour.get(f"{visit}again").text)
    tour.send(
        f"{visit}again", **next(one[2] for one in marks if one[2].get("act") == "mended") | {"by": "Kim", "on": today}
    )
    for what in ("boats", "boats/common", "due.ics", "look/app.css"):
        tour.get(what)
    tour.send(f"{again}remove")


def a_photo(tour: Tour, visit: str) -> None:
    """Kept with its mark, and a length taken from it."""
    made = io.BytesIO()
    Image.new("RGB", (1600, 1200), "white").save(made, "JPEG")
    tour.get(f"{visit}photos?mark={MARK}")
    tour.hand_in(f"{visit}photos", "photo", made.getvalue(), "image/jpeg", mark=MARK)
    tour.get(f"{visit}photos/photo-1.jpg")
    tour.get(f"{visit}measure?mark={MARK}&name=photo-1.jpg")
    corners = {"corner1": "300,250", "corner2": "1120,250", "corner3": "1120,767", "corner4": "300,767"}
    tour.send(f"{visit}measure", mark=MARK, name="photo-1.jpg", **corners, line="300,950 875,950")


def of_a_class(tour: Tour) -> None:
    """A case played to its end, a case of one's own, the class that they were of."""
    tour.get("teach")
    at = tour.send("teach/begin", name="Wren", code=CODE, about="any", number="177", same="yes")
    run = at.address
    tour.get("teach/begin")
    tour.get(f"{run}answer")
    at = tour.send(f"{run}answer", **first_choices(at))
    for check in re.findall(r'name="check" value="([^"]+)"', at.text)[:1]:
        at = tour.send(f"{run}check", check=unescape(check), token=token(at))
    at = tour.send(f"{run}check", check="", token=token(at))
    tour.send(f"{run}answer", **first_choices(at))
    tour.send(f"{run}more", token=token(at))
    tour.send(f"{run}next", token=token(at))
    tour.send(f"{run}otherwise", verdict="cosmetic", because=OWN, by="Ines")
    tour.get(f"{run}proposals.yaml")
    trainer = tour.get(f"teach/class/{CODE}/trainer")
    mark = re.findall(r'<option value="([^"]+)"', trainer.text)
    tour.send(f"teach/class/{CODE}/cases", mark=unescape(mark[-1]) if mark else "", told=OWN)
    own = re.findall(r'name="case" value="([^"]+)"', tour.get(f"teach/class/{CODE}/trainer?covered").text)
    begun = tour.send("teach/begin", name="Rook", code=CODE, about="own", number="").address
    tour.get(f"{begun}photos/photo-1.jpg")
    for what in ("proposals.yaml", "results.json", "", "?figures"):
        tour.get(f"teach/class/{CODE}/{what}")
    tour.get(f"teach/class?code={CODE}")
    tour.send(f"teach/class/{CODE}/cases/remove", case=own[0] if own else "")
    tour.send(f"teach/class/{CODE}/remove", sure="yes")
    tour.get("teach/lessons")
    for name in PRINTED:
        tour.get(f"teach/{name}.html")


def token(got: Got) -> str:
    """What a form of this screen carries."""
    found = re.search(r'name="token" value="([^"]*)"', got.text)
    return unescape(found[1]) if found else ""


def first_choices(got: Got) -> dict[str, str]:
    """The form of this screen with the first choice of each question."""
    radios = re.findall(r'<input type="radio" name="([^"]+)" value="([^"]*)"', got.text)
    options = re.findall(r'<select id="([^"]+)"[^>]*><option value="">[^<]*</option><option value="([^"]+)"', got.text)
    return {"token": token(got), "confidence": "80"} | {
        name: unescape(says) for name, says in [*options, *radios][::-1]
    }
