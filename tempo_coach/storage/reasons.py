"""Why the system refused a file, in words."""

from __future__ import annotations

import errno


def reason(fault: OSError) -> str:
    """Return what the system's error means for whoever gave the path."""
    return {
        errno.ENOENT: "there is no such file",
        errno.EISDIR: "it is a folder",
        errno.ENOTDIR: "a part of its path is no folder",
        errno.EEXIST: "a part of its path is no folder",
        errno.EACCES: "permission is denied",
        errno.ENOSPC: "the disk is full",
        errno.EFBIG: "the disk or the quota is full",
    }.get(fault.errno or 0, (fault.strerror or str(fault)).lower())
