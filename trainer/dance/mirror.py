"""A routine as seen in a mirror: right and left swapped in feet, weights, directions, turns and facings.

The teacher's own words are left as they are: they say what was written, not what is danced.
"""

from fractions import Fraction

from trainer.dance.facing import mirrored
from trainer.dance.footing import OTHER
from trainer.routine import Departure, Event, Extra, Gesture, Option, OrderLine, Part, Routine, Section


def mirror(routine: Routine) -> Routine:
    """Return the routine in the mirror; twice is the routine itself."""
    return routine.but(
        starts=OTHER[routine.starts],
        squares=-routine.squares,
        parts=tuple(_part(part) for part in routine.parts),
        extras=tuple(_extra(extra) for extra in routine.extras),
        options=tuple(_option(option) for option in routine.options),
        order=tuple(_line(line) for line in routine.order),
    )


def mirror_event(event: Event) -> Event:
    """Return an event in the mirror."""
    return event.but(
        foot=event.foot and event.foot.mirrored,
        weight=event.weight and OTHER[event.weight],
        turn=-event.turn,
        then=-event.then,
        direction=event.direction and event.direction.mirrored,
        also=tuple(_gesture(gesture) for gesture in event.also),
        facing=_facing(event.facing),
        other=event.other and mirror_event(event.other),
    )


def _gesture(gesture: Gesture) -> Gesture:
    return gesture.but(foot=gesture.foot.mirrored, direction=gesture.direction and gesture.direction.mirrored)


def _section(section: Section) -> Section:
    return section.but(events=tuple(mirror_event(event) for event in section.events))


def _extra(extra: Extra) -> Extra:
    return extra.but(events=_section(extra).events, starts=_facing(extra.starts))


def _part(part: Part) -> Part:
    return part.but(sections=tuple(_section(section) for section in part.sections))


def _option(option: Option) -> Option:
    return option.but(events=tuple(mirror_event(event) for event in option.events))


def _line(line: OrderLine) -> OrderLine:
    departures = tuple(mirror_departure(departure) for departure in line.departures)
    return line.but(starts=_facing(line.starts), squared=-line.squared, departures=departures)


def mirror_departure(departure: Departure) -> Departure:
    """Return a departure in the mirror."""
    return departure.but(facing=_facing(departure.facing))


def _facing(facing: Fraction | None) -> Fraction | None:
    return None if facing is None else mirrored(facing)
