"""Walk: a build is begun, measured reading by reading, and tried in the car.

In: what a build says, and what it still needs. Out: the next reading with its drawing, what it lets
us check, and the edits that write it down.
"""

from trimwright.app.walk.routes import router

__all__ = ["router"]
