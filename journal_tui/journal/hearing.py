"""The words of a recording: from captions beside it, a text track inside it, or its speech."""

from __future__ import annotations

import hashlib
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from journal_tui.domain.draft import JobWords
from journal_tui.domain.errors import BadInput, CannotRead
from journal_tui.domain.job import Job
from journal_tui.domain.recording import Captions, Notice
from journal_tui.domain.text import one_line, storable
from journal_tui.domain.times import clock
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import heard_place, recall, remember
from journal_tui.journal.visits import Drafting, Told, drafted, read_and_draft, refuse_logged
from journal_tui.store import queries

if TYPE_CHECKING:
    from journal_tui.walkthrough.media.engine import SpeechEngine

_MODEL = "setting/speech-model"
#: A recording that ends this much (seconds) before it says it does was cut short.
_SHORT_BY = 3.0
_PIECE = 4 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Listening:
    """How a recording is listened to.

    ``journal`` keeps what was heard so far, the model's folder, and what is logged already (None:
    nothing is kept). ``job`` gives its own words as hints. ``model`` is a speech model's folder, by
    default the one named last, else one found on this machine. ``again`` reads what is logged already.
    """

    journal: Journal | None = None
    job: Job | None = None
    model: Path | None = None
    again: bool = False
    told: Told | None = None

    def tell(self, what: str, share: float | None) -> None:
        """Tell how far the work is; raises what the one told raises, to stop it."""
        if self.told:
            self.told(what, share)


def draft_file(path: Path, words: JobWords | None, listening: Listening) -> Drafting:
    """Read captions or a recording, whichever ``path`` is, and draft from it; no visit is saved.

    The first notice on a recording says where its words are from. What was heard of its speech is
    kept until it is logged, so that stopped work goes on where it was. Raises ``CannotRead``,
    ``NotInstalled``, ``AlreadyLogged``, and whatever ``listening.told`` raises.
    """
    from journal_tui.walkthrough.media import is_recording

    path = path.expanduser()
    if not is_recording(path):
        return read_and_draft(path, words, listening.told)
    captions = _beside(path, listening) or _inside(path, listening)
    listening.tell(f"drafting from {len(captions.cues)} captions", None)
    drafting = drafted(captions, words, listening.told)
    pictured, why = _pictured(path, captions.timed)
    return replace(
        drafting,
        recording=path,
        pictured=path if pictured else None,
        notices=drafting.notices + ((why,) if why else ()),
    )


def _pictured(path: Path, timed: bool) -> tuple[bool, str]:
    """Return whether stills can be taken of a recording, and why not where one would expect them."""
    from journal_tui.walkthrough.media import look_at
    from journal_tui.walkthrough.media.needs import VIDEO, how_to_install, installed

    if not installed("av", "PIL"):
        return False, f"no stills are taken: {how_to_install(VIDEO)}"
    try:
        pictured = look_at(path).picture
    except BadInput as error:
        return False, f"no stills are taken: {error.title}"
    if pictured and not timed:
        return False, "no stills are taken: its captions do not say when each word was said"
    return pictured, ""


def _beside(path: Path, listening: Listening) -> Captions | None:
    from journal_tui.walkthrough.captions import read_captions
    from journal_tui.walkthrough.media import captions_beside
    from journal_tui.walkthrough.media.container import check_file

    check_file(path)
    found = captions_beside(path)
    if found is None:
        return None
    captions = read_captions(found)
    if listening.journal and not listening.again:
        refuse_logged(listening.journal, captions)
    return _named(captions, path, f"words: from {found.name} beside it")


def _inside(path: Path, listening: Listening) -> Captions:
    from journal_tui.walkthrough.media import look_at, text_track
    from journal_tui.walkthrough.media.needs import VIDEO, NotInstalled, installed

    shown = one_line(path.name)
    aside = f"Or put its captions beside it as {one_line(path.stem)}.vtt."
    if not installed("av"):
        raise NotInstalled(VIDEO, f"finding the words in {shown}", aside)
    facts = look_at(path)
    sha256 = _hashed(path, listening)
    if listening.journal and not listening.again:
        refuse_logged(listening.journal, Captions(path.name, "", (), "", sha256))
    track = text_track(path) if facts.text else None
    if track is not None:
        captions = _named(_read(path, track), path, "words: from the text track inside it")
        return replace(captions, sha256=sha256, form="text track")
    if not facts.sound:
        raise CannotRead(f"{shown} has no sound and no words in it", aside)
    captions = _recognised(path, sha256, facts.seconds, aside, listening)
    return replace(captions, sha256=sha256, form="speech")


def _read(path: Path, webvtt: str) -> Captions:
    from journal_tui.walkthrough.captions import read_text

    return read_text(f"{path.stem}.vtt", webvtt.encode())


