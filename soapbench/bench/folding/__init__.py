"""The steps of the fold: from the events of a run to where it stands. Pure: plain data, no database, no clock."""
