"""Paces strength sets by a four-phase tempo and counts the lowering seconds."""
