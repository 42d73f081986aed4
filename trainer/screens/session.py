"""One dancer with one routine: what is danced, how fast, from where; between the keys and the transport.

The tempo is a percentage of the routine's own, 30 to 120, by keys in steps of 2. Stopped, the session stands after an
event of the whole routine (-1: before the first) and goes on from there when started: from the first count of its
section, or its latest eight. Nothing here waits, and nothing here decides when a sound begins.
"""

from dataclasses import replace
from fractions import Fraction

from trainer.dance.timeline import Timeline
from trainer.practice.chart import Chart
from trainer.practice.floor import Floor, FloorView
from trainer.practice.going import Ahead, without_stop
from trainer.practice.renewing import same_index, same_place, same_range
from trainer.practice.take import Place, Take, first_danced, looped, resumed, section_range, whole
from trainer.screens.player import Moment, Player
from trainer.sound.levels import Levels
from trainer.timing import ASSUMED_TEMPO

SLOWEST, FASTEST, STEP = 30, 120, 2
"""Per cent of the routine's tempo."""


class Session:
    """The state of the floor; the screen asks it for views and tells it keys."""

    def __init__(self, timeline: Timeline) -> None:
        self.timeline = timeline
        self.chart = Chart(timeline)
        self.percent = Fraction(100)
        self.looping = False
        self.dancing = False
        self._ahead: Ahead | None = None
        """Where the dance goes on without a stop at the next eight, until it is heard there."""
        self.sound = ""
        """Why there is no sound, else empty."""
        self._player: Player | None = None
        self._wanted = False
        self._base = whole(timeline)
        self._by_hand = Floor(self.chart, self._base)
        self._floor = self._by_hand
        self._index = -1
        self._from = first_danced(timeline)

    @property
    def tempo(self) -> Fraction:
        """Counts a minute."""
        return self.own_tempo * self.percent / 100

    @property
    def own_tempo(self) -> Fraction:
        """Counts a minute of the routine; the assumed tempo where the sheet states none that can be danced."""
        tempo = self.timeline.routine.tempo
        return tempo if tempo is not None and tempo > 0 else ASSUMED_TEMPO

    @property
    def waiting(self) -> bool:
        """Whether a start waits for the sound to open."""
        return self._wanted

    @property
    def index(self) -> int:
        """The event danced last where the session stands stopped; -1: none."""
        return self._index

    @property
    def beat(self) -> Fraction:
        """The timeline's beat from which it goes on."""
        return self._from

    def here(self) -> Fraction:
        """Return the timeline's beat that is danced now; stopped, that from which it goes on."""
        self._catch_up()
        return self._from

    @property
    def loop(self) -> tuple[Fraction, Fraction] | None:
        """The range that is looped."""
        return (self._base.first, self._base.last) if self.looping else None

    def plug(self, player: Player) -> None:
        """Take the transport once it is open; a start that waited for it happens now."""
        self._player = player
        if self._wanted:
            self._wanted = False
            self.start()

    def close(self) -> None:
        """Give the transport back."""
        if self._player is not None:
            self._player.close()
        self._player, self.dancing, self._wanted = None, False, False

    def see(self, called: Timeline, shown: Timeline) -> None:
        """Dance and show the dance as somebody sees it who stands elsewhere; stops.

        `called` is what sounds, `shown` what the screen shows. Both have the beats and events of the present one.
        """
        self.stop()
        self.timeline, self.chart = called, Chart(shown)
        self._base = replace(self._base, timeline=called)
        self._by_hand = self._floor = Floor(self.chart, whole(shown))

    def renew(self, called: Timeline, shown: Timeline) -> None:
        """Take up the dance as its sheet was read anew, at the same place, with the same loop; stops.

        `called` is what sounds, `shown` what the screen shows, as in `see`.
        """
        self.stop()
        old, new, loop = self.chart, Chart(shown), self.loop
        index, beat = same_index(old, self._index, new), same_place(old, self._from, new)
        kept = same_range(old, *loop, new) if loop else None
        self.timeline, self.chart, self.looping = called, new, kept is not None
        self._base = looped(called, *kept) if kept else whole(called)
        self._by_hand = self._floor = Floor(new, whole(shown))
        self._stand(index, beat)

    def view(self) -> FloorView:
        """Return what the floor shows now; notices when a take has come to its end."""
        if self._player is None:
            return self._by_hand.at(self._index)
        now = self._player.now()
        self.sound = now.sound
        if not self.dancing:
            return self._by_hand.at(self._index)
        view = self._danced(now)
        if now.running:
            return view
        self.dancing = False
        self._stand(view.index, now.place.beat)
        return self._by_hand.at(self._index)

    def hear(self, levels: Levels, delay: float | None) -> None:
        """Sound at other levels from the next click on, and let the screen wait so many seconds; None: as now."""
        if self._player is not None:
            self._player.set_levels(levels)
            self._player.delay = self._player.delay if delay is None else delay

    def look_ahead(self, seconds: float) -> None:
        """Show from now on what is heard so many seconds later: what a picture takes."""
        if self._player is not None:
            self._player.lead = seconds

    def until_click(self) -> float | None:
        """Return the seconds until the next click is heard; None where nothing is danced, or it cannot be told."""
        return self._player.until_click() if self.dancing and self._player is not None else None

    def start(self) -> None:
        """Count in and dance from where the session stands; after the last count, from the beginning."""
        if self._player is None:
            self._wanted = True
            return
        if self._index == self.chart.size - 1 and not self.looping:
            self._stand(-1, first_danced(self.timeline))
        self._dance(resumed(self._base, Place(0, self._from, Fraction(0))))

    def stop(self) -> None:
        """Stand where the dance was heard to stop."""
        self._wanted = False
        if self.dancing and self._player is not None:
            self._player.stop()
            self._catch_up()
            self.dancing = False

    def step(self, by: int) -> None:
        """Go to the next event or the one before, when stopped."""
        if not self.dancing:
            index = max(-1, min(self._index + by, self.chart.size - 1))
            self._stand(index, self.chart.event(index).beat if index >= 0 else first_danced(self.timeline))

    def change_tempo(self, steps: int) -> None:
        """Go so many steps faster or slower, while dancing too."""
        step = self.percent // STEP if steps > 0 else -(-self.percent // STEP)
        self.percent = max(Fraction(SLOWEST), min(Fraction((step + steps) * STEP), Fraction(FASTEST)))
        self._tell_tempo()

    def set_tempo(self, tempo: Fraction) -> None:
        """Go in another tempo, in counts a minute, as far as it may go, while dancing too."""
        self.percent = max(Fraction(SLOWEST), min(tempo * 100 / self.own_tempo, Fraction(FASTEST)))
        self._tell_tempo()

    def prepare(self, first: Fraction, last: Fraction | None = None) -> None:
        """Stop, and stand before a beat to loop from there to `last`, or to dance on to the end."""
        self.stop()
        self.looping = last is not None
        self._base = whole(self.timeline) if last is None else looped(self.timeline, first, last)
        self._stand(self.chart.index_before(first), first)

    def toggle_loop(self) -> None:
        """Loop the section that is being danced, or stood in; again: go on with the whole dance.

        While dancing nothing stops: the loop closes, or opens, at the end of the section.
        """
        self._catch_up()
        self.looping = not self.looping
        first, last = section_range(self.timeline, self._from)
        self._base = looped(self.timeline, first, last) if self.looping else whole(self.timeline)
        if self.dancing and self._player is not None:
            self._ahead = None
            if not self._player.carry_on(self._base):
                self._dance(resumed(self._base, Place(0, first if self.looping else self._from, Fraction(0))))
        elif self.looping:
            self._from = first

    def go_to(self, beat: Fraction) -> None:
        """Go to a place, a whole beat of the timeline; where a section is looped, the one there is looped from now on.

        Stopped, stand before it. Dancing, go on there at the next eight, without a stop, if the facing and the weight
        are right for it; else stop and count in to it.
        """
        beat = max(first_danced(self.timeline), min(Fraction(beat // 1), self.timeline.ends - 1))
        base = looped(self.timeline, *section_range(self.timeline, beat)) if self.looping else whole(self.timeline)
        self._go_on_in(base, beat)

    def take_up(self, first: Fraction, last: Fraction | None = None) -> None:
        """Go to a beat to loop from there to `last`, or to dance on to the end: as `go_to` does, dancing or stopped."""
        self.looping = last is not None
        self._go_on_in(whole(self.timeline) if last is None else looped(self.timeline, first, last), first)

    def _go_on_in(self, base: Take, beat: Fraction) -> None:
        self._wanted = False
        now = self._catch_up()
        self._base = base
        target = replace(base, entry=None if beat == base.first else beat)
        if now is not None and self._go_on_to(target, now):
            return
        self._stand(self.chart.index_before(beat), beat)
        if self.dancing:
            self._dance(target)

    def section_start(self) -> None:
        """Go back to the start of the section, while dancing with a count-in; from a start to the section before."""
        self._catch_up()
        first, _ = section_range(self.timeline, self._from)
        if self.dancing:
            self._dance(replace(self._base, entry=max(first, self._base.first)))
            return
        if self._index >= 0 and self._index == self.chart.index_before(first):
            first, _ = section_range(self.timeline, max(first - 1, first_danced(self.timeline)))
        self._stand(self.chart.index_before(first), first)

    def _tell_tempo(self) -> None:
        if self.dancing and self._player is not None:
            self._player.set_tempo(self.tempo)

    def _dance(self, take: Take) -> None:
        if self._player is not None:
            self._floor, self._ahead = Floor(self.chart, take), None
            self._player.load(take, self.tempo)
            self._player.start()
            self.dancing = True

    def _stand(self, index: int, beat: Fraction) -> None:
        self._index, self._from = index, max(beat, first_danced(self.timeline))

    def _catch_up(self) -> Moment | None:
        """Take over where the dance has come to; None where nothing is danced."""
        if not self.dancing or self._player is None:
            return None
        now = self._player.now()
        self._stand(self._danced(now).index, now.place.beat)
        return now

    def _danced(self, now: Moment) -> FloorView:
        """Return what the floor shows of a moment, by the take that is heard then."""
        if self._ahead is not None and now.take is self._ahead.floor.take:
            self._floor, self._ahead = self._ahead.floor, None
        elif now.take is not None and now.take is not self._floor.take:
            self._floor = Floor(self.chart, now.take)
        view = self._floor.view(now.place)
        return view if self._ahead is None else self._ahead.told(view, now.place)

    def _go_on_to(self, target: Take, now: Moment) -> bool:
        """Go on with another take at the next eight, if that is clean."""
        if self._player is None or now.take is None:
            return False
        rest = without_stop(now.take, now.place, target)
        if rest is None or not self._player.carry_on(rest, target):
            return False
        self._ahead = Ahead(rest.last, Floor(self.chart, target))
        return True
