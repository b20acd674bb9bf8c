"""The pictures of the README, made by the tool itself: `python -m tests.golden.gallery` writes out/gallery."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from generator.drawings.set import draw_set
from generator.drawings.templates import templates
from generator.model.job import Job
from generator.writers.svg import svg_bytes
from tests.example_rooms import job

ROOT = Path(__file__).parents[2]
GALLERY = ROOT / "out" / "gallery"
CHANGED = ROOT / "out" / "changed"
"""Where a test puts pictures of what changed; not kept."""
TITLES = {
    "title.svg": "Picture, key plan, index",
    "boards.svg": "Board elevation, back wall",
    "sealing.svg": "Sealing elevation, right wall",
    "takeoff.svg": "Take-off",
    "details.svg": "Details",
}
WALK_IN = {
    "walk-in.svg": "Picture, key plan, index",
    "niche.svg": "Faces of niche shelf",
    "exploded.svg": "Exploded view",
}


def gallery() -> Mapping[str, bytes]:
    """File name -> SVG. The room that passes, the framing sheet of the one that does not, a walk-in."""
    passing, failing, walk_in = (job(name) for name in ("recess", "recess-as-measured", "walk-in"))
    pages = {page.title: page for page in draw_set(passing)}
    made = {name: svg_bytes(pages[title]) for name, title in TITLES.items()}
    made["shop.svg"] = svg_bytes(next(page for title, page in pages.items() if title.startswith("Board B-right")))
    found = {page.title: page for page in draw_set(failing)}
    made["framing.svg"] = svg_bytes(found["Framing elevation, right wall"])
    built = {page.title: page for page in draw_set(walk_in)}
    made |= {name: svg_bytes(built[title]) for name, title in WALK_IN.items()}
    made["template.svg"] = _template(passing)
    return made


def _template(job: Job) -> bytes:
    """Of the valve, laid on the front of its board."""
    found = templates(job, job.room.choices.papers[0])
    wanted = next(t for t in found if t.name == "B-right-1")
    return svg_bytes(wanted.pages[0])


def main() -> None:
    GALLERY.mkdir(parents=True, exist_ok=True)
    for name, data in gallery().items():
        (GALLERY / name).write_bytes(data)


if __name__ == "__main__":
    main()
