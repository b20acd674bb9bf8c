"""The sides of a partition that a file does not list: its end and its other side, which glass may be fastened to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.reading.room_shapes import WallShape


def sides_of(walls: Sequence[WallShape | None]) -> Iterator[WallShape]:
    """As walls of their own, named as in the plan; whole partitions alone have them."""
    for index, wall in enumerate(walls):
        if wall is not None and wall.partition is not None:
            tops = {one.at.mm: one.height for one in wall.heights}
            free = tops.get(wall.width.mm if index > 0 else 0.0, wall.height)
            end = {"name": f"{wall.name}-end", "width": wall.partition.thickness, "height": free, "heights": ()}
            yield wall.model_copy(update=end)
            if wall.partition.faces == "both":
                yield wall.model_copy(update={"name": f"{wall.name}-outside"})
