"""Wiring: the network a build's circuits make, solved, sized, laid along its routes and proven.

In: the build's wiring entries and stock tables. Out: frozen results for checks, drawings and paper.
"""

__all__: list[str] = []
