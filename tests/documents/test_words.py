"""The data files of documents: glossary, cautions, voice and fixed sentences."""

from __future__ import annotations

import re
import tomllib

import pytest
from hypothesis import given

from journal_tui.documents import read_glossary, readability, standard_glossary
from journal_tui.documents.cautions import cautions_for
from journal_tui.documents.conditions import conditions, family_notes
from journal_tui.documents.voice import as_request, to_reader
from journal_tui.documents.wording import capital, data_table, data_text, listed, sentence
from journal_tui.domain.kinds import STANDARD_PHASES, Hazard, Party
from journal_tui.domain.text import one_line
from tests.documents.samples import lines

FILES = (
    "wording.toml",
    "glossary.toml",
    "cautions.toml",
    "change_order.toml",
    "conditions.toml",
    "family.toml",
    "verbs.toml",
    "voice.toml",
    "spoken.toml",
    "news.toml",
    "tone.toml",
    "syllables.toml",
)


def _strings(value: object) -> list[str]:
    if isinstance(value, str):
        return [value]
    if isinstance(value, dict):
        return [text for part in value.values() for text in _strings(part)]
    return [text for part in value for text in _strings(part)] if isinstance(value, list) else []


@pytest.mark.parametrize("name", FILES)
def test_nothing_is_ever_called_safe(name: str) -> None:
    # "safe" promises what nobody can; a rule is stated instead.
    said = [text for text in _strings(tomllib.loads(data_text(name))) if "safe" in text.casefold()]
    assert not said


def test_the_glossary_is_large_short_and_plain() -> None:
    terms = standard_glossary().terms
    assert len(terms) >= 100
    for term in terms:
        found = readability(term.say)
        assert found.sentences == 1 and term.say.endswith(".")
        # Plain-language guidance of public bodies (Plain Writing Act of 2010): about 20 words or fewer.
        assert found.words <= 20, term.say


def test_the_words_of_the_data_files_are_plain() -> None:
    sentences = data_table("wording.toml")["sentences"]
    connecting = re.sub(
        r"{\w+}", "10", " ".join(text for key, text in sentences.items() if key not in ("rule", "source"))
    )
    glossary = " ".join(term.say for term in standard_glossary().terms)
    cautions = " ".join(f"{caution.say} {caution.brief}" for caution in cautions_for(Hazard))
    reasons = " ".join(f"{c.say} {c.left}" for c in conditions())
    family = " ".join(f"{note.say} {note.brief}" for note in family_notes())
    for text in (connecting, glossary, cautions, reasons, family):
        assert readability(text).grade <= 8


def test_no_form_of_a_trade_word_stands_twice() -> None:
    forms = [re.sub(r"[\s-]", "", f).casefold() for term in standard_glossary().terms for f in term.forms]
    assert sorted(forms) == sorted(set(forms))


@pytest.mark.parametrize(
    ("text", "first_words"),
    [
        ("Closet flanges leaked", ["A closet flange"]),
        ("thinset, thin-set and thin set", ["Thin-set is"]),
        ("backer-board over the JOISTS", ["Backer board", "A joist"]),
        ("P-trap under the tub", ["A P-trap"]),
        ("sistering two joists", ["To sister", "A joist"]),
        ("no trapdoor, no studio, a strap, my sister, a flange and a curb", []),
        ("GFCI outlets and nail plates", ["A GFCI", "A nail plate"]),
        ("niches; bullnoses", ["A niche", "Bullnose"]),
        ("", []),
    ],
)
def test_trade_words_are_found_in_order(text: str, first_words: list[str]) -> None:
    said = [term.say for term in standard_glossary().used_in(text)]
    assert len(said) == len(first_words)
    assert all(say.startswith(start) for say, start in zip(said, first_words, strict=True))


def test_every_form_finds_its_own_term() -> None:
    glossary = standard_glossary()
    for term in glossary.terms:
        for form in term.forms:
            assert glossary.used_in(f"the {form}, old") == [term], form
            assert glossary.used_in(f"The {form.upper().replace(' ', '-')}.") == [term], form


@given(lines)
def test_any_text_can_be_looked_through(text: str) -> None:
    standard_glossary().used_in(text)


def test_an_empty_glossary_explains_nothing() -> None:
    assert read_glossary("").used_in("P-trap") == []


def test_every_hazard_has_its_caution_and_every_party_and_phase_its_words() -> None:
    cautions = cautions_for(Hazard)
    assert [caution.hazard for caution in cautions] == list(Hazard)
    for caution in cautions:
        assert caution.label and caution.standing
        assert 1 <= readability(caution.say).sentences <= 2
        assert caution.rule or caution.standing.startswith("common practice")
    assert set(data_table("cautions.toml")) == set(Hazard)
    # Only of others it is told what we wait for.
    assert set(data_table("wording.toml")["parties"]) == {Party.INSPECTOR, Party.SUPPLIER}
    assert set(data_table("wording.toml")["called"]) == {Party.INSPECTOR, Party.SUPPLIER}
    assert set(STANDARD_PHASES) <= set(data_table("wording.toml")["phases"])


