"""Stills against the pictures that were put in: which one, the right way up, sharp, small and silent."""

from __future__ import annotations

import io
import math
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageFilter

from journal_tui.walkthrough.media.sharpness import black, sharpness
from journal_tui.walkthrough.media.stills import AFTER, BEFORE, LONGEST_SIDE, Still, Stills
from tests.media.making import SIZE, make, number_in, pictures, silence

FPS = 10
#: What issue of a still's moment counts as right.
HALF_A_SECOND = 0.5


def shown(still: Still | None) -> Image.Image:
    assert still is not None
    image = Image.open(io.BytesIO(still.jpeg))
    assert image.size == (still.width, still.height)
    return image


@pytest.mark.parametrize("codec", ["libx264", "libx265"])
@pytest.mark.parametrize("rotation", [0, 90, 180, 270])
def test_a_still_is_the_picture_at_its_moment_the_right_way_up(
    tmp_path: Path, codec: str, rotation: int
) -> None:
    made = make(tmp_path / "walk.mov", frames=pictures(80), codec=codec, rotation=rotation, sound=silence(8))
    with Stills(made) as stills:
        for moment in (0.0, 2.5, 6.9):
            still = stills.near(moment)
            image = shown(still)
            assert still is not None
            upright = rotation in (0, 180)
            assert image.size == (SIZE if upright else SIZE[::-1])
            # ISO/IEC 14496-12 section 8.3.2: the matrix turns clockwise; turned back, it is what was put in.
            put_in = number_in(image.rotate(rotation, expand=True))
            assert abs(put_in / FPS - still.moment) < 0.06
            assert moment - BEFORE - HALF_A_SECOND <= put_in / FPS <= moment + AFTER + HALF_A_SECOND


def test_ten_bits_a_colour_as_phones_film_by_default(tmp_path: Path) -> None:
    made = make(tmp_path / "walk.mov", frames=pictures(40), codec="libx265", pixels="yuv420p10le")
    with Stills(made) as stills:
        still = stills.near(2.0)
        assert still is not None
        assert abs(number_in(shown(still)) / FPS - still.moment) < 0.06


def test_variable_frame_rate(tmp_path: Path) -> None:
    times = [0.0, 0.05, 1.4, 1.45, 1.5, 5.0, 5.02, 9.7, 12.25]
    made = make(tmp_path / "walk.mp4", frames=pictures(len(times)), times=times, gop=3)
    with Stills(made) as stills:
        for moment in (0.0, 4.8, 9.7, 12.0):
            still = stills.near(moment)
            assert still is not None
            assert times[number_in(shown(still))] == pytest.approx(still.moment, abs=0.02)


def moving(image: Image.Image, points: int) -> Image.Image:
    """Return a picture as a turning camera sees it: each point smeared sideways."""
    smeared = np.mean([np.roll(np.asarray(image, float), n, axis=1) for n in range(points)], axis=0)
    return Image.fromarray(smeared.astype(np.uint8))


def test_the_sharpest_is_taken(tmp_path: Path) -> None:
    frames = [moving(image, 9) for image in pictures(60)]
    frames[23] = pictures(60)[23]
    frames[47] = pictures(60)[47].filter(ImageFilter.GaussianBlur(0.4))
    made = make(tmp_path / "walk.mp4", frames=frames, options={"movflags": "faststart"})
    with Stills(made) as stills:
        assert number_in(shown(stills.near(1.0))) == 23
        assert number_in(shown(stills.near(4.5))) == 47


def test_black_pictures_are_passed_over(tmp_path: Path) -> None:
    dark = Image.new("RGB", SIZE, (6, 6, 6))
    frames = [dark] * 60 + list(pictures(80)[60:70]) + [dark] * 130
    made = make(tmp_path / "walk.mp4", frames=frames)
    with Stills(made) as stills:
        assert 60 <= number_in(shown(stills.near(5.0))) < 70
        assert 60 <= number_in(shown(stills.near(0.0))) < 70, "the nearest light, when all around is black"
        assert stills.near(18.0) is None


