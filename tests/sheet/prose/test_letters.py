"""Titles of sheets that come as letters, newsletters or notes: what a dancer would look for on the shelf."""

import pytest

from trainer.sheet.prose.header.names_told import title_of
from trainer.sheet.prose.text.tokens import tokens_of


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("Hello girls, here is the new one\nTHIMBLE HOP, 32 counts, 4 walls", "THIMBLE HOP"),
        ("From: Wenna\nTo: Monday group\nSubject: Steps for Bramble Gate\nDear all,", "Bramble Gate"),
        ("Subject: Tuesday's dance\nHello all,\nhere is BIDDLE BOUNCE written out", "BIDDLE BOUNCE"),
        ("Hi Jean!! here's Monday's one\nits called Custard Slice, 32 counts", "Custard Slice"),
        ("hiya Bren, here is the easy one\nWellies by the Door, 32 counts, 4 walls", "Wellies by the Door"),
        ("FROM THE DANCE CORNER\nThis month's waltz: HERON MERE", "HERON MERE"),
        ("Workshop notes, Saturday\n32 counts, RF first\nGRAVEL MOON / 32 cts", "GRAVEL MOON"),
        ("Hi both! Here is Boat Shed Bop, 32 counts, 4 walls, right foot first.", "Boat Shed Bop"),
        ("Good Morning Street\n32 counts, 4 walls", "Good Morning Street"),
        ("Dear Old Harbour - 48 counts\nSUNDAY TUNE", "Dear Old Harbour"),
        ("Evening Tide\n32 counts", "Evening Tide"),
        ("No. 47   THE GATEPOST SHUFFLE\nLength 32", "THE GATEPOST SHUFFLE"),
        ("Dance no. 47 - The Gatepost Shuffle\n32 counts", "The Gatepost Shuffle"),
        ("Mr. Pennywhistle's Waltz. 48 counts", "Mr. Pennywhistle's Waltz"),
        ("No Rain Today, 32 counts", "No Rain Today"),
        ("TITLE .... Tiles After Rain\nLEVEL .... improver", "Tiles After Rain"),
        ("YEAR 8, indoor shoes\nRoutine: SATCHEL RELAY\n32 beats", "SATCHEL RELAY"),
        ('From: Beat\nDear colleagues,\nhere is the sheet for "Points Box Nine" as I have it', "Points Box Nine"),
        ("THE HALL NOTICE, spring number, page 3\nThis is THRUPPENCE, a phrased dance", "THRUPPENCE"),
        ('FROM THE NEWSLETTER: DANCE OF THE MONTH\n"Umbrella Street"  (improver, 32 beats)', "Umbrella Street"),
        ("Hiya everyone its Den. You asked me to write Fourth Helpings down so here it is", "Fourth Helpings"),
        ("Hi Dorrie! You asked for Tuesday's new one\n\nKETTLE TUESDAYS, 32 counts", "KETTLE TUESDAYS"),
    ],
)
def test_the_title_is_the_dance_and_neither_greeting_nor_number(text: str, title: str) -> None:
    assert title_of([tuple(tokens_of(line)) for line in text.splitlines()]) == title
