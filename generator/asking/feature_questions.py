"""Niches and windows in the walls; benches, curbs, soffits, bars and seats on them."""

from __future__ import annotations

from dataclasses import replace

from generator.asking.questions import Question, Section, Word

NICHES, WINDOWS, MOUNTS = 2, 1, 3
"""What the form has room for; more is written into the room file."""
_BAYS = (Word("pipe"), Word("cable"), Word("duct"), Word("insulation"))
_WEATHER = (Word("true", "yes"), Word("false", "no"))
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
            "What is in its bay: its sides measured as the studs are, its ends off the floor.",
            "A window: the opening in the framing as it is; depth from the stud faces back to the window's frame.",
        ),
        (
            *(q for i in range(NICHES) for q in _mouth(f"niches.{i}", f"niche-{i + 1}", f"Niche {i + 1}", walls)),
            *(q for i in range(WINDOWS) for q in _mouth(f"windows.{i}", f"window-{i + 1}", f"Window {i + 1}", walls)),
            *(_weather(i, wall) for i, wall in enumerate(walls)),
            *(q for i, wall in enumerate(walls) for q in _in_bay(f"walls.{i}.in_bays.0", i, wall)),
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


def _weather(i: int, wall: str) -> Question:
    """Behind a wall that stands against the weather a niche would take the insulation's place."""
    topic, key = f"Is the {wall} wall an outside wall?", f"walls.{i}.outside"
    return Question(f"outside-{i}", topic, "", "choice", (key,), default="false", words=_WEATHER)


def _in_bay(path: str, i: int, wall: str) -> tuple[Question, ...]:
    """One thing found between the studs of a wall."""
    topic, mark = f"In a bay of the {wall} wall", f"bay-{i}"
    return (
        Question(mark, topic, "what it is", "word", (f"{path}.kind",), optional=True, default="-", words=_BAYS),
        _size(mark, topic, "from", "from", f"{path}.from"),
        _size(mark, topic, "to", "to", f"{path}.to"),
        _size(mark, topic, "bottom", "lower end", f"{path}.bottom"),
        _size(mark, topic, "top", "upper end", f"{path}.top"),
    )


def built_section(walls: tuple[str, ...], along: str, bench: bool, curb: bool) -> Section:
    """What is fastened to the walls or built before them."""
    return Section(
        "",
        f"Bars, seats, glass, {'bench, ' if bench else ''}{'curb, ' if curb else ''}soffit",
        "",
        (
            "Where each is wanted: from the left end of its wall to its nearer end (upright: to its middle); up to the",
            "top of a level bar or of a seat, to the lower end of the others. Blocking is planned behind each of them.",
        ),
        (
            *(q for i in range(MOUNTS) for q in _mount(f"mounts.{i}", i, walls)),
            *(_along_a_wall("bench", "benches.0", walls, "height") if bench else ()),
            *(_curb(along) if curb else ()),
            *_along_a_wall("soffit", "soffits.0", walls, "underside up"),
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


def _along_a_wall(name: str, path: str, walls: tuple[str, ...], up: str) -> tuple[Question, ...]:
    """A bench or a soffit: where it runs, and its section."""
    topic = f"{name.capitalize()} along a wall, its framing"
    return (
        _wall(name, topic, f"{path}.along", walls, ((f"{path}.name", name),)),
        replace(_size(name, topic, "from", "from left", f"{path}.from"), optional=True, default="-"),
        replace(_size(name, topic, "length", "length", f"{path}.length"), optional=True, default="-"),
        _size(name, topic, "depth", "depth", f"{path}.depth"),
        _size(name, topic, "height", up, f"{path}.height"),
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
