"""The drawn loaf, computed: where each portion lies after the pour and the strokes, and what a cut would show.

Every map is exact in what it keeps. A stroke moves batter in the plane across its rod, keeps area and walls, and
mixes nothing; a pour pushes aside what is in and keeps every portion's volume. A face is found backwards: each of
its points is followed back through the strokes into the poured, undrawn loaf.
"""
