"""An order of prints: pieces laid on the lab's paper, drawn, written, and how to cut them."""
