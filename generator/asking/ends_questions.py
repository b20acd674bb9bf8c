"""Where the boards end and what is beside them, and what comes over them."""

from __future__ import annotations

from generator.asking.questions import Question, Section, Word
from generator.units import Units

_BESIDE = (Word("wallboard"), Word("free", "nothing"))
_CEILING = (Word("framing", "bare framing"), Word("finished", "finished ceiling"))


def ends_section(walls: tuple[str, ...], partition: bool, units: Units) -> Section:
    """Reach and neighbours of every wall with an open end, top, ceiling, tile; boards go round a `partition`'s end."""
    paths = tuple(f"walls.{i}" for i in range(len(walls)))
    tile, tops = "Tile, where it is known", tuple(f"{path}.boards.top" for path in paths)
    high = f"ceiling, or {'84' if units == 'in' else '2100'} above the floor"
    return Section(
        "",
        "Where the boards end",
        "",
        ("A board that meets wallboard shares a stud with it: end the boards on the middle of a stud.",),
        (
            *(q for i, path in enumerate(paths[: len(paths) - partition]) for q in _ends(i, path, walls)),
            Question("top", "Boards go up to", high, "text", tops, default="ceiling"),
            Question(
                "ceiling",
                "Ceiling that the heights were taken to",
                "",
                "choice",
                tuple(f"{path}.ceiling" for path in paths),
                default="framing",
                words=_CEILING,
            ),
            Question("tile", tile, "tile", "length", ("tile.thickness",), optional=True, default="-"),
            Question("bed", tile, "its mortar bed", "length", ("tile.bed",), optional=True, default="-"),
            Question("longest", tile, "longest edge", "length", ("tile.longest",), optional=True, default="-"),
        ),
        "reach",
    )


def _ends(i: int, path: str, walls: tuple[str, ...]) -> tuple[Question, ...]:
    """A wall with two corners has no end of its own."""
    if len(walls) == 1:
        return _two_ends(path, walls[0])
    if 0 < i < len(walls) - 1:
        return ()
    topic = f"Boards reach, {walls[i]} wall"
    reach = Question(
        f"reach-{i}",
        topic,
        "from corner",
        "length",
        (f"{path}.boards.reach",),
        optional=True,
        default="-",
    )
    return (reach, _beside(f"beside-{i}", f"Beside them on the {walls[i]} wall", f"{path}.beside"))


def _two_ends(path: str, wall: str) -> tuple[Question, ...]:
    """A wall that stands alone: where the boards begin and end, and what is at both ends."""
    topic = f"Boards on the {wall} wall, from its left end"
    return (
        Question("reach-from", topic, "they begin at", "length", (f"{path}.boards.reach.0",)),
        Question("reach-to", topic, "they end at", "length", (f"{path}.boards.reach.1",)),
        _beside("beside-left", "Beside their left end", f"{path}.beside.0"),
        _beside("beside-right", "Beside their right end", f"{path}.beside.1"),
    )


def _beside(mark: str, topic: str, key: str) -> Question:
    return Question(mark, topic, "", "choice", (key,), default="wallboard", words=_BESIDE)
