"""Papers: every shop paper, from a cabin and its findings to pages.

In: a `Cabin` and its findings. Out: pages of the packet in the order of the work, and one vector
file a panel. One module a paper, each with one public function that returns its leaves.
"""

from trimwright.papers.packet import SHEETS, packet
from trimwright.papers.shop_paper import write

__all__ = ["SHEETS", "packet", "write"]
