"""Trimwright: does the console go in, and what must be cut before it is covered.

In: one build file. Out: findings, drawings and shop paper. Each room below is one trade.
"""

__version__ = "0.1.0"
