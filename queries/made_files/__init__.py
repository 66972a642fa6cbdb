"""Files made for the person: written under another name, read back, and only then renamed."""
