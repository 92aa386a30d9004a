"""Where the words of a recording come from, and recordings that are damaged, odd or none at all."""

from __future__ import annotations

import random
from pathlib import Path

import av
import pytest

from journal_tui.domain.errors import AlreadyLogged, BadInput, CannotRead
from journal_tui.journal import hearing, visits
from journal_tui.journal.hearing import Listening, draft_file
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.recordings import log_file, look_in
from journal_tui.walkthrough.captions import read_text
from journal_tui.walkthrough.media import NotInstalled, captions_beside, is_recording, look_at, text_track
from journal_tui.walkthrough.media.container import opened
from journal_tui.walkthrough.media.sound import RATE, Sound
from journal_tui.walkthrough.media.tracks import as_webvtt
from tests.media.making import first_loud, make, pictures, silence, tone, write_wav

CUES = [
    (0.5, 2.5, "The toilet flange is rusted through & soft."),
    (3.0, 4.5, "We need to replace the flange\nbefore the subfloor."),
]
VTT = as_webvtt(CUES)


def heard(path: Path, start: float = 0.0) -> tuple[bytes, Sound]:
    sound = Sound(path, start)
    return b"".join(sound.pieces()), sound


@pytest.fixture(scope="module")
def walk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("walk")
    return make(folder / "walk.mp4", frames=pictures(50), sound=silence(2) + tone(3), cues=CUES)


def test_text_track_is_read_with_its_times(walk: Path) -> None:
    captions = read_text("walk.vtt", (text_track(walk) or "").encode())
    assert [(c.start, c.end, c.text) for c in captions.cues] == CUES


def test_subrip_track_in_matroska(tmp_path: Path) -> None:
    made = make(tmp_path / "walk.mkv", frames=pictures(50), cues=CUES, cue_codec="subrip")
    captions = read_text("walk.vtt", (text_track(made) or "").encode())
    assert [(c.start, c.end, c.text) for c in captions.cues] == CUES


def test_captions_beside_come_before_the_track_inside(walk: Path, tmp_path: Path, journal: Journal) -> None:
    copy = tmp_path / "walk.mp4"
    copy.write_bytes(walk.read_bytes())
    assert captions_beside(copy) is None
    inside = draft_file(copy, None, Listening())
    assert inside.notices[0] == "words: from the text track inside it"
    assert (inside.captions.form, inside.captions.name) == ("text track", "walk.mp4")
    assert len(inside.drafts) == 2
    (tmp_path / "walk.TXT").write_text("[0:01] We chose the white tile.\n")
    (tmp_path / "walk.SRT").write_text("1\n00:00:01,000 --> 00:00:03,000\nWe chose the white tile.\n")
    beside = draft_file(copy, None, Listening())
    assert beside.notices[0] == "words: from walk.SRT beside it"
    assert beside.captions.name == "walk.mp4"
    (tmp_path / "walk.mp4.vtt").write_text(VTT)
    assert captions_beside(copy) == tmp_path / "walk.mp4.vtt"


