"""Papers: every shop paper, from a cabin and its findings to pages.

In: a `Cabin` and its findings. Out: pages of the packet in the order of the work, and one vector
file a panel; and the views by themselves, for a screen. One module a paper, each with one public
function that returns its leaves.
"""

from trimwright.papers.beside import Beside
from trimwright.papers.car_shape import ALONG, CarShape, Rest, rest_of
from trimwright.papers.car_shape import car_shape as shape_of_car
from trimwright.papers.detail_view import Detail, detail_of, draw_detail
from trimwright.papers.packet import SHEETS, packet
from trimwright.papers.plan_view import draw_plan
from trimwright.papers.plan_view import half_width as plan_half_width
from trimwright.papers.probe_sheet import probe_tool, probes, whereabouts
from trimwright.papers.section_view import draw_section, section_extent
from trimwright.papers.shop_paper import BOOK, files, listed, write
from trimwright.papers.side_view import draw_side
from trimwright.papers.side_view import extent as side_extent
from trimwright.papers.view_sheet import FieldPath, ViewSheet
from trimwright.papers.wiring.trunk_plan import plan_page
from trimwright.papers.wiring.trunk_sheet import trunk_figures
from trimwright.papers.wiring.wording import cut_words, short_end, size_words
from trimwright.papers.wiring_diagram import wiring_pages
from trimwright.papers.wording import place_along

__all__ = [
    "ALONG",
    "BOOK",
    "SHEETS",
    "Beside",
    "CarShape",
    "Detail",
    "FieldPath",
    "Rest",
    "ViewSheet",
    "cut_words",
    "detail_of",
    "draw_detail",
    "draw_plan",
    "draw_section",
    "draw_side",
    "files",
    "listed",
    "packet",
    "place_along",
    "plan_half_width",
    "plan_page",
    "probe_tool",
    "probes",
    "rest_of",
    "section_extent",
    "shape_of_car",
    "short_end",
    "side_extent",
    "size_words",
    "trunk_figures",
    "whereabouts",
    "wiring_pages",
    "write",
]
