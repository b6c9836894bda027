"""Share: the bench on the garage network, for phones that were paired and for nobody else.

In: the switch at the bench, a one-time code from a phone. Out: a second listener with its own door,
and who is let in by it until when.
"""

from trimwright.app.share.routes import router
from trimwright.app.share.sharing import Share

__all__ = ["Share", "router"]
