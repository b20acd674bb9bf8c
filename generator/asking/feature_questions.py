"""Niches and windows in the walls; benches, curbs, bars and seats on them."""

from __future__ import annotations

from dataclasses import replace

from generator.asking.questions import Question, Section, Word

NICHES, WINDOWS, MOUNTS = 2, 1, 3
"""What the form has room for; more is written into the room file."""
_MOUNTS = (
    Word("grab_bar", "grab bar"),
    Word("seat", "folding seat, fixed to the wall"),
    Word("glass", "channel of fixed glass"),
    Word("door", "hinges of a shower door"),
)
_WAYS = (Word("level"), Word("upright"))


def mouth_section(walls: tuple[str, ...]) -> Section:
    """Niches by their clear size, windows by the opening in the framing."""
    return Section(
        "",
        "Niches and windows",
        "",
        (
            "A niche: clear sizes between its boards, wanted; its sill off the floor at the front. `bay` fills a bay.",
            "A window: the opening in the framing as it is; depth from the stud faces back to the window's frame.",
        ),
        (
            *(q for i in range(NICHES) for q in _mouth(f"niches.{i}", f"niche-{i + 1}", f"Niche {i + 1}", walls)),
            *(q for i in range(WINDOWS) for q in _mouth(f"windows.{i}", f"window-{i + 1}", f"Window {i + 1}", walls)),
        ),
        "niche",
    )


def _mouth(path: str, name: str, topic: str, walls: tuple[str, ...]) -> tuple[Question, ...]:
    niche = path.startswith("niches")
    width = Question(f"{name}-width", topic, "width or bay", "word", (f"{path}.width",), needs=name)
    return (
        _wall(name, topic, f"{path}.wall", walls, ((f"{path}.name", name), (f"{path}.from", "left"))),
        _size(name, topic, "across", "from left", f"{path}.across"),
        _size(name, topic, "up", "sill up", f"{path}.up"),
        width if niche else _size(name, topic, "width", "width", f"{path}.width"),
        _size(name, topic, "height", "height", f"{path}.height"),
        _size(name, topic, "depth", "depth", f"{path}.depth"),
    )


def built_section(walls: tuple[str, ...], along: str, bench: bool, curb: bool) -> Section:
    """What is fastened to the walls or built before them."""
    return Section(
        "",
        "Bars, seats, glass" + (", bench" if bench else "") + (" and curb" if curb else ""),
        "",
        (
            "Where each is wanted: from the left end of its wall to its nearer end (upright: to its middle); up to the",
            "top of a level bar or of a seat, to the lower end of the others. Blocking is planned behind each of them.",
        ),
        (
            *(q for i in range(MOUNTS) for q in _mount(f"mounts.{i}", i, walls)),
            *(_bench(walls) if bench else ()),
            *(_curb(along) if curb else ()),
        ),
        "built",
    )


def _mount(path: str, i: int, walls: tuple[str, ...]) -> tuple[Question, ...]:
    name, topic = f"mount-{i + 1}", f"Mount {i + 1}"
    what, way = "what it is", "way"
    also = ((f"{path}.name", name), (f"{path}.from", "left"), (f"{path}.above", "floor"))
    return (
        _wall(name, topic, f"{path}.wall", walls, also),
        Question(f"{name}-kind", topic, what, "word", (f"{path}.kind",), words=_MOUNTS, needs=name),
        Question(f"{name}-way", topic, way, "word", (f"{path}.direction",), default="level", words=_WAYS, needs=name),
        _size(name, topic, "across", "from left", f"{path}.across"),
        _size(name, topic, "up", "up", f"{path}.up"),
        _size(name, topic, "length", "length", f"{path}.length"),
        Question(f"{name}-out", topic, "seat: out", "length", (f"{path}.out",), optional=True, default="-", needs=name),
    )


def _bench(walls: tuple[str, ...]) -> tuple[Question, ...]:
    topic, path = "Bench along a wall, its framing", "benches.0"
    return (
        _wall("bench", topic, f"{path}.along", walls, ((f"{path}.name", "bench"),)),
        replace(_size("bench", topic, "from", "from left", f"{path}.from"), optional=True, default="-"),
        replace(_size("bench", topic, "length", "length", f"{path}.length"), optional=True, default="-"),
        _size("bench", topic, "depth", "depth", f"{path}.depth"),
        _size("bench", topic, "height", "height", f"{path}.height"),
    )


def _curb(along: str) -> tuple[Question, ...]:
    topic, path = "Curb, its framing", "curbs.0"
    also = ((f"{path}.name", "curb"), (f"{path}.along", along))
    return (
        Question("curb", topic, "thickness", "length", (f"{path}.thickness",), optional=True, default="-", also=also),
        _size("curb", topic, "height", "height", f"{path}.height"),
    )


def _wall(mark: str, topic: str, key: str, walls: tuple[str, ...], also: tuple[tuple[str, str], ...]) -> Question:
    """Which wall it is at; nothing more is asked of what there is none of."""
    words = tuple(Word(wall) for wall in walls)
    return Question(mark, topic, "wall", "choice", (key,), optional=True, default="-", words=words, also=also)


def _size(lead: str, topic: str, mark: str, name: str, key: str) -> Question:
    return Question(f"{lead}-{mark}", topic, name, "length", (key,), needs=lead)
