"""What two hands at one figure ask where both are to be kept: mine as a build of its own."""

from fastapi import APIRouter

from trimwright.app.answer import edits_of
from trimwright.app.asked import News, OneBench, Shelf
from trimwright.app.bench import Bench
from trimwright.app.bench_routes import WRITES
from trimwright.app.beside import put_beside
from trimwright.app.message import BesideMessage, OtherWay
from trimwright.app.shelf import stand

router = APIRouter(prefix="/api/builds/{name}")


@router.post("/beside", status_code=201, responses=WRITES)
def beside(bench: OneBench, shelf: Shelf, news: News, asked: OtherWay) -> BesideMessage:
    """Keep the build as it is, and what edits make of it in a file beside it, on the shelf.

    Notes are in the file, photos in the folder that both are in: the other way has them as well.
    """
    text = bench.other_way(asked.base, edits_of(asked.edits))
    path = put_beside(bench.path, text.encode("utf-8"))
    other = next((one for one in tuple(shelf.values()) if one.path == path), None)
    if other is None:
        other = Bench(path)
        other.listen(news.tell)
        stand(shelf, other)
        news.tell(other.name, other.standing().version)
    return BesideMessage(name=other.name, file=path.name)
