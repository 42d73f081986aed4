"""The cautions, in one place: for the help of the commands and, once, for the shelf.

Sources: NIOSH recommended exposure limit (85 dBA, 8 h); WHO-ITU H.870 (80 dB, 40 h a week; less for children).
"""

CAUTIONS = """\
Take care: warm up first (ankles, calves, knees, hips, easy walks, no turns); mind the floor and your shoes; learn
spins slowly, with room round you; stop on pain or dizziness and ask a doctor or physiotherapist. Keep the sound low:
85 dBA for at most 8 hours a day (NIOSH), 80 dB for 40 hours a week (WHO-ITU), less for children. The rules of your
venue come first.
"""
