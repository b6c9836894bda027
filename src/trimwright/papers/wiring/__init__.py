"""Papers of the wiring: lists, labels, plug faces, trunks in section, and the board at full size.

In: a cabin with its wiring as computed. Out: leaves, one module a paper; none without a wiring.
"""
