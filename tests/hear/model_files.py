"""Small stand-ins for a model and its archives."""

from __future__ import annotations

from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

FILES = (
    "am/final.mdl",
    "conf/mfcc.conf",
    "conf/model.conf",
    "graph/HCLr.fst",
    "graph/Gr.fst",
    "ivector/final.ie",
)


def lay_model(folder: Path, text: str = "learnt") -> Path:
    """Make a folder that looks like a model."""
    for name in FILES:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(f"{text} {name}\n" * 50)
    return folder


def pack(folder: Path, archive: Path, prefix: str = "assets/model-en-us", **more: str) -> Path:
    """Zip a model; `more` are further members by name."""
    with ZipFile(archive, "w", ZIP_DEFLATED) as packed:
        for file in sorted(folder.rglob("*")):
            if file.is_file():
                packed.write(file, f"{prefix}/{file.relative_to(folder)}")
        for name, text in more.items():
            packed.writestr(name, text)
    return archive
