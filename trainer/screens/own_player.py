"""The player of one page: opened and closed in threads, one after the other, because devices take their time."""

import asyncio
from collections.abc import Callable

from trainer.screens.player import Player


class OwnPlayer:
    """At most one open player; all but the opening itself happens in the page's thread."""

    def __init__(self, opener: Callable[[], Player], opened: Callable[[], None]) -> None:
        """Open by `opener`, called in a thread; `opened` is called when one is there."""
        self.player: Player | None = None
        """None until it is open."""
        self._opener = opener
        self._opened = opened
        self._lock = asyncio.Lock()
        self._wanted = 0
        self._closed = False
        self.opening: asyncio.Future[None] | None = None
        """The last opening that was asked for."""

    def reopen(self) -> None:
        """Close what is open, and open anew."""
        self._wanted += 1
        self.opening = asyncio.ensure_future(self._reopen(self._wanted))

    async def close(self) -> None:
        """Close it and open no other."""
        self._closed = True
        async with self._lock:
            await self._give_back()

    async def _reopen(self, number: int) -> None:
        async with self._lock:
            await self._give_back()
            if self._closed or number != self._wanted:
                return
            self.player = await asyncio.to_thread(self._opener)
        if not self._closed:
            self._opened()

    async def _give_back(self) -> None:
        player, self.player = self.player, None
        if player is not None:
            await asyncio.to_thread(player.close)