def test_cautions_rest_on_the_rules_that_govern_them() -> None:
    rules = {caution.hazard: caution.rule for caution in cautions_for(Hazard)}
    # 73 FR 21692, April 22, 2008, codified at 40 CFR Part 745, subpart E.
    assert "40 CFR Part 745" in rules[Hazard.LEAD] and "2008" in rules[Hazard.LEAD]
    assert "29 CFR 1926.1101" in rules[Hazard.ASBESTOS] and "40 CFR Part 61" in rules[Hazard.ASBESTOS]
    # 81 FR 16285, March 25, 2016 (from memory).
    assert "29 CFR 1926.1153" in rules[Hazard.SILICA] and "2016" in rules[Hazard.SILICA]
    assert "NFPA 70" in rules[Hazard.ELECTRICAL] and "edition" in rules[Hazard.ELECTRICAL]


@pytest.mark.parametrize(
    ("note", "letter"),
    [
        ("client wants the niche lower", "you want the niche lower"),
        ("The client's mother uses a walker", "your mother uses a walker"),
        ("waiting on the client", "waiting on you"),
        ("Owner chose white", "you chose white"),
        ("client decision on grout", "your decision on grout"),
        ("you wants it, you's call", "you want it, your call"),
        ("previous owner's paint", "previous owner's paint"),
        ("the previous owner did it", "the previous owner did it"),
        ("client bath and client-supplied faucet", "client bath and client-supplied faucet"),
        ("you said so", "you said so"),
        ("client's calling them again", "you are calling them again"),
        ("what we need from you is the fan", "what we need from you is the fan"),
        ("no one named", "no one named"),
    ],
)
def test_notes_are_turned_to_the_reader(note: str, letter: str) -> None:
    assert to_reader(note) == letter


@pytest.mark.parametrize(
    ("note", "request_"),
    [
        ("Client to clear the driveway", "please clear the driveway"),
        ("you needs to pick a mirror", "please pick a mirror"),
        ("Ask client whether to keep the fan", "please tell us whether to keep the fan"),
        ("I need you to empty the closet", "please empty the closet"),
        ("get the client to sign it", "please sign it"),
        ("You are supposed to pick a color", "please pick a color"),
        ("Choose the grout", "please choose the grout"),
        ("which mirror: set in or hung", "which mirror: set in or hung?"),
        ("How high should the niche be?", "How high should the niche be?"),
        ("Should we keep the door.", "Should we keep the door?"),
        ("grout color", "grout color"),
        ("What I need from you is the fan", "please let us know about the fan"),
        ("what she does need to tell me is the paint color", "please tell us the paint color"),
        ("the mason is booked; can you be here at eight.", "the mason is booked; can you be here at eight?"),
    ],
)
def test_what_is_owed_is_asked_for_politely(note: str, request_: str) -> None:
    assert as_request(note) == request_


@given(lines)
def test_a_note_that_speaks_of_no_client_is_left_alone(text: str) -> None:
    if not re.search(r"client|owner|customer|you", text, re.IGNORECASE):
        assert to_reader(text) == one_line(text)


@pytest.mark.parametrize(
    ("note", "made"),
    [
        ("floor is soft", "Floor is soft."),
        ("pH is off", "pH is off."),
        ("3/4 plywood", "3/4 plywood."),
        ("Is it level?", "Is it level?"),
        ("He said “no.”", "He said “no.”"),
        ("near the tub (left side)", "Near the tub (left side)."),
        ("width:", "Width:"),
        ("élan", "Élan."),
        ("ßtrange", "ßtrange."),
        ("床", "床."),
        ("", ""),
    ],
)
def test_a_note_becomes_a_sentence(note: str, made: str) -> None:
    assert sentence(note) == made


@given(lines)
def test_a_sentence_is_the_note_with_a_capital_and_a_stop_at_most(text: str) -> None:
    made = sentence(text)
    assert made.removesuffix(".").casefold() == one_line(text).removesuffix(".").casefold()
    assert capital(one_line(text))[1:] == one_line(text)[1:]


def test_lists_are_said_as_in_speech() -> None:
    assert [listed(list("abc")[:n]) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_the_word_that_is_explained_is_the_word_that_is_used() -> None:
    """Each form of a term shares a word with its sentence, so that "saddle" is not told of as "threshold"."""
    for term in standard_glossary().terms:
        said = re.sub(r"[^a-z]", "", term.say.casefold())
        for form in term.forms:
            words = [re.sub(r"[^a-z]", "", word.casefold()) for word in re.split(r"[\s/-]+", form)]
            stems = [word[:3] for word in words]
            assert any(stem and stem in said for stem in stems), (form, term.say)
    assert "A saddle is" in standard_glossary().used_in("a marble saddle")[0].say
