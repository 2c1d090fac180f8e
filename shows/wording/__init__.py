"""The sentences of the show pages, sheets and commands, made from what core returns."""