def test_damage_in_the_middle_costs_only_what_is_damaged(tmp_path: Path) -> None:
    made = make(tmp_path / "walk.mp4", frames=pictures(200))
    data = bytearray(made.read_bytes())
    begins = data.index(b"mdat")
    length = int.from_bytes(data[begins - 4 : begins], "big")
    for at in range(begins + length // 3, begins + length * 2 // 3):
        data[at] ^= 0xA5
    made.write_bytes(bytes(data))
    with Stills(made) as stills:
        for moment in (1.0, 17.0):
            still = stills.near(moment)
            assert still is not None
            assert abs(number_in(shown(still)) / FPS - still.moment) < 0.06


def test_cut_short(tmp_path: Path) -> None:
    made = make(tmp_path / "walk.mp4", frames=pictures(100), options={"movflags": "faststart"})
    made.write_bytes(made.read_bytes()[: made.stat().st_size // 2])
    with Stills(made) as stills:
        assert stills.near(1.0) is not None
        assert stills.near(9.5) is None


def test_sound_alone_has_no_stills(tmp_path: Path) -> None:
    made = make(tmp_path / "walk.m4a", sound=silence(2))
    with Stills(made) as stills:
        assert stills.near(1.0) is None


def test_large_pictures_are_made_smaller_and_small_ones_left(tmp_path: Path) -> None:
    wide = pictures(1)[0].resize((1920, 1280))
    made = make(tmp_path / "walk.mp4", frames=[wide] * 3, rotation=90)
    with Stills(made) as stills:
        assert shown(stills.near(0.0)).size == (round(1280 * LONGEST_SIDE / 1920), LONGEST_SIDE)


def test_a_still_tells_nothing_but_what_it_shows(tmp_path: Path) -> None:
    place = "+44.2601-072.5754+159.000/"
    made = make(
        tmp_path / "walk.mov",
        frames=pictures(10),
        metadata={
            "com.apple.quicktime.location.ISO6709": place,
            "location": place,
            "make": "Phone maker",
            "creation_time": "2026-03-11T09:00:00Z",
        },
        options={"movflags": "use_metadata_tags"},
    )
    assert place.encode() in made.read_bytes(), "the recording itself does tell it"
    with Stills(made) as stills:
        still = stills.near(0.5)
    image = shown(still)
    assert not image.getexif()
    assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    # ITU-T T.81 table B.1: tables, the frame, the scan and JFIF's APP0; no other APPn, no comment.
    assert still is not None
    assert set(markers(still.jpeg)) <= {0xE0, 0xDB, 0xC0, 0xC4, 0xDA}


def markers(jpeg: bytes) -> list[int]:
    found, at = [], 2
    while jpeg[at] == 0xFF:
        found.append(jpeg[at + 1])
        if jpeg[at + 1] == 0xDA:
            break
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4], "big")
    return found


def test_sharpness_is_the_gradient_energy() -> None:
    random = np.random.default_rng(3)
    points = random.integers(0, 256, (31, 47)).astype(np.uint8)
    exact = points.astype(float)
    energy = (np.diff(exact, axis=1) ** 2).sum() + (np.diff(exact, axis=0) ** 2).sum()
    assert sharpness(Image.fromarray(points)) == pytest.approx(energy / points.size, rel=1e-12)


def test_sharpness_falls_with_every_blur_as_the_variance_of_the_laplacian_does() -> None:
    grey = pictures(12)[11].convert("L")
    for blurred in (
        [grey.filter(ImageFilter.GaussianBlur(r)) for r in (0.0, 0.5, 1.0, 2.0, 4.0)],
        [moving(grey, n) for n in (1, 2, 4, 8, 16)],
    ):
        ours = [sharpness(image) for image in blurred]
        theirs = [_laplacian_variance(image) for image in blurred]
        assert ours == sorted(ours, reverse=True)
        assert theirs == sorted(theirs, reverse=True), "the measure used most elsewhere says the same"


def _laplacian_variance(image: Image.Image) -> float:
    i = np.asarray(image, float)
    laplacian = i[:-2, 1:-1] + i[2:, 1:-1] + i[1:-1, :-2] + i[1:-1, 2:] - 4 * i[1:-1, 1:-1]
    return float(laplacian.var())


def test_black_is_nearly_all_dark() -> None:
    image = Image.new("L", (100, 100), 31)
    assert black(image)
    image.paste(200, (0, 0, 100, 2))
    assert black(image)
    image.paste(200, (0, 0, 100, 3))
    assert not black(image)
    assert math.isclose(sharpness(Image.new("L", (9, 9), 77)), 0.0)
