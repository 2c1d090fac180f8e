"""Who can be put on a line of a call, who fits it best, and the best people for all lines at once.

records    somebody, a line that is wanted, what keeps somebody off it
bars       what keeps somebody off a line, in the order in which it is told
ranking    who fits best, as levels that are compared one after the other; the roster's own list
proposal   people for all open lines at once, exact
"""
