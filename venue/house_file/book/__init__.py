"""What a house wrote down of its lamps, hours, faults and care: the part of a house file that grows every night.

    entries --reading--> Book --completing--> Book that says everything --pairing, loading--> rows
    rows --gathering--> Book

`limits` and `reading` put into our words what a file may say in its own; `runs` tells which meter showed what.
"""
