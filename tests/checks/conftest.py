"""Rooms and plans for the checks: the worked room by hand, and the shipped example rooms as planned."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.model.plan import Plan
from generator.model.room import Room
from generator.reading import load_catalogue
from tests.checks.changes import sealed_plan
from tests.worked_plan import worked_plan
from tests.worked_room import worked_room


@pytest.fixture(scope="session")
def hand_room() -> Room:
    """The worked room under the shipped limits and code, its studs where they pass."""
    catalogue = load_catalogue()
    return replace(worked_room(), rules=catalogue.rules, code=catalogue.codes["irc"])


@pytest.fixture(scope="session")
def hand_plan(hand_room: Room) -> Plan:
    """The plan by hand, with the bands that it leaves out."""
    return sealed_plan(worked_plan(hand_room))
