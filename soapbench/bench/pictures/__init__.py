"""Pictures of the mould as plain data, in mm: the pour, the drawing, the cut. Templates only write them down."""
