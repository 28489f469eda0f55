"""Pictures that cannot be measured get one line; where and when one was taken is not kept."""

from __future__ import annotations

import os
import struct
import subprocess
import sys
import zlib

import cv2
import numpy as np
import pytest

from counter.cli import main
from counter.measure import PictureProblem, measure_bytes, pixels_of, read_picture
from counter.measure._picture import head_of


def png(width, height, data=b""):
    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(data)) + chunk(b"IEND", b"")


def encoded(kind, width=400, height=300):
    noise = np.random.default_rng(1).integers(0, 255, (height, width, 3), np.uint8)
    return cv2.imencode(kind, noise)[1].tobytes()


@pytest.mark.parametrize("raw", [png(500, 500, b"\0" * 10), b"no picture", png(60_000, 60_000)])
def test_a_command_says_one_line_of_what_cannot_be_measured(capfd, tmp_path, raw):
    """Decoders write lines of their own into the process's stderr."""
    path = tmp_path / "lamp.png"
    path.write_bytes(raw)
    assert main(["--data", str(tmp_path), "measure", str(path)]) == 2
    assert capfd.readouterr().err.count("\n") == 1


@pytest.mark.parametrize("kind", [".jpg", ".png", ".bmp", ".webp"])
def test_usual_kinds_are_read_with_their_sizes(kind):
    raw = encoded(kind)
    head = head_of(raw)
    assert head is not None
    assert (head.width, head.height) == (400, 300)
    assert pixels_of(raw).shape == (300, 400, 3)


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        (b"", "no picture"),
        (b"hello", "no picture"),
        (b"%PDF-1.7", "no picture"),
        (b"\x00\x00\x00\x18ftypheic", "save it as JPEG or PNG"),
        (b"GIF89a" + bytes(100), "no picture"),
        (b"\xff\xd8\xff", "no picture"),
        (b"\xff\xd8\xff\xe0\xff\xff", "no picture"),
        (png(60_000, 60_000), "60000 x 60000"),
        (png(40, 30), "only 40 x 30"),
        (png(400, 300), "broken"),
        (encoded(".png")[:2000], "broken"),
        (b"BM" + bytes(8), "no picture"),
        (b"RIFF1234WEBPxxxx", "no picture"),
    ],
)
def test_what_is_no_usable_picture_is_said_in_one_line(raw, says):
    with pytest.raises(PictureProblem) as problem:
        pixels_of(raw)
    assert says in str(problem.value)
    assert "\n" not in str(problem.value)


def test_a_picture_too_heavy_is_not_unpacked():
    with pytest.raises(PictureProblem, match="40 MB"):
        pixels_of(b"\xff\xd8\xff" + bytes(41_000_000))


def test_a_file_that_is_not_there_or_no_file_is_said(tmp_path):
    for path, says in ((tmp_path / "none.jpg", "there is no picture"), (tmp_path, "it is a folder")):
        with pytest.raises(PictureProblem, match=says):
            read_picture(path)


def test_a_file_too_heavy_is_not_read(tmp_path):
    with (tmp_path / "large.jpg").open("wb") as file:
        file.truncate(60_000_000)
    with pytest.raises(PictureProblem, match="at most 40 MB"):
        read_picture(tmp_path / "large.jpg")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no such files on this system")
def test_a_file_without_an_end_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.jpg")
    (tmp_path / "zero.jpg").symlink_to("/dev/zero")
    for name in ("pipe.jpg", "zero.jpg"):
        with pytest.raises(PictureProblem, match="not a file but a pipe"):
            read_picture(tmp_path / name)


def test_a_large_picture_is_brought_down(tmp_path):
    assert max(pixels_of(encoded(".jpg", 4000, 3000)).shape) <= 1800


def test_place_and_time_of_a_picture_are_not_kept(catalogue):
    jpeg = encoded(".jpg")
    note = b"Exif\x00\x00MM\x00*" + b"GPS 48.2 N 16.4 E 2031:01:02"
    with_note = jpeg[:2] + b"\xff\xe1" + struct.pack(">H", len(note) + 2) + note + jpeg[2:]
    told = measure_bytes(catalogue, with_note).model_dump_json()
    assert "GPS" not in told
    assert "2031" not in told


def test_no_card_is_said(catalogue):
    plain = cv2.imencode(".png", np.full((600, 800, 3), 130, np.uint8))[1].tobytes()
    told = measure_bytes(catalogue, plain)
    assert told.pattern is None
    assert told.looks == {}
    assert "bank card" in told.problems[0]


def test_the_core_starts_without_opencv():
    code = "import counter.measure, counter.cli, sys; print({'cv2', 'numpy', 'zxingcpp'} & set(sys.modules))"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "set()"
