"""What gives a house or a client away starts private; sizes, counts and talk of the trade do not.

All phrases are invented; what counts as a secret is common practice, no source.
"""

from __future__ import annotations

import re
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.kinds import Audience
from journal_tui.domain.reading import first_audience, for_client, for_crew
from journal_tui.domain.secrecy import CODES, REASONS, Sign, Signs, Texts, private_among


def _starts_private(text: str) -> bool:
    return first_audience(text).audience is Audience.PRIVATE


@pytest.mark.parametrize(
    ("text", "secret"),
    [
        ("Wifi password hammer22", "hammer22"),
        ("the password is blue horse, need to cap the pipe", "blue horse"),
        ("password: h@mm.er!9", "h@mm.er!9"),
        ("wifi: hammer22", "hammer22"),
        ("Garage opener pin 1234", "1234"),
        ("opener, 4 4 7 1", "4 4 7 1"),
        ("pin is one two three four", "one two three four"),
        ("code for the side gate is 77#12", "77#12"),
        ("code for gate 2 is 4471", "4471"),
        ("gate code is 12B4", "12B4"),
        ("door code: 77", "77"),
        ("Wi-Fi pass is Tulip77", "Tulip77"),
        ("the gate's 4471", "4471"),
        ("lockbox 4471 by the back door", "4471"),
        ("lockbox is 4471 in the back", "4471"),
    ],
)
def test_a_code_or_password_is_withheld_even_when_marked_for_the_client(text: str, secret: str) -> None:
    assert _starts_private(text)
    for shown in (for_client(text, Audience.CLIENT, {}), for_crew(text, Audience.CLIENT, {})):
        assert shown is not None
        assert "[withheld]" in shown
        assert secret not in shown
        assert not any(word in shown for word in secret.split())


def test_what_follows_a_password_is_still_read() -> None:
    text = "the password is blue horse, need to cap the pipe"
    assert for_client(text, Audience.CLIENT, {}) == "the password is [withheld] need to cap the pipe"


@pytest.mark.parametrize(
    "text",
    [
        "The master key is under the blue pot by the back steps",
        "spare key's in the mailbox",
        "Key is in the meter box",
        "key under the mat",
        "left the key behind the shutter",
        "Hide-a-key under the frog",
        "they hid a key by the pump",
        "under the third step is the key",
        "House is empty till Sunday",
        "nobody's home this week",
        "nobody home till five",
        "no one is home before four",
        "they're away until Monday",
        "the client will be out of town",
        "the back door stays unlocked",
        "the alarm is off in the garage",
        "the password is on the fridge",
    ],
)
def test_ways_into_a_house_start_private(text: str) -> None:
    assert _starts_private(text)


@pytest.mark.parametrize(
    "text",
    [
        "Need to order tile, 14.50 a foot",
        "the stone is 14.50 per square foot",
        "backer at 12.99 a sheet",
        "valves were 85.00 each",
        "that tile is 12 a square foot",
        "fourteen fifty a foot",
        "twenty-two a square foot",
        "he's 65 an hour",
    ],
)
def test_prices_by_the_piece_start_private(text: str) -> None:
    assert _starts_private(text)


@pytest.mark.parametrize(
    "text",
    [
        "The client is a pain, need to keep her out of the room",
        "keep the client away while we cut",
        "she doesn't need to hear that",
        "she doesnt have to know",
        "the owner must not find out",
        "don't let her in here",
        "do not let them see the subfloor",
        "she's behind on rent",
        "the homeowner is really hard to please",
        "he is slow to pay",
        "fix it before she notices",
        "hide that from the client",
        "we never told her about the leak",
        "not a word to the client",
        "don't say anything to her",
        "their divorce is why",
    ],
)
def test_talk_about_the_client_starts_private(text: str) -> None:
    assert _starts_private(text)


@pytest.mark.parametrize(
    "text",
    [
        "per code, 36 inches",
        "per code 1500 square feet needs nothing more",
        "code says 6 8 high",
        "key the mortar into the lath",
        "key pieces in the kit are cut",
        "combing the coat keys it in",
        "Key the joint under the sill",
        "lay out the key tiles first",
        "the key slot is cut",
        "pin the stop with brads",
        "pin it 1 1/2 in off the edge",
        "pin the casing with 18 gauge nails",
        "slope the drain 1/4 in a foot",
        "slope 1/4 per foot",
        "0.25 a foot of fall",
        "8 screws a sheet",
        "two coats a day",
        "the key to this is a flat floor",
        "check the code on nosing",
        "they know about the leak",
        "let her know Thursday",
        "combination valve 1/2 in",
        "12.50 in by 8 in",
        "tile comes 16 a box",
        "garage door opener needs a 20 amp circuit",
        "opener rail 8 ft long",
        "opener on 120 volts",
        "the password needs a reset",
        "ask for the wifi password",
        "wifi does not reach the vanity",
        "the wall cavity is empty",
        "the trap is gone",
        "smoke alarm is off the ceiling",
        "drywall 4 by 8 by the door",
        "the valve is a pain to reach",
        "keep them off the floor",
        "keep the water out",
        "don't let the mortar dry",
        "don't let them dry out",
        "cheap hinges, they are cheap",
        "the client is home Thursday",
        "she is picking the tile",
        "the client does not like the grey",
        "she doesn't need a grab bar",
        "she can't see the mirror",
        "the electrician still owes us two circuits",
    ],
)
def test_the_trade_s_own_words_are_no_secret(text: str) -> None:
    assert first_audience(text).audience is Audience.CLIENT
    assert for_client(text, Audience.CLIENT, {}) == text


@pytest.mark.parametrize(
    "word",
    "key |the |code |one |password |pin |1 |the client is |under the a |14 a |twenty |Key is |x|#| ".split(
        "|"
    ),
)
def test_time_grows_with_the_length_only(word: str) -> None:
    """Ten times the words take about ten times as long; a quadratic pattern would take a hundred."""

    def seconds(count: int) -> float:
        begun = time.process_time()
        first_audience(word * count)
        return time.process_time() - begun

    first_audience("warm")
    few, many = min(seconds(2_000) for _ in range(3)), seconds(20_000)
    assert many < 40 * max(few, 0.005)


@pytest.mark.parametrize("sign", [*CODES.all, *(sign for signs, _reason in REASONS for sign in signs.all)])
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_every_text_a_pattern_is_found_in_has_the_letters_looked_for_first(
    sign: Sign, data: st.DataObject
) -> None:
    text = data.draw(st.from_regex(re.compile(sign.pattern, re.IGNORECASE)))
    assert Signs(sign).likely_in(text)


_TOLD = st.one_of(
    st.text("ab key0159 lockcdeptris$ıſß.\n\x00'", max_size=40),
    st.sampled_from(
        ["the lockbox is 4471", "between us", "she's a pain", "that adds $450", "set the pan", ""]
    ),
)


@given(st.lists(_TOLD, max_size=8))
def test_many_texts_looked_through_as_one_are_private_as_each_is_by_itself(told: list[str]) -> None:
    assert private_among(Texts(told)) == {n for n, text in enumerate(told) if _starts_private(text)}