def _named(captions: Captions, path: Path, source: str) -> Captions:
    """Return captions under their recording's name, the first notice saying where they are from."""
    return replace(captions, name=storable(path.name), notices=(Notice(0, source), *captions.notices))


def _hashed(path: Path, listening: Listening) -> str:
    digest = hashlib.sha256()
    size, done = path.stat().st_size, 0
    try:
        with path.open("rb") as file:
            while piece := file.read(_PIECE):
                digest.update(piece)
                done += len(piece)
                listening.tell(f"reading {one_line(path.name)}", done / max(size, done))
    except OSError as error:
        raise CannotRead(f"{one_line(path.name)} cannot be read to its end", f"{error.strerror}.") from None
    return digest.hexdigest()


def _recognised(path: Path, sha256: str, seconds: float, aside: str, listening: Listening) -> Captions:
    from journal_tui.walkthrough.media.speech import transcribe
    from journal_tui.walkthrough.media.tracks import as_webvtt

    shown = one_line(path.name)
    engine = _engine(shown, aside, listening)
    journal, place = listening.journal, heard_place(sha256)
    pace = Pace(f"listening to {shown}", listening.tell)
    made, damage = transcribe(
        path,
        engine,
        seconds,
        kept=recall(journal, place) if journal else "",
        keep=(lambda text: remember(journal, place, text)) if journal else None,
        told=pace.reached,
    )
    if not made.lines:
        raise CannotRead(f"no words were heard in {shown}", aside)
    captions = _named(_read(path, as_webvtt(made.lines)), path, f"words: recognised by {engine.name}")
    odd = []
    if damage.pieces:
        odd.append(f"damaged from {clock(damage.first or 0.0)} on; what could be heard is taken")
    if seconds and made.heard_to < seconds - _SHORT_BY:
        odd.append(f"it breaks off at {clock(made.heard_to)}, though it should last {clock(seconds)}")
    return replace(captions, notices=(*captions.notices, *(Notice(0, text) for text in odd)))


def _engine(shown: str, aside: str, listening: Listening) -> SpeechEngine:
    from journal_tui.walkthrough.media.engine import WhisperEngine, cached_model
    from journal_tui.walkthrough.media.hints import hint
    from journal_tui.walkthrough.media.needs import SPEECH, NotInstalled, installed

    if not installed("faster_whisper", "numpy"):
        raise NotInstalled(SPEECH, f"recognising the speech in {shown}", aside)
    listening.tell("loading the speech model", None)
    journal = listening.journal
    named = listening.model or Path((recall(journal, _MODEL) if journal else "") or ".")
    model = named if str(named) != "." else cached_model()
    if model is None:
        raise BadInput(
            "no speech model is on this machine",
            "Get one for faster-whisper, such as small.en, and name its folder once with --speech-model. "
            + aside,
        )
    own = own_names(journal, listening.job) if journal and listening.job else []
    engine = WhisperEngine(model.expanduser(), hint(own))
    if journal and listening.model:
        remember(journal, _MODEL, str(model.expanduser().absolute()))
    return engine


def own_names(journal: Journal, job: Job) -> list[str]:
    """Return a job's own words, for a speech engine to expect: areas, learned phrases, unusual words."""
    from journal_tui.walkthrough.media.hints import unusual

    learned = [word.phrase for _id, word in queries.own_words(journal.store, job.id)]
    texts = [job.scope, *queries.entry_texts(journal.store, job.id)]
    return [*queries.areas(journal.store, job.id)[:12], *learned[-12:], *unusual(texts)]


@dataclass(slots=True)
class Pace:
    """Tells how far long work on a recording is and how long the rest will take."""

    what: str
    tell: Callable[[str, float | None], None]
    now: Callable[[], float] = time.monotonic
    _began: tuple[float, float] | None = field(default=None, init=False)

    def reached(self, done: float, whole: float) -> None:
        """Tell that ``done`` of ``whole`` seconds of the recording are worked through."""
        share = min(1.0, done / whole) if whole > 0 else None
        said = f"{self.what}: {clock(done)}" + (f" of {clock(whole)}" if whole > 0 else "")
        moment = self.now()
        if self._began is None:
            # The first stretch also paid for what is done once; the pace is judged from here on.
            self._began = (moment, done)
        elif whole > done > self._began[1]:
            left = (moment - self._began[0]) / (done - self._began[1]) * (whole - done)
            said += f", about {_spoken(left)} left"
        self.tell(said, share)


def _spoken(seconds: float) -> str:
    if seconds < 90:
        return f"{max(1, round(seconds))} s"
    return f"{round(seconds / 60)} min" if seconds < 5400 else f"{seconds / 3600:.1f} h"
