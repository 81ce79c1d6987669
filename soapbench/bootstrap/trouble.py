"""Trouble that the maker can do something about: one plain sentence, never a traceback."""

import errno

from soapbench.bootstrap.places import ROOT


class Trouble(Exception):
    """What is wrong and what to do, as one sentence fit for the terminal."""


def of_the_system(error: OSError) -> Trouble | None:
    """Return the sentence for a folder or disk that refuses us, or None for any other error."""
    place = error.filename or ROOT
    match error.errno:
        case errno.EACCES | errno.EPERM:
            return Trouble(f"soapbench may not write to {place}: give your user the right to, or move the folder home.")
        case errno.EROFS:
            return Trouble(f"{place} is on a read-only disk: copy the soapbench folder to one you can write to.")
        case errno.ENOTDIR:
            return Trouble(
                f"{place} cannot be made, because a file stands where a folder is needed: move that file away."
            )
        case errno.ENOSPC:
            return Trouble("The disk is full: free about 1 GB, then start again.")
    return None
