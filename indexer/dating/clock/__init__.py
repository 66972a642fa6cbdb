"""Which clock corrections the evidence speaks for: photos, scenes that two cameras saw, words -> suggestions. Pure.

All times in here are whole seconds since 1970 on a wall clock (or in universal time, where a name says utc).
"""