def test_captions_beside_need_no_extra(
    walk: Path, tmp_path: Path, journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = tmp_path / "walk.mp4"
    copy.write_bytes(walk.read_bytes())
    monkeypatch.setattr("journal_tui.walkthrough.media.needs.installed", lambda *_names: False)
    with pytest.raises(NotInstalled) as refused:
        draft_file(copy, None, Listening())
    assert 'pip install "journal-tui[video]"' in str(refused.value)
    assert "walk.vtt" in refused.value.body
    (tmp_path / "walk.vtt").write_text(VTT)
    assert len(draft_file(copy, None, Listening()).captions.cues) == 2


def test_speech_extra_is_named_when_it_is_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = write_wav(tmp_path / "walk.wav", tone(1))
    monkeypatch.setattr(
        "journal_tui.walkthrough.media.needs.installed", lambda *names: "faster_whisper" not in names
    )
    with pytest.raises(NotInstalled, match=r'pip install "journal-tui\[speech\]"'):
        draft_file(made, None, Listening())


def test_no_model_is_said_in_a_line(
    tmp_path: Path, journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = write_wav(tmp_path / "walk.wav", tone(1))
    monkeypatch.setenv("HF_HUB_CACHE", str(tmp_path / "none"))
    with pytest.raises(BadInput, match="--speech-model"):
        draft_file(made, None, Listening(journal))
    with pytest.raises(BadInput, match="holds no speech model"):
        draft_file(made, None, Listening(journal, model=tmp_path))


def test_log_says_the_source_and_knows_the_recording_again(walk: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    logged = log_file(journal, job.id, walk)
    assert logged.notices[0] == "words: from the text track inside it"
    assert logged.visit.recording_name == "walk.mp4"
    told: list[str] = []
    with pytest.raises(AlreadyLogged):
        log_file(journal, job.id, walk, told=lambda what, _share: told.append(what))
    assert all("drafting" not in what for what in told), "refused before the long work"
    assert log_file(journal, job.id, walk, again=True).drafts == logged.drafts


def test_recordings_are_listed_with_caption_files(walk: Path) -> None:
    assert [entry.name for entry in look_in(walk.parent).entries] == ["walk.mp4"]


@pytest.mark.parametrize(
    ("name", "codec"),
    [("a.m4a", "aac"), ("a.mp3", "libmp3lame"), ("a.mov", "aac"), ("a.wav", "pcm_s16le")],
)
def test_sound_alone_keeps_its_moments(tmp_path: Path, name: str, codec: str) -> None:
    made = make(tmp_path / name, sound=silence(2) + tone(1) + silence(1), sound_codec=codec)
    assert look_at(made).picture is False
    whole, _ = heard(made)
    assert len(whole) / 2 / RATE == pytest.approx(4.0, abs=0.1)
    assert first_loud(whole) == pytest.approx(2.0, abs=0.05)
    rest, _ = heard(made, 1.5)
    assert first_loud(rest) == pytest.approx(0.5, abs=0.05), "taken up in the middle"


def test_variable_frame_rate_does_not_move_the_sound(tmp_path: Path) -> None:
    times = [0.0, 0.1, 0.7, 0.75, 1.9, 2.0, 3.4]
    made = make(tmp_path / "v.mp4", frames=pictures(7), times=times, sound=silence(3) + tone(1))
    whole, _ = heard(made)
    assert first_loud(whole) == pytest.approx(3.0, abs=0.05)


def test_corrupt_in_the_middle(tmp_path: Path) -> None:
    made = make(tmp_path / "a.mp4", frames=pictures(90), sound=silence(2) + tone(1) + silence(5) + tone(1))
    data = bytearray(made.read_bytes())
    begins = data.index(b"mdat")
    length = int.from_bytes(data[begins - 4 : begins], "big")
    first, last = begins + length * 4 // 10, begins + length * 6 // 10
    data[first:last] = random.Random(7).randbytes(last - first)
    made.write_bytes(bytes(data))
    whole, sound = heard(made)
    assert sound.damage.pieces > 0
    assert len(whole) / 2 / RATE == pytest.approx(9.0, abs=0.3)
    assert first_loud(whole) == pytest.approx(2.0, abs=0.06)
    tail = whole[round(7.5 * RATE) * 2 :]
    assert first_loud(tail) == pytest.approx(0.5, abs=0.06), "later words keep their moment"


def test_cut_short_with_its_index_in_front(tmp_path: Path) -> None:
    made = make(
        tmp_path / "a.mp4",
        frames=pictures(60),
        sound=silence(1) + tone(5),
        options={"movflags": "faststart"},
    )
    data = made.read_bytes()
    made.write_bytes(data[: len(data) * 6 // 10])
    whole, _ = heard(made)
    assert 1.5 < len(whole) / 2 / RATE < 5.0
    assert first_loud(whole) == pytest.approx(1.0, abs=0.05)


def test_cut_short_with_its_index_lost(walk: Path, tmp_path: Path) -> None:
    copy = tmp_path / "walk.mp4"
    copy.write_bytes(walk.read_bytes()[: walk.stat().st_size // 2])
    with pytest.raises(CannotRead, match=r"walk\.mp4 is damaged or cut short"):
        draft_file(copy, None, Listening())


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("walk.mp4", b"", "is empty"),
        ('it\'s a "walk" 1.mov', b"no video at all\n" * 50, "is no recording"),
        ("walk.m4a", b"\x00" * 5000, "is no recording"),
        ("walk.mp3", bytes(range(256)) * 30, "is no recording"),
    ],
)
def test_what_is_no_recording_is_refused_in_a_line(
    tmp_path: Path, journal: Journal, name: str, data: bytes, said: str
) -> None:
    job = add_job(journal, name="Hall bath")
    path = tmp_path / name
    path.write_bytes(data)
    before = sorted(p.name for p in tmp_path.iterdir())
    with pytest.raises(CannotRead, match=said):
        log_file(journal, job.id, path)
    assert visits.timeline(journal, job.id) == []
    assert sorted(p.name for p in tmp_path.iterdir()) == before


def test_a_play_list_opens_no_address(tmp_path: Path) -> None:
    # RFC 8216 section 4.3: a play list names where its pieces are; a renamed one must not be followed.
    path = tmp_path / "walk.mp4"
    path.write_text("#EXTM3U\n#EXTINF:9,\nhttp://127.0.0.1:9/piece.ts\n#EXT-X-ENDLIST\n")
    with pytest.raises(CannotRead, match="is no recording"):
        look_at(path)


def test_the_library_does_not_report_in_python(walk: Path) -> None:
    # With it, a decoding thread waited for the interpreter that the thread closing it held (seen once in
    # a dozen three-minute films).
    with opened(walk):
        assert av.logging.get_level() is None


def test_pictures_without_sound_or_words(tmp_path: Path) -> None:
    made = make(tmp_path / "walk.mp4", frames=pictures(10))
    with pytest.raises(CannotRead, match="has no sound and no words"):
        draft_file(made, None, Listening())


def test_a_path_with_blanks_and_quotes(walk: Path, tmp_path: Path) -> None:
    copy = tmp_path / 'it\'s a "walk": 100%d 1.mp4'
    copy.write_bytes(walk.read_bytes())
    assert is_recording(copy)
    assert len(draft_file(copy, None, Listening()).captions.cues) == 2


def test_pace_tells_how_long_is_left() -> None:
    told: list[tuple[str, float | None]] = []
    moments = iter([10.0, 20.0, 30.0])
    pace = hearing.Pace("listening", lambda what, share: told.append((what, share)), lambda: next(moments))
    for done in (25.0, 50.0, 75.0):
        pace.reached(done, 125.0)
    assert told == [
        ("listening: 0:25 of 2:05", 0.2),
        ("listening: 0:50 of 2:05, about 30 s left", 0.4),
        ("listening: 1:15 of 2:05, about 20 s left", 0.6),
    ]
