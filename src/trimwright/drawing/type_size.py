"""The sizes words are set in on paper [mm]; a fraction's figures are a share of them."""

LABEL_MM = 2.6  # labels, dimensions, what stands beside a line
WORD_MM = 2.9  # tables, fields
LEAD_MM = 3.4  # what is read first below a heading
NAME_MM = 5.0  # headings, names, the figure of a gap
PART_MM = 8.0  # a part, on the part itself
SIZES_OF_TYPE_MM = (LABEL_MM, WORD_MM, LEAD_MM, NAME_MM, PART_MM)
