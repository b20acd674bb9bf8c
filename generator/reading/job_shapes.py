"""What a room file may say of the job: the entries of the title block, and the list of revisions."""

from __future__ import annotations

from pydantic import Field, ValidationInfo, field_validator

from generator.reading.fields import Many, Shape, Text, Words, said


class RevisionShape(Shape):
    mark: Words = Field(description="number or letter of the revision")
    date: Text = ""
    what: Words = Field(description="what changed")


class JobShape(Shape):
    title: Text = ""
    owner: Text = ""
    number: Text = ""
    date: Text = ""
    drawn_by: Text = ""
    approved_by: Text = ""
    revisions: Many[RevisionShape] = Field(
        default=(), max_length=100, description="what changed from build to build, oldest first"
    )
    revision: Text = Field(default="0", description="current revision; the last of `revisions` where they are listed")

    @field_validator("revisions")
    @classmethod
    def _each_once(cls, listed: tuple[RevisionShape, ...]) -> tuple[RevisionShape, ...]:
        marks = [one.mark for one in listed]
        twice = [mark for i, mark in enumerate(marks) if mark in marks[:i]]
        if twice:
            raise ValueError(f"revision {said(twice[0])} is listed twice; each revision has a mark of its own")
        return listed

    @field_validator("revision")
    @classmethod
    def _the_last_listed(cls, revision: str, info: ValidationInfo) -> str:
        listed = info.data.get("revisions", ())
        if revision and listed and revision != listed[-1].mark:
            raise ValueError(
                f"{said(revision)} is not the last of `revisions`, {said(listed[-1].mark)}; "
                "leave `revision` out, or add its row to the list"
            )
        return revision
