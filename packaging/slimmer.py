"""What packaging/lamp-counter.spec does to make a bundle on Linux smaller: symbols off, and no video.

OpenCV's wheel is linked to a whole library of video codecs, a quarter of its size, and nothing here ever plays a
video. Its loader wants each library and each function in it by name and version all the same: so there are libraries
of those names whose functions do nothing. Made with the C compiler; where there is none, the bundle is larger.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

Entry = tuple[str, str, str]  # name in the bundle, file, kind: as PyInstaller lists them
VIDEO = re.compile(r"lib(avcodec|avformat|avutil|swscale)-")
OF_VIDEO_ALONE = re.compile(r"lib(swresample|vpx|drm|crypto|ssl)-[0-9a-f]{8}\.so")
WITH_SYMBOLS = re.compile(r"libpython|lib-dynload|sqlalchemy")  # built so; wheels' libraries are not to be touched


def slimmer(entries: list[Entry], work: Path) -> list[Entry]:
    """Return the bundle's binaries with smaller ones in their places, which are made in the folder `work`."""
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir(parents=True)
    found = [_without_symbols(entry, work) for entry in entries]
    opencv = next((Path(file) for name, file, _ in found if re.search(r"cv2[/\\]cv2\..*so$", name)), None)
    if opencv is None or shutil.which("gcc") is None:
        return found
    made = {path.name: path for path in _stand_ins(opencv, work)}
    opencvs = (Path(name).name for name, file, _ in found if Path(file).parent.name.startswith("opencv"))
    only_video = set(filter(OF_VIDEO_ALONE.search, opencvs))
    return [
        (name, str(made[Path(name).name]) if kind == "BINARY" and Path(name).name in made else file, kind)
        for name, file, kind in found
        if Path(name).name not in only_video
    ]


def _without_symbols(entry: Entry, work: Path) -> Entry:
    name, file, kind = entry
    if kind not in ("BINARY", "EXTENSION") or not WITH_SYMBOLS.search(file) or shutil.which("strip") is None:
        return entry
    bare = work / name.replace("/", "-")
    subprocess.run(["strip", "--strip-unneeded", "-o", bare, file], check=True)
    return name, str(bare), kind


def _stand_ins(opencv: Path, work: Path) -> list[Path]:
    """Make the libraries of video that OpenCV asks for, with the functions it names and nothing in them."""
    told = subprocess.run(["objdump", "-p", "-T", opencv], check=True, capture_output=True, text=True).stdout
    made = []
    for library, version in re.findall(r"required from (\S+):\n\s+\S+ \S+ \S+ (\S+)", told):
        if VIDEO.match(library):
            functions = re.findall(rf"\*UND\*\s+\S+\s+\(?{version}\)?\s+(\w+)", told)
            made.append(_library(work / library, version, functions))
    return made


def _library(path: Path, version: str, functions: list[str]) -> Path:
    source, script = path.with_suffix(".c"), path.with_suffix(".map")
    source.write_text("".join(f"long {name}(void) {{ return 0; }}\n" for name in functions))
    script.write_text(f"{version} {{ global: *; }};\n")
    options = ["-shared", "-nostdlib", "-fno-builtin", f"-Wl,-soname,{path.name}", f"-Wl,--version-script={script}"]
    subprocess.run(["gcc", *options, "-o", path, source], check=True)
    return path
