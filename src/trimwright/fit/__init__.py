"""Fit: where the console comes to rest and how far it then is from everything it could touch.

In: a build's readings with their doubts, the car's surfaces from `car`, the carcass from `parts`.
Out: the resting pose and every gap, row by row of scores, as a `GapModel`; what could not be
evaluated is listed with the readings it needs. Nothing here words a finding or draws.
"""
